//! The outline laid out in chords that keep near to its curves.

use crate::outline::Outline;
use kurbo::{Line, ParamCurve, ParamCurveDeriv, ParamCurveNearest, PathSeg, Point, Rect, Vec2};
use std::ops::Range;

/// Chords keep this near to their curve (of the em).
const FLAT: f64 = 0.000_2;

/// The most chords: letters take hundreds.
const MOST: usize = 60_000;

/// A place on the outline.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub(super) segment: usize,
    pub(super) t: f64,
}

/// A chord of a segment.
#[derive(Debug, Clone, Copy)]
pub(super) struct Chord {
    pub(super) segment: usize,
    pub(super) contour: usize,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) a: Point,
    pub(super) b: Point,
}

impl Chord {
    pub(super) fn bounds(&self) -> Rect {
        Rect::from_points(self.a, self.b)
    }

    /// An end of either chord that lies on the other.
    pub(super) fn touches(&self, other: &Self) -> Option<Point> {
        /// Font units: what is drawn to touch does so but for arithmetic.
        const TOUCH: f64 = 1e-3;
        let on = |p: Point, c: &Self| {
            let nearest = Line::new(c.a, c.b).nearest(p, TOUCH);
            nearest.distance_sq < TOUCH * TOUCH
        };
        [self.a, self.b]
            .into_iter()
            .find(|p| on(*p, other))
            .or_else(|| [other.a, other.b].into_iter().find(|p| on(*p, self)))
    }

    /// Where two chords meet, as shares of each.
    pub(super) fn meets(&self, other: &Self) -> Option<(f64, f64)> {
        let (d, e) = (self.b - self.a, other.b - other.a);
        // On the line counts as left of it, so that a chain of chords that
        // passes through a joint of another crosses it once.
        let side = |p: Point, from: Point, along: Vec2| along.cross(p - from) >= 0.0;
        if side(self.a, other.a, e) == side(self.b, other.a, e)
            || side(other.a, self.a, d) == side(other.b, self.a, d)
        {
            return None;
        }
        let across = d.cross(e);
        if across == 0.0 {
            return None;
        }
        let apart = other.a - self.a;
        Some((apart.cross(e) / across, apart.cross(d) / across))
    }
}

/// The chords of an outline, and where each segment's and contour's stand.
pub(super) struct Layout<'a> {
    pub(super) outline: &'a Outline,
    pub(super) chords: Vec<Chord>,
    first_chord: Vec<usize>,
    contour_of: Vec<usize>,
}

impl<'a> Layout<'a> {
    /// `None` if there is too much of it.
    pub(super) fn of(outline: &'a Outline, em: f64) -> Option<Self> {
        let mut layout = Self {
            outline,
            chords: Vec::new(),
            first_chord: Vec::new(),
            contour_of: Vec::new(),
        };
        for (contour, range) in outline.contours().iter().enumerate() {
            for segment in range.clone() {
                layout.first_chord.push(layout.chords.len());
                layout.contour_of.push(contour);
                layout.add(segment, contour, FLAT * em);
                if layout.chords.len() > MOST {
                    return None;
                }
            }
        }
        layout.first_chord.push(layout.chords.len());
        Some(layout)
    }

    fn add(&mut self, segment: usize, contour: usize, flat: f64) {
        let seg = self.seg(segment);
        let count = chord_count(&seg, flat);
        let (mut from, mut a) = (0.0, seg.start());
        for k in 1..=count {
            let to = f64::from(k) / f64::from(count);
            // The very end, so that neighbours share it.
            let b = if k == count { seg.end() } else { seg.eval(to) };
            self.chords.push(Chord {
                segment,
                contour,
                from,
                to,
                a,
                b,
            });
            (from, a) = (to, b);
        }
    }

    pub(super) fn seg(&self, segment: usize) -> PathSeg {
        self.outline.segments()[segment].path_seg()
    }

    pub(super) fn at(&self, place: Place) -> Point {
        self.seg(place.segment).eval(place.t)
    }

    pub(super) fn contour_of(&self, segment: usize) -> usize {
        self.contour_of[segment]
    }

    /// The segment that follows on its contour.
    pub(super) fn next(&self, segment: usize) -> usize {
        let range = &self.outline.contours()[self.contour_of[segment]];
        if segment + 1 == range.end {
            range.start
        } else {
            segment + 1
        }
    }

    /// The segment before it on its contour.
    pub(super) fn previous(&self, segment: usize) -> usize {
        let range = &self.outline.contours()[self.contour_of[segment]];
        if segment == range.start {
            range.end - 1
        } else {
            segment - 1
        }
    }

    /// Where a contour's chords stand.
    pub(super) fn of_contour(&self, contour: usize) -> Range<usize> {
        let range = &self.outline.contours()[contour];
        self.first_chord[range.start]..self.first_chord[range.end]
    }

    /// The chord that a place lies over.
    pub(super) fn chord_at(&self, place: Place) -> usize {
        let range = self.first_chord[place.segment]..self.first_chord[place.segment + 1];
        let within = self.chords[range.clone()].partition_point(|c| c.to < place.t);
        (range.start + within).min(range.end - 1)
    }
}

/// The derivative of a segment.
pub(super) fn derivative(seg: &PathSeg, t: f64) -> Vec2 {
    match seg {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => q.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(c) => c.deriv().eval(t).to_vec2(),
    }
}

/// Chords that keep within a distance of a curve: a chord's height is an eighth
/// of the second derivative at most.
fn chord_count(seg: &PathSeg, flat: f64) -> u32 {
    const MOST: f64 = 64.0;
    let bend = match *seg {
        PathSeg::Line(_) => return 1,
        PathSeg::Quad(q) => 2.0 * (q.p0.to_vec2() - 2.0 * q.p1.to_vec2() + q.p2.to_vec2()).hypot(),
        PathSeg::Cubic(c) => {
            let (a, b) = (
                c.p0.to_vec2() - 2.0 * c.p1.to_vec2() + c.p2.to_vec2(),
                c.p1.to_vec2() - 2.0 * c.p2.to_vec2() + c.p3.to_vec2(),
            );
            6.0 * a.hypot().max(b.hypot())
        }
    };
    (bend / (8.0 * flat)).sqrt().ceil().clamp(1.0, MOST) as u32
}
