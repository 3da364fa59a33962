//! Capitals of diagonals: A K M N V W X Y Z.

use crate::capitals_straight::{END, IN, OUT, WAIST};
use crate::pen::{Drawing, Pen};
use crate::slant::{Slant, meet};
use crate::style::{APEX, BAR, CAP, FLARE, STEM};

/// A diagonal that a right-handed brush draws downwards, across the stroke.
const THICK: f64 = 110.0;
/// A diagonal that it draws upwards.
const THIN: f64 = 86.0;
/// Strokes of M, N and W are lighter: there are more of them to the em.
const LIGHTER: f64 = 0.89;
/// How far a diagonal's inner edge stands out at its foot; less than
/// [`FLARE`], since the slant already adds to the level cut.
const SPUR: f64 = 6.0;

pub(crate) fn a() -> Drawing {
    const WIDTH: f64 = 652.0;
    const CUT: f64 = 88.0;
    const LEFT: f64 = (WIDTH - CUT) / 2.0;
    const TOP: f64 = CAP + APEX;
    const BAR_FOOT: f64 = 166.0;
    const BAR_TOP: f64 = BAR_FOOT + BAR - 6.0;
    let left = Slant::from_left((FLARE, 0.0), (LEFT, TOP), THIN);
    let right = Slant::from_right((WIDTH - FLARE, 0.0), (LEFT + CUT, TOP), THICK);
    let crotch = meet(left.right(), right.left());
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .bend(left.l(260.0), 260.0, LEFT, TOP)
            .line(LEFT + CUT, TOP)
            .bend(right.r(260.0), 260.0, WIDTH, 0.0)
            .line(right.l(0.0) - SPUR, 0.0)
            .bend(right.l(84.0), 84.0, right.l(BAR_FOOT), BAR_FOOT)
            .line(left.r(BAR_FOOT), BAR_FOOT)
            .bend(left.r(84.0), 84.0, left.r(0.0) + SPUR, 0.0)
            .close(),
    )
    .counter(
        Pen::at(left.r(BAR_TOP), BAR_TOP)
            .line(crotch.x, crotch.y)
            .line(right.l(BAR_TOP), BAR_TOP)
            .close(),
    )
}

pub(crate) fn v() -> Drawing {
    const WIDTH: f64 = 640.0;
    const CUT: f64 = 88.0;
    const LEFT: f64 = (WIDTH - CUT) / 2.0;
    let left = Slant::from_left((FLARE, CAP), (LEFT, -APEX), THICK);
    let right = Slant::from_right((WIDTH - FLARE, CAP), (LEFT + CUT, -APEX), THIN);
    let crotch = meet(left.right(), right.left());
    Drawing::ink(
        Pen::at(0.0, CAP)
            .line(left.r(CAP) + SPUR, CAP)
            .bend(left.r(450.0), 450.0, crotch.x, crotch.y)
            .bend(right.l(450.0), 450.0, right.l(CAP) - SPUR, CAP)
            .line(WIDTH, CAP)
            .bend(right.r(440.0), 440.0, LEFT + CUT, -APEX)
            .line(LEFT, -APEX)
            .bend(left.l(440.0), 440.0, 0.0, CAP)
            .close(),
    )
}

