//! Lower case of single stems and hooks: f i j l t.

use crate::lower_arched::{END, IN, OUT};
use crate::oval::Oval;
use crate::pen::{Drawing, Pen};
use crate::style::{ASC, DESC, FLARE, FULL, OVER_X, STEM_X, THIN_X, X};

/// Bar of f and t where it crosses the stem.
const BAR: f64 = 66.0;
/// Dot of i and j, and of the points.
pub(crate) const DOT: f64 = 132.0;

/// A dot about a centre.
pub(crate) fn dot(x: f64, y: f64) -> Oval {
    Oval {
        left: x - DOT / 2.0,
        foot: y - DOT / 2.0,
        right: x + DOT / 2.0,
        top: y + DOT / 2.0,
        lean: 0.0,
        fullness: FULL,
    }
}

const DOT_HEIGHT: f64 = 660.0;

pub(crate) fn l() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, ASC / 2.0)
            .widen(0.0, ASC)
            .line(END, ASC)
            .narrow(IN, ASC / 2.0)
            .widen(END, 0.0)
            .close(),
    )
}

pub(crate) fn i() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, X / 2.0)
            .widen(0.0, X)
            .line(END, X)
            .narrow(IN, X / 2.0)
            .widen(END, 0.0)
            .close(),
    )
    .and_ink(dot(END / 2.0, DOT_HEIGHT).contour())
}

pub(crate) fn j() -> Drawing {
    const TURN: f64 = -30.0;
    Drawing::ink(
        Pen::at(OUT, TURN)
            .widen(0.0, X)
            .line(END, X)
            .narrow(IN, TURN)
            .curve((0.0, -122.0), (88.0, 0.0), -60.0, DESC - 10.0)
            .curve((-32.0, 0.0), (30.0, -14.0), -156.0, -212.0)
            .line(-146.0, -122.0)
            .curve((34.0, -32.0), (-26.0, 0.0), -56.0, DESC - 10.0 + THIN_X)
            .curve((42.0, 0.0), (0.0, -72.0), OUT, TURN)
            .close(),
    )
    .and_ink(dot(END / 2.0, DOT_HEIGHT).contour())
}

pub(crate) fn t() -> Drawing {
    const LEFT: f64 = 84.0;
    const RIGHT: f64 = LEFT + STEM_X;
    const TURN: f64 = 150.0;
    const UNDER: f64 = X - BAR;
    Drawing::ink(
        Pen::at(LEFT, UNDER)
            .widen_level(6.0, UNDER - 12.0)
            .line(0.0, X)
            .line(LEFT, X)
            .widen(LEFT - FLARE, 640.0)
            .line(RIGHT + FLARE, 640.0)
            .narrow(RIGHT, X)
            .line(342.0, X)
            .line(336.0, UNDER - 12.0)
            .narrow_level(RIGHT, UNDER)
            .line(RIGHT, TURN)
            .curve((0.0, -66.0), (-42.0, 0.0), 258.0, THIN_X - OVER_X)
            .curve((30.0, 0.0), (-26.0, -20.0), 338.0, 80.0)
            .line(348.0, 10.0)
            .curve((-34.0, -14.0), (38.0, 0.0), 238.0, -OVER_X)
            .turn(LEFT, TURN - 4.0, FULL)
            .close(),
    )
}

pub(crate) fn f() -> Drawing {
    const LEFT: f64 = 80.0;
    const RIGHT: f64 = LEFT + STEM_X;
    const TURN: f64 = 570.0;
    const UNDER: f64 = X - BAR;
    const TOP: f64 = ASC + OVER_X;
    Drawing::ink(
        Pen::at(LEFT - FLARE, 0.0)
            .narrow(LEFT, UNDER)
            .widen_level(6.0, UNDER - 12.0)
            .line(0.0, X)
            .line(LEFT, X)
            .line(LEFT, TURN)
            .curve((0.0, 104.0), (-90.0, 0.0), 268.0, TOP)
            .curve((38.0, 0.0), (-32.0, 14.0), 372.0, 714.0)
            .line(364.0, 612.0)
            .curve((-32.0, 40.0), (38.0, 0.0), 272.0, TOP - THIN_X)
            .curve((-58.0, 0.0), (0.0, 64.0), RIGHT, TURN - 8.0)
            .line(RIGHT, X)
            .line(334.0, X)
            .line(328.0, UNDER - 12.0)
            .narrow_level(RIGHT, UNDER)
            .widen(RIGHT + FLARE, 0.0)
            .close(),
    )
}
