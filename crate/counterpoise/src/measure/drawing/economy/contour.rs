//! A contour cut into runs at its corners, with the places marked where a
//! drawing needs a point.

use super::run::{Mark, Run};
use crate::measure::drawing::joint::{DEGREE, Joint, SMOOTH, slack, turn, unit};
use crate::outline::Segment;
use kurbo::{ParamCurve, ParamCurveExtrema, PathSeg, Point, Vec2};

/// A curve that passes its ends by less than this (of the em) has no extreme
/// that asks for a point (common practice, no source).
pub(in crate::measure::drawing) const BULGE: f64 = 0.001;

/// Where the outline is within this of its extreme (of the em), a point serves
/// as the point at the extreme: rounding moves either by up to half a unit.
const PLATEAU: f64 = 0.000_75;

/// A joint at an extreme runs along the axis, but for rounding and this.
const AXIAL: f64 = 2.0 * DEGREE;

/// Handles off the axis, whose directions rounding leaves uncertain by more than
/// this between them (radians), do not hold the refit to it.
const ROUGH: f64 = 3.0 * DEGREE;

/// The runs of a contour.
pub(in crate::measure::drawing) fn runs(segments: &[Segment], em: f64) -> Vec<Run> {
    if segments.is_empty() {
        return Vec::new();
    }
    let contour = Contour::new(segments, em);
    let n = segments.len();
    let corners: Vec<usize> = (0..n).filter(|&i| contour.joints[i].is_corner()).collect();
    match corners.first() {
        Some(&first) => corners
            .iter()
            .zip(corners[1..].iter().copied().chain([first + n]))
            .map(|(&from, to)| {
                let ends = (contour.straight(from), contour.straight(to - 1));
                contour.run(&contour.spots(from, to), ends)
            })
            .collect(),
        None => {
            let (spots, direction) = contour.round();
            vec![contour.run(&spots, (Some(direction), Some(direction)))]
        }
    }
}

/// A joint, or a place inside a segment where it turns back along an axis.
/// Between two spots the outline only rises or only falls, only goes right or
/// only left.
#[derive(Debug, Clone, Copy)]
struct Spot {
    /// Counts on past the contour's end where a run passes its start.
    segment: usize,
    /// 0 at the joint where the segment starts.
    t: f64,
    point: Point,
}

impl Spot {
    fn is_joint(&self) -> bool {
        self.t == 0.0
    }
}

/// What becomes of a spot.
#[derive(Debug, Clone, Copy, Default)]
struct Fate {
    is_node: bool,
    mark: Mark,
}

struct Contour<'a> {
    segments: &'a [Segment],
    /// The joint where each segment starts.
    joints: Vec<Joint>,
    em: f64,
}

impl<'a> Contour<'a> {
    fn new(segments: &'a [Segment], em: f64) -> Self {
        let n = segments.len();
        let joints = (0..n)
            .map(|i| Joint::between(&segments[(i + n - 1) % n], &segments[i]))
            .collect();
        Self {
            segments,
            joints,
            em,
        }
    }

    fn segment(&self, i: usize) -> &Segment {
        &self.segments[i % self.segments.len()]
    }

    fn joint(&self, i: usize) -> &Joint {
        &self.joints[i % self.joints.len()]
    }

    /// The direction of a segment that is a line long enough to tell it.
    fn straight(&self, segment: usize) -> Option<Vec2> {
        match self.segment(segment).path_seg() {
            PathSeg::Line(l) if slack(l.p1 - l.p0) <= DEGREE => unit(l.p1 - l.p0),
            _ => None,
        }
    }

    /// The spots from one joint to another.
    fn spots(&self, from: usize, to: usize) -> Vec<Spot> {
        let mut spots = Vec::with_capacity(2 * (to - from) + 1);
        let joint = |segment: usize| Spot {
            segment,
            t: 0.0,
            point: self.joint(segment).point,
        };
        for segment in from..to {
            spots.push(joint(segment));
            let seg = self.segment(segment).path_seg();
            spots.extend(seg.extrema().into_iter().map(|t| Spot {
                segment,
                t,
                point: seg.eval(t),
            }));
        }
        spots.push(joint(to));
        spots
    }

