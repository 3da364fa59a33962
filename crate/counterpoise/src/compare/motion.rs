//! How far an outline moved between two revisions, and which parts of it.
//!
//! # Definition, method and limits
//! The move is the greatest distance from any place of either outline to the
//! nearest of the other (the Hausdorff distance of the two edges), within
//! [`ACCURACY`](super::ACCURACY). A part has moved where it lies more than
//! [`MOVED`] from the other revision's outline; its ends are found within a
//! hundredth of its segment. Segments that both revisions have alike are not
//! looked at, so a letter of which one corner was drawn anew costs that corner.
//! What slides along itself (a longer line in line with the old one) has moved
//! where nothing was before, and only there.

use super::distance::{farthest, to};
use crate::outline::{Outline, Segment};
use kurbo::{BezPath, ParamCurve, PathEl, PathSeg, Point};
use std::collections::HashSet;

/// Parts farther than this from the other outline have moved, font units:
/// rounding alone moves points by up to half a unit.
pub const MOVED: f64 = 0.5;

/// Places looked at along each segment for where it begins or ends to have moved.
const STEPS: u32 = 16;

/// A stretch of an outline.
#[derive(Debug, Clone, PartialEq)]
pub struct Part {
    /// Index in the outline's segments.
    pub segment: usize,
    /// Where it begins on the segment, in [0, 1].
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// The stretch itself.
    pub path: BezPath,
}

/// How an outline moved.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Motion {
    /// The greatest move, font units; `None` where one of the two has no ink.
    pub greatest: Option<f64>,
    /// Where it is: on the later outline or on the earlier one, whichever lies
    /// farther off.
    pub at: Option<Point>,
    /// Parts of the later outline where the earlier one did not run.
    pub came: Vec<Part>,
    /// Parts of the earlier outline where the later one does not run.
    pub left: Vec<Part>,
}

impl Motion {
    /// Whether the edge is where it was. Another point on the same edge, or
    /// another point to begin at, moves nothing.
    pub fn is_none(&self) -> bool {
        self.greatest == Some(0.0)
    }
}

/// Holds a later outline against an earlier one in the same units.
pub fn motion(old: &Outline, new: &Outline) -> Motion {
    if old.is_empty() && new.is_empty() {
        return Motion {
            greatest: Some(0.0),
            ..Motion::default()
        };
    }
    let (fresh, stale) = (unlike(new, old), unlike(old, new));
    if fresh.is_empty() && stale.is_empty() {
        return Motion {
            greatest: Some(0.0),
            ..Motion::default()
        };
    }
    let pick = |outline: &Outline, of: &[usize], from: &Outline| {
        let all: Vec<&Segment> = of.iter().map(|&i| &outline.segments()[i]).collect();
        farthest(&all, from)
    };
    let far = [pick(new, &fresh, old), pick(old, &stale, new)];
    let empty = old.is_empty() || new.is_empty();
    let far = far
        .into_iter()
        .flatten()
        .filter(|_| !empty)
        .max_by(|a, b| a.1.total_cmp(&b.1));
    Motion {
        // Below what can be told apart, nothing moved.
        greatest: far.map(|f| if f.1 <= super::ACCURACY { 0.0 } else { f.1 }),
        at: far.map(|f| f.0),
        came: parts(new, &fresh, old),
        left: parts(old, &stale, new),
    }
}

/// The segments of an outline that the other does not have, in either direction.
fn unlike(outline: &Outline, other: &Outline) -> Vec<usize> {
    let had: HashSet<[u64; 9]> = other
        .segments()
        .iter()
        .flat_map(|s| [bits(&s.path_seg()), bits(&s.path_seg().reverse())])
        .collect();
    let all = outline.segments().iter().enumerate();
    all.filter(|(_, s)| !had.contains(&bits(&s.path_seg())))
        .map(|(i, _)| i)
        .collect()
}

/// A segment's points, bit by bit, behind the number of them.
fn bits(seg: &PathSeg) -> [u64; 9] {
    let mut all = [0; 9];
    let points = match seg {
        PathSeg::Line(l) => vec![l.p0, l.p1],
        PathSeg::Quad(q) => vec![q.p0, q.p1, q.p2],
        PathSeg::Cubic(c) => vec![c.p0, c.p1, c.p2, c.p3],
    };
    all[0] = points.len() as u64;
    for (i, p) in points.iter().enumerate() {
        // Nought is not minus nought.
        all[1 + 2 * i] = (p.x + 0.0).to_bits();
        all[2 + 2 * i] = (p.y + 0.0).to_bits();
    }
    all
}

