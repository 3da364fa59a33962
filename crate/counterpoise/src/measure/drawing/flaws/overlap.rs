//! What crossings amount to: contours that overlap, contours that cross
//! themselves, and how large that is.

use super::chords::{Layout, Place};
use super::crossing::{Crossing, crossings};
use super::winding::winding;
use super::{Flaw, FlawKind, Found};
use crate::outline::Outline;
use kurbo::{Line, ParamCurveNearest, Point, Rect};
use std::ops::Range;

/// An overlap or a loop smaller than this (of the em) is rounding.
const LEAST: f64 = 0.000_5;

/// Chords looked at to tell sizes, at most (about 5 ns each); past it, the
/// remaining crossings are not followed up.
const MOST_WORK: usize = 10_000_000;

/// Tells of overlaps and self-crossings. Gives, of each contour, whether it
/// crosses itself or another; `None` if there is too much to look at.
pub(super) fn look(outline: &Outline, em: f64, found: &mut Found) -> Option<Vec<bool>> {
    let layout = Layout::of(outline, em);
    let crossings = layout.as_ref().and_then(|l| crossings(l, em));
    let (Some(layout), Some(crossings)) = (layout, crossings) else {
        found
            .not_looked_for
            .extend([FlawKind::Overlap, FlawKind::SelfCrossing]);
        return None;
    };
    let mut crossed = vec![false; outline.contours().len()];
    for c in &crossings {
        for contour in c.contours {
            crossed[contour] = true;
        }
    }
    let mut sizes = Sizes {
        layout: &layout,
        work: 0,
    };
    for group in crossings.chunk_by(|a, b| a.contours == b.contours) {
        let [a, b] = group[0].contours;
        if sizes.work > MOST_WORK {
            let kinds = [FlawKind::Overlap, FlawKind::SelfCrossing];
            found.not_looked_for.extend(kinds);
            break;
        }
        if a == b {
            for c in group {
                found.add_if_larger(
                    LEAST * em,
                    Flaw {
                        kind: FlawKind::SelfCrossing,
                        at: c.at,
                        size: sizes.of_loop(c),
                        contour: a,
                    },
                );
            }
        } else if let Some((at, size)) = sizes.of_overlap(group) {
            found.add_if_larger(
                LEAST * em,
                Flaw {
                    kind: FlawKind::Overlap,
                    at,
                    size,
                    contour: a,
                },
            );
        }
    }
    Some(crossed)
}

struct Sizes<'a> {
    layout: &'a Layout<'a>,
    /// Chords looked at so far.
    work: usize,
}

impl Sizes<'_> {
    /// The greater side of the box of the lesser loop.
    fn of_loop(&mut self, c: &Crossing) -> f64 {
        if self.work > MOST_WORK {
            return 0.0;
        }
        let (layout, chords) = (self.layout, &self.layout.chords);
        let all = layout.of_contour(c.contours[0]);
        let inner = layout.chord_at(c.places[0])..layout.chord_at(c.places[1]);
        self.work += all.len();
        let side = |points: &mut dyn Iterator<Item = Point>| {
            let b = points.fold(Rect::from_points(c.at, c.at), |b, p| b.union_pt(p));
            b.width().max(b.height())
        };
        let before = chords[all.start..inner.start].iter().map(|c| c.a);
        let after = chords[inner.end..all.end].iter().map(|c| c.b);
        side(&mut chords[inner].iter().map(|c| c.b)).min(side(&mut before.chain(after)))
    }

    /// How deep the first contour reaches into the second between two
    /// crossings, at most, and the crossing where that stretch begins.
    fn of_overlap(&mut self, group: &[Crossing]) -> Option<(Point, f64)> {
        /// Stretches followed, and places on each: enough to tell the depth to
        /// within a fiftieth.
        const STRETCHES: usize = 16;
        const PLACES: usize = 7;
        let [a, b] = group[0].contours;
        let layout = self.layout;
        let other = layout.of_contour(b);
        let inside = &layout.outline.segments()[layout.outline.contours()[b].clone()];
        let mut starts: Vec<&Crossing> = group.iter().collect();
        starts.sort_by(|c, d| {
            let (c, d) = (c.places[0], d.places[0]);
            c.segment.cmp(&d.segment).then(c.t.total_cmp(&d.t))
        });
        let mut deepest: Option<(Point, f64)> = None;
        for (k, start) in starts.iter().enumerate().take(STRETCHES) {
            let end = starts[(k + 1) % starts.len()];
            let stretch = Stretch::new(layout, a, start.places[0], end.places[0]);
            for place in 1..=PLACES {
                let p = stretch.at(place as f64 / (PLACES + 1) as f64);
                self.work += inside.len();
                if winding(inside, p) != 0 {
                    let depth = self.distance(p, &other);
                    if deepest.is_none_or(|d| d.1 < depth) {
                        deepest = Some((start.at, depth));
                    }
                }
            }
        }
        deepest
    }

    fn distance(&mut self, p: Point, chords: &Range<usize>) -> f64 {
        self.work += chords.len();
        self.layout.chords[chords.clone()]
            .iter()
            .map(|c| Line::new(c.a, c.b).nearest(p, 1e-3).distance_sq)
            .fold(f64::INFINITY, f64::min)
            .sqrt()
    }
}

/// A stretch of a contour, in chords.
struct Stretch<'a> {
    layout: &'a Layout<'a>,
    contour: Range<usize>,
    first: usize,
    /// Counted in chords from the start of the first.
    from: f64,
    to: f64,
}

impl<'a> Stretch<'a> {
    /// From one place to another, or once round where they are one.
    fn new(layout: &'a Layout<'a>, contour: usize, start: Place, end: Place) -> Self {
        let contour = layout.of_contour(contour);
        let (first, last) = (layout.chord_at(start), layout.chord_at(end));
        let share = |chord: usize, t: f64| {
            let c = &layout.chords[chord];
            (t - c.from) / (c.to - c.from)
        };
        let (from, mut to) = (
            share(first, start.t),
            last as f64 - first as f64 + share(last, end.t),
        );
        if to <= from {
            to += contour.len() as f64;
        }
        Self {
            layout,
            contour,
            first,
            from,
            to,
        }
    }

    /// The point at a share of the stretch, chord counted for chord.
    fn at(&self, share: f64) -> Point {
        let at = self.from + share * (self.to - self.from);
        let whole = at.floor();
        let chord = (self.first - self.contour.start + whole as usize) % self.contour.len();
        let c = &self.layout.chords[self.contour.start + chord];
        c.a.lerp(c.b, at - whole)
    }
}