    /// The spots of a contour without corners, from its rightmost place, where a
    /// drawing has a point anyway, round to it; and the direction there.
    fn round(&self) -> (Vec<Spot>, Vec2) {
        let n = self.segments.len();
        let mut spots = self.spots(0, n);
        // The last is the first again.
        spots.pop();
        let m = spots.len();
        let rightmost = (0..m)
            .max_by(|&a, &b| spots[a].point.x.total_cmp(&spots[b].point.x))
            .unwrap_or(0);
        let x = spots[rightmost].point.x;
        let up = Vec2::new(0.0, 1.0);
        let near = |i: &usize| x - spots[*i].point.x <= PLATEAU * self.em;
        let back = (1..m).map(|k| (rightmost + m - k) % m).take_while(near);
        let forth = (0..m).map(|k| (rightmost + k) % m).take_while(near);
        let mut back: Vec<usize> = back.collect();
        back.reverse();
        let joints: Vec<usize> = back
            .into_iter()
            .chain(forth)
            .filter(|&i| self.is_joint_along(&spots[i], up))
            .collect();
        // A straight line must not be cut in two; else the middle of the plateau
        // is nearest to the true extreme.
        let start = joints
            .iter()
            .copied()
            .rfind(|&i| self.straight(spots[i].segment + n - 1).is_some())
            .or_else(|| joints.get(joints.len() / 2).copied())
            .unwrap_or(rightmost);
        let direction = up * self.direction(&spots[start]).dot(up).signum();
        spots.rotate_left(start);
        let first = spots[0];
        for s in &mut spots[1..] {
            if (s.segment, s.t) < (first.segment, first.t) {
                s.segment += n;
            }
        }
        spots.push(Spot {
            segment: first.segment + n,
            ..first
        });
        (spots, direction)
    }

    /// Whether a spot is a joint whose handles run along an axis, but for rounding.
    fn is_joint_along(&self, spot: &Spot, axis: Vec2) -> bool {
        let along = |handle: Vec2| {
            let off = turn(axis, handle).abs();
            off.min(std::f64::consts::PI - off) <= AXIAL + slack(handle)
        };
        let joint = self.joint(spot.segment);
        spot.is_joint() && along(joint.before) && along(joint.after)
    }

    fn direction(&self, spot: &Spot) -> Vec2 {
        if spot.is_joint() {
            let joint = self.joint(spot.segment);
            joint.before + joint.after
        } else {
            self.segment(spot.segment).tangent(spot.t)
        }
    }

    fn run(&self, spots: &[Spot], ends: (Option<Vec2>, Option<Vec2>)) -> Run {
        let last = spots.len() - 1;
        let mut fates: Vec<Fate> = spots
            .iter()
            .enumerate()
            .map(|(i, s)| {
                let is_inner = i > 0 && i < last;
                let joint = self.joint(s.segment);
                Fate {
                    is_node: s.is_joint() || !is_inner,
                    mark: if s.is_joint() && is_inner {
                        Mark {
                            tangent: joint.direction(),
                            wish: None,
                            kinked: joint.turn.abs() > joint.slack.max(SMOOTH),
                        }
                    } else {
                        Mark::default()
                    },
                }
            })
            .collect();
        let mut plateaus = Vec::new();
        let axes = [Vec2::new(0.0, 1.0), Vec2::new(1.0, 0.0)];
        for axis in axes {
            // How far to the side of the axis: what is extreme where the outline
            // runs along it.
            let aside: Vec<f64> = spots
                .iter()
                .map(|s| axis.cross(s.point.to_vec2()))
                .collect();
            for at in turning_points(&aside, BULGE * self.em) {
                plateaus.push(self.plateau(spots, &aside, at, axis, &mut fates));
            }
        }
        fates[0].mark.tangent = ends.0;
        fates[last].mark.tangent = ends.1;
        self.sampled(spots, &fates, &plateaus)
    }

    /// Marks the spots that may serve as the point at an extreme; gives the
    /// first and the last of them.
    fn plateau(
        &self,
        spots: &[Spot],
        aside: &[f64],
        at: usize,
        axis: Vec2,
        fates: &mut [Fate],
    ) -> (usize, usize) {
        let near = |i: &usize| (aside[*i] - aside[at]).abs() <= PLATEAU * self.em;
        let from = (0..at).rev().take_while(near).last().unwrap_or(at);
        let to = (at..spots.len()).take_while(near).last().unwrap_or(at);
        let mut mark = |i: usize| {
            let along = unit(axis * self.direction(&spots[i]).dot(axis));
            let is_rough = spots[i].is_joint() && is_rough(self.joint(spots[i].segment), axis);
            fates[i].is_node = true;
            fates[i].mark.tangent = along.filter(|_| !is_rough);
            fates[i].mark.wish = along;
        };
        let mut found: Option<(usize, usize)> = None;
        for i in (from..=to).filter(|&i| self.is_joint_along(&spots[i], axis)) {
            mark(i);
            found = Some((found.map_or(i, |f| f.0), i));
        }
        found.unwrap_or_else(|| {
            mark(at);
            (at, at)
        })
    }

    fn sampled(&self, spots: &[Spot], fates: &[Fate], plateaus: &[(usize, usize)]) -> Run {
        let mut run = Run::from(spots[0].point);
        let mut node_of = vec![0; spots.len()];
        let mut before: Option<&Spot> = None;
        for (i, (spot, fate)) in spots.iter().zip(fates).enumerate() {
            node_of[i] = run.nodes.len();
            if !fate.is_node {
                continue;
            }
            if let Some(before) = before {
                run.add(self.between(before, spot), self.em);
            }
            run.mark(fate.mark);
            before = Some(spot);
        }
        let plateaus = plateaus
            .iter()
            .map(|&(first, last)| (node_of[first], node_of[last]))
            .collect();
        run.bound(plateaus, self.em);
        run
    }

