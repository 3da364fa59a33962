//! From paths to font files: folders with all that is in them, in an order that
//! is the same every time.

use counterpoise::font::{Container, FontError};
use counterpoise::report::FileError;
use std::ffi::OsStr;
use std::fs::{self, File};
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use walkdir::{DirEntry, WalkDir};

/// Endings of files that call themselves fonts. Those that the lab does not
/// open are among them, so that they are refused by name, not passed over.
const ENDINGS: [&str; 8] = ["otf", "ttf", "otc", "ttc", "woff", "woff2", "pfa", "pfb"];

/// What a path has led to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Found {
    /// A file to open.
    File(PathBuf),
    /// Something that cannot be opened.
    Refused(PathBuf, FileError),
}

impl Found {
    /// Where it is.
    pub(crate) fn path(&self) -> &Path {
        match self {
            Self::File(path) | Self::Refused(path, _) => path,
        }
    }
}

/// The fonts that a path means: the file itself, whatever it is, or those in
/// the folder.
pub(crate) fn fonts(path: &Path) -> Vec<Found> {
    match fs::metadata(path) {
        Ok(there) if there.is_dir() => folder(path),
        Ok(_) => vec![Found::File(path.to_owned())],
        Err(e) => vec![Found::Refused(path.to_owned(), unreadable(&e))],
    }
}

/// Links to folders are not followed, so that no folder is met twice and none
/// leads back into itself; links to files are.
fn folder(path: &Path) -> Vec<Found> {
    let found: Vec<_> = WalkDir::new(path)
        .sort_by_file_name()
        .into_iter()
        .filter_entry(|entry| entry.depth() == 0 || !is_hidden(entry))
        .filter_map(|entry| match entry {
            Ok(entry) => look(&entry),
            Err(e) => {
                let at = e.path().unwrap_or(path).to_owned();
                Some(Found::Refused(at, unreadable(&io::Error::from(e))))
            }
        })
        .collect();
    if found.is_empty() {
        let error = FileError {
            code: "no-fonts",
            sentence: "There is no font in this folder. \
                       Name one that has font files in it (.otf, .ttf, .otc, .ttc, .woff or .woff2)."
                .to_owned(),
        };
        return vec![Found::Refused(path.to_owned(), error)];
    }
    found
}

/// Among them what some systems put beside every file of an archive.
fn is_hidden(entry: &DirEntry) -> bool {
    entry.file_name().as_encoded_bytes().starts_with(b".")
}

fn look(entry: &DirEntry) -> Option<Found> {
    let path = entry.path();
    let named = has_ending(path);
    let there = if entry.path_is_symlink() {
        match fs::metadata(path) {
            Ok(there) => there.file_type(),
            Err(e) => return named.then(|| Found::Refused(path.to_owned(), unreadable(&e))),
        }
    } else {
        entry.file_type()
    };
    // A pipe or a device would keep us waiting.
    let font = there.is_file() && (named || has_signature(path));
    font.then(|| Found::File(path.to_owned()))
}

fn has_ending(path: &Path) -> bool {
    path.extension()
        .and_then(OsStr::to_str)
        .is_some_and(|ending| ENDINGS.iter().any(|e| ending.eq_ignore_ascii_case(e)))
}

/// A file that cannot be looked into and does not call itself a font is none.
fn has_signature(path: &Path) -> bool {
    let mut first = [0; 4];
    File::open(path)
        .and_then(|mut file| file.read_exact(&mut first))
        .is_ok_and(|()| matches!(Container::sniff(&first), Ok(_) | Err(FontError::Packed)))
}

/// Why the system would not let a file or folder be read.
pub(crate) fn unreadable(e: &io::Error) -> FileError {
    let (code, sentence) = match e.kind() {
        io::ErrorKind::NotFound => (
            "not-found",
            "There is no such file or folder. See whether its path is spelt right.".to_owned(),
        ),
        io::ErrorKind::PermissionDenied => (
            "no-permission",
            "You may not read this. Ask its owner for the right to, or for a copy.".to_owned(),
        ),
        _ => (
            "unreadable",
            format!("This cannot be read: {e}. See whether its disk is at hand and sound."),
        ),
    };
    FileError { code, sentence }
}
