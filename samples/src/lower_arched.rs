//! Lower case of stems and arches: h m n r u.

use kurbo::{CubicBez, ParamCurve};

use crate::pen::{Drawing, Pen};
use crate::style::{ASC, FLARE, OVER_X, STEM_X, X};

/// Where a stem at the left edge has its waist: outside and inside.
pub(crate) const OUT: f64 = FLARE;
pub(crate) const IN: f64 = FLARE + STEM_X;
/// Full width of a stem at its flared ends.
pub(crate) const END: f64 = STEM_X + 2.0 * FLARE;

/// Height at which an arch leaves its stem, outside and inside.
pub(crate) const SPRING: f64 = 428.0;
const SPRING_IN: f64 = 352.0;
/// Height at which an arch has become a stem.
const SHOULDER: f64 = 304.0;
/// Thickness of an arch at its top.
const CROWN: f64 = 68.0;

/// The outside of an arch, from its stem at `from` to the right edge of the
/// next stem at `to`.
fn outside(from: f64, to: f64) -> [CubicBez; 2] {
    let top = X + OVER_X;
    let crown = (from + 0.505 * (to - from)).round();
    [
        CubicBez::new(
            (from, SPRING),
            (from + 38.0, SPRING + 54.0),
            (crown - 70.0, top),
            (crown, top),
        ),
        CubicBez::new(
            (crown, top),
            (crown + 0.62 * (to - crown), top),
            (to, SHOULDER + 0.61 * (top - SHOULDER)),
            (to, SHOULDER),
        ),
    ]
}

/// The inside of an arch, from the left edge of the right stem back to the
/// stem that it springs from.
fn inside(pen: Pen, from: f64, to: f64) -> Pen {
    let crown = (from + 0.605 * (to - from)).round();
    let top = X + OVER_X - CROWN;
    pen.narrow(to, SHOULDER - 12.0)
        .curve(
            (0.0, 0.61 * (top - SHOULDER + 12.0)),
            (0.66 * (to - crown), 0.0),
            crown,
            top,
        )
        .curve((-0.38 * (crown - from), 0.0), (44.0, 60.0), from, SPRING_IN)
}

/// A stem that hangs from an arch, down its right edge and across its foot.
fn foot(pen: Pen, right: f64, stem: f64) -> Pen {
    pen.widen(right + FLARE, 0.0)
        .line(right - stem - FLARE, 0.0)
}

pub(crate) const N_RIGHT: f64 = 442.0;

fn arched(stem: Pen) -> Drawing {
    let [rise, fall] = outside(IN, N_RIGHT);
    let pen = foot(stem.along(rise).along(fall), N_RIGHT, STEM_X);
    Drawing::ink(inside(pen, IN, N_RIGHT - STEM_X).widen(END, 0.0).close())
}

pub(crate) fn n() -> Drawing {
    arched(
        Pen::at(0.0, 0.0)
            .narrow(OUT, X / 2.0)
            .widen(0.0, X)
            .line(END - 3.0, X)
            .narrow(IN, SPRING),
    )
}

pub(crate) fn h() -> Drawing {
    arched(
        Pen::at(0.0, 0.0)
            .narrow(OUT, ASC / 2.0)
            .widen(0.0, ASC)
            .line(END, ASC)
            .narrow(IN, SPRING),
    )
}

pub(crate) fn u() -> Drawing {
    n().turned(X)
}

/// Stem of m: three stems stand closer than two, and as heavy as n's they
/// would make m dark.
pub(crate) const M_STEM: f64 = STEM_X - 2.0;

pub(crate) fn m() -> Drawing {
    m_with(M_STEM)
}

/// m with stems of another thickness, which grow into the counters.
pub(crate) fn m_with(stem: f64) -> Drawing {
    // From one stem's right edge to the next one's.
    const STEP: f64 = 310.0;
    let by = stem - M_STEM;
    let left = OUT + stem;
    let middle = OUT + M_STEM + STEP + by / 2.0;
    let right = OUT + M_STEM + 2.0 * STEP;
    let [rise, fall] = outside(left, middle);
    let [_, last] = outside(middle, right);
    // The second arch springs from the first one's shoulder.
    let fall = fall.subsegment(0.0..0.62);
    let crown = last.p0;
    let pen = Pen::at(0.0, 0.0)
        .narrow(OUT, X / 2.0)
        .widen(0.0, X)
        .line(left + FLARE - 3.0, X)
        .narrow(left, SPRING)
        .along(rise)
        .along(fall)
        .curve((44.0, 58.0), (-66.0, 0.0), crown.x, crown.y)
        .along(last);
    let pen = foot(pen, right, stem);
    let pen = foot(inside(pen, middle, right - stem), middle, stem);
    Drawing::ink(
        inside(pen, left, middle - stem)
            .widen(left + FLARE, 0.0)
            .close(),
    )
}

pub(crate) fn r() -> Drawing {
    Drawing::ink(
        Pen::at(0.0, 0.0)
            .narrow(OUT, X / 2.0)
            .widen(0.0, X)
            .line(END - 3.0, X)
            .narrow(IN, SPRING)
            .curve((36.0, 54.0), (-62.0, 0.0), 262.0, X + OVER_X)
            .curve((24.0, 0.0), (-24.0, 8.0), 336.0, 494.0)
            .line(328.0, 386.0)
            .curve((-28.0, 20.0), (32.0, 0.0), 248.0, 416.0)
            .curve((-62.0, 0.0), (42.0, 70.0), IN, 326.0)
            .widen(END, 0.0)
            .close(),
    )
}