    /// What is drawn from one spot to the next joint, or to a later spot of the
    /// same segment.
    fn between(&self, from: &Spot, to: &Spot) -> PathSeg {
        let seg = self.segment(from.segment).path_seg();
        let end = if to.segment == from.segment {
            to.t
        } else {
            1.0
        };
        if from.t == 0.0 && end == 1.0 {
            seg
        } else {
            seg.subsegment(from.t..end)
        }
    }
}

/// Whether a joint's handles are too short to tell that it runs along an axis: it
/// may then lie well beside the true extreme.
fn is_rough(joint: &Joint, axis: Vec2) -> bool {
    let off = |handle: Vec2| (axis.cross(handle) / handle.hypot()).abs();
    joint.slack > ROUGH && off(joint.before).max(off(joint.after)) > SMOOTH
}

/// Where values turn back, by at least `least` on both sides.
fn turning_points(values: &[f64], least: f64) -> Vec<usize> {
    let mut found = Vec::new();
    let (mut low, mut high) = (0, 0);
    // Unknown until the values have moved by `least`.
    let mut rising = None;
    for (i, &v) in values.iter().enumerate() {
        if v > values[high] {
            high = i;
        }
        if v < values[low] {
            low = i;
        }
        let (fell, rose) = (values[high] - v >= least, v - values[low] >= least);
        rising = match rising {
            Some(true) if fell => {
                found.push(high);
                Some(false)
            }
            Some(false) if rose => {
                found.push(low);
                Some(true)
            }
            None if fell || rose => Some(rose),
            _ => continue,
        };
        (low, high) = (i, i);
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::Outline;
    use kurbo::{BezPath, Circle, Shape};

    fn of(path: &BezPath) -> Vec<Run> {
        runs(Outline::from_path(path).segments(), 1000.0)
    }

    #[test]
    fn values_turn_back_where_both_sides_fall_away() {
        let turning = |values: &[f64]| turning_points(values, 1.0);
        assert_eq!(turning(&[0.0, 5.0, 0.0]), [1]);
        assert_eq!(turning(&[0.0, 5.0, 4.5, 5.2, 0.0]), [3]);
        assert_eq!(turning(&[0.0, 5.0, 0.0, 5.0, 0.0]), [1, 2, 3]);
        assert!(turning(&[0.0, 0.5, 0.0]).is_empty());
        assert!(turning(&[0.0, 5.0, 4.5]).is_empty());
        assert_eq!(turning(&[0.0, -3.0, 9.0]), [1]);
        assert!(turning(&[]).is_empty());
    }

    #[test]
    fn a_square_is_four_runs_and_a_circle_one_from_its_right() {
        let square = kurbo::Rect::new(0.0, 0.0, 200.0, 100.0).to_path(0.1);
        let runs = of(&square);
        assert_eq!(runs.len(), 4);
        assert!(runs.iter().all(|r| r.legs.len() == 1));
        let circle = Circle::new((0.0, 0.0), 100.0).to_path(0.1);
        let turned = kurbo::Affine::rotate(0.4) * circle;
        let [run] = &of(&turned)[..] else {
            panic!("a circle has no corner");
        };
        assert!(run.at(0).distance(Point::new(100.0, 0.0)) < 0.1);
        assert_eq!(run.nodes[0].mark.tangent, Some(Vec2::new(0.0, 1.0)));
        // Its own four joints, and the four extremes that they are not.
        assert_eq!(run.legs.len(), 8);
        let ends = run.legs.iter().zip(run.legs.iter().cycle().skip(1));
        for (a, b) in ends {
            assert!(a.end().distance(b.start()) < 1e-9);
        }
    }

    #[test]
    fn rounding_makes_no_corner_and_a_bevel_stays() {
        // Short handles, each half a unit off: a turn of eleven degrees.
        let mut p = BezPath::new();
        p.move_to((0.0, 0.0));
        p.curve_to((4.0, 0.0), (8.0, 0.5), (12.0, 1.0));
        p.curve_to((16.0, 2.4), (40.0, 10.0), (60.0, 30.0));
        p.line_to((0.0, 60.0));
        p.close_path();
        assert_eq!(of(&p).len(), 3);
        // A corner cut by a line of six units.
        let mut p = BezPath::new();
        p.move_to((0.0, 0.0));
        for at in [(94.0, 0.0), (100.0, 6.0), (100.0, 90.0)] {
            p.line_to(at);
        }
        p.close_path();
        assert_eq!(of(&p).len(), 4);
    }
}
