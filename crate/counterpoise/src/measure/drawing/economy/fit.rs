//! The cubic curve that lies nearest to a row of points.
//!
//! Least squares on the handles, the ends held: first of the distances between
//! points of equal share of the way, then, as the parameters settle, of the
//! distances square to the curve (Gauss and Newton's method), which converges in
//! few steps. Where the least squares are within the tolerance but one place is
//! not, the far places are given more weight.

use super::handles::{Handles, Sample};
use kurbo::{CubicBez, ParamCurve, Point, Vec2};

/// The most points that a fit looks at while it seeks; more are thinned out. The
/// verdict looks at all.
const MOST_SAMPLES: usize = 40;

/// Steps after which a fit is given up.
const MOST_STEPS: u32 = 14;

/// Steps in which the parameters settle roughly, and in which they do so well
/// enough for the least squares to be believed.
const ROUGH: u32 = 2;
const SETTLED: u32 = 3;

/// How much a distance along the curve counts once the parameters are settled
/// roughly: a little, lest points slip along it.
const ALONG: f64 = 0.02;

/// A fit further off than this many tolerances after [`HOPELESS_FROM`] steps
/// never comes near.
const HOPELESS: f64 = 2.5;
const HOPELESS_FROM: u32 = 5;

/// A step that leaves more than this share of the distance has settled.
const STALE: f64 = 0.9;

/// A handle longer than this share of the way makes a loop or a cusp.
const LONGEST_HANDLE: f64 = 1.2;

/// Half-way between two points a curve stands off their chord by less than this
/// share of it, unless it makes a hook; a quarter turn stands off by a fifth.
const HOOK: f64 = 0.3;

/// Directions that the ends of a curve must keep; `None` leaves one free.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Ends {
    pub(super) start: Option<Vec2>,
    pub(super) end: Option<Vec2>,
}

/// Fits curves, keeping its working memory between them.
#[derive(Debug, Default)]
pub(super) struct Fitter {
    samples: Vec<Sample>,
    /// Points looked at so far, over all fits: the work done.
    pub(super) work: usize,
}

impl Fitter {
    /// A curve from the first point to the last that passes within `tolerance`
    /// of all. `way` is the way to each, chord by chord.
    pub(super) fn fit(
        &mut self,
        points: &[Point],
        way: &[f64],
        ends: Ends,
        tolerance: f64,
    ) -> Option<CubicBez> {
        let row = Row::new(points, way)?;
        self.take(&row);
        let mut handles = Handles::new(row.from(), row.to(), ends);
        let mut best = f64::INFINITY;
        let mut stale = 0;
        for step in 0..MOST_STEPS {
            let along = if step < ROUGH { 1.0 } else { ALONG };
            let curve = handles.solve(&self.samples, along)?;
            let (mean, most) = self.project(&curve);
            if most <= tolerance {
                return self.is_sound(&curve, &row, tolerance).then_some(curve);
            }
            // The least squares are no greater than the greatest distance, so
            // once they have settled beyond the tolerance nothing can help.
            if step >= SETTLED && mean > tolerance && mean > STALE * best {
                stale += 1;
                if stale > 1 {
                    return None;
                }
            }
            if step >= HOPELESS_FROM && most > HOPELESS * tolerance {
                return None;
            }
            best = best.min(mean);
            if mean < tolerance && step >= SETTLED {
                self.press(&curve, most);
            }
        }
        None
    }

    fn take(&mut self, row: &Row<'_>) {
        self.samples.clear();
        self.samples.extend(row.thinned().map(|i| Sample {
            at: row.points[i],
            t: row.share(i),
            weight: 1.0,
        }));
    }

    /// Moves each parameter to the foot of its point on the curve. Gives the
    /// root of the mean square distance and the greatest distance.
    fn project(&mut self, curve: &CubicBez) -> (f64, f64) {
        self.work += self.samples.len();
        let p = Powers::of(curve);
        let (mut sum, mut most) = (0.0, 0.0_f64);
        for s in &mut self.samples {
            s.t = p.foot(s.at, s.t);
            let off = (p.at(s.t) - s.at).hypot2();
            sum += off;
            most = most.max(off);
        }
        let n = self.samples.len().max(1) as f64;
        ((sum / n).sqrt(), most.sqrt())
    }

    /// Gives more weight to points that lie further off.
    fn press(&mut self, curve: &CubicBez, most: f64) {
        for s in &mut self.samples {
            let off = curve.eval(s.t).distance(s.at) / most;
            s.weight = (s.weight * (0.5 + off)).clamp(0.05, 20.0);
        }
    }

