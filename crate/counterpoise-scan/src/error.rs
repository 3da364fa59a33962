//! Why a scan could not be read, told to the person who dropped it.

use std::fmt;

/// Why a scan could not be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ScanError {
    /// The file has no bytes.
    Empty,
    /// More bytes than [`ScanError::MAX_BYTES`].
    TooLarge,
    /// More pixels than [`ScanError::MAX_PIXELS`], as its head says.
    TooManyPixels,
    /// It is neither PNG nor JPEG.
    Unknown,
    /// It is damaged or cut short.
    Damaged,
    /// Fewer pixels than a letter needs.
    TooSmall,
    /// All of it is one shade.
    NoInk,
    /// The two guides lie in one place.
    NoHeight,
}

impl ScanError {
    /// The most bytes of a scan. A page at 600 dots an inch takes less, unless it
    /// is saved without packing.
    pub const MAX_BYTES: usize = 32 << 20;
    /// The most pixels: a page (A4) at 600 dots an inch. They take 35 megabytes
    /// in grey, and a few times that while they are read.
    pub const MAX_PIXELS: u64 = 36_000_000;

    /// A name for this kind of error that never changes.
    pub fn code(self) -> &'static str {
        match self {
            Self::Empty => "empty",
            Self::TooLarge => "too-large",
            Self::TooManyPixels => "too-many-pixels",
            Self::Unknown => "unknown",
            Self::Damaged => "damaged",
            Self::TooSmall => "too-small",
            Self::NoInk => "no-ink",
            Self::NoHeight => "no-height",
        }
    }
}

impl fmt::Display for ScanError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty => f.write_str("This file is empty. Scan the letter again."),
            Self::TooLarge => write!(
                f,
                "This picture has more than {} megabytes. Cut it to the letter, or scan it at 300 \
                 dots an inch.",
                Self::MAX_BYTES >> 20
            ),
            Self::TooManyPixels => write!(
                f,
                "This picture has more than {} million pixels. Cut it to the letter, or scan it \
                 at 300 dots an inch.",
                Self::MAX_PIXELS / 1_000_000
            ),
            Self::Unknown => f.write_str(
                "This is not a picture that the lab knows. Save the scan as PNG or JPEG.",
            ),
            Self::Damaged => {
                f.write_str("This picture is damaged or cut short. Save the scan again.")
            }
            Self::TooSmall => f.write_str(
                "This picture is too small to hold a letter. Scan it at 300 dots an inch.",
            ),
            Self::NoInk => f.write_str(
                "No ink can be told from the paper in this picture. Scan it with more contrast.",
            ),
            Self::NoHeight => f.write_str(
                "The two guides lie in one place, so the letters have no height. Drag them apart.",
            ),
        }
    }
}

impl std::error::Error for ScanError {}
