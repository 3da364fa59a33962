//! Finds a Rust compiler that can make WebAssembly, by whichever way works.
//!
//! 1. The target is already there.
//! 2. rustup fetches it.
//! 3. Debian's compiler, for machines that reach Debian's packages and not
//!    rustup's. Debian ships the standard library's source but not this target,
//!    so the library is built with the page. That needs `RUSTC_BOOTSTRAP`, since
//!    cargo counts `build-std` as unstable: hence the last resort.

use crate::{debian, place, run, stamp};
use anyhow::{Result, bail};
use std::path::{Path, PathBuf};
use std::process::Command;
use std::time::Duration;

pub(crate) const TRIPLE: &str = "wasm32-unknown-unknown";

/// Offline, rustup may try for long; online, the target takes seconds.
const RUSTUP_LIMIT: Duration = Duration::from_secs(90);

/// `rustc-web` is Debian's newer compiler, kept for building browsers.
const DEBIAN_PACKAGES: [&str; 4] = ["rustc-web", "cargo-web", "rust-web-src", "lld-19"];
const DEBIAN_CARGO: &str = "/usr/bin/cargo";
const DEBIAN_RUSTC: &str = "/usr/bin/rustc";
const DEBIAN_LINKER: &str = "/usr/bin/wasm-ld-19";

/// A compiler that can make WebAssembly.
pub(crate) enum Compiler {
    /// The one in use, with the target installed.
    Own,
    /// Debian's, with the standard library's source.
    Debian,
}

impl Compiler {
    /// Finds one, or installs what is missing.
    pub(crate) fn find() -> Result<Self> {
        if has_target() || (add_with_rustup() && has_target()) {
            return Ok(Self::Own);
        }
        if debian_can_build() {
            return Ok(Self::Debian);
        }
        if debian::can_install() {
            debian::install(&DEBIAN_PACKAGES)?;
            if debian_can_build() {
                return Ok(Self::Debian);
            }
        }
        bail!(
            "Rust on this computer cannot make WebAssembly yet, and it could not be added by \
             itself. Run `rustup target add {TRIPLE}` with a connection to the internet (rustup \
             is at rustup.rs), then run this again."
        );
    }

    /// `cargo build` for the page, in a folder of its own: two compilers in one
    /// folder would each throw out what the other made.
    pub(crate) fn build(&self, folder: &Path, target_dir: &Path) -> Command {
        let mut command = match self {
            Self::Own => run::cargo(folder),
            Self::Debian => debian_cargo(folder),
        };
        command
            .arg("build")
            .args(["--profile", "page", "--target", TRIPLE, "--target-dir"])
            .arg(target_dir)
            .env("CARGO_ENCODED_RUSTFLAGS", self.remaps());
        if matches!(self, Self::Debian) {
            command.args(["-Z", "build-std=std,panic_abort"]);
        }
        command
    }

    /// Keeps this computer's folders out of the shipped module's messages, so
    /// that it tells nothing of who built it and has the same size everywhere.
    fn remaps(&self) -> String {
        let sysroot = match self {
            Self::Own => sysroot("rustc"),
            Self::Debian => sysroot(DEBIAN_RUSTC),
        };
        // Where several match, the last one counts.
        let mut remaps = vec![(place::root(), "counterpoise")];
        remaps.extend(sysroot.map(|root| (root, "rust")));
        if let Some(home) = cargo_home() {
            // One folder for each registry, named after its host.
            let registries = stamp::entries(&home.join("registry/src")).unwrap_or_default();
            remaps.push((home, "cargo"));
            remaps.extend(registries.into_iter().map(|folder| (folder, "crates")));
        }
        remaps
            .into_iter()
            .map(|(from, to)| format!("--remap-path-prefix={}={to}", from.display()))
            .collect::<Vec<_>>()
            .join("\u{1f}")
    }
}

fn cargo_home() -> Option<PathBuf> {
    std::env::var_os("CARGO_HOME")
        .map(PathBuf::from)
        .or_else(|| std::env::home_dir().map(|home| home.join(".cargo")))
}

fn has_target() -> bool {
    sysroot("rustc").is_some_and(|root| root.join("lib/rustlib").join(TRIPLE).join("lib").is_dir())
}

fn sysroot(rustc: &str) -> Option<PathBuf> {
    run::ask(Command::new(rustc).args(["--print", "sysroot"])).map(PathBuf::from)
}

fn add_with_rustup() -> bool {
    if !run::answers("rustup") {
        return false;
    }
    println!("Fetching Rust's WebAssembly target with rustup");
    let mut command = run::command("rustup", &place::root());
    run::run_within(command.args(["target", "add", TRIPLE]), RUSTUP_LIMIT)
}

fn debian_can_build() -> bool {
    let source = sysroot(DEBIAN_RUSTC)
        .is_some_and(|root| root.join("lib/rustlib/src/rust/library/std").is_dir());
    source && Path::new(DEBIAN_LINKER).is_file() && run::answers(DEBIAN_CARGO)
}

fn debian_cargo(folder: &Path) -> Command {
    let mut command = run::command(DEBIAN_CARGO, folder);
    command
        .env("RUSTC", DEBIAN_RUSTC)
        .env("RUSTC_BOOTSTRAP", "1")
        .env("CARGO_TARGET_WASM32_UNKNOWN_UNKNOWN_LINKER", DEBIAN_LINKER)
        // Left by rustup's cargo, they would lead Debian's to the wrong files.
        .env_remove("CARGO")
        .env_remove("RUSTUP_TOOLCHAIN")
        .env_remove("LD_LIBRARY_PATH");
    command
}
