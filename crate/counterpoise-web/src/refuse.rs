//! Why the lab would not do something, told to the person who asked.

use crate::stage::command::Refusal;
use counterpoise::font::FontError;
use std::fmt;

/// A refusal. Whatever was asked for has changed nothing.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Refuse {
    /// The file could not be opened as a font; the one before stays.
    Font(FontError),
    /// What the page sent is no command that the lab knows.
    Malformed(String),
    /// There is no font on the stage yet.
    NoFont,
    /// A number is not a number or has no end.
    NotFinite(&'static str),
    /// A number is outside of what makes sense.
    OutOfRange {
        /// What it is, with its unit.
        what: &'static str,
        /// The least allowed.
        least: f64,
        /// The most allowed.
        most: f64,
    },
    /// No letter on the stage has this number.
    NoSuchLetter,
    /// The font has no glyph of this index.
    NoSuchGlyph(u16),
    /// The judgement of the font holds no finding of this number.
    NoSuchFinding,
    /// The font's own spacing is what it is: nothing can be added to it.
    OwnSpacing,
    /// No letter is chosen, and the command needs one.
    NothingChosen,
    /// All that is chosen is pinned.
    Pinned,
    /// There is nothing to line up: one letter alone, or only the reference.
    NothingToAlign,
    /// A letter has no ink, so it has no edge to line up by.
    NoInk(String),
    /// A letter has no stem.
    NoStem(String),
    /// The line would hold more letters than this.
    TooManyLetters(usize),
    /// There is no calliper on the stage.
    NoCalliper,
    /// A letter is being dragged, or the view, or the calliper.
    InGesture,
    /// Nothing has been done yet that could be taken back.
    NothingToUndo,
    /// Nothing has been taken back that could be done again.
    NothingToRedo,
    /// The browser would not give a drawing surface, or refused a call on it.
    Canvas(String),
}

impl Refuse {
    /// A name for this kind of refusal that never changes, for scripts.
    pub(crate) fn code(&self) -> &'static str {
        match self {
            Self::Font(e) => e.code(),
            Self::Malformed(_) => "malformed",
            Self::NoFont => "no-font",
            Self::NotFinite(_) => "not-finite",
            Self::OutOfRange { .. } => "out-of-range",
            Self::NoSuchLetter => "no-such-letter",
            Self::NoSuchGlyph(_) => "no-such-glyph",
            Self::NoSuchFinding => "no-such-finding",
            Self::OwnSpacing => "own-spacing",
            Self::NothingChosen => "nothing-chosen",
            Self::Pinned => "pinned",
            Self::NothingToAlign => "nothing-to-align",
            Self::NoInk(_) => "no-ink",
            Self::NoStem(_) => "no-stem",
            Self::TooManyLetters(_) => "too-many-letters",
            Self::NoCalliper => "no-calliper",
            Self::InGesture => "in-gesture",
            Self::NothingToUndo => "nothing-to-undo",
            Self::NothingToRedo => "nothing-to-redo",
            Self::Canvas(_) => "canvas",
        }
    }

    /// As the page gets it.
    pub(crate) fn refusal(&self) -> Refusal {
        Refusal {
            code: self.code().to_owned(),
            sentence: self.to_string(),
        }
    }
}

impl fmt::Display for Refuse {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Font(e) => e.fmt(f),
            Self::Malformed(why) => {
                write!(f, "The stage does not know this command ({why}).")
            }
            Self::NoFont => f.write_str("There is no font on the stage yet: open one first."),
            Self::NotFinite(what) => write!(f, "The {what} must be a plain number."),
            Self::OutOfRange { what, least, most } => {
                write!(f, "The {what} must be from {least} to {most}.")
            }
            Self::NoSuchLetter => {
                f.write_str("That letter is not on the stage any more. Choose another.")
            }
            Self::NoSuchGlyph(glyph) => write!(f, "The font has no glyph {glyph}."),
            Self::NoSuchFinding => {
                f.write_str("That was found in another font. Choose from the list as it is now.")
            }
            Self::OwnSpacing => {
                f.write_str("Nothing can be added to the font's own side bearings. Choose another spacing.")
            }
            Self::NothingChosen => f.write_str("Choose a letter first."),
            Self::Pinned => f.write_str("What you chose is pinned. Let it go to move it."),
            Self::NothingToAlign => f.write_str(
                "There is nothing to line up. Choose the letters, and pin the one to line them up with.",
            ),
            Self::NoInk(letter) => write!(
                f,
                "{letter} has no ink, so it has no edge to line up by. Choose another letter.",
            ),
            Self::NoStem(letter) => write!(
                f,
                "No upright stroke was found in {letter}. Line it up by an edge or the middle of its ink.",
            ),
            Self::TooManyLetters(most) => write!(
                f,
                "The stage holds {most} letters at most. Take some off the line first.",
            ),
            Self::NoCalliper => f.write_str("Lay the calliper on the letters first."),
            Self::InGesture => f.write_str("Let go first, or press Escape, then try again."),
            Self::NothingToUndo => f.write_str("There is nothing to take back."),
            Self::NothingToRedo => f.write_str("There is nothing to do again."),
            Self::Canvas(why) => write!(
                f,
                "The browser could not draw the stage ({why}). Reload the page; your font stays on your computer.",
            ),
        }
    }
}

impl std::error::Error for Refuse {}

impl From<FontError> for Refuse {
    fn from(e: FontError) -> Self {
        Self::Font(e)
    }
}

/// Lets a plain number through.
///
/// # Errors
/// If it is not a number or has no end.
pub(crate) fn finite(what: &'static str, value: f64) -> Result<f64, Refuse> {
    if value.is_finite() {
        Ok(value)
    } else {
        Err(Refuse::NotFinite(what))
    }
}

/// Lets a number within limits through.
///
/// # Errors
/// If it is no plain number, or outside the limits.
pub(crate) fn within(what: &'static str, value: f64, least: f64, most: f64) -> Result<f64, Refuse> {
    let value = finite(what, value)?;
    if (least..=most).contains(&value) {
        Ok(value)
    } else {
        Err(Refuse::OutOfRange { what, least, most })
    }
}
