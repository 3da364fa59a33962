//! Diagonal letters that are alike in both cases: V and v, W and w, X and x.

use crate::pen::{Drawing, Pen};
use crate::slant::{Slant, meet};
use crate::style::FLARE;

/// What the diagonals of one case share.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Case {
    /// Cap height or x-height.
    pub(crate) top: f64,
    /// How far a narrow cut apex passes the line.
    pub(crate) apex: f64,
    /// A diagonal that a right-handed brush draws downwards, across the stroke.
    pub(crate) thick: f64,
    /// A diagonal that it draws upwards.
    pub(crate) thin: f64,
    /// Share of these in letters of many strokes, which would else be dark.
    pub(crate) lighter: f64,
    /// How far a diagonal's inner edge stands out at its end; less than
    /// [`FLARE`], since the slant already adds to the level cut.
    pub(crate) spur: f64,
}

impl Case {
    /// Height of an edge's handle: near the free end, so that the edge runs
    /// straight into the apex and flares only towards its end.
    fn knee(&self) -> f64 {
        (0.64 * self.top).round()
    }
}

/// V: two strokes that meet in a cut of width `cut` below the baseline.
pub(crate) fn v(case: Case, width: f64, cut: f64) -> Drawing {
    let Case {
        top, apex, spur, ..
    } = case;
    let knee = case.knee();
    let foot = (width - cut) / 2.0;
    let left = Slant::from_left((FLARE, top), (foot, -apex), case.thick);
    let right = Slant::from_right((width - FLARE, top), (foot + cut, -apex), case.thin);
    let crotch = meet(left.right(), right.left());
    Drawing::ink(
        Pen::at(0.0, top)
            .line(left.r(top) + spur, top)
            .bend(left.r(knee), knee, crotch.x, crotch.y)
            .bend(right.l(knee), knee, right.l(top) - spur, top)
            .line(width, top)
            .bend(right.r(knee), knee, foot + cut, -apex)
            .line(foot, -apex)
            .bend(left.l(knee), knee, 0.0, top)
            .close(),
    )
}

/// W: four strokes of one slope, whose outer edges run `run` units sideways
/// from the top to a lower vertex.
pub(crate) fn w(case: Case, run: f64, cut: f64) -> Drawing {
    let Case {
        top, apex, spur, ..
    } = case;
    let knee = case.knee();
    let (thick, thin) = (case.thick * case.lighter, case.thin * case.lighter);
    // Between strokes that end on the line, a peak passes it by less.
    let high = top + apex / 2.0;
    // The middle strokes reach past both lines, so they run further sideways.
    let rise = run / (top + apex) * (high + apex);
    let first = Slant::from_left((FLARE, top), (FLARE + run, -apex), thick);
    let low = first.l(-apex) + cut;
    let second = Slant::from_right((low, -apex), (low + rise, high), thin);
    let peak = second.l(high) + cut;
    let third = Slant::from_right((peak, high), (peak + rise, -apex), thick);
    let low_right = third.l(-apex) + cut;
    let fourth = Slant::from_right((low_right, -apex), (low_right + run, top), thin);
    let left_crotch = meet(first.right(), second.left());
    let middle_crotch = meet(second.right(), third.left());
    let right_crotch = meet(third.right(), fourth.left());
    Drawing::ink(
        Pen::at(0.0, top)
            .line(first.r(top) + spur, top)
            .bend(first.r(knee), knee, left_crotch.x, left_crotch.y)
            .line(second.l(high), high)
            .line(peak, high)
            .line(right_crotch.x, right_crotch.y)
            .bend(fourth.l(knee), knee, fourth.l(top) - spur, top)
            .line(fourth.r(top) + FLARE, top)
            .bend(fourth.r(knee), knee, low_right, -apex)
            .line(third.l(-apex), -apex)
            .line(middle_crotch.x, middle_crotch.y)
            .line(low, -apex)
            .line(first.l(-apex), -apex)
            .bend(first.l(knee), knee, 0.0, top)
            .close(),
    )
}

/// X: the thick stroke's left edge runs from `thick.0` at the top to `thick.1`
/// at the foot, the thin one's from `thin.0` at the foot to `thin.1` at the top.
pub(crate) fn x(case: Case, thick: (f64, f64), thin: (f64, f64)) -> Drawing {
    // The thin stroke is broken behind the thick one, or it would seem to be.
    const BREAK: f64 = 5.0;
    let Case { top, spur, .. } = case;
    let (upper, lower) = ((0.815 * top).round(), (0.185 * top).round());
    let down = Slant::from_left((thick.0, top), (thick.1, 0.0), case.thick);
    let up = |shift: f64| Slant::from_left((thin.0 + shift, 0.0), (thin.1 + shift, top), case.thin);
    let (low, high) = (up(BREAK), up(-BREAK));
    let above = meet(down.right(), high.left());
    let right = meet(down.right(), high.right());
    let below = meet(down.left(), low.right());
    let left = meet(down.left(), low.left());
    Drawing::ink(
        Pen::at(low.l(0.0) - FLARE, 0.0)
            .bend(low.l(lower), lower, left.x, left.y)
            .bend(down.l(upper), upper, down.l(top) - FLARE, top)
            .line(down.r(top) + spur, top)
            .bend(down.r(upper), upper, above.x, above.y)
            .bend(high.l(upper), upper, high.l(top) - spur, top)
            .line(high.r(top) + FLARE, top)
            .bend(high.r(upper), upper, right.x, right.y)
            .bend(down.r(lower), lower, down.r(0.0) + FLARE, 0.0)
            .line(down.l(0.0) - spur, 0.0)
            .bend(down.l(lower), lower, below.x, below.y)
            .bend(low.r(lower), lower, low.r(0.0) + spur, 0.0)
            .close(),
    )
}
