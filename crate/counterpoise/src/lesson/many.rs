//! The strokes of W, M, w and m made as heavy as those of the other letters, the
//! size kept.

use super::rounds::keeps_size;
use super::{Class, Done, Drawn, Figure, Nothing, REACHED, is_reached};
use crate::measure::main_weight;
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
    let thickest = |of: &crate::measure::Letter| {
        let most = of
            .strokes
            .iter()
            .max_by(|a, b| a.weight().total_cmp(&b.weight()));
        most.and_then(|s| s.marks.first()).map(|m| (m.from, m.to))
    };
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
        was: thickest(&drawn.letter).into_iter().collect(),
        is: thickest(&after).into_iter().collect(),
        outline,
    })
}
