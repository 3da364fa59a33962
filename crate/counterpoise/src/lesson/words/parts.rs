//! Pieces of letters to be marked.

use super::super::{Class, Drawn};
use super::{Mark, Picture};
use crate::measure::GuideKind;
use crate::measure::strokes::{Stroke, StrokeKind};
use crate::outline::Outline;
use kurbo::{BezPath, Point, Vec2};

/// The first of some letters that the font has and that shows what is looked for.
pub(super) fn first(
    class: &Class,
    letters: &str,
    show: impl Fn(&Drawn) -> Option<Vec<Mark>>,
) -> Option<Picture> {
    letters.chars().find_map(|c| {
        let drawn = class.drawn(c)?;
        let marks = show(&drawn)?;
        Some(Picture {
            letters: vec![(0.0, drawn.outline)],
            hollow: false,
            marks,
        })
    })
}

/// Letters side by side by their advance widths, those that the font has.
pub(super) fn row(class: &Class, letters: &str) -> Option<(Picture, Vec<Drawn>)> {
    let mut picture = Picture::default();
    let mut at = 0.0;
    let mut all = Vec::new();
    for drawn in letters.chars().filter_map(|c| class.drawn(c)) {
        picture.letters.push((at, drawn.outline.clone()));
        at += drawn.letter.advance;
        all.push(drawn);
    }
    (!all.is_empty()).then_some((picture, all))
}

/// Letters with one of the font's lines.
pub(super) fn with_line(class: &Class, letters: &str, kind: GuideKind) -> Option<Picture> {
    let line = class.context().drawn(kind)?;
    let (mut picture, _) = row(class, letters)?;
    picture.marks.push(Mark::Rule(line));
    Some(picture)
}

/// The longest stroke of a kind.
pub(super) fn longest(drawn: &Drawn, kind: StrokeKind) -> Option<&Stroke> {
    let strokes = drawn.letter.strokes.iter();
    strokes
        .filter(|s| s.kind == kind)
        .max_by(|a, b| a.length.total_cmp(&b.length))
}

/// A stroke as a piece of ink along its middle line.
pub(super) fn body(stroke: &Stroke) -> Mark {
    let axis = &stroke.axis;
    let n = axis.len();
    let half = |i: usize| 0.5 * stroke.profile.get(i).copied().unwrap_or(stroke.median);
    let normal = |i: usize| {
        let d = axis[(i + 1).min(n - 1)] - axis[i.saturating_sub(1)];
        let d = d / d.hypot().max(1e-9);
        Vec2::new(-d.y, d.x)
    };
    let side = |sign: f64| (0..n).map(move |i| axis[i] + normal(i) * (sign * half(i)));
    let there: Vec<Point> = side(1.0).collect();
    let mut back: Vec<Point> = side(-1.0).collect();
    back.reverse();
    Mark::Area(polygon(there.into_iter().chain(back)))
}

/// A closed polygon.
pub(super) fn polygon(points: impl IntoIterator<Item = Point>) -> BezPath {
    let mut path = BezPath::new();
    for (i, p) in points.into_iter().enumerate() {
        if i == 0 {
            path.move_to(p);
        } else {
            path.line_to(p);
        }
    }
    path.close_path();
    path
}

/// The white that a letter closes in: contours that run against its ink.
pub(super) fn inside(outline: &Outline) -> Option<Mark> {
    let way = outline.signed_area();
    let inner: Vec<usize> = (0..outline.contours().len())
        .filter(|&i| outline.contour_area(i) * way < 0.0)
        .collect();
    let mut path = BezPath::new();
    for i in &inner {
        let range = outline.contours()[*i].clone();
        let segments = &outline.segments()[range];
        path.move_to(segments[0].start());
        for s in segments {
            match s.path_seg() {
                kurbo::PathSeg::Line(l) => path.line_to(l.p1),
                kurbo::PathSeg::Quad(q) => path.quad_to(q.p1, q.p2),
                kurbo::PathSeg::Cubic(c) => path.curve_to(c.p1, c.p2, c.p3),
            }
        }
        path.close_path();
    }
    (!inner.is_empty()).then_some(Mark::Area(path))
}
