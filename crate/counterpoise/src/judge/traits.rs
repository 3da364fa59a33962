//! What a letter is judged by: a fixed row of figures, each on the scale on
//! which letters of one font move together.
//!
//! Lengths are first divided by the font's own height (cap height), so that
//! units per em have no part in it; thicknesses, widths and areas are taken as
//! natural logarithms, so that 1% is 0.01 of a hairline as of a stem; heights
//! and bearings, which may be nought or negative, are shares of that height. A
//! slanted letter is set upright first. A figure that a letter does not have is
//! absent.

use crate::measure::strokes::{Stroke, StrokeKind};
use crate::measure::{Context, End, Form, GuideKind, Letter, sides};
use crate::order::by_number;
use crate::outline::{Outline, Ray};
use kurbo::{Affine, Rect};

/// One of the figures.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Trait {
    /// Ink width, logarithm.
    Width,
    /// Width between the outer stems, logarithm; of a letter with two.
    Body,
    /// White between the outer stems, logarithm.
    Counter,
    /// Area of the ink, logarithm.
    Area,
    /// Thickness of the upright straight strokes, logarithm.
    Stem,
    /// Greatest thickness of the curves, logarithm.
    Bowl,
    /// Thickness of the thickest diagonal, logarithm.
    Thick,
    /// Thickness of the thinnest diagonal, logarithm.
    Slender,
    /// Thickness of the level straight strokes, logarithm.
    Bar,
    /// Thickness of the curves where they run upright, mean, logarithm.
    Side,
    /// Thickness of the curves where they run level, mean, logarithm.
    Arch,
    /// Mean thickness of all strokes by length, logarithm.
    Mean,
    /// Ink first met on a level line through the middle of the letter's height, logarithm.
    CutLeft,
    /// Ink last met there, logarithm.
    CutRight,
    /// Ink uppermost on a plumb line through the middle of the letter's width, logarithm.
    CutTop,
    /// Ink between uppermost and lowest there, logarithm; of a letter that has just one such.
    CutMiddle,
    /// Ink lowest there, logarithm.
    CutFoot,
    /// How far a flat top passes its line, share of the height.
    TopFlat,
    /// The same of a round top.
    TopRound,
    /// The same of a pointed top.
    TopPointed,
    /// How far a flat foot passes its line.
    FootFlat,
    /// The same of a round foot.
    FootRound,
    /// The same of a pointed foot.
    FootPointed,
    /// Left side bearing, share of the height.
    Left,
    /// Right side bearing, share of the height.
    Right,
    /// How far the left side falls back from its foremost place, on average, share of the height.
    LeftHollow,
    /// The same of the right side.
    RightHollow,
    /// The last upright's thickness beside the first's, logarithm.
    Pair,
}

impl Trait {
    /// Every trait, in the order of [`Traits`].
    pub const ALL: [Self; 28] = [
        Self::Width,
        Self::Body,
        Self::Counter,
        Self::Area,
        Self::Stem,
        Self::Bowl,
        Self::Thick,
        Self::Slender,
        Self::Bar,
        Self::Side,
        Self::Arch,
        Self::Mean,
        Self::CutLeft,
        Self::CutRight,
        Self::CutTop,
        Self::CutMiddle,
        Self::CutFoot,
        Self::TopFlat,
        Self::TopRound,
        Self::TopPointed,
        Self::FootFlat,
        Self::FootRound,
        Self::FootPointed,
        Self::Left,
        Self::Right,
        Self::LeftHollow,
        Self::RightHollow,
        Self::Pair,
    ];

    /// Tops, by form.
    pub const TOPS: [Self; 3] = [Self::TopFlat, Self::TopRound, Self::TopPointed];

    /// Feet, by form.
    pub const FEET: [Self; 3] = [Self::FootFlat, Self::FootRound, Self::FootPointed];

    fn of_top(form: Form) -> Self {
        match form {
            Form::Flat => Self::TopFlat,
            Form::Round => Self::TopRound,
            Form::Pointed => Self::TopPointed,
        }
    }

    fn of_foot(form: Form) -> Self {
        match form {
            Form::Flat => Self::FootFlat,
            Form::Round => Self::FootRound,
            Form::Pointed => Self::FootPointed,
        }
    }
}

/// A letter's traits.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Traits([Option<f64>; Trait::ALL.len()]);

impl Traits {
    /// A trait's value.
    pub fn get(&self, t: Trait) -> Option<f64> {
        self.0[t as usize]
    }

    /// The traits so many times as far from these as others are: 0 these, 1 the
    /// others. One that either lacks is the others'.
    #[must_use]
    pub fn towards(&self, others: &Self, times: f64) -> Self {
        let mut all = *others;
        for (to, from) in all.0.iter_mut().zip(&self.0) {
            if let (Some(b), Some(a)) = (to.as_mut(), from) {
                *b = a + times * (*b - a);
            }
        }
        all
    }

