//! Writes the TypeScript declarations of the types that cross into the page.

use crate::stamp::{self, Stamp};
use crate::{place, run};
use anyhow::{Result, bail};
use std::fs;
use std::path::PathBuf;

/// Writes one file a type into `www/src/generated`.
///
/// Where to is set in `.cargo/config.toml`, so that a plain `cargo test` with
/// the same feature writes to the same place.
pub(crate) fn make() -> Result<()> {
    let generated = place::www().join("src").join("generated");
    let stamp = Stamp::of("types", &library_sources()?)?;
    if stamp.holds() && generated.is_dir() {
        return Ok(());
    }
    stamp.lift();
    println!("TypeScript types");
    if generated.exists() {
        // A type that is gone from Rust must go from TypeScript too.
        fs::remove_dir_all(&generated)?;
    }
    run::run(run::cargo(&place::root()).args([
        "test",
        "--quiet",
        "--package",
        "counterpoise-web",
        "--features",
        "typescript",
        "--lib",
        "export_bindings",
    ]))?;
    if !generated.is_dir() {
        bail!("no type asked to be exported");
    }
    stamp.press()
}

/// All that the library and the browser's crate are made of.
fn library_sources() -> Result<Vec<PathBuf>> {
    let mut sources = vec![place::root().join("Cargo.lock")];
    for krate in stamp::entries(&place::root().join("crate"))? {
        if !krate.ends_with("xtask") {
            sources.push(krate);
        }
    }
    Ok(sources)
}
