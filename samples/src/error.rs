//! What can go wrong while the face is built.

use std::fmt;

/// Why a font file could not be built.
#[derive(Debug)]
pub enum Error {
    /// A contour of this letter is not closed.
    OpenContour(String),
    /// A curve of this letter does not fit a quadratic spline.
    NoSpline(String),
    /// A value does not fit its field; the field is named.
    OutOfRange(&'static str),
    /// The table writer refused a table.
    Table(String),
    /// A letter that a fault or a pair speaks of is not in the face.
    NoLetter(String),
    /// A measure of a letter could not be read off its outline.
    NoMeasure(String),
    /// The files could not be written.
    Write(std::io::Error),
}

impl fmt::Display for Error {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::OpenContour(letter) => write!(f, "a contour of {letter} is not closed"),
            Self::NoSpline(letter) => write!(f, "a curve of {letter} fits no quadratic spline"),
            Self::OutOfRange(field) => write!(f, "{field} is out of range"),
            Self::Table(why) => write!(f, "a table could not be written: {why}"),
            Self::NoLetter(letter) => write!(f, "the face has no {letter}"),
            Self::NoMeasure(what) => write!(f, "{what} could not be measured"),
            Self::Write(why) => write!(f, "the files could not be written: {why}"),
        }
    }
}

impl std::error::Error for Error {}

impl From<std::io::Error> for Error {
    fn from(why: std::io::Error) -> Self {
        Self::Write(why)
    }
}
