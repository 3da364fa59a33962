//! What can be wrong with a file, told to the person who dropped it.

use std::fmt;

/// Why a file could not be made plain.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FormatError {
    /// The WOFF or WOFF2 file cannot be unpacked.
    Packed,
    /// The list of a collection's faces, or a face's table directory, cannot be read.
    Directory,
    /// The file ends before the tables that its directory lists.
    Truncated,
    /// There is no such face.
    NoSuchFace,
    /// The tables of the variations cannot be read.
    Variations,
    /// The outlines would take more work than any font that was drawn.
    TooMuch,
}

impl FormatError {
    /// A name for this kind of error that never changes.
    pub fn code(self) -> &'static str {
        match self {
            Self::Packed => "packed",
            Self::Directory => "broken-table",
            Self::Truncated => "truncated",
            Self::NoSuchFace => "no-such-face",
            Self::Variations => "variations",
            Self::TooMuch => "too-much",
        }
    }
}

impl fmt::Display for FormatError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Packed => {
                "This web font cannot be unpacked: it is damaged, or did not arrive whole. \
                 Ask for it again, or for the .otf or .ttf."
            }
            Self::Directory => {
                "This font is damaged: its table directory cannot be read. \
                 Ask for it to be generated again."
            }
            Self::Truncated => {
                "This font is cut short: the file ends before its tables do. \
                 Ask for it again: it may not have arrived whole."
            }
            Self::NoSuchFace => "This file has no such face.",
            Self::Variations => {
                "The variations of this font cannot be read, so its axes stay where they are. \
                 Ask for it to be generated again."
            }
            Self::TooMuch => {
                "Working out this font takes more than any that was drawn by hand; \
                 the lab gave it up. Ask for it to be generated again."
            }
        })
    }
}

impl std::error::Error for FormatError {}
