//! Which way contours run, and whether they enclose anything.
//!
//! Ink is where the winding number is not nought (OpenType glyf and CFF
//! chapters). So a contour that lies where the others leave no ink must run the
//! way of outer contours, and one that lies in their ink, to cut a counter from
//! it, the other way.

use super::winding::winding;
use super::{Flaw, FlawKind, Found};
use crate::font::OutlineFormat;
use crate::measure::drawing::DrawingContext;
use crate::outline::{Outline, Segment};
use kurbo::{Point, Rect};
use std::collections::BTreeSet;

/// Windings taken, contour by contour, at most: past it, no directions are told.
const MOST_WORK: usize = 400_000;

/// Places on a contour where the ink of the others is looked up.
const PLACES: usize = 3;

/// A contour thinner than this throughout (of the em) encloses nothing.
const THINNEST: f64 = 0.000_5;

pub(super) fn look(
    outline: &Outline,
    context: &DrawingContext,
    crossed: Option<&[bool]>,
    found: &mut Found,
) {
    let Some(crossed) = crossed else {
        found
            .not_looked_for
            .extend([FlawKind::NothingInside, FlawKind::WrongWay]);
        return;
    };
    let contours: Vec<Contour<'_>> = (0..outline.contours().len())
        .map(|i| Contour::of(outline, i))
        .collect();
    let em = context.units_per_em;
    let nothing = |i: usize| {
        !crossed[i] && contours[i].area.abs() < THINNEST * em * contours[i].half_length()
    };
    for (i, c) in contours.iter().enumerate().filter(|(i, _)| nothing(*i)) {
        found.add(c.flaw(FlawKind::NothingInside, i));
    }
    let twins = twins(&contours);
    for i in (0..twins.len()).filter(|&i| twins[i]) {
        found.add(Flaw {
            size: contours[i].bounds.width().min(contours[i].bounds.height()),
            ..contours[i].flaw(FlawKind::Overlap, i)
        });
    }
    let segments = outline.segments().len();
    if contours.len() * PLACES * segments > MOST_WORK && windings(&contours) > MOST_WORK {
        found.not_looked_for.push(FlawKind::WrongWay);
        return;
    }
    // What is drawn for no font keeps to the way of its own largest contour.
    let outer = match context.format {
        Some(OutlineFormat::TrueType) => -1.0,
        Some(OutlineFormat::Cff | OutlineFormat::Cff2) => 1.0,
        Some(OutlineFormat::Drawn) | None => contours
            .iter()
            .map(|c| c.area)
            .max_by(|a, b| a.abs().total_cmp(&b.abs()))
            .map_or(1.0, f64::signum),
    };
    for (i, c) in contours.iter().enumerate() {
        if crossed[i] || nothing(i) || twins[i] {
            continue;
        }
        let expected = match c.ink_around(&contours, i) {
            Some(0) => outer,
            Some(ink) => -f64::from(ink.signum()),
            None => continue,
        };
        if c.area.signum() != expected {
            found.add(c.flaw(FlawKind::WrongWay, i));
        }
    }
}

struct Contour<'a> {
    segments: &'a [Segment],
    bounds: Rect,
    area: f64,
}

impl<'a> Contour<'a> {
    fn of(outline: &'a Outline, contour: usize) -> Self {
        let segments = &outline.segments()[outline.contours()[contour].clone()];
        Self {
            segments,
            bounds: segments
                .iter()
                .map(Segment::bounds)
                .reduce(|a, b| a.union(b))
                .unwrap_or_default(),
            area: outline.contour_area(contour),
        }
    }

    /// Half the way round, as a thin contour is long.
    fn half_length(&self) -> f64 {
        0.5 * self.segments.iter().map(Segment::length).sum::<f64>()
    }

    fn flaw(&self, kind: FlawKind, contour: usize) -> Flaw {
        Flaw {
            kind,
            at: self.segments[0].at(0.0),
            size: self.bounds.width().max(self.bounds.height()),
            contour,
        }
    }

    fn places(&self) -> impl Iterator<Item = Point> {
        let n = self.segments.len();
        (0..PLACES).map(move |k| self.segments[k * n / PLACES].at(0.5))
    }

    fn winding(&self, p: Point) -> i32 {
        if self.bounds.contains(p) {
            winding(self.segments, p)
        } else {
            0
        }
    }

    /// The winding number of all other contours along this one; `None` where
    /// they disagree, since it then lies on the edge of another.
    fn ink_around(&self, contours: &[Self], own: usize) -> Option<i32> {
        let mut all = self.places().map(|p| {
            contours
                .iter()
                .enumerate()
                .filter(|(i, _)| *i != own)
                .map(|(_, c)| c.winding(p))
                .sum::<i32>()
        });
        let first = all.next()?;
        all.all(|w| w == first).then_some(first)
    }
}

/// Which contours lie exactly on one before them.
fn twins(contours: &[Contour<'_>]) -> Vec<bool> {
    let key = |c: &Contour<'_>| {
        let b = c.bounds;
        [b.x0, b.y0, b.x1, b.y1, c.area.abs()].map(f64::to_bits)
    };
    let mut seen = BTreeSet::new();
    contours.iter().map(|c| !seen.insert(key(c))).collect()
}

/// Windings that looking up every place takes.
fn windings(contours: &[Contour<'_>]) -> usize {
    contours
        .iter()
        .flat_map(Contour::places)
        .map(|p| {
            contours
                .iter()
                .filter(|c| c.bounds.contains(p))
                .map(|c| c.segments.len())
                .sum::<usize>()
        })
        .sum()
}
