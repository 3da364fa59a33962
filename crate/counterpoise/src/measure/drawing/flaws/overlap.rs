//! What meetings amount to: contours that overlap, contours that cross
//! themselves, and how large that is.
//!
//! Two contours that meet overlap if one has places well inside the other and
//! places well outside it. So contours that share an edge and overlap beyond it
//! are found, though nothing crosses; those that only share an edge, or of which
//! one lies within the other and touches it, are not.

use super::chords::Layout;
use super::crossing::{Meeting, meetings};
use super::winding::winding;
use super::{Flaw, FlawKind, Found};
use crate::order::by_number;
use crate::outline::Outline;
use kurbo::{Line, ParamCurveNearest, Point, Rect};

/// An overlap or a loop smaller than this (of the em) is rounding.
const LEAST: f64 = 0.000_5;

/// Chords looked at to tell sizes, at most (about 5 ns each); past it, the
/// remaining crossings are not followed up.
const MOST_WORK: usize = 10_000_000;

/// Tells of overlaps and self-crossings. Gives, of each contour, whether it
/// crosses itself or another; `None` if there is too much to look at.
pub(super) fn look(outline: &Outline, em: f64, found: &mut Found) -> Option<Vec<bool>> {
    let layout = Layout::of(outline, em);
    let meetings = layout.as_ref().and_then(|l| meetings(l, em));
    let (Some(layout), Some(meetings)) = (layout, meetings) else {
        found
            .not_looked_for
            .extend([FlawKind::Overlap, FlawKind::SelfCrossing]);
        return None;
    };
    let mut crossed = vec![false; outline.contours().len()];
    let mut sizes = Sizes {
        layout: &layout,
        least: LEAST * em,
        work: 0,
    };
    for group in meetings.chunk_by(|a, b| a.contours == b.contours) {
        let [a, b] = group[0].contours;
        let crosses = group.iter().any(|m| m.crosses);
        if sizes.work > MOST_WORK {
            let kinds = [FlawKind::Overlap, FlawKind::SelfCrossing];
            found.not_looked_for.extend(kinds);
            return None;
        }
        if a == b {
            crossed[a] |= crosses;
            for m in group.iter().filter(|m| m.crosses) {
                found.add_if_larger(
                    sizes.least,
                    Flaw {
                        kind: FlawKind::SelfCrossing,
                        at: m.at,
                        size: sizes.of_loop(m),
                        contour: a,
                    },
                );
            }
        } else {
            let overlap = sizes.of_overlap(group);
            let overlaps = crosses || overlap.is_some();
            crossed[a] |= overlaps;
            crossed[b] |= overlaps;
            if let Some((at, size)) = overlap {
                found.add(Flaw {
                    kind: FlawKind::Overlap,
                    at,
                    size,
                    contour: a,
                });
            }
        }
    }
    Some(crossed)
}

struct Sizes<'a> {
    layout: &'a Layout<'a>,
    /// Font units: what is smaller counts as nothing.
    least: f64,
    /// Chords looked at so far.
    work: usize,
}

impl Sizes<'_> {
    /// The greater side of the box of the lesser loop.
    fn of_loop(&mut self, c: &Meeting) -> f64 {
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

    /// How deep one of two contours that meet reaches into the other, at most,
    /// and where: at the crossing nearest to that place, if they cross. `None` if
    /// they do not overlap.
    fn of_overlap(&mut self, group: &[Meeting]) -> Option<(Point, f64)> {
        let [a, b] = group[0].contours;
        let first = self.inside(a, b, group, 0);
        let second = self.inside(b, a, group, 1);
        let (deepest, depth) = match (first, second) {
            (Some(f), Some(s)) if s.1 > f.1 => s,
            (Some(f), _) => f,
            (None, s) => s?,
        };
        let far = |m: &&Meeting| m.at.distance(deepest);
        let crossing = group
            .iter()
            .filter(|m| m.crosses)
            .min_by(|c, d| far(c).total_cmp(&far(d)));
        Some((crossing.map_or(deepest, |c| c.at), depth))
    }

    /// The place of one contour that lies deepest inside another, and how deep;
    /// `None` unless it has places well inside and well outside.
    fn inside(
        &mut self,
        contour: usize,
        other: usize,
        group: &[Meeting],
        own: usize,
    ) -> Option<(Point, f64)> {
        let outline = self.layout.outline;
        let segments = &outline.segments()[outline.contours()[other].clone()];
        let mut deepest: Option<(Point, f64)> = None;
        let mut leaves = false;
        for p in self.places(contour, group, own) {
            self.work += segments.len();
            let is_inside = winding(segments, p) != 0;
            if !is_inside && leaves {
                continue;
            }
            let distance = self.distance(p, other);
            if distance <= self.least {
                continue;
            }
            leaves |= !is_inside;
            if is_inside && deepest.is_none_or(|d| d.1 < distance) {
                deepest = Some((p, distance));
            }
        }
        deepest.filter(|_| leaves)
    }

    /// Places on a contour that tell where it runs: the starts and the middles of
    /// its chords, and the middles of what its crossings leave of theirs.
    fn places(&self, contour: usize, group: &[Meeting], own: usize) -> Vec<Point> {
        /// Enough to tell a depth to within some hundredths.
        const CHORDS: usize = 64;
        const CROSSINGS: usize = 16;
        let range = self.layout.of_contour(contour);
        let step = range.len().div_ceil(CHORDS);
        let chords = self.layout.chords[range].iter().step_by(step);
        let mut places: Vec<Point> = chords.flat_map(|c| [c.a, c.a.midpoint(c.b)]).collect();
        let mut crossings: Vec<(usize, f64, Point)> = group
            .iter()
            .filter(|m| m.crosses)
            .take(CROSSINGS)
            .map(|m| (self.layout.chord_at(m.places[own]), m.places[own].t, m.at))
            .collect();
        by_number(&mut crossings, |c| c.1);
        by_number(&mut crossings, |c| c.0 as f64);
        for parts in crossings.chunk_by(|c, d| c.0 == d.0) {
            let chord = &self.layout.chords[parts[0].0];
            let mut from = chord.a;
            for to in parts.iter().map(|c| c.2).chain([chord.b]) {
                places.push(from.midpoint(to));
                from = to;
            }
        }
        places
    }

    fn distance(&mut self, p: Point, contour: usize) -> f64 {
        let chords = self.layout.of_contour(contour);
        self.work += chords.len();
        self.layout.chords[chords]
            .iter()
            .map(|c| Line::new(c.a, c.b).nearest(p, 1e-3).distance_sq)
            .fold(f64::INFINITY, f64::min)
            .sqrt()
    }
}