fn parts(outline: &Outline, of: &[usize], other: &Outline) -> Vec<Part> {
    let mut parts = Vec::new();
    for &segment in of {
        let seg = outline.segments()[segment].path_seg();
        let off = |t: f64| to(other, seg.eval(t), 2.0 * MOVED) > MOVED;
        let at = |i: u32| f64::from(i) / f64::from(STEPS);
        let mut from = off(0.0).then_some(0.0);
        for i in 1..=STEPS {
            let is = off(at(i));
            match (from, is) {
                (None, true) => from = Some(turn(&off, at(i - 1), at(i))),
                (Some(a), false) => {
                    push(&mut parts, segment, &seg, a, turn(&off, at(i - 1), at(i)));
                    from = None;
                }
                _ => {}
            }
        }
        if let Some(a) = from {
            push(&mut parts, segment, &seg, a, 1.0);
        }
    }
    parts
}

/// Where it begins to be off, or ends, between two places of which one is.
fn turn(off: &impl Fn(f64) -> bool, mut a: f64, mut b: f64) -> f64 {
    let begins = off(b);
    for _ in 0..3 {
        let m = 0.5 * (a + b);
        if off(m) == begins {
            b = m;
        } else {
            a = m;
        }
    }
    0.5 * (a + b)
}

fn push(parts: &mut Vec<Part>, segment: usize, seg: &PathSeg, from: f64, to: f64) {
    if to <= from {
        return;
    }
    let piece = seg.subsegment(from..to);
    let path = BezPath::from_vec(vec![PathEl::MoveTo(piece.start()), piece.as_path_el()]);
    parts.push(Part {
        segment,
        from,
        to,
        path,
    });
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Affine, Circle, Rect, Shape};

    fn square(right: f64) -> Outline {
        Outline::from_path(&Rect::new(0.0, 0.0, right, 100.0).to_path(0.1))
    }

    #[test]
    fn what_did_not_move_has_not() {
        let a = square(100.0);
        assert!(motion(&a, &a).is_none());
        // Begun at another point, the other way round, with one point more.
        let mut path = BezPath::new();
        path.move_to((100.0, 100.0));
        path.line_to((100.0, 40.0));
        path.line_to((100.0, 0.0));
        path.line_to((0.0, 0.0));
        path.line_to((0.0, 100.0));
        path.close_path();
        let m = motion(&a, &Outline::from_path(&path));
        assert!(m.is_none(), "{m:?}");
        assert!(m.came.is_empty() && m.left.is_empty());
    }

    #[test]
    fn one_side_moved_is_told_with_its_neighbours_longer_ends() {
        let m = motion(&square(100.0), &square(110.0));
        assert!((m.greatest.unwrap() - 10.0).abs() < 0.03, "{m:?}");
        let whole = m.came.iter().filter(|p| p.from == 0.0 && p.to == 1.0);
        assert_eq!(whole.count(), 1);
        // Foot and top run on for 10 of 110 where there was nothing.
        let rest: Vec<f64> = m
            .came
            .iter()
            .map(|p| p.to - p.from)
            .filter(|w| *w < 1.0)
            .collect();
        assert_eq!(rest.len(), 2);
        for share in rest {
            assert!((share - 9.5 / 110.0).abs() < 0.01, "{share}");
        }
        // The old side meets the new foot and top at its very ends.
        assert_eq!(m.left.len(), 1);
        assert!((m.left[0].to - m.left[0].from - 0.99).abs() < 0.01);
    }

    #[test]
    fn a_round_moved_aside_moves_by_as_much() {
        let a = Outline::from_path(&Circle::new((0.0, 0.0), 300.0).to_path(0.1));
        let b = a.transformed(Affine::translate((3.0, 0.0)));
        let m = motion(&a, &b);
        assert!((m.greatest.unwrap() - 3.0).abs() < 0.03, "{:?}", m.greatest);
        // At top and foot the two edges cross: nothing moved there.
        assert!(m.came.iter().all(|p| p.to - p.from < 1.0));
    }

    #[test]
    fn ink_that_came_or_went_moved_by_no_figure() {
        let m = motion(&Outline::default(), &square(10.0));
        assert_eq!(m.greatest, None);
        assert_eq!(m.came.len(), 4);
        assert!(m.left.is_empty());
    }
}
