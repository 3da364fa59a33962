//! Node and npm: the page's own build tools.

use crate::run;
use crate::stamp::Stamp;
use anyhow::{Result, bail};
use std::path::Path;
use std::process::Command;

const WHERE: &str = "Install Node 22 or later (with npm) from nodejs.org or your system's packages";

/// Says plainly when Node is missing or too old for the page's tools.
pub(crate) fn check() -> Result<()> {
    let Some(version) = run::ask(Command::new("node").arg("--version")) else {
        bail!("Node was not found. {WHERE}, then run this again.");
    };
    if !new_enough(&version) {
        bail!(
            "Node is {version}, which is too old: the page's tools need 20.19 or later of the 20s, \
             or 22.12 or later. {WHERE}, then run this again."
        );
    }
    if !run::answers(NPM) {
        bail!("Node is here, but npm was not found. {WHERE}, then run this again.");
    }
    Ok(())
}

/// Vite's own condition: `^20.19.0 || >=22.12.0`.
fn new_enough(version: &str) -> bool {
    let mut numbers = version
        .trim_start_matches('v')
        .split('.')
        .map_while(|number| number.parse::<u32>().ok());
    match (numbers.next(), numbers.next()) {
        (Some(20), Some(minor)) => minor >= 19,
        (Some(major), Some(minor)) => (major, minor) >= (22, 12),
        _ => false,
    }
}

/// Installs exactly what the folder's lock file says, if that changed since the last time.
pub(crate) fn install(folder: &Path, name: &str) -> Result<()> {
    check()?;
    let stamp = Stamp::of(name, &[folder.join("package-lock.json")])?;
    if stamp.holds() && folder.join("node_modules").is_dir() {
        return Ok(());
    }
    stamp.lift();
    run::run(npm(folder).args(["ci", "--no-audit", "--no-fund"]))?;
    stamp.press()
}

/// npm in a folder.
pub(crate) fn npm(folder: &Path) -> Command {
    run::command(NPM, folder)
}

const NPM: &str = if cfg!(windows) { "npm.cmd" } else { "npm" };

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn versions_of_node() {
        for good in ["v20.19.0", "v20.20.2", "v22.12.0", "v23.0.0", "v24.1.3"] {
            assert!(new_enough(good), "{good}");
        }
        for bad in [
            "v18.20.0", "v20.18.3", "v21.9.0", "v22.11.9", "", "nonsense",
        ] {
            assert!(!new_enough(bad), "{bad}");
        }
    }
}