    fn set(&mut self, t: Trait, value: Option<f64>) {
        self.0[t as usize] = value.filter(|v| v.is_finite());
    }
}

/// Strokes shorter than this share of the letter's longest are serifs and
/// terminals, whose thickness is their own affair.
const LONG: f64 = 0.3;

/// The height that lengths are shares of: the cap height as drawn or, in a font
/// without capitals, what a cap height commonly is beside the x-height or em.
pub fn scale(context: &Context) -> f64 {
    let drawn = |kind| context.drawn(kind).filter(|&h| h > 0.0);
    drawn(GuideKind::CapHeight)
        .or_else(|| drawn(GuideKind::XHeight).map(|x| x / 0.7))
        .unwrap_or(0.7 * context.units_per_em)
}

/// Reads a letter's traits.
pub fn traits(outline: &Outline, letter: &Letter, c: char, context: &Context) -> Traits {
    let mut traits = Traits::default();
    let height = scale(context);
    let lean = context.slant.to_radians().tan();
    let stood = set_upright(outline, lean, height);
    let Some(upright) = stood.bounds() else {
        return traits;
    };
    let log = |length: f64| (length > 0.0).then(|| (length / height).ln());
    // A letter with one upright has no width between two.
    let sides = sides(&letter.strokes, context.slant).filter(|s| s.counter.is_some());
    traits.set(Trait::Width, log(upright.width()));
    traits.set(Trait::Body, sides.and_then(|s| log(s.body)));
    traits.set(Trait::Counter, sides.and_then(|s| log(s.counter?)));
    traits.set(Trait::Area, log(letter.area / height));
    let long = Long::of(&letter.strokes);
    traits.set(
        Trait::Stem,
        by_length(long.of_kind(StrokeKind::Stem)).and_then(log),
    );
    traits.set(
        Trait::Bar,
        by_length(long.of_kind(StrokeKind::Bar)).and_then(log),
    );
    let diagonals = || long.of_kind(StrokeKind::Diagonal).map(|s| s.median);
    traits.set(Trait::Thick, diagonals().reduce(f64::max).and_then(log));
    traits.set(Trait::Slender, diagonals().reduce(f64::min).and_then(log));
    let curves = || {
        long.of_kind(StrokeKind::Curve)
            .flat_map(|s| s.marks.iter().map(|m| m.value))
    };
    traits.set(Trait::Bowl, curves().reduce(f64::max).and_then(log));
    let running = |upright| mean(long.running(upright, lean)).and_then(log);
    traits.set(Trait::Side, running(true));
    traits.set(Trait::Arch, running(false));
    traits.set(Trait::Mean, by_length(long.all()).and_then(log));
    let cuts = Cuts::of(&stood, upright);
    traits.set(Trait::CutLeft, cuts.left.and_then(log));
    traits.set(Trait::CutRight, cuts.right.and_then(log));
    traits.set(Trait::CutTop, cuts.top.and_then(log));
    traits.set(Trait::CutMiddle, cuts.middle.and_then(log));
    traits.set(Trait::CutFoot, cuts.foot.and_then(log));
    for (end, extremity) in [(End::Top, letter.top), (End::Foot, letter.foot)] {
        let Some(extremity) = extremity else { continue };
        let past = context.past(c, end, &extremity).unwrap_or(match end {
            End::Top => extremity.y,
            End::Foot => -extremity.y,
        });
        let which = match end {
            End::Top => Trait::of_top(extremity.form),
            End::Foot => Trait::of_foot(extremity.form),
        };
        traits.set(which, Some(past / height));
    }
    traits.set(Trait::Left, Some(upright.x0 / height));
    traits.set(Trait::Right, Some((letter.advance - upright.x1) / height));
    let (left, right) = hollows(&stood, upright, height);
    traits.set(Trait::LeftHollow, left);
    traits.set(Trait::RightHollow, right);
    traits.set(Trait::Pair, pair(&letter.strokes, lean));
    traits
}

/// The letter without the font's slant, sheared about half its height, where
/// its sides meet its neighbours'.
fn set_upright(outline: &Outline, lean: f64, height: f64) -> Outline {
    if lean == 0.0 {
        return outline.clone();
    }
    outline.transformed(Affine::new([
        1.0,
        0.0,
        -lean,
        1.0,
        0.5 * lean * height,
        0.0,
    ]))
}

fn mean(values: impl Iterator<Item = f64>) -> Option<f64> {
    let (sum, n) = values.fold((0.0, 0), |(sum, n), v| (sum + v, n + 1));
    (n > 0).then(|| sum / f64::from(n))
}

/// The strokes that carry a letter, serifs and terminals left out.
struct Long<'a> {
    strokes: &'a [Stroke],
    least: f64,
}

