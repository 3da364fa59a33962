//! Lower case of diagonals: k v w x y z.

use crate::forked::{self, Case};
use crate::lower_arched::{END, IN, OUT};
use crate::pen::{Drawing, Pen};
use crate::slant::{Slant, meet};
use crate::style::{APEX_X, ASC, DESC, FLARE, X};

/// What the diagonals share.
const CASE: Case = Case {
    top: X,
    apex: APEX_X,
    thick: THICK,
    thin: THIN,
    lighter: 0.92,
    spur: SPUR,
};
/// A diagonal drawn downwards, across the stroke.
const THICK: f64 = 98.0;
/// A diagonal drawn upwards.
const THIN: f64 = 75.0;
/// How far a diagonal's inner edge stands out at its end.
const SPUR: f64 = 5.0;
/// Ink width of v, and of y above its tail.
const V_WIDTH: f64 = 492.0;
/// The cut at the foot of v.
const V_CUT: f64 = 82.0;
/// Bar of z.
const BAR: f64 = 70.0;

pub(crate) fn v() -> Drawing {
    forked::v(CASE, V_WIDTH, V_CUT)
}

pub(crate) fn w() -> Drawing {
    forked::w(CASE, 168.0, 74.0)
}

pub(crate) fn x() -> Drawing {
    forked::x(CASE, (20.0, 332.0), (FLARE, 368.0))
}

pub(crate) fn y() -> Drawing {
    // The strokes are those of v.
    const LEFT: f64 = (V_WIDTH - V_CUT) / 2.0;
    let left = Slant::from_left((FLARE, X), (LEFT, -APEX_X), THICK);
    let right = Slant::from_right((V_WIDTH - FLARE, X), (LEFT + V_CUT, -APEX_X), THIN);
    let crotch = meet(left.right(), right.left());
    // Where the left stroke runs into the tail.
    let join = meet(left.left(), right.left());
    Drawing::ink(
        Pen::at(0.0, X)
            .line(left.r(X) + SPUR, X)
            .bend(left.r(340.0), 340.0, crotch.x, crotch.y)
            .bend(right.l(340.0), 340.0, right.l(X) - SPUR, X)
            .line(V_WIDTH, X)
            .bend(right.r(320.0), 320.0, right.r(0.0), 0.0)
            .curve(
                (right.r(-146.0) - right.r(0.0), -146.0),
                (98.0, 0.0),
                58.0,
                DESC - 10.0,
            )
            .curve((-26.0, 0.0), (26.0, -12.0), -22.0, -216.0)
            .line(-12.0, -126.0)
            .curve((32.0, -29.0), (-28.0, 0.0), 72.0, DESC - 10.0 + 64.0)
            .curve((52.0, 0.0), (-36.0, -90.0), join.x, join.y)
            .bend(left.l(320.0), 320.0, 0.0, X)
            .close(),
    )
}

pub(crate) fn z() -> Drawing {
    const WIDTH: f64 = 428.0;
    const CORNER: f64 = 56.0;
    let diagonal = Slant::from_left((0.0, CORNER), (272.0, X - CORNER), THICK);
    let right = diagonal.r(X - CORNER);
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .line(0.0, CORNER)
            .line(diagonal.l(X - BAR), X - BAR)
            .widen_level(22.0, 416.0)
            .line(15.0, X)
            .line(right, X)
            .line(right, X - CORNER)
            .line(diagonal.r(BAR), BAR)
            .widen_level(WIDTH - 7.0, 86.0)
            .line(WIDTH, 0.0)
            .close(),
    )
}

pub(crate) fn k() -> Drawing {
    const WIDTH: f64 = 474.0;
    let arm = Slant::from_left((IN, 214.0), (336.0, X), THIN);
    let leg = Slant::from_right((WIDTH - FLARE, 0.0), (216.0, 300.0), THICK);
    let high = meet(arm.right(), leg.right());
    let low = meet(arm.right(), leg.left());
    let root = arm.right_height(IN);
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, ASC / 2.0)
            .widen(0.0, ASC)
            .line(END, ASC)
            .narrow(IN, ASC / 2.0)
            .line(IN, 214.0)
            .bend(arm.l(380.0), 380.0, arm.l(X) - SPUR, X)
            .line(arm.r(X) + FLARE, X)
            .bend(arm.r(400.0), 400.0, high.x, high.y)
            .bend(leg.r(120.0), 120.0, WIDTH, 0.0)
            .line(leg.l(0.0) - SPUR, 0.0)
            .bend(leg.l(110.0), 110.0, low.x, low.y)
            .line(IN, root)
            .widen(END, 0.0)
            .close(),
    )
}
