//! The fewest points that draw a run within a tolerance.
//!
//! Nodes are taken in order; from each, a line (one point) or a cubic curve
//! (three) leads to every node that it can reach within the tolerance, and the
//! cheapest chain from end to end is kept. What one curve can draw, it can draw
//! a part of: so only the furthest node that a curve reaches is sought, by
//! doubling and halving, and only from nodes that no cheaper one is ahead of.

use super::fit::{Ends, Fitter};
use super::run::Run;
use crate::measure::drawing::joint::{DEGREE, turn, unit};
use kurbo::{CubicBez, PathSeg, Vec2};

/// A line joins a smooth neighbour only if it runs on within this of the
/// outline's own direction (radians), lest gentle curves become polygons.
const IN_LINE: f64 = DEGREE;

/// A run of more legs than this was made by a program; its nodes are taken two
/// tolerances apart.
const DENSE: usize = 500;

/// Points that a line looks at in the time that a fit takes for one.
const LINES_IN_A_FIT: usize = 8;

/// One segment of the refit, from a node to a later one.
#[derive(Debug, Clone, Copy)]
pub(super) enum Piece {
    /// One leg as it is drawn.
    Kept(usize),
    Line(usize, usize),
    Curve(usize, usize, CubicBez),
}

impl Piece {
    /// The node where it ends.
    pub(super) fn to(&self) -> usize {
        match *self {
            Self::Kept(leg) => leg + 1,
            Self::Line(_, to) | Self::Curve(_, to, _) => to,
        }
    }
}

/// How a node was reached, and at what cost in points.
#[derive(Debug, Clone, Copy)]
struct Reached {
    cost: u32,
    from: usize,
    /// Whether `from` was itself reached by a line.
    from_line: bool,
    by: By,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum By {
    Kept,
    Line,
    Curve,
}

const NOT_YET: Reached = Reached {
    cost: u32::MAX,
    from: 0,
    from_line: false,
    by: By::Kept,
};

/// The cheapest chains to a node: one that ends in a curve, or has not begun,
/// and one that ends in a line.
#[derive(Debug, Clone, Copy)]
struct Chains {
    curve: Reached,
    line: Reached,
}

impl Chains {
    fn ends_in_line(&self) -> bool {
        self.line.cost < self.curve.cost
    }