impl<'a> Long<'a> {
    fn of(strokes: &'a [Stroke]) -> Self {
        let longest = strokes.iter().map(|s| s.length).fold(0.0, f64::max);
        Self {
            strokes,
            least: LONG * longest,
        }
    }

    fn all(&self) -> impl Iterator<Item = &'a Stroke> {
        let least = self.least;
        self.strokes.iter().filter(move |s| s.length >= least)
    }

    fn of_kind(&self, kind: StrokeKind) -> impl Iterator<Item = &'a Stroke> {
        self.all().filter(move |s| s.kind == kind)
    }

    /// Thicknesses of the curves where they run upright, or where level.
    fn running(&self, upright: bool, lean: f64) -> impl Iterator<Item = f64> {
        self.of_kind(StrokeKind::Curve)
            .flat_map(|s| &s.marks)
            .filter(move |m| {
                if upright {
                    m.runs_upright(lean)
                } else {
                    m.runs_level(lean)
                }
            })
            .map(|m| m.value)
    }
}

/// Mean thickness of strokes, each by its length.
fn by_length<'a>(strokes: impl Iterator<Item = &'a Stroke>) -> Option<f64> {
    let (sum, length) = strokes.fold((0.0, 0.0), |(sum, length), s| {
        (sum + s.median * s.length, length + s.length)
    });
    (length > 0.0).then(|| sum / length)
}

/// Ink met on the two lines through a letter's middle. Cruder than strokes, and
/// steadier: no question of where a stroke begins has a part in it.
#[derive(Default)]
struct Cuts {
    left: Option<f64>,
    right: Option<f64>,
    top: Option<f64>,
    middle: Option<f64>,
    foot: Option<f64>,
}

impl Cuts {
    fn of(outline: &Outline, bounds: Rect) -> Self {
        let (mut crossings, mut spans) = (Vec::new(), Vec::new());
        let mut cuts = Self::default();
        outline.spans(&Ray::level(bounds.center().y), &mut crossings, &mut spans);
        if let [first, .., last] = spans.as_slice() {
            (cuts.left, cuts.right) = (Some(first.length()), Some(last.length()));
        } else {
            cuts.left = spans.first().map(|s| s.length());
        }
        outline.spans(&Ray::upright(bounds.center().x), &mut crossings, &mut spans);
        if let [first, .., last] = spans.as_slice() {
            (cuts.foot, cuts.top) = (Some(first.length()), Some(last.length()));
        } else {
            cuts.middle = spans.first().map(|s| s.length());
        }
        if let [_, middle, _] = spans.as_slice() {
            cuts.middle = Some(middle.length());
        }
        cuts
    }
}

/// How far the sides fall back from their foremost places, on average over the
/// letter's own height and no deeper than an eye takes for side, shares of the
/// font's height.
fn hollows(outline: &Outline, bounds: Rect, height: f64) -> (Option<f64>, Option<f64>) {
    /// Levels at which the sides are read.
    const LEVELS: u32 = 24;
    /// White deeper than this share of the height belongs to the letter's inside.
    const DEEPEST: f64 = 0.25;
    let (mut crossings, mut spans) = (Vec::new(), Vec::new());
    let (mut left, mut right) = (0.0, 0.0);
    for i in 0..LEVELS {
        let y = bounds.y0 + (f64::from(i) + 0.5) / f64::from(LEVELS) * bounds.height();
        outline.spans(&Ray::level(y), &mut crossings, &mut spans);
        let deepest = DEEPEST * height;
        left += spans
            .first()
            .map_or(deepest, |s| (s.from.s - bounds.x0).min(deepest));
        right += spans
            .last()
            .map_or(deepest, |s| (bounds.x1 - s.to.s).min(deepest));
    }
    let mean = |sum: f64| Some(sum / f64::from(LEVELS) / height);
    (mean(left), mean(right))
}

/// Thickness of the rightmost stem beside the leftmost's, where a letter has
/// two that are about as tall as each other.
fn pair(strokes: &[Stroke], lean: f64) -> Option<f64> {
    /// A pair's shorter stem has at least this share of the taller's length.
    const ALIKE: f64 = 0.6;
    let at = |s: &Stroke| {
        let c = s.marks.first().map(|m| m.centre())?;
        Some(c.x - c.y * lean)
    };
    let mut uprights: Vec<(f64, f64, f64)> = strokes
        .iter()
        .filter(|s| s.kind == StrokeKind::Stem)
        .filter_map(|s| Some((at(s)?, s.length, s.median)))
        .collect();
    let tallest = uprights.iter().map(|u| u.1).reduce(f64::max)?;
    uprights.retain(|u| u.1 >= ALIKE * tallest);
    by_number(&mut uprights, |u| u.0);
    match uprights.as_slice() {
        [first, .., last] if first.2 > 0.0 => Some((last.2 / first.2).ln()),
        _ => None,
    }
}
