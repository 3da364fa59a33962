//! Lessons: why even is not equal, shown on a font's own letters.
//!
//! Each lesson takes one compensation of the trade and takes it out of the real
//! outline by computation: rounds are set on the line, stems made equal, bars as
//! thick as stems, joins filled, points multiplied. How much of it is taken out is
//! a number: 0 leaves the letter as it is drawn, 1 takes all of it out, -1 doubles
//! it, and what lies between lies between, so that a slider can lead from one to
//! the other. What is shown is a lesson's picture and never a suggestion: the
//! point is that it looks worse.
//!
//! | file | what it takes out |
//! |---|---|
//! | `overshoot` | how far round and pointed ends pass the line |
//! | `bars` | that level strokes are thinner than upright ones |
//! | `rounds` | that the thick of a round is thicker than a stem |
//! | `joins` | that strokes thin where they spring from others |
//! | `halves` | that the upper half is smaller, and the middle above the middle |
//! | `many` | that letters of many strokes have thinner ones |
//! | `line` | that side bearings differ, and that pairs are kerned |
//! | `points` | that an outline has few points |
//!
//! [`eye`] asks the person in front of it what looks equal; [`words`] draws each
//! word of the trade.

mod bars;
mod class;
pub mod eye;
mod halves;
mod joins;
mod kind;
mod levels;
mod line;
mod many;
mod overshoot;
mod points;
mod rounds;
mod stimulus;
pub mod words;

pub use class::{Class, Drawn};
pub use kind::{Lesson, MOST_CHARACTERS, Span};
pub use line::{LineMatter, PairTally, Placed, place};
pub use stimulus::{Asked, Matter, Stimulus};

use crate::outline::Outline;
use crate::redraw::Unable;
use kurbo::{Affine, Point, Rect};

/// What a figure is told in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FigureUnit {
    /// Font units.
    Units,
    /// Per cent of something that the figure's name says.
    Percent,
    /// Things counted.
    Count,
}

/// One figure of a letter, as drawn and as shown.
#[derive(Debug, Clone, PartialEq)]
pub struct Figure {
    /// What it is.
    pub name: &'static str,
    /// In what.
    pub unit: FigureUnit,
    /// As drawn.
    pub drawn: f64,
    /// As shown.
    pub shown: f64,
}

impl Figure {
    fn units(name: &'static str, drawn: f64, shown: f64) -> Self {
        Self {
            name,
            unit: FigureUnit::Units,
            drawn,
            shown,
        }
    }

    fn percent(name: &'static str, drawn: f64, shown: f64) -> Self {
        Self {
            name,
            unit: FigureUnit::Percent,
            drawn,
            shown,
        }
    }
}

/// A place where a figure was taken: from one edge to the other.
pub type Measured = (Point, Point);

/// A letter with a compensation taken out.
#[derive(Debug, Clone, PartialEq)]
pub struct Done {
    /// The outline as shown.
    pub outline: Outline,
    /// Its figures.
    pub figures: Vec<Figure>,
    /// Where they were taken on the letter as drawn.
    pub was: Vec<Measured>,
    /// Where they were taken on the letter as shown.
    pub is: Vec<Measured>,
}

/// Why a letter shows nothing in a lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Nothing {
    /// The lesson is not about such letters: it stands beside them, as it is.
    Beside,
    /// It is, but this font draws the letter without the compensation.
    Without,
    /// It could not be computed on this outline.
    Unable(Unable),
}

impl From<Unable> for Nothing {
    fn from(unable: Unable) -> Self {
        Self::Unable(unable)
    }
}

/// Takes a lesson's compensation out of one letter.
///
/// # Errors
/// If there is nothing to take out, or it cannot be done on this outline.
pub fn take_out(lesson: Lesson, drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    if !lesson.letters().contains(drawn.character) {
        return Err(Nothing::Beside);
    }
    let out = lesson.span().clamp(out);
    let mut done = compute(lesson, drawn, class, out)?;
    if out == 0.0 {
        // Joints a hair out of line are brought into it by all that bends outlines;
        // as drawn, the letter is as drawn.
        done.outline = drawn.outline.clone();
    }
    Ok(done)
}

fn compute(lesson: Lesson, drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    match lesson {
        Lesson::Overshoot => overshoot::take_out(drawn, class, out),
        Lesson::Bars => bars::take_out(drawn, class, out),
        Lesson::Rounds => rounds::take_out(drawn, class, out),
        Lesson::Joins => joins::take_out(drawn, class, out),
        Lesson::Halves => halves::take_out(drawn, class, out, halves::Part::Both),
        Lesson::Middle => halves::take_out(drawn, class, out, halves::Part::Waist),
        Lesson::Many => many::take_out(drawn, class, out),
        Lesson::Points => points::take_out(drawn, class, out),
        // What is taken out lies between the letters: see `line`.
        Lesson::Bearings | Lesson::Kerning => Err(Nothing::Beside),
    }
}

/// What was computed must come this near to what was asked for, as a share of it;
/// else the letter is not shown, since its figures would be untrue.
const REACHED: f64 = 0.005;

fn is_reached(is: f64, asked: f64) -> bool {
    (is - asked).abs() <= REACHED * asked.abs()
}

/// Does something to a letter of a slanted font while it stands upright: heights
/// stay, and what is moved up or down takes its slanted edges with it.
fn upright<E>(
    outline: &Outline,
    lean: f64,
    change: impl FnOnce(&Outline) -> Result<Outline, E>,
) -> Result<Outline, E> {
    let shear = |lean| Affine::new([1.0, 0.0, lean, 1.0, 0.0, 0.0]);
    let changed = change(&outline.transformed(shear(-lean)))?;
    Ok(changed.transformed(shear(lean)))
}

/// Brings an outline back to the height that it had: mended joints may have taken
/// some tenths of a unit.
fn at_height(outline: Outline, b: Rect) -> Outline {
    match outline.bounds() {
        Some(now) if now.height() > 0.0 && (now.y0 != b.y0 || now.y1 != b.y1) => {
            let scale = b.height() / now.height();
            let up = b.y0 - scale * now.y0;
            outline.transformed(Affine::new([1.0, 0.0, 0.0, scale, 0.0, up]))
        }
        _ => outline,
    }
}
