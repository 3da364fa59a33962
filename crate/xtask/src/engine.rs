//! Finds the browsers that the end-to-end tests drive.

use crate::{debian, run};
use anyhow::{Result, bail};
use std::path::{Path, PathBuf};

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

/// WebKit as Debian packages it: the W3C's WebDriver, and a small browser.
pub(crate) struct WebKit {
    pub(crate) driver: PathBuf,
    pub(crate) browser: PathBuf,
}

impl WebKit {
    /// `None` where no package brings it, or a screen of its own for it to draw on.
    pub(crate) fn find() -> Result<Option<Self>> {
        if let Some(found) = Self::installed() {
            return Ok(Some(found));
        }
        if !debian::can_install() {
            return Ok(None);
        }
        debian::install(&["webkit2gtk-driver", "xvfb"])?;
        Ok(Self::installed())
    }

    fn installed() -> Option<Self> {
        let driver = PathBuf::from("/usr/bin/WebKitWebDriver");
        let there = driver.is_file() && Path::new("/usr/bin/Xvfb").is_file();
        let browser = Self::browser().filter(|_| there)?;
        Some(Self { driver, browser })
    }

    /// It stands in a folder that is named by the machine and by the library's version.
    fn browser() -> Option<PathBuf> {
        let folders = |of: PathBuf| std::fs::read_dir(of).into_iter().flatten().flatten();
        folders(PathBuf::from("/usr/lib"))
            .flat_map(|machine| folders(machine.path()))
            .filter(|library| library.file_name().to_string_lossy().starts_with("webkit"))
            .map(|library| library.path().join("MiniBrowser"))
            .find(|program| program.is_file())
    }
}

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
