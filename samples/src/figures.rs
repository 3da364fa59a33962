//! Figures, as tall as the capitals.

use crate::oval::Oval;
use crate::pen::{Drawing, Pen};
use crate::slant::Slant;
use crate::style::{BAR, CAP, FLARE, FULL, FULL_IN, LEAN, OVER, ROUND, STEM, THIN};

const TOP: f64 = CAP + OVER;
const FOOT: f64 = -OVER;
/// Figures are a little narrower than capitals, and a little lighter.
const SIDE: f64 = ROUND - 6.0;
const STROKE: f64 = STEM - 1.0;

pub(crate) fn zero() -> Drawing {
    const WIDTH: f64 = 524.0;
    let outside = Oval {
        left: 0.0,
        foot: FOOT,
        right: WIDTH,
        top: TOP,
        lean: 0.0,
        fullness: FULL,
    };
    let inside = Oval {
        left: SIDE,
        foot: FOOT + THIN,
        right: WIDTH - SIDE,
        top: TOP - THIN,
        lean: LEAN,
        fullness: FULL_IN,
    };
    Drawing::ink(outside.contour()).counter(inside.contour())
}

pub(crate) fn one() -> Drawing {
    const LEFT: f64 = 148.0;
    const RIGHT: f64 = LEFT + STROKE;
    Drawing::ink(
        Pen::at(LEFT - FLARE, 0.0)
            .narrow(LEFT, 330.0)
            .line(LEFT, 588.0)
            .line(6.0, 520.0)
            .line(0.0, 600.0)
            .line(186.0, CAP)
            .line(RIGHT, CAP)
            .line(RIGHT, 330.0)
            .widen(RIGHT + FLARE, 0.0)
            .close(),
    )
}

pub(crate) fn two() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .line(0.0, 58.0)
            .curve((176.0, 158.0), (0.0, -128.0), 344.0, 508.0)
            .curve((0.0, 86.0), (66.0, 0.0), 214.0, TOP - THIN)
            .curve((-72.0, 0.0), (44.0, 58.0), 46.0, 540.0)
            .line(34.0, 654.0)
            .curve((56.0, 36.0), (-80.0, 0.0), 228.0, TOP)
            .turn(456.0, 520.0, FULL)
            .curve((0.0, -150.0), (122.0, 122.0), 168.0, BAR)
            .widen_level(464.0, 98.0)
            .line(473.0, 0.0)
            .close(),
    )
}

pub(crate) fn three() -> Drawing {
    Drawing::ink(
        Pen::at(46.0, 552.0)
            .line(34.0, 660.0)
            .curve((56.0, 32.0), (-76.0, 0.0), 216.0, TOP)
            .turn(430.0, 540.0, FULL)
            .curve((0.0, -82.0), (66.0, 22.0), 330.0, 378.0)
            .curve((82.0, -18.0), (0.0, 94.0), 462.0, 196.0)
            .turn_up(212.0, FOOT, FULL)
            .curve((-84.0, 0.0), (58.0, -36.0), 0.0, 48.0)
            .line(12.0, 160.0)
            .curve((48.0, -66.0), (-78.0, 0.0), 210.0, FOOT + THIN)
            .curve((80.0, 0.0), (0.0, -76.0), 350.0, 196.0)
            .curve((0.0, 92.0), (84.0, 0.0), 206.0, 336.0)
            .line(142.0, 336.0)
            .line(142.0, 410.0)
            .line(196.0, 410.0)
            .curve((76.0, 0.0), (0.0, -74.0), 322.0, 530.0)
            .curve((0.0, 70.0), (66.0, 0.0), 206.0, TOP - THIN)
            .curve((-66.0, 0.0), (44.0, 50.0), 46.0, 552.0)
            .close(),
    )
}

