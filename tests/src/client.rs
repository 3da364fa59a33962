//! Packages through their ordinary clients, and other commands, with plain
//! sentences where one is missing or says no.

use crate::manifest::{Kind, Package};
use std::fmt;
use std::io;
use std::path::Path;
use std::process::Command;

/// Why a command did not do its work.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum ClientError {
    /// The program is not on this machine.
    NoProgram(String),
    /// It ran, and said no.
    Refused {
        /// What was run.
        command: String,
        /// The end of what it said.
        said: String,
    },
    /// It could not be run, or a file not be written.
    Io(String),
}

impl fmt::Display for ClientError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::NoProgram(program) => write!(f, "{program} is not on this machine"),
            Self::Refused { command, said } => write!(f, "`{command}` failed: {said}"),
            Self::Io(said) => f.write_str(said),
        }
    }
}

impl std::error::Error for ClientError {}

impl From<io::Error> for ClientError {
    fn from(e: io::Error) -> Self {
        Self::Io(e.to_string())
    }
}

/// Runs a command quietly and gives what it printed.
///
/// # Errors
/// If the program is missing, or ends with anything but success.
pub fn run(program: &str, arguments: &[&str], folder: &Path) -> Result<Vec<u8>, ClientError> {
    let output = Command::new(program)
        .args(arguments)
        .current_dir(folder)
        .output()
        .map_err(|e| match e.kind() {
            io::ErrorKind::NotFound => ClientError::NoProgram(program.into()),
            _ => ClientError::Io(format!("{program}: {e}")),
        })?;
    if output.status.success() {
        return Ok(output.stdout);
    }
    let said = String::from_utf8_lossy(&output.stderr);
    let last: Vec<&str> = said.lines().rev().take(3).collect();
    Err(ClientError::Refused {
        command: format!("{program} {}", arguments.join(" ")),
        said: last.into_iter().rev().collect::<Vec<_>>().join("; "),
    })
}

/// Downloads a package and unpacks it into `folder`, which must be empty.
///
/// # Errors
/// If its client is missing or does not have that version.
pub fn unpack(package: &Package, folder: &Path) -> Result<(), ClientError> {
    match package.kind {
        Kind::Deb => unpack_deb(package, folder),
        Kind::Npm => unpack_npm(&format!("{}@{}", package.name, package.version), folder),
    }
}

fn unpack_deb(package: &Package, folder: &Path) -> Result<(), ClientError> {
    let wanted = format!("{}={}", package.name, package.version);
    if run("apt-get", &["download", &wanted], folder).is_err() {
        // A new machine's list of packages may be empty or old. Without the
        // right to renew it, the second try says why the first one failed.
        let _ = run("apt-get", &["update"], folder);
        run("apt-get", &["download", &wanted], folder)?;
    }
    let archive = only_file(folder, "deb")?;
    run("dpkg-deb", &["-x", &archive, "."], folder).map(drop)
}

/// Downloads an npm package, `name@version`, and unpacks it into `folder`, which
/// must be empty.
///
/// # Errors
/// As [`unpack`].
pub fn unpack_npm(wanted: &str, folder: &Path) -> Result<(), ClientError> {
    run("npm", &["pack", "--silent", wanted], folder)?;
    let archive = only_file(folder, "tgz")?;
    run("tar", &["-xzf", &archive], folder).map(drop)
}

fn only_file(folder: &Path, ending: &str) -> Result<String, ClientError> {
    for entry in std::fs::read_dir(folder)? {
        let name = entry?.file_name().to_string_lossy().into_owned();
        if name.rsplit('.').next() == Some(ending) {
            return Ok(name);
        }
    }
    Err(ClientError::Io(format!("no .{ending} file was downloaded")))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_missing_program_is_named() {
        let said = run("no-such-program-here", &[], Path::new(".")).unwrap_err();
        assert_eq!(
            said.to_string(),
            "no-such-program-here is not on this machine"
        );
    }

    #[test]
    fn a_command_that_fails_says_why() {
        let said = run("sh", &["-c", "echo no room >&2; exit 3"], Path::new(".")).unwrap_err();
        assert!(said.to_string().ends_with("failed: no room"), "{said}");
    }
}
