//! Finds the browsers that the end-to-end tests drive.

use crate::{debian, run};
use anyhow::{Result, bail};
use std::path::PathBuf;

/// A browser, and where it is looked for.
pub(crate) struct Engine {
    /// What it is called in sentences.
    name: &'static str,
    /// The variable that names its program.
    pub(crate) variable: &'static str,
    /// What its program may be called.
    programs: &'static [&'static str],
    on_a_mac: &'static str,
    /// Debian's package of it.
    package: &'static str,
}

pub(crate) const CHROMIUM: Engine = Engine {
    name: "Chromium",
    variable: "CHROMIUM_PATH",
    programs: &[
        "chromium",
        "chromium-browser",
        "google-chrome",
        "google-chrome-stable",
    ],
    on_a_mac: "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    package: "chromium",
};

pub(crate) const FIREFOX: Engine = Engine {
    name: "Firefox",
    variable: "FIREFOX_PATH",
    programs: &["firefox-esr", "firefox"],
    on_a_mac: "/Applications/Firefox.app/Contents/MacOS/firefox",
    package: "firefox-esr",
};

impl Engine {
    /// The browser's program: the one that is named, else one that is installed, else Debian's.
    pub(crate) fn find(&self) -> Result<PathBuf> {
        let Self { name, variable, .. } = self;
        if let Some(path) = std::env::var_os(variable).map(PathBuf::from) {
            if !path.is_file() {
                bail!("{variable} is {}, where there is no file.", path.display());
            }
            return Ok(path);
        }
        if let Some(path) = self.installed() {
            return Ok(path);
        }
        if debian::can_install() {
            debian::install(&[self.package])?;
            if let Some(path) = self.installed() {
                return Ok(path);
            }
        }
        bail!(
            "No {name} was found. Install {name}, or set {variable} to its program, then run this \
             again."
        );
    }

    fn installed(&self) -> Option<PathBuf> {
        let path = std::env::var_os("PATH")?;
        let folders: Vec<PathBuf> = std::env::split_paths(&path).collect();
        self.programs
            .iter()
            .flat_map(|name| folders.iter().map(move |folder| folder.join(name)))
            .chain([PathBuf::from(self.on_a_mac)])
            .find(|program| program.is_file() && run::answers(program))
    }
}
