//! Strokes made thicker or thinner with the letter's size kept.
//!
//! Every edge is moved along its normal, the letter is brought back to its size,
//! and what that took of the change is given again, until the strokes are as
//! asked, their main ones on average: in an M, whose stems and diagonals share its
//! width, the stems take a little more and the diagonals less. A letter that is all
//! stem, as I, grows with its stem.

use super::embolden::embolden_untangled;
use super::smooth::straighten;
use super::{Unable, Warp, Which, across, shear};
use crate::measure::strokes::{Stroke, StrokeKind, Thickness};
use crate::measure::{Context, Letter, main_weight};
use crate::outline::{Outline, Ray};
use kurbo::{Affine, Rect};

/// A letter with less than this share of its width between its upright strokes
/// is all stem.
const LEAST_FREE: f64 = 0.2;

/// The strokes' thickness is reached within this share of the change. Closer,
/// and letters whose strokes are hard to read would never get there.
const REACHED: f64 = 0.03;

/// Tries before a change is told to be out of reach.
const TRIES: usize = 6;

/// Thickens the strokes by a share of what they are: 0.05 makes them a twentieth
/// thicker; negative, thinner.
///
/// # Errors
/// If the letter has no ink, no such strokes, or cannot be brought there.
pub fn reweigh(
    outline: &Outline,
    letter: &Letter,
    context: &Context,
    by: f64,
    which: Which,
) -> Result<Outline, Unable> {
    let lean = context.slant.to_radians().tan();
    let upright = outline.transformed(shear(-lean));
    let b = upright.bounds().ok_or(Unable::NoInk)?;
    let stem = main_weight(&letter.strokes).ok_or(Unable::NoStrokes)?;
    let bar = thinnest_level(letter);
    let places = places(letter, which, lean);
    if places.is_empty() {
        return Err(Unable::NoStrokes);
    }
    if by == 0.0 {
        return Ok(outline.clone());
    }
    let thin = bar.unwrap_or(stem).min(stem);
    let (across_by, along_by) = match which {
        Which::All => (0.5 * stem, 0.5 * thin),
        Which::Uprights => (0.5 * stem, 0.0),
        Which::Levels => (0.0, 0.5 * thin),
    };
    let grows = is_all_stem(letter, b, lean);
    let mut give = by;
    for _ in 0..TRIES {
        let thick = straighten(
            &upright,
            &embolden_untangled(&upright, give * across_by, give * along_by),
        );
        let sized = to_size(&thick, b, grows)
            .ok_or(Unable::NoInk)?
            .transformed(shear(lean));
        let reached = thickness(&sized, &places).ok_or(Unable::OutOfReach)? - 1.0;
        if (reached - by).abs() < REACHED * by.abs() {
            return Ok(sized);
        }
        // Less than a third of what was asked for, or the wrong way: strokes
        // that run into each other, whose reading tells nothing.
        if reached / by < 0.3 {
            return Err(Unable::OutOfReach);
        }
        give *= by / reached;
    }
    Err(Unable::OutOfReach)
}

/// Strokes thinner than this share of the thickest are hairlines, those shorter
/// than this share of the longest serifs: neither carries the letter's weight.
const THICK: f64 = 0.75;
const LONG: f64 = 0.3;

/// The marks by which the change is read, each with its stroke's length. Of all
/// strokes the main ones stand for the rest, each where it is thickest.
fn places(letter: &Letter, which: Which, lean: f64) -> Vec<(Thickness, f64)> {
    let of = |keep: &dyn Fn(&Stroke, &Thickness) -> bool| -> Vec<(Thickness, f64)> {
        let strokes = letter.strokes.iter();
        strokes
            .flat_map(|s| s.marks.iter().map(move |m| (s, *m)))
            .filter(|(s, m)| keep(s, m))
            .map(|(s, m)| (m, s.length))
            .collect()
    };
    match which {
        Which::Uprights => of(&|_, m| m.runs_upright(lean)),
        Which::Levels => of(&|s, m| s.kind != StrokeKind::Stem && m.runs_level(lean)),
        Which::All => {
            let most = |of: fn(&Stroke) -> f64| letter.strokes.iter().map(of).fold(0.0, f64::max);
            let (thickest, longest) = (most(Stroke::weight), most(|s| s.length));
            of(&|s, m| {
                let main = s.weight() >= THICK * thickest && s.length >= LONG * longest;
                main && m.value >= s.weight()
            })
        }
    }
}

/// How thick an outline is at the places, as a share of what it was: read across
/// each mark's own middle, so that no stroke has to be found again.
fn thickness(outline: &Outline, places: &[(Thickness, f64)]) -> Option<f64> {
    let (mut scratch, mut spans) = (Vec::new(), Vec::new());
    let (mut was, mut is) = (0.0, 0.0);
    for (mark, length) in places {
        let Some(ray) = Ray::new(mark.centre(), mark.to - mark.from) else {
            continue;
        };
        outline.spans(&ray, &mut scratch, &mut spans);
        if let Some(span) = spans.iter().find(|s| s.from.s <= 0.0 && s.to.s >= 0.0) {
            was += length * mark.from.distance(mark.to);
            is += length * span.length();
        }
    }
    (was > 0.0).then(|| is / was)
}

/// The thinnest level stroke, where it is thinnest.
fn thinnest_level(letter: &Letter) -> Option<f64> {
    /// A mark this much steeper than it is broad crosses a level stroke.
    const STEEP: f64 = 2.0;
    let level = |m: &&Thickness| (m.to - m.from).y.abs() > STEEP * (m.to - m.from).x.abs();
    letter
        .strokes
        .iter()
        .filter(|s| s.kind != StrokeKind::Stem)
        .flat_map(|s| &s.marks)
        .filter(level)
        .map(|m| m.value)
        .reduce(f64::min)
}

fn is_all_stem(letter: &Letter, b: Rect, lean: f64) -> bool {
    let kept: Vec<(f64, f64)> = letter
        .strokes
        .iter()
        .filter(|s| matches!(s.kind, StrokeKind::Stem | StrokeKind::Curve))
        .flat_map(|s| &s.marks)
        .filter(|m| m.runs_upright(lean))
        .map(|m| across(m, lean))
        .collect();
    Warp::keeping(b.x0, b.x1, &kept, 2.0 * b.width(), LEAST_FREE).is_none()
}

/// Brings an outline back into a box; into its height alone if it may grow.
fn to_size(outline: &Outline, b: Rect, grows: bool) -> Option<Outline> {
    let now = outline.bounds()?;
    let sx = if grows { 1.0 } else { b.width() / now.width() };
    let sy = b.height() / now.height();
    let (was, is) = (0.5 * (b.x0 + b.x1), 0.5 * (now.x0 + now.x1));
    Some(outline.transformed(Affine::new([
        sx,
        0.0,
        0.0,
        sy,
        was - sx * is,
        b.y0 - sy * now.y0,
    ])))
}
