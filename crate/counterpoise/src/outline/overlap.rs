//! Do contours overlap, or run against the direction of the others? Then the
//! signed area is not the ink's.
//!
//! Winding numbers are read on level lines through the whole outline, and on
//! level and upright lines through every place where the boxes of two contours
//! meet although neither is a counter of the other. An overlap of a contour
//! with itself that is lower than a 13th of the outline can be stepped over.

use super::{Crossing, Outline, Ray};
use kurbo::Rect;

/// Level lines through the whole outline.
const PROBES: u32 = 13;

/// Lines each way through a place where two contours may overlap.
const PAIR_PROBES: u32 = 5;

/// Contours beyond this are not paired: letters have fewer than ten, a sketch
/// in hatching dozens; pairing thousands would take seconds.
const MOST_CONTOURS: usize = 64;

impl Outline {
    /// Whether some place lies inside two contours of one direction, or outside
    /// all of one and inside one of the other.
    pub fn overlaps(&self) -> bool {
        let Some(bounds) = self.bounds() else {
            return false;
        };
        let mut range = Range::default();
        self.probe_levels(bounds, PROBES, &mut range);
        if range.is_wide() {
            return true;
        }
        let contours: Vec<(Rect, bool)> = (0..self.contours().len().min(MOST_CONTOURS))
            .filter_map(|i| {
                let segments = &self.segments()[self.contours()[i].clone()];
                let bounds = segments
                    .iter()
                    .map(|s| s.bounds())
                    .reduce(|a, b| a.union(b))?;
                Some((bounds, self.contour_area(i) >= 0.0))
            })
            .collect();
        for (i, a) in contours.iter().enumerate() {
            for b in &contours[i + 1..] {
                let meet = a.0.intersect(b.0);
                let counter = a.1 != b.1 && (meet == a.0 || meet == b.0);
                if counter || meet.width() <= 0.0 || meet.height() <= 0.0 {
                    continue;
                }
                self.probe_levels(meet, PAIR_PROBES, &mut range);
                self.probe_uprights(meet, PAIR_PROBES, &mut range);
                if range.is_wide() {
                    return true;
                }
            }
        }
        false
    }

    fn probe_levels(&self, place: Rect, count: u32, range: &mut Range) {
        for i in 0..count {
            let share = (f64::from(i) + 0.5) / f64::from(count);
            range.probe(self, &Ray::level(place.y0 + share * place.height()));
        }
    }

    fn probe_uprights(&self, place: Rect, count: u32, range: &mut Range) {
        for i in 0..count {
            let share = (f64::from(i) + 0.5) / f64::from(count);
            range.probe(self, &Ray::upright(place.x0 + share * place.width()));
        }
    }
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

    fn is_wide(&self) -> bool {
        self.most - self.least > 1
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{BezPath, Shape};

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
