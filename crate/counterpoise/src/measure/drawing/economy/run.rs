//! A contour cut into runs, each a smooth line from corner to corner, with the
//! places marked where a drawing needs a point.

use crate::measure::drawing::joint::{
    DEGREE, Joint, SMOOTH, handle_in, handle_out, slack, turn, unit,
};
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

/// Samples of a curve are about this far apart (of the em), so that no bump
/// worth a point hides between two; those of a line only keep its weight.
const APART: (f64, f64) = (0.012, 0.03);

/// A line this long (of the em) stays a line: nobody bends a stem to save a
/// point. Shorter ones may be chords of a traced curve.
const STEM: f64 = 0.05;

/// A place where the refit may have a point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// Its place among the run's samples.
    pub(super) sample: usize,
    /// The direction that the refit must take here, of length 1.
    pub(super) tangent: Option<Vec2>,
    /// The outline turns here by more than rounding accounts for.
    pub(super) kinked: bool,
}

/// A smooth stretch of a contour between two corners, or all of a contour that
/// has none.
#[derive(Debug, Clone)]
pub(in crate::measure::drawing) struct Run {
    pub(super) nodes: Vec<Node>,
    /// What is drawn between each node and the next.
    pub(in crate::measure::drawing) legs: Vec<PathSeg>,
    /// Points along the run, the nodes among them.
    pub(super) samples: Vec<Point>,
    /// Way along the run to each sample, chord by chord.
    pub(super) way: Vec<f64>,
    /// The last node that a curve from each node may end at: it must not pass
    /// an extreme, nor take the place of a long line.
    pub(super) reach: Vec<usize>,
}

impl Run {
    /// Where a node lies.
    pub(super) fn at(&self, node: usize) -> Point {
        self.samples[self.nodes[node].sample]
    }
}

/// The runs of a contour.
pub(in crate::measure::drawing) fn runs(segments: &[Segment], em: f64) -> Vec<Run> {
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
struct Mark {
    is_node: bool,
    tangent: Option<Vec2>,
    kinked: bool,
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
        let mut marks: Vec<Mark> = spots
            .iter()
            .enumerate()
            .map(|(i, s)| {
                let inner = s.is_joint() && i > 0 && i < last;
                let joint = self.joint(s.segment);
                Mark {
                    is_node: s.is_joint() || i == 0 || i == last,
                    tangent: joint.direction().filter(|_| inner),
                    kinked: inner && joint.turn.abs() > joint.slack.max(SMOOTH),
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
                plateaus.push(self.plateau(spots, &aside, at, axis, &mut marks));
            }
        }
        marks[0].tangent = ends.0;
        marks[last].tangent = ends.1;
        self.sampled(spots, &marks, &plateaus)
    }

    /// Marks the spots that may serve as the point at an extreme; gives the
    /// first and the last of them.
    fn plateau(
        &self,
        spots: &[Spot],
        aside: &[f64],
        at: usize,
        axis: Vec2,
        marks: &mut [Mark],
    ) -> (usize, usize) {
        let near = |i: &usize| (aside[*i] - aside[at]).abs() <= PLATEAU * self.em;
        let from = (0..at).rev().take_while(near).last().unwrap_or(at);
        let to = (at..spots.len()).take_while(near).last().unwrap_or(at);
        let mut mark = |i: usize| {
            marks[i].is_node = true;
            marks[i].tangent = unit(axis * self.direction(&spots[i]).dot(axis));
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

    fn sampled(&self, spots: &[Spot], marks: &[Mark], plateaus: &[(usize, usize)]) -> Run {
        let mut run = Run {
            nodes: Vec::new(),
            legs: Vec::new(),
            samples: vec![spots[0].point],
            way: vec![0.0],
            reach: Vec::new(),
        };
        let mut node_of = vec![0; spots.len()];
        let mut before: Option<&Spot> = None;
        for (i, (spot, mark)) in spots.iter().zip(marks).enumerate() {
            node_of[i] = run.nodes.len();
            if !mark.is_node {
                continue;
            }
            if let Some(before) = before {
                let seg = self.segment(before.segment).path_seg();
                let to = if spot.segment == before.segment {
                    spot.t
                } else {
                    1.0
                };
                run.sample(
                    if before.t == 0.0 && to == 1.0 {
                        seg
                    } else {
                        seg.subsegment(before.t..to)
                    },
                    self.em,
                );
            }
            run.nodes.push(Node {
                sample: run.samples.len() - 1,
                tangent: mark.tangent,
                kinked: mark.kinked,
            });
            before = Some(spot);
        }
        run.reach = vec![run.legs.len(); run.nodes.len()];
        for &(first, last) in plateaus {
            for reach in &mut run.reach[..node_of[first]] {
                *reach = node_of[last].min(*reach);
            }
        }
        for (i, leg) in run.legs.iter().enumerate() {
            if matches!(leg, PathSeg::Line(l) if l.p0.distance(l.p1) >= STEM * self.em) {
                for reach in &mut run.reach[..=i] {
                    *reach = i.min(*reach);
                }
            }
        }
        run
    }
}

impl Run {
    /// Adds a leg and its samples.
    fn sample(&mut self, leg: PathSeg, em: f64) {
        let middle = leg.eval(0.5);
        let length = (middle - leg.start()).hypot() + (leg.end() - middle).hypot();
        let count = match leg {
            PathSeg::Line(_) => (length / (APART.1 * em)).ceil().clamp(1.0, 4.0),
            _ => {
                // However short, a curve is seen as one, and a tight one well.
                let least = if turns_much(&leg) { 8.0 } else { 5.0 };
                (length / (APART.0 * em)).ceil().clamp(least, 10.0)
            }
        };
        let mut at = leg.start();
        let mut way = self.way.last().copied().unwrap_or(0.0);
        let mut add = |p: Point| {
            way += (p - at).hypot();
            at = p;
            self.samples.push(p);
            self.way.push(way);
        };
        for k in 1..count as u32 {
            add(leg.eval(f64::from(k) / count));
        }
        add(leg.end());
        self.legs.push(leg);
    }
}

/// Whether a curve's ends run more than 45 degrees apart.
fn turns_much(leg: &PathSeg) -> bool {
    let (a, b) = (handle_out(leg), handle_in(leg));
    a.dot(b) < std::f64::consts::FRAC_1_SQRT_2 * a.hypot() * b.hypot()
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
