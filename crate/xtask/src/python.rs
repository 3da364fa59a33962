//! A Python with the reference tools, in `target`, out of the way of the computer's own.

use crate::stamp::Stamp;
use crate::{debian, place, run};
use anyhow::{Result, bail};
use std::path::{Path, PathBuf};

/// Tells the checks which Python to call.
pub(crate) const VARIABLE: &str = "COUNTERPOISE_PYTHON";

/// Makes the environment that `tests/reference/requirements.txt` asks for.
pub(crate) fn prepare() -> Result<Option<PathBuf>> {
    let requirements = place::root().join("tests/reference/requirements.txt");
    if !requirements.is_file() {
        return Ok(None);
    }
    let folder = place::target().join("python");
    let python = folder.join(if cfg!(windows) {
        "Scripts/python.exe"
    } else {
        "bin/python3"
    });
    let stamp = Stamp::of("python", std::slice::from_ref(&requirements))?;
    if stamp.holds() && run::answers(&python) {
        return Ok(Some(python));
    }
    stamp.lift();
    make(&folder)?;
    run::run(
        run::command(&python, &place::root())
            .args([
                "-m",
                "pip",
                "install",
                "--quiet",
                "--disable-pip-version-check",
            ])
            .args(["--require-hashes", "--only-binary=:all:", "-r"])
            .arg(&requirements),
    )?;
    stamp.press()?;
    Ok(Some(python))
}

fn make(folder: &Path) -> Result<()> {
    let make = || {
        let mut command = run::command("python3", &place::root());
        run::ask(command.args(["-m", "venv", "--clear"]).arg(folder)).is_some()
    };
    // Debian's Python comes without the part that makes environments.
    if !make() && debian::can_install() {
        debian::install(&["python3-venv"])?;
    }
    if !make() {
        bail!(
            "The checks against references need Python 3.9 or later with its `venv` module. \
             Install it from python.org or your system's packages, then run this again."
        );
    }
    Ok(())
}
