//! Where a letter is held when letters are lined up.

use super::command::Alignment;
use super::scene::FAR;
use super::sorts::Sorts;
use super::standing::Standing;
use crate::refuse::Refuse;
use counterpoise::report::{LetterReport, Stroke, StrokeKind, Thickness};
use kurbo::Point;

/// A mark counts as an upright's if its thickness is taken within about 35
/// degrees of level: cos 35.
const LEVEL_ENOUGH: f64 = 0.82;

/// Where along the baseline a letter is held, on the stage.
///
/// # Errors
/// If the letter has no such place.
pub(crate) fn hold(s: &Standing, by: Alignment, sorts: &Sorts) -> Result<f64, Refuse> {
    let name = || sorts.label(s.item.character, s.item.glyph);
    let (ink, glyph) = s
        .ink
        .zip(s.item.glyph)
        .ok_or_else(|| Refuse::NoInk(name()))?;
    let stem = || -> Result<(f64, f64), Refuse> {
        let report = sorts.report(glyph);
        let mark = main_stem(&report).ok_or_else(|| Refuse::NoStem(name()))?;
        let (a, b) = (on_stage(s, mark.from), on_stage(s, mark.to));
        Ok((a.min(b), a.max(b)))
    };
    Ok(match by {
        Alignment::LeftEdge => ink.x0,
        Alignment::RightEdge => ink.x1,
        Alignment::InkCentre => ink.center().x,
        Alignment::StemLeft => stem()?.0,
        Alignment::StemCentre => {
            let (left, right) = stem()?;
            0.5 * (left + right)
        }
    })
}

/// Where a letter's origin goes so that it is held at a place.
pub(crate) fn origin_for(s: &Standing, hold: f64, at: f64) -> f64 {
    (s.x + at - hold).clamp(-FAR, FAR)
}

fn on_stage(s: &Standing, p: [f64; 2]) -> f64 {
    (s.map * Point::new(p[0], p[1])).x
}

/// The main stem at its mark: the longest stem, the left one of equals; of a
/// letter without, the curve's or diagonal's leftmost upright mark.
fn main_stem(report: &LetterReport) -> Option<Thickness> {
    let left = |t: &Thickness| t.from[0].min(t.to[0]);
    let stems = report.strokes.iter().filter(|s| s.kind == StrokeKind::Stem);
    let longest = stems.clone().map(|s| s.length).fold(0.0, f64::max);
    // Stems of one letter that differ by a serif's depth are still equals.
    let main = stems
        .filter(|s| s.length > 0.9 * longest)
        .filter_map(|s| s.marks.first())
        .min_by(|a, b| left(a).total_cmp(&left(b)));
    main.or_else(|| {
        report
            .strokes
            .iter()
            .filter(|s| s.kind != StrokeKind::Bar)
            .flat_map(upright_marks)
            .min_by(|a, b| left(a).total_cmp(&left(b)))
    })
    .copied()
}

fn upright_marks(stroke: &Stroke) -> impl Iterator<Item = &Thickness> {
    stroke.marks.iter().filter(|m| {
        let (dx, dy) = (m.to[0] - m.from[0], m.to[1] - m.from[1]);
        dx.abs() >= LEVEL_ENOUGH * dx.hypot(dy)
    })
}