    fn cost(&self) -> u32 {
        self.curve.cost.min(self.line.cost)
    }
}

/// Replaces a chain by a cheaper one.
fn relax(known: &mut Reached, found: Reached) {
    if found.cost < known.cost {
        *known = found;
    }
}

/// The cheapest chain of pieces along a run. Once the fitter has done
/// `most_work`, the rest of the run is kept as it is drawn.
pub(super) fn fewest(
    run: &Run,
    tolerance: f64,
    fitter: &mut Fitter,
    most_work: usize,
) -> Vec<Piece> {
    let n = run.legs.len();
    let mut best = vec![
        Chains {
            curve: NOT_YET,
            line: NOT_YET
        };
        n + 1
    ];
    best[0].curve.cost = 0;
    let thin = if n > DENSE { 2.0 * tolerance } else { 0.0 };
    let mut last_start = f64::NEG_INFINITY;
    for i in 0..n {
        let here = best[i];
        let from = |cost: u32, from_line: bool, by: By| Reached {
            cost,
            from: i,
            from_line,
            by,
        };
        // What is drawn may be kept, even one line beside another.
        let cost = here.cost().saturating_add(drawn(&run.legs[i]));
        let kept = from(cost, here.ends_in_line(), By::Kept);
        match run.legs[i] {
            PathSeg::Line(_) => relax(&mut best[i + 1].line, kept),
            _ => relax(&mut best[i + 1].curve, kept),
        }
        let way = run.way[run.nodes[i].sample];
        if fitter.work >= most_work || (way < last_start + thin && !run.nodes[i].mark.kinked) {
            continue;
        }
        last_start = way;
        if let Some((cost, from_line)) = line_start(&here, run.nodes[i].mark.kinked) {
            let looked_at = lines(run, i, tolerance, |to| {
                relax(&mut best[to].line, from(cost + 1, from_line, By::Line));
            });
            fitter.work += looked_at / LINES_IN_A_FIT;
        }
        if !is_passed(&best[i + 1..], here.cost()) {
            let found = from(here.cost() + 3, here.ends_in_line(), By::Curve);
            for chains in &mut best[i + 1..=furthest(run, i, tolerance, fitter)] {
                relax(&mut chains.curve, found);
            }
        }
    }
    pieces(run, &best, tolerance, fitter)
}

/// The chain that a line may go on from, as its cost and whether it ends in a
/// line itself.
fn line_start(here: &Chains, kinked: bool) -> Option<(u32, bool)> {
    // A line goes on from a line only where the outline really turns.
    if here.ends_in_line() && kinked {
        return Some((here.line.cost, true));
    }
    // Where a line comes cheaper by two, a curve from there costs no more than a
    // line from here, and goes wherever it goes.
    (here.curve.cost < here.line.cost.saturating_add(2) && here.curve.cost < u32::MAX)
        .then_some((here.curve.cost, false))
}

/// Whether a later node is reached as cheaply.
fn is_passed(later: &[Chains], cost: u32) -> bool {
    later
        .iter()
        .map(Chains::cost)
        .take_while(|&c| c < u32::MAX)
        .any(|c| c <= cost)
}

/// The pieces of the cheapest chain.
fn pieces(run: &Run, best: &[Chains], tolerance: f64, fitter: &mut Fitter) -> Vec<Piece> {
    let mut pieces = Vec::new();
    let mut to = run.legs.len();
    let mut by_line = best[to].ends_in_line();
    while to > 0 {
        let r = if by_line {
            best[to].line
        } else {
            best[to].curve
        };
        match r.by {
            By::Kept => pieces.push(Piece::Kept(r.from)),
            By::Line => pieces.push(Piece::Line(r.from, to)),
            By::Curve => match curve(run, r.from, to, ends(run, r.from, to), tolerance, fitter) {
                Some(c) => pieces.push(Piece::Curve(r.from, to, c)),
                // A part of what one curve can draw should be drawn by one;
                // where the fit fails after all, it stays as it is drawn.
                None => pieces.extend((r.from..to).rev().map(Piece::Kept)),
            },
        }
        (to, by_line) = (r.from, r.from_line);
    }
    pieces.reverse();
    pieces
}

/// Points that a leg is drawn with, as a line or a cubic curve.
fn drawn(leg: &PathSeg) -> u32 {
    match leg {
        PathSeg::Line(_) => 1,
        _ => 3,
    }
}

/// The furthest node that one curve from `i` reaches.
fn furthest(run: &Run, i: usize, tolerance: f64, fitter: &mut Fitter) -> usize {
    let limit = run.reach[i];
    let mut reaches = |j: usize| curve(run, i, j, ends(run, i, j), tolerance, fitter).is_some();
    if limit <= i + 1 {
        return i;
    }
    if limit - i <= 24 && reaches(limit) {
        return limit;
    }
    let (mut good, mut step) = (i + 1, 1);
    let mut bad = limit + usize::from(limit - i > 24);
    while good + step < bad {
        if reaches(good + step) {
            good += step;
            step *= 2;
        } else {
            bad = good + step;
            break;
        }
    }
    while bad - good > 1 {
        let middle = good + (bad - good) / 2;
        if reaches(middle) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    good
}

/// The curve from one node to another, if there is one within the tolerance.
pub(super) fn curve(
    run: &Run,
    i: usize,
    j: usize,
    ends: Ends,
    tolerance: f64,
    fitter: &mut Fitter,
) -> Option<CubicBez> {
    let (a, b) = (run.nodes[i].sample, run.nodes[j].sample);
    fitter.fit(&run.samples[a..=b], &run.way[a..=b], ends, tolerance)
}

fn ends(run: &Run, i: usize, j: usize) -> Ends {
    Ends {
        start: run.nodes[i].mark.tangent,
        end: run.nodes[j].mark.tangent,
    }
}

/// Every node that a straight line from `i` reaches. Gives the work done.
fn lines(run: &Run, i: usize, tolerance: f64, mut found: impl FnMut(usize)) -> usize {
    let from = run.samples[run.nodes[i].sample];
    let mut wedge = Wedge::default();
    let mut next = run.nodes[i].sample + 1;
    for j in i + 1..run.nodes.len() {
        while next < run.nodes[j].sample {
            if !wedge.narrow(run.samples[next] - from, tolerance) {
                return next - run.nodes[i].sample;
            }
            next += 1;
        }
        let chord = run.samples[next] - from;
        if wedge.holds(chord) && in_line(run, i, chord) && in_line(run, j, chord) {
            found(j);
        }
    }
    next - run.nodes[i].sample
}

fn in_line(run: &Run, node: usize, chord: Vec2) -> bool {
    chord.hypot2() > 0.0
        && run.nodes[node]
            .mark
            .tangent
            .is_none_or(|t| turn(t, chord).abs() <= IN_LINE)
}

/// The directions in which a line passes near enough to all points so far.
#[derive(Default)]
struct Wedge {
    /// Right and left edge.
    edges: Option<(Vec2, Vec2)>,
    furthest: f64,
}

impl Wedge {
    /// Narrows by a point; false when nothing is left, or the points turn back.
    fn narrow(&mut self, to: Vec2, tolerance: f64) -> bool {
        let distance = to.hypot();
        if distance < self.furthest - tolerance {
            return false;
        }
        self.furthest = self.furthest.max(distance);
        let Some(direction) = unit(to).filter(|_| distance > tolerance) else {
            return true;
        };
        let sine = tolerance / distance;
        let cosine = (1.0 - sine * sine).sqrt();
        let side = Vec2::new(-direction.y, direction.x) * sine;
        let (mut right, mut left) = (direction * cosine - side, direction * cosine + side);
        if let Some((r, l)) = self.edges {
            if direction.dot(r + l) <= 0.0 {
                return false;
            }
            if right.cross(r) > 0.0 {
                right = r;
            }
            if l.cross(left) > 0.0 {
                left = l;
            }
            if right.cross(left) < 0.0 {
                return false;
            }
        }
        self.edges = Some((right, left));
        true
    }

    fn holds(&self, to: Vec2) -> bool {
        to.hypot() + 1e-9 >= self.furthest
            && self.edges.is_none_or(|(right, left)| {
                right.cross(to) >= 0.0 && to.cross(left) >= 0.0 && to.dot(right + left) > 0.0
            })
    }
}
