//! Capitals of rounds: C G J O Q S U.

use kurbo::ParamCurve;

use crate::capitals_straight::{END, IN, OUT};
use crate::oval::Oval;
use crate::pen::{Drawing, Pen};
use crate::style::{CAP, FLARE, FULL, FULL_IN, LEAN, OVER, ROUND, STEM, THIN};

/// Ink width of O.
const WIDTH: f64 = 656.0;
const TOP: f64 = CAP + OVER;

fn outside() -> Oval {
    Oval {
        left: 0.0,
        foot: -OVER,
        right: WIDTH,
        top: TOP,
        lean: 0.0,
        fullness: FULL,
    }
}

fn inside() -> Oval {
    Oval {
        left: ROUND,
        foot: THIN - OVER,
        right: WIDTH - ROUND,
        top: TOP - THIN,
        lean: LEAN,
        fullness: FULL_IN,
    }
}

pub(crate) fn o() -> Drawing {
    Drawing::ink(outside().contour()).counter(inside().contour())
}

pub(crate) fn q() -> Drawing {
    let ring = outside();
    let left = ring.at_left();
    // The tail leaves the ring between two places of its lower right quarter.
    let quarter = ring.lower_right();
    let under = quarter.subsegment(0.93..1.0);
    Drawing::ink(
        Pen::at(left.x, left.y)
            .along(ring.upper_left())
            .along(ring.upper_right())
            .along(quarter.subsegment(0.0..0.70))
            .curve((70.0, -56.0), (-70.0, 4.0), 724.0, -96.0)
            .line(712.0, -192.0)
            .curve((-138.0, 0.0), (82.0, -78.0), under.p0.x, under.p0.y)
            .along(under)
            .along(ring.lower_left())
            .close(),
    )
    .counter(inside().contour())
}

pub(crate) fn c() -> Drawing {
    c_with(OVER)
}

/// C that passes the flats by another amount.
pub(crate) fn c_with(over: f64) -> Drawing {
    let (top, foot) = (CAP + over, -over);
    Drawing::ink(
        Pen::at(0.0, 350.0)
            .turn_up(342.0, top, FULL)
            .curve((84.0, 0.0), (-64.0, 34.0), 554.0, 654.0)
            .line(546.0, 536.0)
            .curve((-52.0, 62.0), (84.0, 0.0), 336.0, top - THIN)
            .curve((-132.0, 0.0), (0.0, 166.0), ROUND, 366.0)
            .curve((0.0, -190.0), (-136.0, 0.0), 362.0, foot + THIN)
            .curve((76.0, 0.0), (-58.0, -52.0), 552.0, 156.0)
            .line(560.0, 48.0)
            .curve((-60.0, -38.0), (90.0, 0.0), 346.0, foot)
            .turn(0.0, 350.0, FULL)
            .close(),
    )
}

pub(crate) fn g() -> Drawing {
    const RIGHT: f64 = 604.0;
    // A short stem, so its end stands out less than a tall one's.
    const SPUR: f64 = 7.0;
    Drawing::ink(
        Pen::at(0.0, 350.0)
            .turn_up(342.0, TOP, FULL)
            .curve((84.0, 0.0), (-64.0, 34.0), 562.0, 654.0)
            .line(554.0, 536.0)
            .curve((-52.0, 62.0), (88.0, 0.0), 336.0, TOP - THIN)
            .curve((-132.0, 0.0), (0.0, 166.0), ROUND, 366.0)
            .curve((0.0, -190.0), (-130.0, 0.0), 362.0, THIN - OVER)
            .curve((50.0, 0.0), (-42.0, -24.0), RIGHT - STEM, 104.0)
            .line(RIGHT - STEM, 150.0)
            .widen(RIGHT - STEM - SPUR, 336.0)
            .line(RIGHT + SPUR, 336.0)
            .narrow(RIGHT, 150.0)
            .line(RIGHT, 52.0)
            .curve((-70.0, -42.0), (96.0, 0.0), 346.0, -OVER)
            .turn(0.0, 350.0, FULL)
            .close(),
    )
}

pub(crate) fn s() -> Drawing {
    Drawing::ink(
        Pen::at(424.0, 540.0)
            .curve((-46.0, 70.0), (70.0, 0.0), 252.0, TOP - THIN - 2.0)
            .curve((-72.0, 0.0), (0.0, 54.0), 138.0, 542.0)
            .curve((0.0, -119.0), (0.0, 195.0), 468.0, 179.0)
            .turn_up(224.0, -OVER, FULL)
            .curve((-84.0, 0.0), (58.0, -38.0), 12.0, 56.0)
            .line(24.0, 172.0)
            .curve((48.0, -74.0), (-74.0, 0.0), 232.0, THIN - OVER + 2.0)
            .curve((78.0, 0.0), (0.0, -60.0), 356.0, 171.0)
            .curve((0.0, 121.0), (0.0, -195.0), 26.0, 534.0)
            .turn_up(256.0, TOP, FULL)
            .curve((74.0, 0.0), (-56.0, 34.0), 434.0, 654.0)
            .close(),
    )
}

pub(crate) fn u() -> Drawing {
    const RIGHT: f64 = 572.0;
    const TURN: f64 = 268.0;
    Drawing::ink(
        Pen::at(0.0, CAP)
            .line(END, CAP)
            .narrow(IN, TURN)
            .curve((0.0, -150.0), (-86.0, 0.0), 300.0, THIN - OVER + 6.0)
            .curve((96.0, 0.0), (0.0, -142.0), RIGHT - STEM, TURN - 16.0)
            .widen(RIGHT - STEM - FLARE, CAP)
            .line(RIGHT + FLARE, CAP)
            .narrow(RIGHT, TURN)
            .turn_up(290.0, -OVER, FULL)
            .turn(OUT, TURN, FULL)
            .widen(0.0, CAP)
            .close(),
    )
}

pub(crate) fn j() -> Drawing {
    const RIGHT: f64 = 322.0;
    const TURN: f64 = 214.0;
    Drawing::ink(
        Pen::at(RIGHT - STEM - FLARE, CAP)
            .line(RIGHT + FLARE, CAP)
            .narrow(RIGHT, TURN)
            .turn_up(138.0, -OVER, FULL)
            .curve((-48.0, 0.0), (44.0, -24.0), 0.0, 36.0)
            .line(14.0, 142.0)
            .curve((32.0, -48.0), (-40.0, 0.0), 126.0, THIN - OVER + 2.0)
            .curve((62.0, 0.0), (0.0, -78.0), RIGHT - STEM, TURN - 4.0)
            .widen(RIGHT - STEM - FLARE, CAP)
            .close(),
    )
}
