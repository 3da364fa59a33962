//! The waist of a letter brought to the measured middle, and its upper half made as
//! wide as its lower.
//!
//! On an upright line through the letter's middle, B, E and S have three stretches
//! of ink, and H one: the waist is the middle one. It is moved, its thickness kept,
//! until the white above it is as high as the white below. Then what lies above the
//! waist is spread sideways until it reaches as far as what lies below: points
//! outside the middle are moved whole, so that strokes keep their thickness, and
//! those at the waist itself stay where they meet the lower half.

use super::levels::{MIDDLE, column, stretches};
use super::{Class, Done, Drawn, Figure, Measured, Nothing, REACHED, at_height, upright};
use crate::outline::Outline;
use crate::redraw::{Unable, Warp, straighten};
use kurbo::{BezPath, PathEl, Point, Rect};

/// What is to be made equal.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Part {
    /// The heights of the white above and below the waist.
    Waist,
    /// Those, and the widths of the halves.
    Both,
}

/// Letters whose waist is at the middle of their height within this share of it are
/// drawn without the compensation.
const SAME: f64 = 0.001;

/// The waist on its column, and the white above and below.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Waist {
    x: f64,
    /// Where the white below begins.
    foot: f64,
    from: f64,
    to: f64,
    /// Where the white above ends.
    top: f64,
}

impl Waist {
    pub(super) fn of(outline: &Outline) -> Option<Self> {
        let b = outline.bounds()?;
        let (x, found) = column(outline, &MIDDLE, 3).or_else(|| column(outline, &MIDDLE, 1))?;
        Self::on(x, &found, b)
    }

    /// The waist of an outline on a column that is known.
    fn at(outline: &Outline, x: f64) -> Option<Self> {
        Self::on(x, &stretches(outline, x), outline.bounds()?)
    }

    fn on(x: f64, ink: &[(f64, f64)], b: Rect) -> Option<Self> {
        let (foot, waist, top) = match *ink {
            [foot, waist, top] => (foot.1, waist, top.0),
            [waist] => (b.y0, waist, b.y1),
            _ => return None,
        };
        let waist = Self {
            x,
            foot,
            from: waist.0,
            to: waist.1,
            top,
        };
        // One stretch from top to foot is a stem.
        (waist.above() > 0.0 && waist.below() > 0.0).then_some(waist)
    }

    /// The white below and the white above, on the column.
    pub(super) fn whites(&self) -> (Measured, Measured) {
        let at = |y: f64| Point::new(self.x, y);
        ((at(self.foot), at(self.from)), (at(self.to), at(self.top)))
    }

    fn above(&self) -> f64 {
        self.top - self.to
    }

    fn below(&self) -> f64 {
        self.from - self.foot
    }

    /// How far the waist's own middle lies above the middle between the whites'
    /// ends.
    pub(super) fn raised(&self) -> f64 {
        0.5 * (self.below() - self.above())
    }

    /// The map of heights that moves it.
    fn moved(&self, by: f64, b: Rect) -> Warp {
        Warp::new(vec![
            (b.y0.min(self.foot), b.y0.min(self.foot)),
            (self.foot, self.foot),
            (self.from, self.from + by),
            (self.to, self.to + by),
            (self.top, self.top),
            (b.y1.max(self.top), b.y1.max(self.top)),
        ])
    }
}

pub(super) fn take_out(
    drawn: &Drawn,
    class: &Class,
    out: f64,
    part: Part,
) -> Result<Done, Nothing> {
    let b = drawn.outline.bounds().ok_or(Unable::NoInk)?;
    let waist = Waist::of(&drawn.outline).ok_or(Unable::NoStrokes)?;
    let raised = waist.raised();
    let (upper, lower) = sides(&drawn.outline, &waist);
    let wider = (upper.0 - lower.0).abs().max((lower.1 - upper.1).abs());
    let least = SAME * b.height();
    if raised.abs() < least && (part == Part::Waist || wider < least) {
        return Err(Nothing::Without);
    }
    let spread = (part == Part::Both && wider >= least).then_some(out);
    change(drawn, class, raised * (1.0 - out), spread)
}

/// Brings the waist so far above the middle, font units.
pub(super) fn set(drawn: &Drawn, class: &Class, raised: f64) -> Result<Done, Nothing> {
    change(drawn, class, raised, None)
}

/// The waist is where it should be within this, font units of 1000 to the em.
const NEAR: f64 = 0.02;