    /// Whether a curve that passes the samples is one that may be drawn.
    fn is_sound(&mut self, curve: &CubicBez, row: &Row<'_>, tolerance: f64) -> bool {
        let longest = LONGEST_HANDLE * row.length();
        (curve.p1 - curve.p0).hypot() <= longest
            && (curve.p3 - curve.p2).hypot() <= longest
            && self.goes_along(curve, tolerance)
            && (self.samples.len() + 2 >= row.points.len()
                || self.passes_all(curve, row, tolerance))
    }

    /// Whether the curve passes the samples in their order, and makes no hook
    /// from one to the next, where none looks.
    fn goes_along(&self, curve: &CubicBez, tolerance: f64) -> bool {
        let (mut t, mut p) = (0.0, curve.p0);
        let samples = self.samples.iter().map(|s| (s.t, s.at));
        samples.chain([(1.0, curve.p3)]).all(|(u, q)| {
            let off = curve.eval(0.5 * (t + u)).distance(p.midpoint(q));
            let sound = u >= t - 1e-6 && off <= tolerance + HOOK * p.distance(q);
            (t, p) = (u, q);
            sound
        })
    }

    /// The verdict over points that were thinned out.
    fn passes_all(&mut self, curve: &CubicBez, row: &Row<'_>, tolerance: f64) -> bool {
        self.work += row.points.len();
        let p = Powers::of(curve);
        // Between two settled parameters the way tells where a point's foot is.
        let settled = row.thinned().zip(&self.samples).map(|(i, s)| (i, s.t));
        let (mut from, mut t) = (0, 0.0);
        settled.chain([(row.points.len() - 1, 1.0)]).all(|(to, u)| {
            let length = row.way[to] - row.way[from];
            let passes = (from + 1..to).all(|i| {
                let part = if length > 0.0 {
                    (row.way[i] - row.way[from]) / length
                } else {
                    0.0
                };
                let foot = p.foot(row.points[i], t + (u - t) * part);
                let foot = p.foot(row.points[i], foot);
                p.at(foot).distance(row.points[i]) <= tolerance
            });
            (from, t) = (to, u);
            passes
        })
    }
}

/// The points that a curve is to pass, its ends among them.
struct Row<'a> {
    points: &'a [Point],
    way: &'a [f64],
}

impl<'a> Row<'a> {
    /// `None` of points all in one place.
    fn new(points: &'a [Point], way: &'a [f64]) -> Option<Self> {
        let row = Self { points, way };
        (points.len() > 1 && row.length() > 0.0).then_some(row)
    }

    fn from(&self) -> Point {
        self.points[0]
    }

    fn to(&self) -> Point {
        self.points[self.points.len() - 1]
    }

    fn length(&self) -> f64 {
        self.way[self.way.len() - 1] - self.way[0]
    }

    /// The share of the way at which a point lies.
    fn share(&self, i: usize) -> f64 {
        (self.way[i] - self.way[0]) / self.length()
    }

    /// Points between the ends, at most [`MOST_SAMPLES`] of them.
    fn thinned(&self) -> impl Iterator<Item = usize> + use<> {
        let last = self.points.len() - 1;
        let step = (last - 1).div_ceil(MOST_SAMPLES).max(1);
        (1..last).step_by(step)
    }
}

/// A cubic as a polynomial.
struct Powers {
    p: Point,
    a: Vec2,
    b: Vec2,
    c: Vec2,
}

impl Powers {
    fn of(curve: &CubicBez) -> Self {
        let (u, v) = (curve.p1 - curve.p0, curve.p2 - curve.p1);
        Self {
            p: curve.p0,
            a: 3.0 * u,
            b: 3.0 * (v - u),
            c: curve.p3 - curve.p0 - 3.0 * v,
        }
    }

    fn at(&self, t: f64) -> Point {
        self.p + t * (self.a + t * (self.b + t * self.c))
    }

