//! Darkness: how much of a letter's place is ink, by the ruler and to an eye
//! that sees the line blurred.
//!
//! # Of one letter
//! [`Darkness`] is the ink as a share of the letter's own box and of its body:
//! the advance width by the [`Band`] between baseline and x-height, or cap
//! height for capitals and figures. Areas are exact (Green's theorem on the
//! curves, cut at the band's edges) where contours do not overlap; where they
//! do, they are summed as [`Ink`] says. That darkness is ink over
//! body is a model of ours; no published figure says how even is even.
//!
//! # Of a line
//! [`look`] draws a line of letters as ink coverage, blurs it as [`Eye`] says,
//! and tells for every letter how dark its body looks beside its neighbours
//! and its word ([`Shade`]), and which one stands out ([`Sight::standout`]).

mod band;
mod blur;
mod coverage;
mod eye;
mod grid;
mod page;
mod shade;
mod sight;

pub use band::Band;
pub use blur::Blurred;
pub use eye::Eye;
pub use shade::{STANDS_OUT, Shade};
pub use sight::{LineLetter, Sight, look};

use crate::outline::{Ink, Outline};
use kurbo::{PathSeg, Point, Rect};

/// Coordinates beyond this, font units, are no letter's: units per em end at
/// 16384. Past it areas would lose digits that matter.
const MOST_COORDINATE: f64 = 1e7;

/// A width or height below this, font units, is none: no file can tell it
/// from nought, and shares of it would be noise.
const LEAST_SIZE: f64 = 1e-3;

/// Whether a letter could have a point here; a number that is none could not.
fn is_place(coordinate: f64) -> bool {
    coordinate.abs() <= MOST_COORDINATE
}

/// Whether a letter could be this wide or high.
fn is_size(length: f64) -> bool {
    (LEAST_SIZE..=MOST_COORDINATE).contains(&length)
}

/// How much of a letter's place is ink.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Darkness {
    /// Ink as a share of the letter's own box, 0 to 1; `None` without ink.
    /// Spacing has no part in it.
    pub of_box: Option<f64>,
    /// Area of the ink inside the band, square units; `None` of a letter
    /// without a band.
    pub band_ink: Option<f64>,
    /// Ink inside the band as a share of advance width by band height: 0 to 1,
    /// more only if ink reaches past the advance. `None` without a band or an
    /// advance.
    pub of_body: Option<f64>,
}

/// The darkness of a letter, from its ink.
pub fn darkness(ink: &Ink<'_>, advance: f64, band: Option<Band>) -> Darkness {
    let Some(bounds) = sound_bounds(ink.outline()) else {
        return Darkness::default();
    };
    let share = |ink: f64, width: f64, height: f64| {
        (is_size(width) && is_size(height)).then(|| ink / (width * height))
    };
    let band_ink = band.map(|band| match band.holds(bounds) {
        true => ink.area(),
        false => ink.between(band.from(), band.to()),
    });
    Darkness {
        of_box: share(ink.area(), bounds.width(), bounds.height()),
        band_ink,
        of_body: band.and_then(|b| share(band_ink?, advance, b.height())),
    }
}

/// The box of an outline with ink, all of whose points are numbers that a
/// letter could have.
fn sound_bounds(outline: &Outline) -> Option<Rect> {
    let fits = |p: Point| is_place(p.x) && is_place(p.y);
    let sound = outline.segments().iter().all(|s| match s.path_seg() {
        PathSeg::Line(l) => fits(l.p0) && fits(l.p1),
        PathSeg::Quad(q) => fits(q.p0) && fits(q.p1) && fits(q.p2),
        PathSeg::Cubic(c) => fits(c.p0) && fits(c.p1) && fits(c.p2) && fits(c.p3),
    });
    sound.then(|| outline.bounds()).flatten()
}

#[cfg(test)]
mod tests;
