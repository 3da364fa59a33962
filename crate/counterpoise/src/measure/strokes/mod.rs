//! Strokes: how thick, where, and which way they run.
//!
//! A stroke is what a pen or brush would have left: ink between two edges that
//! run near parallel. The outline is walked, and at stations along it a ray is
//! sent through the ink, square to the stroke's own direction (the bisector of
//! its two edges), to the far edge (`station`). Stations whose thickness and
//! direction follow on from each other form a run (`run`); a run is cut where
//! it turns from straight to curved (`pieces`); pieces seen from both edges
//! count once, and straight pieces that go on behind a crossing stroke are
//! joined (`join`).
//!
//! # Method, limits and source
//! Crossings are exact on the curves and use the non-zero rule, so overlapping
//! contours are one ink. Thickness is perpendicular to the stroke, as the CFF
//! format defines a stem's width (Adobe Technical Note 5176, Private DICT).
//! Between two straight edges it is exact; along a curve it is exact at each
//! station, and the least and the greatest are refined to the best place
//! between stations. Two edges that differ too much in direction
//! (`station::widest_taper`) are a wedge or a blob, not a stroke. What a hand would call one
//! stroke is common practice, no source.

mod join;
mod pieces;
mod run;
mod station;
mod stroke;

pub use stroke::{Stroke, StrokeKind, Thickness};

use crate::order::by_number;
use crate::outline::Outline;

/// What the strokes of a letter are read against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StrokeContext {
    /// Units per em: the scale of the sampling.
    pub units_per_em: f64,
    /// Lean of the uprights, degrees, leaning right positive.
    pub slant: f64,
}

/// The strokes of a letter, longest first.
pub fn strokes(outline: &Outline, context: &StrokeContext) -> Vec<Stroke> {
    let mut caster = station::Caster::new(outline);
    let stations = station::stations(&mut caster, context.units_per_em);
    let runs = run::runs(&stations);
    let pieces = pieces::pieces(runs, outline, context.units_per_em);
    let pieces = join::join(pieces, outline);
    let mut strokes: Vec<Stroke> = pieces
        .iter()
        .filter_map(|p| stroke::finish(p, &mut caster, context))
        .collect();
    by_number(&mut strokes, |s| -s.length);
    strokes
}

#[cfg(test)]
mod tests;
