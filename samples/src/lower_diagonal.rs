//! Lower case of diagonals: k v w x y z.

use crate::lower_arched::{END, IN, OUT};
use crate::pen::{Drawing, Pen};
use crate::slant::{Slant, meet};
use crate::style::{APEX_X, ASC, DESC, FLARE, X};

/// A diagonal drawn downwards, across the stroke.
const THICK: f64 = 98.0;
/// A diagonal drawn upwards.
const THIN: f64 = 75.0;
/// Strokes of w are lighter: there are more of them to the em.
const LIGHTER: f64 = 0.92;
/// How far a diagonal's inner edge stands out at its end.
const SPUR: f64 = 5.0;
/// Bar of z.
const BAR: f64 = 70.0;

pub(crate) fn v() -> Drawing {
    const WIDTH: f64 = 492.0;
    const CUT: f64 = 82.0;
    const LEFT: f64 = (WIDTH - CUT) / 2.0;
    let left = Slant::from_left((FLARE, X), (LEFT, -APEX_X), THICK);
    let right = Slant::from_right((WIDTH - FLARE, X), (LEFT + CUT, -APEX_X), THIN);
    let crotch = meet(left.right(), right.left());
    Drawing::ink(
        Pen::at(0.0, X)
            .line(left.r(X) + SPUR, X)
            .bend(left.r(340.0), 340.0, crotch.x, crotch.y)
            .bend(right.l(340.0), 340.0, right.l(X) - SPUR, X)
            .line(WIDTH, X)
            .bend(right.r(320.0), 320.0, LEFT + CUT, -APEX_X)
            .line(LEFT, -APEX_X)
            .bend(left.l(320.0), 320.0, 0.0, X)
            .close(),
    )
}

pub(crate) fn y() -> Drawing {
    const WIDTH: f64 = 492.0;
    let left = Slant::from_left((FLARE, X), (205.0, -APEX_X), THICK);
    let right = Slant::from_right((WIDTH - FLARE, X), (287.0, -APEX_X), THIN);
    let crotch = meet(left.right(), right.left());
    // Where the left stroke runs into the tail.
    let join = meet(left.left(), right.left());
    Drawing::ink(
        Pen::at(0.0, X)
            .line(left.r(X) + SPUR, X)
            .bend(left.r(340.0), 340.0, crotch.x, crotch.y)
            .bend(right.l(340.0), 340.0, right.l(X) - SPUR, X)
            .line(WIDTH, X)
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

pub(crate) fn w() -> Drawing {
    const CUT: f64 = 74.0;
    const RUN: f64 = 168.0;
    const SLOPE: f64 = RUN / (X + APEX_X);
    let (thick, thin) = (THICK * LIGHTER, THIN * LIGHTER);
    let first = Slant::from_left((FLARE, X), (FLARE + RUN, -APEX_X), thick);
    let low = first.l(-APEX_X) + CUT;
    let high = X + APEX_X;
    let rise = SLOPE * (high + APEX_X);
    let second = Slant::from_right((low, -APEX_X), (low + rise, high), thin);
    let peak = second.l(high) + CUT;
    let third = Slant::from_right((peak, high), (peak + rise, -APEX_X), thick);
    let low_right = third.l(-APEX_X) + CUT;
    let fourth = Slant::from_right((low_right, -APEX_X), (low_right + RUN, X), thin);
    let width = fourth.r(X) + FLARE;
    let left_crotch = meet(first.right(), second.left());
    let middle_crotch = meet(second.right(), third.left());
    let right_crotch = meet(third.right(), fourth.left());
    Drawing::ink(
        Pen::at(0.0, X)
            .line(first.r(X) + SPUR, X)
            .bend(first.r(340.0), 340.0, left_crotch.x, left_crotch.y)
            .line(second.l(high), high)
            .line(peak, high)
            .line(right_crotch.x, right_crotch.y)
            .bend(fourth.l(340.0), 340.0, fourth.l(X) - SPUR, X)
            .line(width, X)
            .bend(fourth.r(320.0), 320.0, low_right, -APEX_X)
            .line(third.l(-APEX_X), -APEX_X)
            .line(middle_crotch.x, middle_crotch.y)
            .line(low, -APEX_X)
            .line(first.l(-APEX_X), -APEX_X)
            .bend(first.l(320.0), 320.0, 0.0, X)
            .close(),
    )
}

pub(crate) fn x() -> Drawing {
    const WIDTH: f64 = 484.0;
    const INSET: f64 = 10.0;
    const BREAK: f64 = 5.0;
    let thick = Slant::from_left((INSET + FLARE, X), (332.0, 0.0), THICK);
    let up = |shift: f64| {
        Slant::from_left(
            (FLARE + shift, 0.0),
            (WIDTH - INSET - FLARE - 96.0 + shift, X),
            THIN,
        )
    };
    let (low, high) = (up(BREAK), up(-BREAK));
    let top = meet(thick.right(), high.left());
    let right = meet(thick.right(), high.right());
    let foot = meet(thick.left(), low.right());
    let left = meet(thick.left(), low.left());
    Drawing::ink(
        Pen::at(low.l(0.0) - FLARE, 0.0)
            .bend(low.l(90.0), 90.0, left.x, left.y)
            .bend(thick.l(410.0), 410.0, thick.l(X) - FLARE, X)
            .line(thick.r(X) + SPUR, X)
            .bend(thick.r(410.0), 410.0, top.x, top.y)
            .bend(high.l(410.0), 410.0, high.l(X) - SPUR, X)
            .line(high.r(X) + FLARE, X)
            .bend(high.r(410.0), 410.0, right.x, right.y)
            .bend(thick.r(90.0), 90.0, thick.r(0.0) + FLARE, 0.0)
            .line(thick.l(0.0) - SPUR, 0.0)
            .bend(thick.l(90.0), 90.0, foot.x, foot.y)
            .bend(low.r(90.0), 90.0, low.r(0.0) + SPUR, 0.0)
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
    let root = arm_root(&arm);
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

/// Height at which the lower edge of the arm of k meets the stem.
fn arm_root(arm: &Slant) -> f64 {
    (IN - arm.r(0.0)) / (arm.r(1.0) - arm.r(0.0))
}
