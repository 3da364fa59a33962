//! Points, quotes, hyphen, ampersand, and the empty glyph's box.

use crate::lower_straight::{DOT, dot};
use crate::pen::{Drawing, Pen};
use crate::style::{CAP, FULL, OVER, THIN, X};

/// Points stand a little below the baseline, as rounds do.
const LOW: f64 = DOT / 2.0 - 8.0;

pub(crate) fn notdef() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .line(0.0, CAP)
            .line(400.0, CAP)
            .line(400.0, 0.0)
            .close(),
    )
    .counter(
        Pen::at(48.0, 48.0)
            .line(48.0, CAP - 48.0)
            .line(352.0, CAP - 48.0)
            .line(352.0, 48.0)
            .close(),
    )
}

pub(crate) fn period() -> Drawing {
    Drawing::ink(dot(0.0, LOW).contour())
}

pub(crate) fn colon() -> Drawing {
    period().and_ink(dot(0.0, X - DOT / 2.0 - 12.0).contour())
}

/// A comma whose head is a dot about a centre.
fn tailed(x: f64, y: f64) -> kurbo::BezPath {
    let r = DOT / 2.0;
    Pen::at(x - r, y)
        .turn_up(x, y + r, FULL)
        .turn(x + r, y - 4.0, FULL)
        .curve((0.0, -92.0), (70.0, 38.0), x - r - 4.0, y - 3.0 * r)
        .line(x - r - 14.0, y - 3.0 * r + 26.0)
        .curve((52.0, 34.0), (0.0, -34.0), x + 4.0, y - r)
        .turn(x - r, y, FULL)
        .close()
}

pub(crate) fn comma() -> Drawing {
    Drawing::ink(tailed(0.0, LOW))
}

pub(crate) fn semicolon() -> Drawing {
    comma().and_ink(dot(0.0, X - DOT / 2.0 - 12.0).contour())
}

/// A level stroke waisted as the stems are.
fn level(width: f64) -> Drawing {
    let middle = width / 2.0;
    Drawing::ink(
        Pen::at(0.0, 206.0)
            .line(0.0, 294.0)
            .narrow_level(middle, 286.0)
            .widen_level(width, 294.0)
            .line(width, 206.0)
            .narrow_level(middle, 214.0)
            .widen_level(0.0, 206.0)
            .close(),
    )
}

pub(crate) fn hyphen() -> Drawing {
    level(252.0)
}

pub(crate) fn dash() -> Drawing {
    level(436.0)
}

pub(crate) fn exclamation() -> Drawing {
    Drawing::ink(
        Pen::at(-34.0, 206.0)
            .bend(-40.0, 430.0, -66.0, CAP)
            .line(66.0, CAP)
            .bend(40.0, 430.0, 34.0, 206.0)
            .close(),
    )
    .and_ink(dot(0.0, LOW).contour())
}

pub(crate) fn question() -> Drawing {
    Drawing::ink(
        Pen::at(128.0, 206.0)
            .line(128.0, 262.0)
            .curve((0.0, 128.0), (0.0, -112.0), 276.0, 536.0)
            .curve((0.0, 70.0), (64.0, 0.0), 168.0, CAP + OVER - THIN)
            .curve((-60.0, 0.0), (40.0, 42.0), 12.0, 560.0)
            .line(0.0, 668.0)
            .curve((54.0, 28.0), (-72.0, 0.0), 184.0, CAP + OVER)
            .turn(388.0, 540.0, FULL)
            .curve((0.0, -150.0), (0.0, 118.0), 210.0, 262.0)
            .line(210.0, 206.0)
            .close(),
    )
    .and_ink(dot(169.0, LOW).contour())
}

/// A straight quote, a wedge from the cap line.
fn wedge(x: f64) -> kurbo::BezPath {
    Pen::at(x - 30.0, 446.0)
        .line(x - 52.0, CAP)
        .line(x + 52.0, CAP)
        .line(x + 30.0, 446.0)
        .close()
}

/// Distance between the two marks of a double quote.
const APART: f64 = 178.0;
/// Height of a curled quote's head below the cap line.
const CURLED: f64 = CAP - DOT / 2.0 + 8.0;

pub(crate) fn quote_single() -> Drawing {
    Drawing::ink(wedge(0.0))
}

pub(crate) fn quote_double() -> Drawing {
    Drawing::ink(wedge(0.0)).and_ink(wedge(APART))
}

pub(crate) fn quote_right() -> Drawing {
    Drawing::ink(tailed(0.0, CURLED))
}

pub(crate) fn quote_double_right() -> Drawing {
    Drawing::ink(tailed(0.0, CURLED)).and_ink(tailed(APART, CURLED))
}

/// Turned so that opening and closing quotes reach equally high and low.
const TURNED: f64 = 2.0 * CURLED - DOT;

pub(crate) fn quote_left() -> Drawing {
    quote_right().turned(TURNED)
}

pub(crate) fn quote_double_left() -> Drawing {
    quote_double_right().turned(TURNED)
}

pub(crate) fn ampersand() -> Drawing {
    Drawing::ink(
        Pen::at(112.0, 556.0)
            .turn_up(270.0, CAP + OVER, FULL)
            .turn(424.0, 574.0, FULL)
            .curve((0.0, -54.0), (74.0, 52.0), 326.0, 408.0)
            .line(478.0, 236.0)
            .curve((32.0, 46.0), (-6.0, -54.0), 530.0, 380.0)
            .line(636.0, 380.0)
            .curve((-12.0, -96.0), (46.0, 78.0), 550.0, 156.0)
            .line(692.0, 0.0)
            .line(554.0, 0.0)
            .line(484.0, 78.0)
            .curve((-66.0, -58.0), (90.0, 0.0), 240.0, -OVER)
            .turn(0.0, 186.0, FULL)
            .curve((0.0, 96.0), (-92.0, -46.0), 170.0, 386.0)
            .curve((-38.0, 50.0), (0.0, -66.0), 112.0, 556.0)
            .close(),
    )
    .counter(
        Pen::at(208.0, 560.0)
            .curve((0.0, 50.0), (-36.0, 0.0), 268.0, 646.0)
            .curve((36.0, 0.0), (0.0, 44.0), 328.0, 572.0)
            .curve((0.0, -46.0), (44.0, 26.0), 262.0, 474.0)
            .curve((-36.0, 25.0), (0.0, -40.0), 208.0, 560.0)
            .close(),
    )
    .counter(
        Pen::at(112.0, 196.0)
            .curve((0.0, -80.0), (-76.0, 0.0), 262.0, 60.0)
            .curve((72.0, 0.0), (-50.0, -40.0), 428.0, 136.0)
            .line(234.0, 342.0)
            .curve((-76.0, -34.0), (0.0, 72.0), 112.0, 196.0)
            .close(),
    )
}
