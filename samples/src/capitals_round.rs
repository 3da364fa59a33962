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
    let (left, foot) = (ring.at_left(), ring.at_foot());
    // The tail leaves the ring where it has turned well towards the foot.
    let corner = ring.lower_right().subsegment(0.0..0.72);
    Drawing::ink(
        Pen::at(left.x, left.y)
            .along(ring.upper_left())
            .along(ring.upper_right())
            .along(corner)
            .curve((64.0, -46.0), (-60.0, 6.0), 716.0, -98.0)
            .line(702.0, -196.0)
            .curve((-150.0, 0.0), (150.0, 0.0), foot.x, foot.y)
            .along(ring.lower_left())
            .close(),
    )
    .counter(inside().contour())
}

/// The open round of C and G from its upper end to its foot, drawn
/// anticlockwise on the outside.
pub(crate) fn c() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 350.0)
            .turn_up(342.0, TOP, FULL)
            .curve((84.0, 0.0), (-64.0, 34.0), 554.0, 654.0)
            .line(546.0, 536.0)
            .curve((-52.0, 62.0), (84.0, 0.0), 336.0, TOP - THIN)
            .curve((-132.0, 0.0), (0.0, 166.0), ROUND, 366.0)
            .curve((0.0, -190.0), (-136.0, 0.0), 362.0, THIN - OVER)
            .curve((84.0, 0.0), (-58.0, -52.0), 552.0, 156.0)
            .line(560.0, 48.0)
            .curve((-60.0, -38.0), (90.0, 0.0), 346.0, -OVER)
            .turn(0.0, 350.0, FULL)
            .close(),
    )
}

pub(crate) fn g() -> Drawing {
    const RIGHT: f64 = 604.0;
    Drawing::ink(
        Pen::at(0.0, 350.0)
            .turn_up(342.0, TOP, FULL)
            .curve((84.0, 0.0), (-64.0, 34.0), 562.0, 654.0)
            .line(554.0, 536.0)
            .curve((-52.0, 62.0), (88.0, 0.0), 336.0, TOP - THIN)
            .curve((-132.0, 0.0), (0.0, 166.0), ROUND, 366.0)
            .curve((0.0, -190.0), (-130.0, 0.0), 362.0, THIN - OVER)
            .curve((60.0, 0.0), (-42.0, -24.0), RIGHT - STEM, 104.0)
            .line(RIGHT - STEM, 190.0)
            .widen(RIGHT - STEM - FLARE, 336.0)
            .line(RIGHT + FLARE, 336.0)
            .narrow(RIGHT, 190.0)
            .line(RIGHT, 52.0)
            .curve((-70.0, -42.0), (96.0, 0.0), 346.0, -OVER)
            .turn(0.0, 350.0, FULL)
            .close(),
    )
}

pub(crate) fn s() -> Drawing {
    Drawing::ink(
        Pen::at(424.0, 540.0)
            .curve((-46.0, 70.0), (70.0, 0.0), 256.0, TOP - THIN - 2.0)
            .curve((-76.0, 0.0), (0.0, 56.0), 138.0, 548.0)
            .curve((0.0, -160.0), (0.0, 150.0), 472.0, 206.0)
            .turn_up(224.0, -OVER, FULL)
            .curve((-84.0, 0.0), (58.0, -38.0), 12.0, 56.0)
            .line(24.0, 172.0)
            .curve((48.0, -74.0), (-78.0, 0.0), 228.0, THIN - OVER + 2.0)
            .curve((84.0, 0.0), (0.0, -62.0), 356.0, 164.0)
            .curve((0.0, 160.0), (0.0, -160.0), 24.0, 512.0)
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
            .narrow(IN, 420.0)
            .line(IN, TURN)
            .curve((0.0, -150.0), (-86.0, 0.0), 300.0, THIN - OVER + 6.0)
            .curve((96.0, 0.0), (0.0, -142.0), RIGHT - STEM, TURN - 16.0)
            .line(RIGHT - STEM, 420.0)
            .widen(RIGHT - STEM - FLARE, CAP)
            .line(RIGHT + FLARE, CAP)
            .narrow(RIGHT, 420.0)
            .line(RIGHT, TURN)
            .turn_up(290.0, -OVER, FULL)
            .turn(OUT, TURN, FULL)
            .line(OUT, 420.0)
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
            .narrow(RIGHT, 400.0)
            .line(RIGHT, TURN)
            .turn_up(138.0, -OVER, FULL)
            .curve((-56.0, 0.0), (44.0, -24.0), 0.0, 36.0)
            .line(14.0, 142.0)
            .curve((32.0, -48.0), (-40.0, 0.0), 126.0, THIN - OVER + 2.0)
            .curve((62.0, 0.0), (0.0, -78.0), RIGHT - STEM, TURN - 4.0)
            .line(RIGHT - STEM, 400.0)
            .widen(RIGHT - STEM - FLARE, CAP)
            .close(),
    )
}
