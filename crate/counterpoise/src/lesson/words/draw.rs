//! How each word is drawn.

use super::super::{Class, halves, overshoot};
use super::parts::{body, first, inside, longest, polygon, row, with_line};
use super::{Mark, Picture};
use crate::measure::strokes::{StrokeKind, Thickness};
use crate::measure::{End, Form, GuideKind, sides};
use kurbo::{PathSeg, Point};

type Drawing = Option<Picture>;

pub(super) fn baseline(class: &Class) -> Drawing {
    with_line(class, "Hnox", GuideKind::Baseline)
}

pub(super) fn x_height(class: &Class) -> Drawing {
    with_line(class, "xnv", GuideKind::XHeight)
}

pub(super) fn cap_height(class: &Class) -> Drawing {
    with_line(class, "HEx", GuideKind::CapHeight)
}

pub(super) fn ascender(class: &Class) -> Drawing {
    with_line(class, "xhd", GuideKind::Ascender)
}

pub(super) fn descender(class: &Class) -> Drawing {
    with_line(class, "xpg", GuideKind::Descender)
}

pub(super) fn guides(class: &Class) -> Drawing {
    let (mut picture, _) = row(class, "Hxp")?;
    let lines = class.context().guides.iter().filter_map(|g| g.drawn);
    picture.marks.extend(lines.map(Mark::Rule));
    Some(picture)
}

pub(super) fn overshoot(class: &Class) -> Drawing {
    let (mut picture, all) = row(class, "HO")?;
    let (round, x) = (all.last()?, picture.letters.last()?.0);
    let ends = [
        (End::Top, round.letter.top, 1.0),
        (End::Foot, round.letter.foot, -1.0),
    ];
    for (end, at, out) in ends {
        let (Some(by), Some(at)) = (overshoot::passes(round, class, end), at) else {
            continue;
        };
        let line = at.y - out * by;
        picture.marks.push(Mark::Rule(line));
        picture.marks.push(Mark::Span(
            Point::new(x + at.x, line),
            Point::new(x + at.x, at.y),
        ));
    }
    (!picture.marks.is_empty()).then_some(picture)
}

fn span(m: &Thickness) -> Mark {
    Mark::Span(m.from, m.to)
}

pub(super) fn stem(class: &Class) -> Drawing {
    first(class, "nHIl", |d| {
        let stem = longest(d, StrokeKind::Stem)?;
        Some(vec![body(stem), span(stem.marks.first()?)])
    })
}

pub(super) fn bar(class: &Class) -> Drawing {
    first(class, "HetE", |d| {
        let bars = d
            .letter
            .strokes
            .iter()
            .filter(|s| s.kind == StrokeKind::Bar);
        let b = d.letter.bounds?;
        // Serifs are level too: a bar lies within the letter.
        let within = |y: f64| y > b.y0 + 0.15 * b.height() && y < b.y1 - 0.1 * b.height();
        let bar = bars
            .filter(|s| s.marks.first().is_some_and(|m| within(m.centre().y)))
            .max_by(|a, b| a.length.total_cmp(&b.length))?;
        Some(vec![body(bar), span(bar.marks.first()?)])
    })
}

pub(super) fn diagonal(class: &Class) -> Drawing {
    first(class, "NVxv", |d| {
        Some(vec![body(longest(d, StrokeKind::Diagonal)?)])
    })
}

pub(super) fn stroke(class: &Class) -> Drawing {
    first(class, "hnH", |d| {
        let marks: Vec<Mark> = d.letter.strokes.iter().take(2).map(body).collect();
        (!marks.is_empty()).then_some(marks)
    })
}

pub(super) fn arch(class: &Class) -> Drawing {
    first(class, "nhm", |d| {
        Some(vec![body(longest(d, StrokeKind::Curve)?)])
    })
}

pub(super) fn bowl(class: &Class) -> Drawing {
    first(class, "bpdP", |d| {
        Some(vec![body(longest(d, StrokeKind::Curve)?)])
    })
}

pub(super) fn round(class: &Class) -> Drawing {
    first(class, "Oo", |d| {
        let lean = class.context().slant.to_radians().tan();
        let marks = d.letter.strokes.iter().flat_map(|s| &s.marks);
        let thick = marks
            .filter(|m| m.runs_upright(lean))
            .max_by(|a, b| a.value.total_cmp(&b.value))?;
        Some(vec![span(thick)])
    })
}

pub(super) fn hairline(class: &Class) -> Drawing {
    first(class, "oOeH", |d| {
        let all = d
            .letter
            .strokes
            .iter()
            .filter(|s| s.length > 0.2 * d.letter.advance);
        let thin = all.min_by(|a, b| a.least.value.total_cmp(&b.least.value))?;
        Some(vec![span(&thin.least)])
    })
}

pub(super) fn contrast(class: &Class) -> Drawing {
    first(class, "oO", |d| {
        let s = longest(d, StrokeKind::Curve)?;
        Some(vec![span(&s.greatest), span(&s.least)])
    })
}

