//! Lower case of rounds: c e o, and b d p q of a stem and a round.

use crate::lower_arched::{END, IN, OUT, SPRING};
use crate::oval::Oval;
use crate::pen::{Drawing, Pen};
use crate::style::{ASC, DESC, FULL, FULL_IN, LEAN, OVER_X, ROUND_X, THIN_X, X};

const TOP: f64 = X + OVER_X;
const FOOT: f64 = -OVER_X;
/// Ink width of o.
const WIDTH: f64 = 500.0;
/// Right edge of the bowl of b and p.
const BOWL: f64 = 494.0;

pub(crate) fn o() -> Drawing {
    let outside = Oval {
        left: 0.0,
        foot: FOOT,
        right: WIDTH,
        top: TOP,
        lean: 0.0,
        fullness: FULL,
    };
    let inside = Oval {
        left: ROUND_X,
        foot: FOOT + THIN_X,
        right: WIDTH - ROUND_X,
        top: TOP - THIN_X,
        lean: LEAN,
        fullness: FULL_IN,
    };
    Drawing::ink(outside.contour()).counter(inside.contour())
}

pub(crate) fn c() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 250.0)
            .turn_up(258.0, TOP, FULL)
            .curve((64.0, 0.0), (-46.0, 22.0), 420.0, 472.0)
            .line(412.0, 366.0)
            .curve((-40.0, 52.0), (62.0, 0.0), 254.0, TOP - THIN_X)
            .curve((-92.0, 0.0), (0.0, 118.0), ROUND_X, 262.0)
            .curve((0.0, -132.0), (-98.0, 0.0), 274.0, FOOT + THIN_X)
            .curve((62.0, 0.0), (-44.0, -44.0), 418.0, 122.0)
            .line(426.0, 34.0)
            .curve((-46.0, -28.0), (68.0, 0.0), 262.0, FOOT)
            .turn(0.0, 250.0, FULL)
            .close(),
    )
}

pub(crate) fn e() -> Drawing {
    const RIGHT: f64 = 470.0;
    const BAR_FOOT: f64 = 226.0;
    const BAR_TOP: f64 = BAR_FOOT + 66.0;
    Drawing::ink(
        Pen::at(0.0, 250.0)
            .turn_up(248.0, TOP, FULL)
            .turn(RIGHT, 276.0, FULL)
            .line(RIGHT, BAR_FOOT)
            .line(ROUND_X + 2.0, BAR_FOOT)
            .curve((8.0, -108.0), (-92.0, 0.0), 276.0, FOOT + THIN_X + 2.0)
            .curve((68.0, 0.0), (-46.0, -40.0), 446.0, 120.0)
            .line(454.0, 34.0)
            .curve((-48.0, -28.0), (76.0, 0.0), 270.0, FOOT)
            .turn(0.0, 250.0, FULL)
            .close(),
    )
    .counter(
        Pen::at(ROUND_X + 2.0, BAR_TOP)
            .curve((6.0, 92.0), (-74.0, 0.0), 240.0, TOP - THIN_X)
            .curve((72.0, 0.0), (0.0, 88.0), RIGHT - ROUND_X + 2.0, BAR_TOP)
            .close(),
    )
}

/// The bowl of p and b from where it leaves the stem above, round to its foot.
fn bowl(pen: Pen) -> Pen {
    pen.curve((38.0, 54.0), (-72.0, 0.0), 288.0, TOP)
        .turn(BOWL, 252.0, FULL)
        .turn_up(268.0, FOOT, FULL)
}

/// The counter of p and b: straight along the stem.
fn counter() -> Pen {
    Pen::at(IN, 122.0)
        .line(IN, 354.0)
        .curve((40.0, 58.0), (-54.0, 0.0), 260.0, TOP - THIN_X - 4.0)
        .curve((74.0, 0.0), (0.0, 116.0), BOWL - ROUND_X, 240.0)
        .curve((0.0, -112.0), (76.0, 0.0), 262.0, FOOT + THIN_X + 4.0)
        .curve((-54.0, 0.0), (44.0, -42.0), IN, 122.0)
}

pub(crate) fn p() -> Drawing {
    let stem = Pen::at(0.0, DESC)
        .narrow(OUT, (X + DESC) / 2.0)
        .widen(0.0, X)
        .line(END - 3.0, X)
        .narrow(IN, SPRING);
    Drawing::ink(
        bowl(stem)
            .curve((-66.0, 0.0), (44.0, -28.0), IN, 40.0)
            .line(IN, -20.0)
            .widen(END, DESC)
            .close(),
    )
    .counter(counter().close())
}

pub(crate) fn d() -> Drawing {
    p().turned(X)
}

pub(crate) fn b() -> Drawing {
    let stem = Pen::at(OUT, 34.0)
        .line(OUT, ASC / 2.0)
        .widen(0.0, ASC)
        .line(END, ASC)
        .narrow(IN, SPRING);
    Drawing::ink(
        bowl(stem)
            .curve((-72.0, 0.0), (90.0, -30.0), OUT, 34.0)
            .close(),
    )
    .counter(counter().close())
}

pub(crate) fn q() -> Drawing {
    b().turned(X)
}
