//! Where the result goes: standard output, or a file that is put in place whole.

use std::ffi::OsString;
use std::fmt;
use std::fs::{self, File};
use std::io::{self, BufWriter, IsTerminal, Write};
use std::path::{Path, PathBuf};

/// Why a result was not written.
#[derive(Debug)]
pub(crate) struct NotWritten {
    to: Option<PathBuf>,
    error: io::Error,
}

impl NotWritten {
    /// Whether the program that read our output has ended.
    pub(crate) fn is_broken_pipe(&self) -> bool {
        self.error.kind() == io::ErrorKind::BrokenPipe
    }
}

impl fmt::Display for NotWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.to {
            Some(file) => write!(f, "{} could not be written", file.display())?,
            None => f.write_str("The result could not be written")?,
        }
        write!(
            f,
            ": {}. See whether the folder is there, and the disk has room.",
            self.error
        )
    }
}

impl std::error::Error for NotWritten {}

/// Writes what `work` writes to a file, or to standard output.
///
/// # Errors
/// If `work` could not write, or the file not be put in place.
pub(crate) fn write(
    to: Option<&Path>,
    work: impl FnOnce(&mut dyn Write) -> io::Result<()>,
) -> Result<(), NotWritten> {
    match to {
        None => to_standard_output(work),
        Some(path) => to_file(path, work),
    }
    .map_err(|error| NotWritten {
        to: to.map(Path::to_owned),
        error,
    })
}

fn to_standard_output(work: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> io::Result<()> {
    let mut out = io::stdout().lock();
    if out.is_terminal() {
        // Line by line, as they come.
        return work(&mut out).and_then(|()| out.flush());
    }
    let mut out = BufWriter::new(out);
    work(&mut out).and_then(|()| out.flush())
}

fn to_file(path: &Path, work: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> io::Result<()> {
    // A device or a pipe is written to, not replaced.
    if fs::metadata(path).is_ok_and(|there| !there.is_file()) {
        return fill(File::options().write(true).open(path)?, work);
    }
    let part = part(path);
    let result = File::create(&part)
        .and_then(|file| fill(file, work))
        .and_then(|()| fs::rename(&part, path));
    if result.is_err() {
        let _ = fs::remove_file(&part);
    }
    result
}

/// Written beside and renamed, so that a stopped run leaves what was there.
fn part(path: &Path) -> PathBuf {
    let mut name = OsString::from(path);
    name.push(".part");
    PathBuf::from(name)
}

fn fill(file: File, work: impl FnOnce(&mut dyn Write) -> io::Result<()>) -> io::Result<()> {
    let mut out = BufWriter::new(file);
    work(&mut out).and_then(|()| out.flush())
}
