//! Do contours overlap, or run against the direction of the others? Then the
//! signed area is not the ink's.
//!
//! If any two segments cross, they do. If none do, contours lie inside or
//! outside each other, and the winding numbers on a level line through each tell
//! whether one inside another runs the same way. Crossings are looked for
//! between chords of the curves, six to a curve: what that mistakes, two curves
//! that graze each other, bears on no figure.

use super::{Crossing, Outline, Ray, Segment};
use crate::order::by_number;
use kurbo::{Point, Rect};

/// The most level lines that read winding numbers: a letter has a few contours,
/// hatching hundreds, of which some tell as much as all.
const MOST_PROBES: usize = 64;

/// Chords of a curve.
const CHORDS: usize = 6;

/// The most pairs of segments that are looked at: a letter has some hundreds
/// near each other, hatching some thousands; past it the level lines must do.
const MOST_PAIRS: usize = 200_000;

impl Outline {
    /// Whether some ink lies inside two contours, or inside one that runs
    /// against the rest.
    pub fn overlaps(&self) -> bool {
        self.crosses_itself() || self.winds_twice()
    }

    /// Whether some contour lies inside another that runs the same way, or inside
    /// none and against the rest. One level line through each contour tells:
    /// where nothing crosses, the winding is the same all along a contour's edge.
    fn winds_twice(&self) -> bool {
        let mut range = Range::default();
        let contours = self.contours();
        let thin = contours.len().div_ceil(MOST_PROBES).max(1);
        for contour in contours.iter().step_by(thin) {
            let bounds = self.segments()[contour.clone()]
                .iter()
                .map(Segment::bounds)
                .reduce(|a, b| a.union(b));
            if let Some(b) = bounds {
                range.probe(self, &Ray::level(b.center().y));
            }
        }
        range.most - range.least > 1
    }

    /// Whether two segments cross that are not neighbours.
    fn crosses_itself(&self) -> bool {
        let segments = self.segments();
        let mut order: Vec<usize> = (0..segments.len()).collect();
        by_number(&mut order, |&k| segments[k].bounds().y0);
        let next = self.next_segments();
        let mut pairs = 0;
        for (k, &i) in order.iter().enumerate() {
            let a = segments[i].bounds();
            for &j in &order[k + 1..] {
                let b = segments[j].bounds();
                if b.y0 > a.y1 {
                    break;
                }
                pairs += 1;
                if pairs > MOST_PAIRS {
                    return false;
                }
                // Boxes that share no more than an edge may hold such a point.
                let apart = b.x0 > a.x1 || a.x0 > b.x1;
                if !apart && next[i] != j && next[j] != i && cross(&segments[i], &segments[j]) {
                    return true;
                }
            }
        }
        false
    }

    /// The segment that follows each one on its contour.
    fn next_segments(&self) -> Vec<usize> {
        let mut next: Vec<usize> = (1..=self.segments().len()).collect();
        for contour in self.contours() {
            if let Some(last) = next.get_mut(contour.end - 1) {
                *last = contour.start;
            }
        }
        next
    }
}

/// Whether chords of two segments cross.
fn cross(a: &Segment, b: &Segment) -> bool {
    let (p, q) = (Chords::of(a), Chords::of(b));
    p.pairs().any(|u| {
        let reach = Rect::from_points(u[0], u[1]);
        meet(reach, b.bounds()) && q.pairs().any(|v| lines_cross(u, v))
    })
}

fn meet(a: Rect, b: Rect) -> bool {
    a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1
}

/// Points on a segment, to be joined by chords.
struct Chords {
    points: [Point; CHORDS + 1],
    count: usize,
}

impl Chords {
    fn of(s: &Segment) -> Self {
        let mut points = [s.start(); CHORDS + 1];
        if s.is_line() {
            points[1] = s.end();
            return Self { points, count: 2 };
        }
        for (i, p) in points.iter_mut().enumerate() {
            *p = s.at(i as f64 / CHORDS as f64);
        }
        Self {
            points,
            count: CHORDS + 1,
        }
    }

    fn pairs(&self) -> impl Iterator<Item = &[Point]> {
        self.points[..self.count].windows(2)
    }
}

/// Whether two lines cross: each has its ends on either side of the other,
/// where "on it" counts as left, since overlaps often begin at a point that
/// both contours share. Contours that only touch may be taken to cross; their
/// area is then summed, and comes out the same.
fn lines_cross(u: &[Point], v: &[Point]) -> bool {
    let left = |a: Point, b: Point, p: Point| (b - a).cross(p - a) >= 0.0;
    left(u[0], u[1], v[0]) != left(u[0], u[1], v[1])
        && left(v[0], v[1], u[0]) != left(v[0], v[1], u[1])
}

/// The winding numbers seen.
#[derive(Default)]
struct Range {
    crossings: Vec<Crossing>,
    least: i32,
    most: i32,
}

impl Range {
    fn probe(&mut self, outline: &Outline, ray: &Ray) {
        outline.crossings(ray, &mut self.crossings);
        let mut winding = 0;
        for c in &self.crossings {
            winding += c.turn;
            self.least = self.least.min(winding);
            self.most = self.most.max(winding);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{BezPath, Circle, Shape};

    fn boxes(rects: &[(f64, f64, f64, f64)]) -> Outline {
        let mut p = BezPath::new();
        for &(x0, y0, x1, y1) in rects {
            p.extend(Rect::new(x0, y0, x1, y1).to_path(0.1));
        }
        Outline::from_path(&p)
    }

    #[test]
    fn a_bar_that_laps_a_stem_by_a_hair_is_seen() {
        let o = boxes(&[(0.0, 0.0, 90.0, 700.0), (88.0, 330.0, 300.0, 334.0)]);
        assert!(o.overlaps());
    }

    #[test]
    fn a_contour_that_laps_itself_by_a_corner_is_seen() {
        let mut p = BezPath::new();
        for (i, at) in [
            (0.0, 0.0),
            (90.0, 0.0),
            (90.0, 400.0),
            (85.0, 402.0),
            (300.0, 300.0),
            (300.0, 380.0),
            (80.0, 380.0),
            (80.0, 700.0),
            (0.0, 700.0),
        ]
        .into_iter()
        .enumerate()
        {
            if i == 0 {
                p.move_to(at);
            } else {
                p.line_to(at);
            }
        }
        p.close_path();
        assert!(Outline::from_path(&p).overlaps());
    }

    #[test]
    fn a_thin_ring_does_not_cross_itself() {
        let mut p = Circle::new((0.0, 0.0), 300.0).to_path(0.1);
        p.extend(
            Circle::new((0.0, 0.0), 292.0)
                .to_path(0.1)
                .reverse_subpaths(),
        );
        assert!(!Outline::from_path(&p).overlaps());
    }

    #[test]
    fn parts_that_stand_apart_do_not_overlap() {
        let o = boxes(&[(0.0, 0.0, 90.0, 500.0), (0.0, 600.0, 90.0, 700.0)]);
        assert!(!o.overlaps());
    }

    #[test]
    fn a_counter_is_no_overlap_unless_it_runs_the_wrong_way() {
        let outer = Rect::new(0.0, 0.0, 100.0, 100.0).to_path(0.1);
        let inner = Rect::new(20.0, 20.0, 80.0, 80.0).to_path(0.1);
        let with = |inner: BezPath| {
            let mut p = outer.clone();
            p.extend(inner);
            Outline::from_path(&p)
        };
        assert!(!with(inner.reverse_subpaths()).overlaps());
        assert!(with(inner).overlaps());
    }
}
