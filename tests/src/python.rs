//! A Python of the checks' own, with fontTools at pinned versions and hashes.

use crate::client::{self, ClientError};
use crate::fetch::sha256;
use crate::place;
use std::fs::{self, File};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    place::target().join("python")
}

fn program() -> PathBuf {
    folder().join("bin/python3")
}

/// Sets the Python up if it is not there as `requirements.txt` asks.
///
/// # Errors
/// If there is no Python 3 here, or pip cannot get what is asked for.
pub fn set_up() -> Result<(), ClientError> {
    let requirements = place::reference().join("requirements.txt");
    let wanted = sha256(&fs::read(&requirements)?);
    fs::create_dir_all(place::target())?;
    let lock = File::create(place::target().join(".python-lock"))?;
    lock.lock()?;
    let stamp = folder().join("requirements.sha256");
    if program().exists() && fs::read_to_string(&stamp).is_ok_and(|had| had == wanted) {
        return Ok(());
    }
    let _ = fs::remove_dir_all(folder());
    let here = place::reference();
    make(&here)?;
    let requirements = requirements.to_string_lossy();
    client::run(
        &program().to_string_lossy(),
        &[
            "-m",
            "pip",
            "install",
            "--quiet",
            "--disable-pip-version-check",
            "--only-binary",
            ":all:",
            "--require-hashes",
            "-r",
            &requirements,
        ],
        &here,
    )?;
    fs::write(stamp, wanted)?;
    Ok(())
}

fn make(here: &Path) -> Result<(), ClientError> {
    let place = folder();
    let place = place.to_string_lossy();
    let venv = ["-m", "venv", &*place];
    if client::run("python3", &venv, here).is_ok() {
        return Ok(());
    }
    // Debian keeps venv in a package apart. Where it can't be installed, the
    // second try says what is amiss.
    let _ = client::run("apt-get", &["install", "-y", "python3-venv"], here);
    client::run("python3", &venv, here).map(drop)
}

/// Runs one of the scripts of reference and gives what it printed.
///
/// # Errors
/// If the script is missing or fails; the text holds its last lines.
pub fn script(name: &str, arguments: &[&str]) -> Result<Vec<u8>, ClientError> {
    let mut all = vec![name];
    all.extend(arguments);
    client::run(&program().to_string_lossy(), &all, &place::reference())
}