pub(super) fn stress(class: &Class) -> Drawing {
    first(class, "oO", |d| {
        let s = longest(d, StrokeKind::Curve)?;
        let b = d.letter.bounds?;
        let thin = s.least.centre();
        // From the thinnest place through the letter's middle.
        let across = b.center() + (b.center() - thin);
        Some(vec![Mark::Line(thin, across), span(&s.least)])
    })
}

pub(super) fn counter(class: &Class) -> Drawing {
    first(class, "oObe", |d| Some(vec![inside(&d.outline)?]))
}

pub(super) fn apex(class: &Class) -> Drawing {
    first(class, "AMNW", |d| {
        let top = d.letter.top?;
        Some(vec![Mark::Dot(Point::new(top.x, top.y))])
    })
}

pub(super) fn bearing(class: &Class) -> Drawing {
    first(class, "nHo", |d| {
        let b = d.letter.bounds?;
        let y = 0.5 * (b.y0 + b.y1);
        let edge = |x: f64| Mark::Line(Point::new(x, b.y0), Point::new(x, b.y1));
        Some(vec![
            edge(0.0),
            edge(d.letter.advance),
            Mark::Span(Point::new(0.0, y), Point::new(b.x0, y)),
            Mark::Span(Point::new(b.x1, y), Point::new(d.letter.advance, y)),
        ])
    })
}

pub(super) fn advance(class: &Class) -> Drawing {
    first(class, "nHo", |d| {
        let b = d.letter.bounds?;
        let y = b.y0 - 0.12 * b.height();
        let edge = |x: f64| Mark::Line(Point::new(x, y), Point::new(x, b.y1));
        let end = d.letter.advance;
        Some(vec![
            edge(0.0),
            edge(end),
            Mark::Span(Point::new(0.0, y), Point::new(end, y)),
        ])
    })
}

pub(super) fn width(class: &Class) -> Drawing {
    first(class, "Hno", |d| {
        let b = d.letter.bounds?;
        let sides = sides(&d.letter.strokes, class.context().slant);
        let (from, to) = sides.map_or((b.x0, b.x1), |s| (s.first.0, s.last.1));
        let y = b.y0 - 0.12 * b.height();
        let edge = |x: f64| Mark::Line(Point::new(x, y), Point::new(x, b.y1));
        Some(vec![
            edge(from),
            edge(to),
            Mark::Span(Point::new(from, y), Point::new(to, y)),
        ])
    })
}

pub(super) fn glyph(class: &Class) -> Drawing {
    first(class, "agR", |d| {
        let b = d.letter.bounds?;
        let end = d.letter.advance;
        let edge = |x: f64| Mark::Line(Point::new(x, b.y0), Point::new(x, b.y1));
        Some(vec![edge(0.0), edge(end), Mark::Rule(class.baseline())])
    })
}

pub(super) fn kerning(class: &Class) -> Drawing {
    ["AV", "To", "LT", "AT", "Ve", "VA"]
        .iter()
        .find_map(|pair| {
            let (mut picture, all) = row(class, pair)?;
            let [a, b] = &all[..] else { return None };
            let kern = f64::from(class.kerning().value(a.glyph, b.glyph).apart());
            if kern == 0.0 {
                return None;
            }
            picture.letters[1].0 += kern;
            let y = class.baseline() - 0.06 * class.context().units_per_em;
            let end = a.letter.advance;
            picture.marks = vec![Mark::Span(Point::new(end + kern, y), Point::new(end, y))];
            Some(picture)
        })
}

pub(super) fn em(class: &Class) -> Drawing {
    first(class, "HnO", |d| {
        let em = class.context().units_per_em;
        let (left, foot) = (
            0.5 * (d.letter.advance - em),
            d.letter.bounds?.y0 - 0.22 * em,
        );
        let corners = [
            (left, foot),
            (left + em, foot),
            (left + em, foot + em),
            (left, foot + em),
        ];
        let at = |i: usize| Point::from(corners[i % 4]);
        Some((0..4).map(|i| Mark::Line(at(i), at(i + 1))).collect())
    })
}

fn hollow(picture: Drawing) -> Drawing {
    picture.map(|p| Picture { hollow: true, ..p })
}

pub(super) fn ink(class: &Class) -> Drawing {
    first(class, "agR", |_| Some(Vec::new()))
}

pub(super) fn contour(class: &Class) -> Drawing {
    hollow(first(class, "oaeO", |_| Some(Vec::new())))
}

pub(super) fn point(class: &Class) -> Drawing {
    hollow(first(class, "aSeo", |d| {
        let joints = d.outline.segments().iter().take(MOST_POINTS);
        Some(joints.map(|s| Mark::Dot(s.start())).collect())
    }))
}

/// A letter with more points than this shows the first of them.
const MOST_POINTS: usize = 120;

