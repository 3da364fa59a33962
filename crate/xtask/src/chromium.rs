//! Finds a Chromium for the end-to-end tests.

use crate::{debian, run};
use anyhow::{Result, bail};
use std::path::PathBuf;

const NAMES: [&str; 4] = [
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
];
const ON_A_MAC: &str = "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome";

/// The browser's program: `CHROMIUM_PATH`, else one that is installed, else Debian's.
pub(crate) fn find() -> Result<PathBuf> {
    if let Some(path) = std::env::var_os("CHROMIUM_PATH").map(PathBuf::from) {
        if !path.is_file() {
            bail!(
                "CHROMIUM_PATH is {}, where there is no file.",
                path.display()
            );
        }
        return Ok(path);
    }
    if let Some(path) = installed() {
        return Ok(path);
    }
    if debian::can_install() {
        debian::install(&["chromium"])?;
        if let Some(path) = installed() {
            return Ok(path);
        }
    }
    bail!(
        "No Chromium was found. Install Chromium or Chrome, or set CHROMIUM_PATH to its program, \
         then run this again."
    );
}

fn installed() -> Option<PathBuf> {
    let path = std::env::var_os("PATH")?;
    let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
    NAMES
        .iter()
        .flat_map(|name| folders.iter().map(move |folder| folder.join(name)))
        .chain([PathBuf::from(ON_A_MAC)])
        .find(|program| program.is_file() && run::answers(program))
}
