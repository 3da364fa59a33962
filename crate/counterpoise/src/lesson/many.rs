//! The strokes of W, M, w and m made as heavy as those of the other letters, the
//! size kept.

use super::rounds::keeps_size;
use super::{Class, Done, Drawn, Figure, Nothing, REACHED, is_reached};
use crate::measure::main_weight;
use crate::measure::strokes::Thickness;
use crate::redraw::{Unable, Which, reweigh};

/// Strokes that depart from the stem by less than this share are as heavy as it.
const SAME: f64 = 0.005;

/// Rounds of mending: reweighing comes within some hundredths of its change.
const ROUNDS: usize = 5;

pub(super) fn take_out(drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    let stem = class.stem(drawn.character).ok_or(Unable::NoStrokes)?;
    let own = main_weight(&drawn.letter.strokes).ok_or(Unable::NoStrokes)?;
    if (own / stem - 1.0).abs() < SAME {
        return Err(Nothing::Without);
    }
    let to = own + out * (stem - own);
    let mut by = to / own - 1.0;
    let mut outline = drawn.outline.clone();
    let (mut after, mut now) = (drawn.letter.clone(), own);
    for _ in 0..ROUNDS {
        if by.abs() > 1e-5 {
            outline = reweigh(
                &drawn.outline,
                &drawn.letter,
                class.context(),
                by,
                Which::All,
            )?;
        }
        after = class.measured(drawn, &outline);
        now = main_weight(&after.strokes).ok_or(Unable::OutOfReach)?;
        if (now - to).abs() < 0.2 * REACHED * to {
            break;
        }
        by += (to - now) / own;
    }
    if !is_reached(now, to) || !keeps_size(drawn, &outline) {
        return Err(Unable::OutOfReach.into());
    }
    let dark = |of: &crate::measure::Letter| of.bounds.map_or(0.0, |b| 100.0 * of.area / b.area());
    let marks = |of: &crate::measure::Letter| -> Vec<Thickness> {
        of.strokes.iter().flat_map(|s| s.marks.clone()).collect()
    };
    // Its thickest stroke, and the same stroke as it is shown.
    let was = marks(&drawn.letter)
        .into_iter()
        .max_by(|a, b| a.value.total_cmp(&b.value));
    let is = was.and_then(|was| {
        let off = |m: &Thickness| m.centre().distance(was.centre());
        marks(&after)
            .into_iter()
            .min_by(|a, b| off(a).total_cmp(&off(b)))
    });
    let ends = |m: Option<Thickness>| m.map(|m| (m.from, m.to)).into_iter().collect();
    Ok(Done {
        figures: vec![
            Figure::units("stem of the others", stem, stem),
            Figure::units("its main strokes", own, now),
            Figure::percent(
                "main strokes, of the stem",
                100.0 * own / stem,
                100.0 * now / stem,
            ),
            Figure::percent("ink in its box", dark(&drawn.letter), dark(&after)),
        ],
        was: ends(was),
        is: ends(is),
        outline,
    })
}
