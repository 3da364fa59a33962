//! Capitals of a stem and bowls: B D P R.

use crate::capitals_straight::{END, IN, OUT, WAIST};
use crate::pen::{Drawing, Pen};
use crate::slant::Slant;
use crate::style::{BAR, CAP, FLARE, FULL, FULL_IN, ROUND, THIN};

/// Thickness of the level strokes where a bowl leaves the stem.
const ROOF: f64 = THIN + 6.0;
/// The leg of R, across the stroke.
const LEG: f64 = 110.0;

fn left_side(pen: Pen) -> Pen {
    pen.narrow(OUT, WAIST).widen(0.0, CAP)
}

pub(crate) fn d() -> Drawing {
    const RIGHT: f64 = 616.0;
    Drawing::ink(
        left_side(Pen::at(0.0, 0.0))
            .line(266.0, CAP)
            .turn(RIGHT, 354.0, FULL)
            .turn_up(266.0, 0.0, FULL)
            .close(),
    )
    .counter(
        Pen::at(IN, ROOF)
            .line(IN, CAP - ROOF)
            .line(244.0, CAP - ROOF)
            .turn(RIGHT - ROUND, 330.0, FULL)
            .turn_up(280.0, ROOF, FULL_IN)
            .close(),
    )
}

pub(crate) fn p() -> Drawing {
    const RIGHT: f64 = 480.0;
    const FOOT: f64 = 276.0;
    Drawing::ink(
        left_side(Pen::at(0.0, 0.0))
            .line(252.0, CAP)
            .turn(RIGHT, 494.0, FULL)
            .turn_up(244.0, FOOT, FULL)
            .line(IN, FOOT)
            .widen(END, 0.0)
            .close(),
    )
    .counter(
        Pen::at(IN, FOOT + ROOF)
            .line(IN, CAP - ROOF)
            .line(238.0, CAP - ROOF)
            .turn(RIGHT - ROUND, 482.0, FULL_IN)
            .turn_up(242.0, FOOT + ROOF, FULL_IN)
            .close(),
    )
}

pub(crate) fn b() -> Drawing {
    const RIGHT: f64 = 482.0;
    const UPPER: f64 = 442.0;
    const WAIST_TOP: f64 = 410.0;
    const WAIST_FOOT: f64 = WAIST_TOP - BAR + 8.0;
    Drawing::ink(
        left_side(Pen::at(0.0, 0.0))
            .line(244.0, CAP)
            .turn(UPPER, 538.0, FULL)
            .curve((0.0, -84.0), (54.0, 18.0), 338.0, 376.0)
            .curve((84.0, -16.0), (0.0, 92.0), RIGHT, 196.0)
            .turn_up(250.0, 0.0, FULL)
            .close(),
    )
    .counter(
        Pen::at(IN, WAIST_TOP)
            .line(IN, CAP - ROOF)
            .line(230.0, CAP - ROOF)
            .turn(UPPER - ROUND + 4.0, 522.0, FULL_IN)
            .turn_up(226.0, WAIST_TOP, FULL_IN)
            .close(),
    )
    .counter(
        Pen::at(IN, ROOF)
            .line(IN, WAIST_FOOT)
            .line(238.0, WAIST_FOOT)
            .turn(RIGHT - ROUND, 190.0, FULL_IN)
            .turn_up(246.0, ROOF, FULL_IN)
            .close(),
    )
}

/// Ink width of R.
pub(crate) const R_WIDTH: f64 = 556.0;

pub(crate) fn r() -> Drawing {
    r_with(R_WIDTH)
}

/// R of another width: bowl and leg move in, every stroke keeps its thickness.
pub(crate) fn r_with(width: f64) -> Drawing {
    const FOOT: f64 = 306.0;
    let by = R_WIDTH - width;
    // The leg leaves the bowl nearer to the stem, and so keeps its slope nearly.
    let root = 316.0 - 0.8 * by;
    let right = 474.0 - by;
    let turn = 0.7 * by;
    let leg = Slant::from_right((width - FLARE, 0.0), (root, 340.0), LEG);
    Drawing::ink(
        left_side(Pen::at(0.0, 0.0))
            .line(252.0 - turn, CAP)
            .turn(right, 514.0, FULL)
            .curve((0.0, -92.0), (66.0, 26.0), leg.r(344.0), 344.0)
            .bend(leg.r(150.0), 150.0, width, 0.0)
            .line(leg.l(0.0) - 6.0, 0.0)
            .bend(leg.l(150.0), 150.0, leg.l(FOOT), FOOT)
            .line(IN, FOOT)
            .widen(END, 0.0)
            .close(),
    )
    .counter(
        Pen::at(IN, FOOT + ROOF)
            .line(IN, CAP - ROOF)
            .line(238.0 - turn, CAP - ROOF)
            .turn(right - ROUND, 500.0, FULL_IN)
            .turn_up(238.0 - turn, FOOT + ROOF, FULL_IN)
            .close(),
    )
}
