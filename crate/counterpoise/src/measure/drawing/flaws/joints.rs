//! Flaws at joints and of short segments: kinks, idle points, double points,
//! stubs, loose ends.

use super::{Flaw, FlawKind, Found};
use crate::measure::drawing::joint::{CORNER, Joint, SMOOTH};
use crate::outline::Segment;
use kurbo::{Line, ParamCurve, ParamCurveNearest};

/// A handle's end this far off the other's line (font units) may be so by
/// rounding: it and the joint each move by up to 0.7 units, aslant.
const ROUNDED: f64 = 1.5;

/// A segment shorter than this (of the em) cannot be seen (common practice, no
/// source).
const STUB: f64 = 0.002;

/// Points this near to each other (of the em) are one point set twice (common
/// practice, no source).
const DOUBLE: f64 = 0.001;

/// A point that moves a line by this (of the em) or less does nothing: it is
/// what rounding leaves.
const IDLE: f64 = 0.000_5;

pub(super) fn look(segments: &[Segment], contour: usize, em: f64, found: &mut Found) {
    let n = segments.len();
    for i in 0..n {
        let (a, b) = (&segments[i], &segments[(i + 1) % n]);
        if let Some((kind, size)) = at_joint(a, b, em) {
            found.add(Flaw {
                kind,
                at: b.at(0.0),
                size,
                contour,
            });
        }
        if let Some((kind, size)) = short(a, i + 1 == n, em) {
            found.add(Flaw {
                kind,
                at: a.at(0.5),
                size,
                contour,
            });
        }
    }
}

fn at_joint(a: &Segment, b: &Segment, em: f64) -> Option<(FlawKind, f64)> {
    let joint = Joint::between(a, b);
    let turn = joint.turn.abs();
    if turn > CORNER {
        return None;
    }
    if a.is_line() && b.is_line() {
        let without = Line::new(a.at(0.0), b.at(1.0));
        let nearest = without.nearest(joint.point, 1e-9);
        let size = nearest.distance_sq.sqrt();
        return (size <= IDLE * em).then_some((FlawKind::IdlePoint, size));
    }
    let size = joint.before.hypot().min(joint.after.hypot()) * turn.sin();
    (turn > SMOOTH && size > ROUNDED).then_some((FlawKind::Kink, size))
}

fn short(segment: &Segment, is_last: bool, em: f64) -> Option<(FlawKind, f64)> {
    let b = segment.bounds();
    // Cheap: most segments are larger than any stub.
    if b.width().max(b.height()) >= STUB * em {
        return None;
    }
    let size = match segment.path_seg() {
        kurbo::PathSeg::Line(l) => l.p0.distance(l.p1),
        seg => seg.start().distance(seg.end()).max(segment.length()),
    };
    let kind = if size >= STUB * em {
        return None;
    } else if is_last && segment.is_line() {
        FlawKind::LooseEnd
    } else if size <= DOUBLE * em {
        FlawKind::DoublePoint
    } else {
        FlawKind::Stub
    };
    Some((kind, size))
}
