//! The thick sides of a round letter made as thick as a straight stem, its size
//! kept.

use super::{Class, Done, Drawn, Figure, Nothing, REACHED, is_reached};
use crate::measure::Letter;
use crate::measure::strokes::Thickness;
use crate::outline::Outline;
use crate::redraw::{Unable, Which, reweigh};

/// A side that departs from the stem by less than this share is as thick as it.
const SAME: f64 = 0.003;

/// Rounds of mending: reweighing comes within some hundredths of its change.
const ROUNDS: usize = 5;

pub(super) fn take_out(drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    let stem = class.stem(drawn.character).ok_or(Unable::NoStrokes)?;
    let side = side(&drawn.letter, class).ok_or(Unable::NoStrokes)?;
    if (side.value / stem - 1.0).abs() < SAME {
        return Err(Nothing::Without);
    }
    set(drawn, class, side.value + out * (stem - side.value))
}

/// The thickest side of a letter, where its stroke runs upright.
pub(super) fn side(letter: &Letter, class: &Class) -> Option<Thickness> {
    let lean = class.lean();
    letter
        .strokes
        .iter()
        .flat_map(|s| &s.marks)
        .filter(|m| m.runs_upright(lean))
        .max_by(|a, b| a.value.total_cmp(&b.value))
        .copied()
}

/// Makes the thickest side so thick, font units.
pub(super) fn set(drawn: &Drawn, class: &Class, to: f64) -> Result<Done, Nothing> {
    let stem = class.stem(drawn.character).ok_or(Unable::NoStrokes)?;
    let was = side(&drawn.letter, class).ok_or(Unable::NoStrokes)?;
    let mut by = to / was.value - 1.0;
    let mut outline = drawn.outline.clone();
    let mut is = was;
    for _ in 0..ROUNDS {
        if by.abs() > 1e-5 {
            let (letter, context) = (&drawn.letter, class.context());
            outline = reweigh(&drawn.outline, letter, context, by, Which::Uprights)?;
        }
        is = side(&class.measured(drawn, &outline), class).ok_or(Unable::OutOfReach)?;
        if (is.value - to).abs() < 0.2 * REACHED * to {
            break;
        }
        by += (to - is.value) / was.value;
    }
    if !is_reached(is.value, to) || !keeps_size(drawn, &outline) {
        return Err(Unable::OutOfReach.into());
    }
    Ok(Done {
        outline,
        figures: vec![
            Figure::units("straight stem", stem, stem),
            Figure::units("round at its thickest", was.value, is.value),
            Figure::percent(
                "round, of the stem",
                100.0 * was.value / stem,
                100.0 * is.value / stem,
            ),
        ],
        was: vec![(was.from, was.to)],
        is: vec![(is.from, is.to)],
    })
}

/// Reweighing keeps a letter's size; where it could not, the letter tells nothing.
pub(super) fn keeps_size(drawn: &Drawn, outline: &Outline) -> bool {
    let (was, is) = (drawn.outline.bounds(), outline.bounds());
    was.zip(is).is_some_and(|(was, is)| {
        is_reached(is.width(), was.width()) && is_reached(is.height(), was.height())
    })
}