pub(crate) fn w() -> Drawing {
    const CUT: f64 = 80.0;
    // Level run of every edge from the cap line to a lower vertex.
    const RUN: f64 = 214.0;
    const SLOPE: f64 = RUN / (CAP + APEX);
    let (thick, thin) = (THICK * LIGHTER, THIN * LIGHTER);
    // The edges outside the vertices and the middle apex follow from one
    // slope, so the four strokes lean alike.
    let first = Slant::from_left((FLARE, CAP), (FLARE + RUN, -APEX), thick);
    let low = first.l(-APEX) + CUT;
    let high = CAP + APEX;
    let rise = SLOPE * (high + APEX);
    let second = Slant::from_right((low, -APEX), (low + rise, high), thin);
    let peak = second.l(high) + CUT;
    let third = Slant::from_right((peak, high), (peak + rise, -APEX), thick);
    let low_right = third.l(-APEX) + CUT;
    let fourth = Slant::from_right((low_right, -APEX), (low_right + RUN, CAP), thin);
    let width = fourth.r(CAP) + FLARE;
    let left_crotch = meet(first.right(), second.left());
    let middle_crotch = meet(second.right(), third.left());
    let right_crotch = meet(third.right(), fourth.left());
    Drawing::ink(
        Pen::at(0.0, CAP)
            .line(first.r(CAP) + SPUR, CAP)
            .bend(first.r(450.0), 450.0, left_crotch.x, left_crotch.y)
            .line(second.l(high), high)
            .line(peak, high)
            .line(right_crotch.x, right_crotch.y)
            .bend(fourth.l(450.0), 450.0, fourth.l(CAP) - SPUR, CAP)
            .line(width, CAP)
            .bend(fourth.r(440.0), 440.0, low_right, -APEX)
            .line(third.l(-APEX), -APEX)
            .line(middle_crotch.x, middle_crotch.y)
            .line(low, -APEX)
            .line(first.l(-APEX), -APEX)
            .bend(first.l(440.0), 440.0, 0.0, CAP)
            .close(),
    )
}

pub(crate) fn m() -> Drawing {
    const WIDTH: f64 = 748.0;
    const CUT: f64 = 82.0;
    const TOP: f64 = 142.0;
    let stem = OUT + STEM * LIGHTER;
    let end = stem + FLARE;
    let vertex = (WIDTH - CUT) / 2.0;
    let down = Slant::from_left((TOP - 119.0, CAP), (vertex, -APEX), THICK * LIGHTER);
    let up = Slant::from_right(
        (WIDTH - TOP + 119.0, CAP),
        (vertex + CUT, -APEX),
        THIN * LIGHTER,
    );
    let crotch = meet(down.right(), up.left());
    let left_y = height_at(&down, stem);
    let right_y = height_at_right(&up, WIDTH - stem);
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(down.r(CAP), CAP)
            .line(crotch.x, crotch.y)
            .line(up.l(CAP), CAP)
            .line(WIDTH, CAP)
            .narrow(WIDTH - OUT, WAIST)
            .widen(WIDTH, 0.0)
            .line(WIDTH - end, 0.0)
            .narrow(WIDTH - stem, WAIST)
            .line(WIDTH - stem, right_y)
            .line(vertex + CUT, -APEX)
            .line(vertex, -APEX)
            .line(stem, left_y)
            .line(stem, WAIST)
            .widen(end, 0.0)
            .close(),
    )
}

pub(crate) fn n() -> Drawing {
    const WIDTH: f64 = 596.0;
    const TOP: f64 = 122.0;
    let stem = OUT + STEM * LIGHTER;
    let end = stem + FLARE;
    // The slope that makes the letter the same when turned half round.
    let diagonal = Slant::from_right((TOP, CAP), (WIDTH - TOP + 139.0, 0.0), THICK);
    let foot = diagonal.l(0.0);
    let left_y = height_at(&diagonal, stem);
    let right_y = height_at_right(&diagonal, WIDTH - stem);
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(TOP, CAP)
            .line(WIDTH - stem, right_y)
            .line(WIDTH - stem, WAIST)
            .widen(WIDTH - end, CAP)
            .line(WIDTH, CAP)
            .narrow(WIDTH - OUT, WAIST)
            .widen(WIDTH, 0.0)
            .line(foot, 0.0)
            .line(stem, left_y)
            .line(stem, WAIST)
            .widen(end, 0.0)
            .close(),
    )
}

pub(crate) fn k() -> Drawing {
    const WIDTH: f64 = 592.0;
    let arm = Slant::from_left((IN, 304.0), (438.0, CAP), THIN);
    let leg = Slant::from_right((WIDTH - FLARE, 0.0), (268.0, 418.0), THICK);
    let high = meet(arm.right(), leg.right());
    let low = meet(arm.right(), leg.left());
    let root = height_at_right(&arm, IN);
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(END, CAP)
            .narrow(IN, WAIST)
            .line(IN, 304.0)
            .bend(arm.l(540.0), 540.0, arm.l(CAP) - SPUR, CAP)
            .line(arm.r(CAP) + FLARE, CAP)
            .bend(arm.r(560.0), 560.0, high.x, high.y)
            .bend(leg.r(170.0), 170.0, WIDTH, 0.0)
            .line(leg.l(0.0) - SPUR, 0.0)
            .bend(leg.l(150.0), 150.0, low.x, low.y)
            .line(IN, root)
            .widen(END, 0.0)
            .close(),
    )
}

