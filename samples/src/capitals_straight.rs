//! Capitals of stems and bars: E F H I L T.

use crate::pen::{Drawing, Pen};
use crate::style::{BAR, CAP, FLARE, STEM};

/// Where a stem at the left edge has its waist: outside and inside.
pub(crate) const OUT: f64 = FLARE;
pub(crate) const IN: f64 = FLARE + STEM;
/// Full width of a stem at its flared ends.
pub(crate) const END: f64 = STEM + 2.0 * FLARE;
/// Middle of the height, where stems are thinnest.
pub(crate) const WAIST: f64 = CAP / 2.0;

pub(crate) fn i() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(END, CAP)
            .narrow(IN, WAIST)
            .widen(END, 0.0)
            .close(),
    )
}

pub(crate) fn h() -> Drawing {
    const WIDTH: f64 = 566.0;
    // A little above the middle, or it would seem to sag.
    const BAR_FOOT: f64 = 325.0;
    const BAR_TOP: f64 = BAR_FOOT + BAR;
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(END, CAP)
            .narrow(IN, BAR_TOP)
            .line(WIDTH - IN, BAR_TOP)
            .widen(WIDTH - END, CAP)
            .line(WIDTH, CAP)
            .narrow(WIDTH - OUT, WAIST)
            .widen(WIDTH, 0.0)
            .line(WIDTH - END, 0.0)
            .narrow(WIDTH - IN, BAR_FOOT)
            .line(IN, BAR_FOOT)
            .widen(END, 0.0)
            .close(),
    )
}

pub(crate) fn e() -> Drawing {
    e_with(STEM)
}

/// E on a stem of another thickness, which grows into the counters.
pub(crate) fn e_with(stem: f64) -> Drawing {
    const MIDDLE: f64 = 399.0;
    let inside = OUT + stem;
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(412.0, CAP)
            .line(404.0, 604.0)
            .narrow_level(inside, CAP - BAR)
            .line(inside, MIDDLE)
            .widen_level(366.0, MIDDLE + 9.0)
            .line(366.0, MIDDLE - BAR - 3.0)
            .narrow_level(inside, MIDDLE - BAR)
            .line(inside, BAR + 2.0)
            .widen_level(422.0, 100.0)
            .line(431.0, 0.0)
            .close(),
    )
}

pub(crate) fn f() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(406.0, CAP)
            .line(398.0, 604.0)
            .narrow_level(IN, CAP - BAR)
            .line(IN, 377.0)
            .widen_level(360.0, 386.0)
            .line(360.0, 296.0)
            .narrow_level(IN, 377.0 - BAR)
            .widen(END, 0.0)
            .close(),
    )
}

pub(crate) fn l() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, WAIST)
            .widen(0.0, CAP)
            .line(END, CAP)
            .narrow(IN, WAIST)
            .line(IN, BAR + 2.0)
            .widen_level(402.0, 100.0)
            .line(411.0, 0.0)
            .close(),
    )
}

pub(crate) fn t() -> Drawing {
    const WIDTH: f64 = 538.0;
    const LEFT: f64 = (WIDTH - STEM) / 2.0;
    // Only the foot is free to flare, so the flare begins higher than on I.
    const T_WAIST: f64 = 480.0;
    const RIGHT: f64 = LEFT + STEM;
    Drawing::ink(
        Pen::at(LEFT - FLARE, 0.0)
            .narrow(LEFT, T_WAIST)
            .line(LEFT, CAP - BAR)
            .widen_level(8.0, 604.0)
            .line(0.0, CAP)
            .line(WIDTH, CAP)
            .line(WIDTH - 8.0, 604.0)
            .narrow_level(RIGHT, CAP - BAR)
            .line(RIGHT, T_WAIST)
            .widen(RIGHT + FLARE, 0.0)
            .close(),
    )
}
