//! A change tried on a letter, with its figures before and after.

use super::{reach, reweigh, widen};
use crate::measure::{self, Context, Letter};
use crate::outline::Outline;
use std::fmt;

/// Which strokes.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Which {
    /// All of them.
    All,
    /// Those that run upright.
    Uprights,
    /// Those that run level.
    Levels,
}

/// What is to be tried.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Change {
    /// Make the ink so wide, font units, stems kept. The white beside it stays.
    Width(f64),
    /// Make strokes thicker by a share, thinner if negative, the size kept.
    Weight(f64, Which),
    /// Move the top up and the foot down, font units.
    Reach {
        /// The top, upwards.
        top: f64,
        /// The foot, downwards.
        foot: f64,
    },
}

/// Why a change cannot be sketched.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unable {
    /// The letter has no ink.
    NoInk,
    /// Hardly anything lies between its upright strokes.
    NoRoom,
    /// It has no strokes of that kind that could be read.
    NoStrokes,
    /// It could not be brought there.
    OutOfReach,
    /// What was asked for is no number that a letter could have.
    NoNumber,
}

impl Unable {
    /// A name for this kind of error that never changes.
    pub fn code(self) -> &'static str {
        match self {
            Self::NoInk => "no-ink",
            Self::NoRoom => "no-room",
            Self::NoStrokes => "no-strokes",
            Self::OutOfReach => "out-of-reach",
            Self::NoNumber => "no-number",
        }
    }
}

impl fmt::Display for Unable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoInk => "This letter has no ink to redraw.",
            Self::NoRoom => {
                "This letter is nearly all stem, or the width asked for is less than its stems \
                 take: there is no white that could give way. Redraw it by hand."
            }
            Self::NoStrokes => {
                "The lab cannot read such strokes in this letter, so it cannot sketch them \
                 otherwise. Redraw it by hand."
            }
            Self::OutOfReach => {
                "The letter cannot be brought that far without losing its shape. Try a smaller \
                 change."
            }
            Self::NoNumber => "That is no size a letter could have. Type another number.",
        })
    }
}

impl std::error::Error for Unable {}

/// A letter with a change tried on it: a sketch for the artist.
#[derive(Debug, Clone, PartialEq)]
pub struct Sketch {
    /// Its new outline, of the same points and handles.
    pub outline: Outline,
    /// What it measured.
    pub before: Letter,
    /// What it measures now.
    pub after: Letter,
}

/// Tries a change.
///
/// # Errors
/// If the letter has nothing that could be changed so, or not that far.
pub fn sketch(
    outline: &Outline,
    advance: f64,
    context: &Context,
    change: Change,
) -> Result<Sketch, Unable> {
    let before = measure::of_outline(outline, advance, context);
    let bounds = before.bounds.ok_or(Unable::NoInk)?;
    let em = context.units_per_em;
    // Ten ems are more than any letter is wide or moves.
    let sound = |v: f64| v.is_finite() && v.abs() < 10.0 * em;
    let (outline, advance) = match change {
        Change::Width(to) => {
            if !sound(to) || to <= 0.0 {
                return Err(Unable::NoNumber);
            }
            let wide = widen(outline, &before, context, to)?;
            (wide, advance + to - bounds.width())
        }
        Change::Weight(by, which) => {
            if !by.is_finite() || by.abs() > 1.0 {
                return Err(Unable::NoNumber);
            }
            (reweigh(outline, &before, context, by, which)?, advance)
        }
        Change::Reach { top, foot } => {
            if !sound(top) || !sound(foot) {
                return Err(Unable::NoNumber);
            }
            (reach(outline, top, foot)?, advance)
        }
    };
    let after = measure::of_outline(&outline, advance, context);
    Ok(Sketch {
        outline,
        before,
        after,
    })
}