/// Moves the waist and spreads the upper half, `spread` of the way to where the
/// lower one reaches, until both read as asked.
fn change(drawn: &Drawn, class: &Class, raised: f64, spread: Option<f64>) -> Result<Done, Nothing> {
    let b = drawn.outline.bounds().ok_or(Unable::NoInk)?;
    let waist = Waist::of(&drawn.outline).ok_or(Unable::NoStrokes)?;
    let near = NEAR * class.context().units_per_em / 1000.0;
    let (upper, lower) = sides(&drawn.outline, &waist);
    let mut by = raised - waist.raised();
    let (mut left, mut right) = (0.0, 0.0);
    let mut spread_off = 0.0;
    let mut outline = drawn.outline.clone();
    let mut now = waist;
    for _ in 0..ROUNDS {
        if -by >= 0.9 * waist.below() || by >= 0.9 * waist.above() {
            return Err(Unable::OutOfReach.into());
        }
        let warp = waist.moved(by, b);
        let moved = |o: &Outline| Ok::<_, Unable>(straighten(o, &warp.along(o)));
        outline = at_height(upright(&drawn.outline, class.lean(), moved)?, b);
        if spread.is_some() {
            let at = Waist::at(&outline, waist.x).ok_or(Unable::OutOfReach)?;
            let spread = spread_by(&outline, &at, left, right);
            outline = at_height(straighten(&outline, &spread), b);
        }
        now = Waist::at(&outline, waist.x).ok_or(Unable::OutOfReach)?;
        let off = raised - now.raised();
        if let Some(share) = spread {
            // The lower half may have changed a little where the waist went.
            let (above, below) = sides(&outline, &now);
            let aim = |upper: f64, below: f64| upper + share * (below - upper);
            let off_left = above.0 - aim(upper.0, below.0);
            let off_right = aim(upper.1, below.1) - above.1;
            spread_off = off_left.abs().max(off_right.abs());
            left += off_left;
            right += off_right;
        }
        if off.abs() < near && spread_off < near {
            break;
        }
        by += off;
    }
    if (now.raised() - raised).abs() > 2.0 * near {
        return Err(Unable::OutOfReach.into());
    }
    let height = b.height();
    let mut figures = vec![
        Figure::units("white above the waist", waist.above(), now.above()),
        Figure::units("white below the waist", waist.below(), now.below()),
        Figure::units("waist above the middle", waist.raised(), now.raised()),
        Figure::percent(
            "waist above the middle, of the height",
            100.0 * waist.raised() / height,
            100.0 * now.raised() / height,
        ),
    ];
    if spread.is_some() {
        let (above, below) = sides(&outline, &now);
        if spread_off > REACHED * b.width() {
            return Err(Unable::OutOfReach.into());
        }
        let wide = |side: (f64, f64)| side.1 - side.0;
        figures.push(Figure::units("width above", wide(upper), wide(above)));
        figures.push(Figure::units("width below", wide(lower), wide(below)));
    }
    Ok(Done {
        outline,
        figures,
        was: [waist.whites().0, waist.whites().1].into(),
        is: [now.whites().0, now.whites().1].into(),
    })
}

/// How far the ink above the waist, and below it, reaches to the left and right.
fn sides(outline: &Outline, waist: &Waist) -> ((f64, f64), (f64, f64)) {
    let middle = 0.5 * (waist.from + waist.to);
    let reach = |above: bool| {
        let mut reach = (f64::INFINITY, f64::NEG_INFINITY);
        for s in outline.segments() {
            // A piece of curve at a time, so that one that passes the waist counts on
            // both sides.
            for k in 0..=16 {
                let p = s.at(f64::from(k) / 16.0);
                if (p.y > middle) == above {
                    reach = (reach.0.min(p.x), reach.1.max(p.x));
                }
            }
        }
        reach
    };
    (reach(true), reach(false))
}

/// The white above the waist over which the spreading sets in, as a share of it.
const RAMP: f64 = 0.3;

/// Of the letter's width, the share about its middle that gives way.
const GIVES: f64 = 0.25;

/// Rounds in which what a bent curve left is taken up.
const ROUNDS: usize = 12;

/// Spreads what is above the waist to the left and to the right.
fn spread_by(outline: &Outline, waist: &Waist, left: f64, right: f64) -> Outline {
    let Some(b) = outline.bounds() else {
        return outline.clone();
    };
    let half = 0.5 * GIVES * b.width();
    let sideways = |x: f64| {
        let at = ((x - waist.x) / half).clamp(-1.0, 1.0);
        if at < 0.0 { at * left } else { at * right }
    };
    let weight = |y: f64| ((y - waist.to) / (RAMP * waist.above())).clamp(0.0, 1.0);
    let to = |p: Point| Point::new(p.x + weight(p.y) * sideways(p.x), p.y);
    let mut out = BezPath::new();
    for el in outline.to_bez_path().elements() {
        match *el {
            PathEl::MoveTo(p) => out.move_to(to(p)),
            PathEl::LineTo(p) => out.line_to(to(p)),
            PathEl::QuadTo(c, p) => out.quad_to(to(c), to(p)),
            PathEl::CurveTo(c, d, p) => out.curve_to(to(c), to(d), to(p)),
            PathEl::ClosePath => out.close_path(),
        }
    }
    Outline::from_path(&out)
}
