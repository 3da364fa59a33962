//! A smooth stretch of a contour, and the points along it that a refit is held
//! against.

use crate::measure::drawing::joint::{handle_in, handle_out};
use kurbo::{ParamCurve, PathSeg, Point, Vec2};

/// Samples are about this far apart (of the em), so that no bump worth a point
/// hides between two, nor the middle of a line that a curve would pass by.
const APART: f64 = 0.008;

/// A line this long (of the em) stays a line: nobody bends a stem to save a
/// point. Shorter ones may be chords of a traced curve.
const STEM: f64 = 0.05;

/// A line this short (of the em) is no longer than a refit may stray.
const SHORT: f64 = 0.002;

/// How the outline runs through a place.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Mark {
    /// The direction that the refit must take here, of length 1.
    pub(super) tangent: Option<Vec2>,
    /// The direction that a drawing has here, where the outline's own is too
    /// rough to hold the refit to it.
    pub(super) wish: Option<Vec2>,
    /// The outline turns here by more than rounding accounts for.
    pub(super) kinked: bool,
}

/// A place where the refit may have a point.
#[derive(Debug, Clone, Copy)]
pub(super) struct Node {
    /// Its place among the run's samples.
    pub(super) sample: usize,
    pub(super) mark: Mark,
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
    /// The first and the last node that serve as the point at each extreme.
    pub(super) plateaus: Vec<(usize, usize)>,
}

impl Run {
    /// A run without legs yet.
    pub(super) fn from(start: Point) -> Self {
        Self {
            nodes: Vec::new(),
            legs: Vec::new(),
            samples: vec![start],
            way: vec![0.0],
            reach: Vec::new(),
            plateaus: Vec::new(),
        }
    }

    /// Where a node lies.
    pub(super) fn at(&self, node: usize) -> Point {
        self.samples[self.nodes[node].sample]
    }

    /// Adds a node where the run has come to.
    pub(super) fn mark(&mut self, mark: Mark) {
        self.nodes.push(Node {
            sample: self.samples.len() - 1,
            mark,
        });
    }

    /// Takes the plateaus, and works out how far curves reach.
    pub(super) fn bound(&mut self, plateaus: Vec<(usize, usize)>, em: f64) {
        self.reach = vec![self.legs.len(); self.nodes.len()];
        for &(first, last) in plateaus.iter().filter(|p| p.0 > 0) {
            let reach = &mut self.reach[first - 1];
            *reach = last.min(*reach);
        }
        for (i, leg) in self.legs.iter().enumerate() {
            if matches!(leg, PathSeg::Line(l) if l.p0.distance(l.p1) >= STEM * em) {
                self.reach[i] = i;
            }
        }
        // What stops one curve stops every curve that begins before it.
        for i in (1..self.reach.len()).rev() {
            self.reach[i - 1] = self.reach[i - 1].min(self.reach[i]);
        }
        self.plateaus = plateaus;
    }

    /// Adds a leg and its samples.
    pub(super) fn add(&mut self, leg: PathSeg, em: f64) {
        let middle = leg.eval(0.5);
        let length = (middle - leg.start()).hypot() + (leg.end() - middle).hypot();
        let apart = (length / (APART * em)).ceil();
        let count = match leg {
            // No curve takes its place, so its ends say all.
            PathSeg::Line(_) if length >= STEM * em => 1.0,
            // No curve strays from the middle of a line so short.
            PathSeg::Line(_) if length <= SHORT * em => 1.0,
            PathSeg::Line(_) => apart.max(3.0),
            // However short, a curve is seen as one, and a tight one well.
            _ if turns_much(&leg) => apart.clamp(12.0, 16.0),
            _ => apart.clamp(6.0, 16.0),
        };
        let mut at = leg.start();
        let mut way = self.way.last().copied().unwrap_or(0.0);
        let mut to = |p: Point| {
            way += (p - at).hypot();
            at = p;
            self.samples.push(p);
            self.way.push(way);
        };
        for k in 1..count as u32 {
            to(leg.eval(f64::from(k) / count));
        }
        to(leg.end());
        self.legs.push(leg);
    }
}

/// Whether a curve's ends run more than 45 degrees apart.
fn turns_much(leg: &PathSeg) -> bool {
    let (a, b) = (handle_out(leg), handle_in(leg));
    a.dot(b) < std::f64::consts::FRAC_1_SQRT_2 * a.hypot() * b.hypot()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn curves_reach_to_the_next_plateau_and_not_past_a_stem() {
        let mut run = Run::from(Point::ZERO);
        run.mark(Mark::default());
        for (k, length) in [10.0, 10.0, 10.0, 10.0, 80.0, 10.0].into_iter().enumerate() {
            let from = run.at(k);
            let to = from + Vec2::new(length, 0.0);
            run.add(PathSeg::Line(kurbo::Line::new(from, to)), 1000.0);
            run.mark(Mark::default());
        }
        run.bound(vec![(2, 3)], 1000.0);
        // Nodes 2 and 3 serve as the extreme, nodes 4 and 5 end the stem.
        assert_eq!(run.reach, [3, 3, 4, 4, 4, 6, 6]);
        run.bound(Vec::new(), 1000.0);
        assert_eq!(run.reach, [4, 4, 4, 4, 4, 6, 6]);
    }
}
