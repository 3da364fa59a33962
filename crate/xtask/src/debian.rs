//! What Debian's packages can bring where something is missing.

use crate::run;
use anyhow::{Result, bail};
use std::path::Path;
use std::process::Command;

/// True where packages can be installed without asking anybody.
pub(crate) fn can_install() -> bool {
    Path::new("/etc/debian_version").exists()
        && run::answers("apt-get")
        && run::ask(Command::new("id").arg("-u")).as_deref() == Some("0")
}

/// Installs packages; refreshes the lists first if they are too old to know them.
pub(crate) fn install(packages: &[&str]) -> Result<()> {
    println!("Installing with apt-get: {}", packages.join(", "));
    let install = || {
        apt_get()
            .args(["install", "--yes", "--no-install-recommends"])
            .args(packages)
            .status()
            .is_ok_and(|status| status.success())
    };
    if install() {
        return Ok(());
    }
    run::run(apt_get().arg("update"))?;
    if !install() {
        bail!(
            "apt-get could not install {}; its own words stand above.",
            packages.join(", ")
        );
    }
    Ok(())
}

fn apt_get() -> Command {
    let mut command = run::command("apt-get", Path::new("/"));
    command
        .arg("--quiet=2")
        .env("DEBIAN_FRONTEND", "noninteractive");
    command
}