    /// One step of Newton's method towards the foot of a point.
    fn foot(&self, q: Point, t: f64) -> f64 {
        /// Beyond the centre of curvature the nearest place lies elsewhere, and
        /// the step that ignores the bend at least goes the right way.
        const LEAST_BEND: f64 = 0.25;
        let off = self.at(t) - q;
        let d = self.a + t * (2.0 * self.b + t * (3.0 * self.c));
        let dd = 2.0 * self.b + t * (6.0 * self.c);
        let pace = d.hypot2();
        let bend = pace + off.dot(dd);
        let bend = if bend > LEAST_BEND * pace { bend } else { pace };
        if bend > 0.0 {
            (t - off.dot(d) / bend).clamp(0.0, 1.0)
        } else {
            t
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::ParamCurveNearest;

    const BOWL: CubicBez = CubicBez {
        p0: Point::new(0.0, 0.0),
        p1: Point::new(0.0, 140.0),
        p2: Point::new(110.0, 250.0),
        p3: Point::new(250.0, 250.0),
    };

    /// Points at uneven places, moved off the curve by `noise` in turn.
    fn row(curve: &CubicBez, count: u32, noise: f64) -> (Vec<Point>, Vec<f64>) {
        let mut points = Vec::new();
        let mut way: Vec<f64> = Vec::new();
        for k in 0..=count {
            let t = f64::from(k) / f64::from(count);
            let t = t * t * (3.0 - 2.0 * t);
            let off = if k == 0 || k == count {
                0.0
            } else {
                noise * f64::from((k * 7) % 5) / 2.0 - noise
            };
            let p = curve.eval(t) + Vec2::new(off, -off);
            way.push(
                points
                    .last()
                    .map_or(0.0, |q: &Point| way[way.len() - 1] + q.distance(p)),
            );
            points.push(p);
        }
        (points, way)
    }

    #[test]
    fn a_cubic_is_found_again() {
        let mut fitter = Fitter::default();
        for (count, ends) in [
            (12, Ends::default()),
            (200, Ends::default()),
            (
                12,
                Ends {
                    start: Some(Vec2::new(0.0, 1.0)),
                    end: Some(Vec2::new(1.0, 0.0)),
                },
            ),
        ] {
            let (points, way) = row(&BOWL, count, 0.0);
            let found = fitter.fit(&points, &way, ends, 0.01).unwrap();
            assert!(found.p1.distance(BOWL.p1) < 0.5, "{found:?}");
            assert!(found.p2.distance(BOWL.p2) < 0.5, "{found:?}");
        }
    }

    #[test]
    fn noise_within_the_tolerance_is_passed_over() {
        let (points, way) = row(&BOWL, 30, 0.3);
        let mut fitter = Fitter::default();
        let found = fitter.fit(&points, &way, Ends::default(), 0.5).unwrap();
        for p in points {
            assert!(found.nearest(p, 1e-6).distance_sq.sqrt() <= 0.5 + 1e-6);
        }
        let (points, way) = row(&BOWL, 30, 0.6);
        assert!(fitter.fit(&points, &way, Ends::default(), 0.5).is_none());
    }

    #[test]
    fn one_place_beyond_the_tolerance_is_seen_among_many() {
        let (mut points, way) = row(&BOWL, 400, 0.0);
        points[201] += Vec2::new(1.0, -1.0);
        let mut fitter = Fitter::default();
        assert!(fitter.fit(&points, &way, Ends::default(), 0.5).is_none());
    }

    #[test]
    fn a_half_circle_is_not_one_curve_within_half_a_unit() {
        let (mut points, mut way) = (Vec::new(), Vec::new());
        for k in 0..=40 {
            let a = std::f64::consts::PI * f64::from(k) / 40.0;
            points.push(Point::new(250.0 * a.cos(), 250.0 * a.sin()));
            way.push(250.0 * a);
        }
        let mut fitter = Fitter::default();
        assert!(fitter.fit(&points, &way, Ends::default(), 0.5).is_none());
        assert!(
            fitter
                .fit(&points[..21], &way[..21], Ends::default(), 0.5)
                .is_some()
        );
    }

    #[test]
    fn points_in_one_place_have_no_curve() {
        let mut fitter = Fitter::default();
        let p = Point::new(3.0, 4.0);
        assert!(
            fitter
                .fit(&[p, p, p], &[0.0, 0.0, 0.0], Ends::default(), 0.5)
                .is_none()
        );
        assert!(fitter.fit(&[], &[], Ends::default(), 0.5).is_none());
    }

    #[test]
    fn no_hook_hides_between_two_points() {
        // Handles that a spike would need: the way out and back is not along
        // the points.
        let points: Vec<Point> = (0..=8)
            .map(|k| Point::new(f64::from(k) * 10.0, 0.0))
            .collect();
        let way: Vec<f64> = (0..=8).map(|k| f64::from(k) * 10.0).collect();
        let mut fitter = Fitter::default();
        let ends = Ends {
            start: Some(Vec2::new(-1.0, 0.0)),
            end: None,
        };
        assert!(fitter.fit(&points, &way, ends, 0.5).is_none());
    }
}
