//! Economy: the fewest points that the same letter needs.
//!
//! The outline is cut at its corners into runs. Along a run a refit is sought
//! that passes within the tolerance of the outline with the fewest points, in
//! lines (one point each, its end) and cubic curves (three: two handles and an
//! end), under the trade's rules: corners stay where they are, no curve runs on
//! past an extreme (Adobe Type 1 Font Format, chapter 4: a point at every
//! extreme), and where the outline is smooth the refit keeps its direction.
//! Points of the refit on the curve are points of the outline, or extremes that
//! it lacks.
//!
//! # Method and limits
//! Joints that turn by more than 8 degrees, and by more than rounding to whole
//! units explains, are corners. Extremes count where the outline turns back by
//! at least a thousandth of the em on both sides. Curves are fitted by least
//! squares on the handles ([`fit`]), and the chain of pieces is the cheapest by
//! dynamic programming ([`fewest`]). Distance is measured from the outline's
//! samples, about 8 thousandths of the em apart, square to the refit. That one
//! curve draws every part of what it draws whole is taken for granted while
//! seeking, so a chain of fewer points may exist where fits fail by a hair.
//!
//! Work is bounded by [`MOST_WORK`]; past it the rest of the outline counts as
//! it is drawn, and [`Need::is_complete`] says so.

mod contour;
mod even;
mod fewest;
mod fit;
mod handles;
mod quads;
mod run;

pub(super) use contour::{BULGE, runs};

use super::DrawingContext;
use super::points::{Curves, Points};
use crate::outline::Outline;
use fewest::{Piece, fewest};
use fit::Fitter;
use kurbo::{BezPath, PathSeg};
use run::Run;

/// Points looked at while fitting one letter to one tolerance, some 0.1 us
/// each: letters take hundreds to some thousands, a trace of ten thousand
/// points must not take seconds.
const MOST_WORK: usize = 400_000;

/// How near a refit keeps to the outline, everywhere.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Tolerance {
    /// Half a thousandth of the em: the same drawing, but for rounding.
    Half,
    /// Two thousandths of the em: the same letter to the eye at text sizes.
    Two,
}

impl Tolerance {
    /// In thousandths of the em.
    pub fn per_mille(self) -> f64 {
        match self {
            Self::Half => 0.5,
            Self::Two => 2.0,
        }
    }

    /// In font units.
    pub fn units(self, units_per_em: f64) -> f64 {
        self.per_mille() * units_per_em / 1000.0
    }
}

/// The points that a refit needs, on and off the curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Need {
    /// In cubic curves.
    pub cubic: usize,
    /// In quadratic curves, implied points counted; of outlines made of them.
    pub quadratic: Option<usize>,
    /// Whether the whole outline was refit. Where it was not, the rest counts
    /// as it is drawn.
    pub is_complete: bool,
}

impl Need {
    /// Points drawn beyond the need, in the outline's own kind of curve; below
    /// nought where it lacks points that the trade would set, at extremes.
    pub fn excess(&self, points: &Points) -> isize {
        points.total() as isize - self.quadratic.unwrap_or(self.cubic) as isize
    }
}

/// What an outline needs within half a unit and within two.
pub(super) fn needs(outline: &Outline, context: &DrawingContext, curves: Curves) -> [Need; 2] {
    let em = context.units_per_em;
    let tolerances = [Tolerance::Half, Tolerance::Two].map(|t| t.units(em));
    let mut fitters = [Fitter::default(), Fitter::default()];
    let mut cubic = [0; 2];
    let mut quadratic = [0; 2];
    for run in contours(outline, em).flatten() {
        for (k, fitter) in fitters.iter_mut().enumerate() {
            for piece in fewest(&run, tolerances[k], fitter, MOST_WORK) {
                let (c, q) = match piece {
                    Piece::Line(..) => (1, 1),
                    Piece::Kept(leg) if matches!(run.legs[leg], PathSeg::Line(_)) => (1, 1),
                    Piece::Kept(leg) => (3, quads::drawn(&run.legs[leg])),
                    Piece::Curve(i, j, curve) if curves == Curves::Quadratic => {
                        (3, quads::points(&run, i, j, &curve, tolerances[k]))
                    }
                    Piece::Curve(..) => (3, 3),
                };
                cubic[k] += c;
                quadratic[k] += q;
            }
        }
    }
    [0, 1].map(|k| Need {
        cubic: cubic[k],
        quadratic: (curves == Curves::Quadratic).then_some(quadratic[k]),
        is_complete: fitters[k].work < MOST_WORK,
    })
}

/// The refit itself, in lines and cubic curves.
pub(super) fn refit(outline: &Outline, context: &DrawingContext, tolerance: Tolerance) -> BezPath {
    let em = context.units_per_em;
    let tolerance = tolerance.units(em);
    let mut fitter = Fitter::default();
    let mut path = BezPath::new();
    for contour in contours(outline, em) {
        for (k, run) in contour.iter().enumerate() {
            if k == 0 {
                path.move_to(run.at(0));
            }
            let mut pieces = fewest(run, tolerance, &mut fitter, MOST_WORK);
            even::even(run, &mut pieces, tolerance, &mut fitter);
            for piece in pieces {
                match piece {
                    Piece::Line(_, to) => path.line_to(run.at(to)),
                    Piece::Curve(_, _, c) => path.curve_to(c.p1, c.p2, c.p3),
                    Piece::Kept(leg) => match run.legs[leg] {
                        PathSeg::Line(l) => path.line_to(l.p1),
                        curve => {
                            let c = curve.to_cubic();
                            path.curve_to(c.p1, c.p2, c.p3);
                        }
                    },
                }
            }
        }
        path.close_path();
    }
    path
}

/// The runs of each contour.
fn contours(outline: &Outline, em: f64) -> impl Iterator<Item = Vec<Run>> {
    outline
        .contours()
        .iter()
        .map(move |c| runs(&outline.segments()[c.clone()], em))
}