pub(super) fn handle(class: &Class) -> Drawing {
    hollow(first(class, "oOaS", |d| {
        let mut marks = Vec::new();
        for s in d.outline.segments().iter().take(MOST_POINTS) {
            let handles = match s.path_seg() {
                PathSeg::Line(_) => Vec::new(),
                PathSeg::Quad(q) => vec![(q.p0, q.p1), (q.p2, q.p1)],
                PathSeg::Cubic(c) => vec![(c.p0, c.p1), (c.p3, c.p2)],
            };
            for (point, handle) in handles {
                marks.extend([Mark::Line(point, handle), Mark::Dot(handle)]);
            }
        }
        (!marks.is_empty()).then_some(marks)
    }))
}

pub(super) fn extreme(class: &Class) -> Drawing {
    hollow(first(class, "oOSe", |d| {
        let b = d.letter.bounds?;
        let near = |p: Point| {
            let off = [p.x - b.x0, p.x - b.x1, p.y - b.y0, p.y - b.y1];
            off.iter().any(|v| v.abs() < 0.5)
        };
        let joints = d.outline.segments().iter().map(|s| s.start());
        let dots: Vec<Mark> = joints.filter(|p| near(*p)).map(Mark::Dot).collect();
        (!dots.is_empty()).then_some(dots)
    }))
}

pub(super) fn join(class: &Class) -> Drawing {
    first(class, "nhmrub", |d| {
        let all = d.letter.strokes.iter().flat_map(|s| &s.joins);
        let thin = all.min_by(|a, b| a.value.total_cmp(&b.value))?;
        Some(vec![span(thin)])
    })
}

pub(super) fn terminal(class: &Class) -> Drawing {
    first(class, "cCsaf", |d| {
        let s = longest(d, StrokeKind::Curve).filter(|s| !s.closed)?;
        Some(vec![
            Mark::Dot(*s.axis.first()?),
            Mark::Dot(*s.axis.last()?),
        ])
    })
}

pub(super) fn serif(class: &Class) -> Drawing {
    first(class, "IHl", |d| {
        let (b, stem) = (d.letter.bounds?, longest(d, StrokeKind::Stem)?);
        let foot = d.letter.foot.filter(|f| f.form == Form::Flat)?;
        let mark = stem.marks.first()?;
        let (left, right) = (mark.from.x.min(mark.to.x), mark.from.x.max(mark.to.x));
        // A stem alone is no broader at its foot than in its middle.
        if foot.breadth < 1.3 * stem.median {
            return None;
        }
        let height = 0.09 * b.height();
        let reach = 0.5 * (foot.breadth - (right - left));
        let corners = [
            (left - reach, b.y0),
            (right + reach, b.y0),
            (right + reach, b.y0 + height),
            (left - reach, b.y0 + height),
        ];
        Some(vec![Mark::Area(polygon(corners.map(Point::from)))])
    })
}

pub(super) fn slant(class: &Class) -> Drawing {
    first(class, "lIH", |d| {
        let (b, lean) = (d.letter.bounds?, class.context().slant.to_radians().tan());
        let foot = Point::new(b.x0, b.y0);
        let up = Point::new(b.x0, b.y1);
        let along = Point::new(b.x0 + lean * b.height(), b.y1);
        Some(vec![Mark::Line(foot, up), Mark::Line(foot, along)])
    })
}

pub(super) fn darkness(class: &Class) -> Drawing {
    first(class, "nHo", |d| {
        let (foot, top) = (class.baseline(), class.flat_top(d.character)?);
        let end = d.letter.advance;
        let corners = [(0.0, foot), (end, foot), (end, top), (0.0, top)];
        Some(vec![Mark::Area(polygon(corners.map(Point::from)))])
    })
}

pub(super) fn white(class: &Class) -> Drawing {
    let (mut picture, all) = row(class, "no")?;
    let [a, b] = &all[..] else { return None };
    let (foot, top) = (class.baseline(), class.flat_top('n')?);
    let (from, to) = (a.letter.bounds?.x1, a.letter.advance + b.letter.bounds?.x0);
    let corners = [(from, foot), (to, foot), (to, top), (from, top)];
    picture.marks = vec![Mark::Area(polygon(corners.map(Point::from)))];
    Some(picture)
}

pub(super) fn rhythm(class: &Class) -> Drawing {
    let (mut picture, all) = row(class, "nnnn")?;
    let mut at = 0.0;
    let y = class.baseline() - 0.07 * class.context().units_per_em;
    let mut edges: Vec<f64> = Vec::new();
    for d in &all {
        let b = d.letter.bounds?;
        edges.extend([at + b.x0, at + b.x1]);
        at += d.letter.advance;
    }
    let gaps = edges[1..].chunks_exact(2);
    picture.marks = gaps
        .map(|gap| Mark::Span(Point::new(gap[0], y), Point::new(gap[1], y)))
        .collect();
    Some(picture)
}

pub(super) fn waist(class: &Class) -> Drawing {
    first(class, "BESH", |d| {
        let b = d.letter.bounds?;
        let waist = halves::Waist::of(&d.outline)?;
        let middle = 0.5 * (b.y0 + b.y1);
        let (from, to) = waist.whites();
        Some(vec![
            Mark::Rule(middle),
            Mark::Span(from.0, from.1),
            Mark::Span(to.0, to.1),
        ])
    })
}