pub(crate) fn four() -> Drawing {
    const LEFT: f64 = 316.0;
    const RIGHT: f64 = LEFT + STROKE;
    const BAR_FOOT: f64 = 152.0;
    const BAR_TOP: f64 = BAR_FOOT + BAR - 4.0;
    let slope = Slant::from_left((0.0, 214.0), (296.0, CAP), 88.0);
    let inside = slope.right_height(LEFT);
    Drawing::ink(
        Pen::at(LEFT - FLARE, 0.0)
            .narrow(LEFT, BAR_FOOT)
            .line(0.0, BAR_FOOT)
            .line(0.0, 214.0)
            .line(296.0, CAP)
            .line(RIGHT, CAP)
            .line(RIGHT, BAR_TOP)
            .line(514.0, BAR_TOP + 4.0)
            .line(514.0, BAR_FOOT - 4.0)
            .line(RIGHT, BAR_FOOT)
            .widen(RIGHT + FLARE, 0.0)
            .close(),
    )
    .counter(
        Pen::at(LEFT, BAR_TOP)
            .line(LEFT, inside)
            .line(slope.r(BAR_TOP), BAR_TOP)
            .close(),
    )
}

pub(crate) fn five() -> Drawing {
    Drawing::ink(
        Pen::at(58.0, CAP)
            .line(410.0, CAP)
            .line(402.0, CAP - 98.0)
            .narrow_level(148.0, CAP - BAR)
            .line(139.0, 424.0)
            .curve((26.0, 8.0), (-44.0, 0.0), 230.0, 440.0)
            .turn(458.0, 226.0, FULL)
            .turn_up(196.0, FOOT, FULL)
            .curve((-76.0, 0.0), (54.0, -34.0), 0.0, 46.0)
            .line(12.0, 158.0)
            .curve((46.0, -64.0), (-72.0, 0.0), 196.0, FOOT + THIN)
            .curve((84.0, 0.0), (0.0, -92.0), 346.0, 212.0)
            .curve((0.0, 96.0), (84.0, 0.0), 190.0, 364.0)
            .curve((-52.0, 0.0), (46.0, 26.0), 44.0, 322.0)
            .close(),
    )
}

pub(crate) fn six() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 306.0)
            .curve((0.0, 244.0), (-128.0, 0.0), 306.0, TOP)
            .curve((46.0, 0.0), (-42.0, 22.0), 436.0, 668.0)
            .line(426.0, 558.0)
            .curve((-38.0, 52.0), (56.0, 0.0), 302.0, TOP - THIN)
            .curve((-112.0, 0.0), (16.0, 132.0), 112.0, 366.0)
            .curve((38.0, 52.0), (-66.0, 0.0), 270.0, 440.0)
            .turn(486.0, 224.0, FULL)
            .turn_up(248.0, FOOT, FULL)
            .turn(0.0, 306.0, FULL)
            .close(),
    )
    .counter(
        Oval {
            left: SIDE + 2.0,
            foot: FOOT + THIN,
            right: 486.0 - SIDE,
            top: 440.0 - THIN,
            lean: LEAN,
            fullness: FULL_IN,
        }
        .contour(),
    )
}

pub(crate) fn nine() -> Drawing {
    six().turned(CAP)
}

pub(crate) fn seven() -> Drawing {
    Drawing::ink(
        Pen::at(90.0, 0.0)
            .curve((22.0, 252.0), (-122.0, -188.0), 324.0, CAP - BAR)
            .widen_level(8.0, CAP - 98.0)
            .line(0.0, CAP)
            .line(444.0, CAP)
            .line(444.0, 644.0)
            .curve((-138.0, -200.0), (12.0, 226.0), 204.0, 0.0)
            .close(),
    )
}

pub(crate) fn eight() -> Drawing {
    Drawing::ink(
        Pen::at(118.0, 372.0)
            .curve((-58.0, 30.0), (0.0, -76.0), 26.0, 534.0)
            .turn_up(244.0, TOP, FULL)
            .turn(458.0, 538.0, FULL)
            .curve((0.0, -76.0), (56.0, 34.0), 366.0, 376.0)
            .curve((74.0, -32.0), (0.0, 90.0), 486.0, 192.0)
            .turn_up(242.0, FOOT, FULL)
            .turn(0.0, 186.0, FULL)
            .curve((0.0, 90.0), (-72.0, -38.0), 118.0, 372.0)
            .close(),
    )
    .counter(
        Oval {
            left: 26.0 + SIDE - 8.0,
            foot: 408.0,
            right: 458.0 - SIDE + 8.0,
            top: TOP - THIN,
            lean: LEAN,
            fullness: FULL_IN,
        }
        .contour(),
    )
    .counter(
        Oval {
            left: SIDE,
            foot: FOOT + THIN,
            right: 486.0 - SIDE,
            top: 340.0,
            lean: LEAN,
            fullness: FULL_IN,
        }
        .contour(),
    )
}
