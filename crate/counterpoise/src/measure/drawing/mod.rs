//! Drawing: how a letter's outline is drawn, point by point.

mod economy;
mod flaws;
mod joint;
mod points;
mod redrawn;
mod trace;
mod whole;

pub use economy::{Need, Tolerance};
pub use flaws::{Basis, Flaw, FlawKind};
pub use points::{Curves, Points};
pub use redrawn::{Redrawn, redrawn};
pub use trace::traced;

use crate::font::OutlineFormat;
use crate::outline::Outline;
use kurbo::BezPath;

/// What an outline's drawing is read against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DrawingContext {
    /// Units per em: the scale of every limit.
    pub units_per_em: f64,
    /// The font format whose rules the contours must keep; `None` of a drawing
    /// that stands in no font.
    pub format: Option<OutlineFormat>,
}

/// How a letter is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Drawing {
    /// The points as drawn.
    pub points: Points,
    /// What its curves are.
    pub curves: Curves,
    /// The points needed within half a unit (of 1000 per em).
    pub within_half: Need,
    /// The points needed within two units.
    pub within_two: Need,
    /// What is worth a look.
    pub flaws: Vec<Flaw>,
    /// Flaws beyond the first few hundred, which are counted only.
    pub flaws_left_out: usize,
    /// Flaws that were not looked for, since the outline is too large.
    pub not_looked_for: Vec<FlawKind>,
}

/// Reads how an outline is drawn.
pub fn drawing(outline: &Outline, context: &DrawingContext) -> Drawing {
    let outline = &*whole::whole(outline);
    let curves = Curves::of(outline);
    let [within_half, within_two] = economy::needs(outline, context, curves);
    let found = flaws::flaws(outline, context);
    Drawing {
        points: Points::of(outline),
        curves,
        within_half,
        within_two,
        flaws: found.flaws,
        flaws_left_out: found.left_out,
        not_looked_for: found.not_looked_for,
    }
}

/// The refit that needs the fewest points, in lines and cubic curves: what
/// [`Need::cubic`] counts, its handles at smooth joints in line wherever that
/// keeps it within the tolerance.
pub fn refit(outline: &Outline, context: &DrawingContext, tolerance: Tolerance) -> BezPath {
    economy::refit(&whole::whole(outline), context, tolerance)
}

#[cfg(test)]
mod tests;