pub(crate) fn x() -> Drawing {
    const WIDTH: f64 = 606.0;
    const INSET: f64 = 18.0;
    // The thin stroke is broken behind the thick one, or it would seem to be.
    const BREAK: f64 = 5.0;
    let thick = Slant::from_left((INSET + FLARE, CAP), (424.0, 0.0), THICK);
    let up = |shift: f64| {
        Slant::from_left(
            (FLARE + shift, 0.0),
            (WIDTH - INSET - FLARE - 104.0 + shift, CAP),
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
            .bend(low.l(130.0), 130.0, left.x, left.y)
            .bend(thick.l(570.0), 570.0, thick.l(CAP) - FLARE, CAP)
            .line(thick.r(CAP) + SPUR, CAP)
            .bend(thick.r(570.0), 570.0, top.x, top.y)
            .bend(high.l(570.0), 570.0, high.l(CAP) - SPUR, CAP)
            .line(high.r(CAP) + FLARE, CAP)
            .bend(high.r(570.0), 570.0, right.x, right.y)
            .bend(thick.r(130.0), 130.0, thick.r(0.0) + FLARE, 0.0)
            .line(thick.l(0.0) - SPUR, 0.0)
            .bend(thick.l(130.0), 130.0, foot.x, foot.y)
            .bend(low.r(130.0), 130.0, low.r(0.0) + SPUR, 0.0)
            .close(),
    )
}

pub(crate) fn y() -> Drawing {
    const WIDTH: f64 = 612.0;
    const STEM_LEFT: f64 = 256.0;
    const STEM_RIGHT: f64 = STEM_LEFT + STEM;
    const FORK: f64 = 296.0;
    let left = Slant::from_left((FLARE, CAP), (STEM_LEFT, FORK), THICK);
    let right = Slant::from_right((WIDTH - FLARE, CAP), (STEM_RIGHT, FORK), THIN);
    let crotch = meet(left.right(), right.left());
    Drawing::ink(
        Pen::at(0.0, CAP)
            .line(left.r(CAP) + SPUR, CAP)
            .bend(left.r(560.0), 560.0, crotch.x, crotch.y)
            .bend(right.l(560.0), 560.0, right.l(CAP) - SPUR, CAP)
            .line(WIDTH, CAP)
            .bend(right.r(560.0), 560.0, STEM_RIGHT, FORK)
            .line(STEM_RIGHT, 240.0)
            .widen(STEM_RIGHT + FLARE, 0.0)
            .line(STEM_LEFT - FLARE, 0.0)
            .narrow(STEM_LEFT, 240.0)
            .line(STEM_LEFT, FORK)
            .bend(left.l(560.0), 560.0, 0.0, CAP)
            .close(),
    )
}

pub(crate) fn z() -> Drawing {
    const WIDTH: f64 = 534.0;
    const CORNER: f64 = 62.0;
    let diagonal = Slant::from_left((0.0, CORNER), (372.0, CAP - CORNER), THICK);
    let right = diagonal.r(CAP - CORNER);
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .line(0.0, CORNER)
            .line(diagonal.l(CAP - BAR), CAP - BAR)
            .widen_level(26.0, 604.0)
            .line(18.0, CAP)
            .line(right, CAP)
            .line(right, CAP - CORNER)
            .line(diagonal.r(BAR), BAR)
            .widen_level(WIDTH - 9.0, 98.0)
            .line(WIDTH, 0.0)
            .close(),
    )
}

/// Height at which a stroke's left edge passes a place.
fn height_at(stroke: &Slant, x: f64) -> f64 {
    height(stroke.l(0.0), stroke.l(1.0), x)
}

/// Height at which a stroke's right edge passes a place.
fn height_at_right(stroke: &Slant, x: f64) -> f64 {
    height(stroke.r(0.0), stroke.r(1.0), x)
}

fn height(at_0: f64, at_1: f64, x: f64) -> f64 {
    (x - at_0) / (at_1 - at_0)
}
