//! The same letter with many points, as an automatic trace would set them.

use super::{Class, Done, Drawn, Figure, FigureUnit, Nothing};
use crate::measure::drawing::{DrawingContext, Points, traced};
use crate::outline::Outline;

/// How far apart a trace's points stand, in thousandths of the em: at the slider's
/// first step, and at its end.
const SPACING: (f64, f64) = (120.0, 16.0);

pub(super) fn take_out(drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    let context = class.context();
    let em = context.units_per_em;
    let outline = if out <= 0.0 {
        drawn.outline.clone()
    } else {
        let spacing = SPACING.0 * (SPACING.1 / SPACING.0).powf(out) * em / 1000.0;
        let read = DrawingContext {
            units_per_em: em,
            format: context.format,
        };
        Outline::from_path(&traced(&drawn.outline, &read, spacing))
    };
    let (was, is) = (Points::of(&drawn.outline), Points::of(&outline));
    let count = |name, was: usize, is: usize| Figure {
        name,
        unit: FigureUnit::Count,
        drawn: was as f64,
        shown: is as f64,
    };
    Ok(Done {
        figures: vec![
            count("points on the outline", was.on_curve, is.on_curve),
            count("handles", was.off_curve, is.off_curve),
        ],
        outline,
        was: Vec::new(),
        is: Vec::new(),
    })
}
