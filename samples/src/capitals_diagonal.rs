//! Capitals of diagonals: A K M N V W X Y Z.

use crate::capitals_straight::{END, IN, OUT, WAIST};
use crate::forked::{self, Case};
use crate::pen::{Drawing, Pen};
use crate::slant::{Slant, meet};
use crate::style::{APEX, BAR, CAP, FLARE, STEM};

/// What the diagonals share.
const CASE: Case = Case {
    top: CAP,
    apex: APEX,
    thick: THICK,
    thin: THIN,
    lighter: LIGHTER,
    spur: SPUR,
};
/// A diagonal drawn downwards, across the stroke.
const THICK: f64 = 110.0;
/// A diagonal drawn upwards.
const THIN: f64 = 86.0;
/// Strokes of M, N and W are lighter: there are more of them to the em.
const LIGHTER: f64 = 0.89;
/// How far a diagonal's inner edge stands out at its foot.
const SPUR: f64 = 6.0;

pub(crate) fn v() -> Drawing {
    forked::v(CASE, 640.0, 88.0)
}

pub(crate) fn w() -> Drawing {
    forked::w(CASE, 214.0, 80.0)
}

pub(crate) fn x() -> Drawing {
    forked::x(CASE, (28.0, 424.0), (FLARE, 474.0))
}

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

pub(crate) fn m() -> Drawing {
    const WIDTH: f64 = 748.0;
    const CUT: f64 = 82.0;
    const TOP: f64 = 142.0;
    // Between stems that stand on the line, a vertex passes it by less.
    const VERTEX: f64 = APEX / 2.0;
    let stem = OUT + STEM * LIGHTER;
    let end = stem + FLARE;
    let vertex = (WIDTH - CUT) / 2.0;
    let down = Slant::from_left((TOP - 119.0, CAP), (vertex, -VERTEX), THICK * LIGHTER);
    let up = Slant::from_right(
        (WIDTH - TOP + 119.0, CAP),
        (vertex + CUT, -VERTEX),
        THIN * LIGHTER,
    );
    let crotch = meet(down.right(), up.left());
    let left_y = down.left_height(stem);
    let right_y = up.right_height(WIDTH - stem);
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
            .line(vertex + CUT, -VERTEX)
            .line(vertex, -VERTEX)
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
    let left_y = diagonal.left_height(stem);
    let right_y = diagonal.right_height(WIDTH - stem);
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
    let root = arm.right_height(IN);
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
