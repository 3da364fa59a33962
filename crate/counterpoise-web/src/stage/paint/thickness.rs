//! Where the thickness of strokes is written.

use super::Picture;
use super::brush::Brush;
use super::ink::to_canvas;
use super::labels::Wish;
use crate::stage::figure;
use crate::stage::hit;
use crate::stage::standing::Standing;
use counterpoise::order::by_number;
use counterpoise::report::{LetterReport, Stroke, StrokeKind, Thickness};
use kurbo::{Point, Rect, Size, Vec2};

/// Below this size of the em, CSS pixels, a letter has room for the figures of
/// its main strokes only, and they go clear of all ink.
pub(super) const ROOMY: f64 = 160.0;

/// Between a mark's end, or a letter's foot, and a label beside it, CSS pixels.
const BESIDE: f64 = 4.0;

/// A label may hide this many of its probes' ink in a roomy letter: a corner,
/// not a stroke.
const HIDES: usize = 1;

/// The figures of every letter that may be seen. The chosen letters' come first,
/// then stems, curves, diagonals and bars, the longest first.
pub(super) fn wishes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Wish> {
    let mut ranked: Vec<((bool, u8, f64), Wish)> = Vec::new();
    let roomy = picture.em() >= ROOMY;
    for s in picture.letters() {
        let Some(glyph) = s.item.glyph else { continue };
        let chosen = picture.is_chosen(&s.item);
        let Some(report) = picture.sorts.measured(glyph) else {
            continue;
        };
        for (stroke, mark) in marks(&report, roomy) {
            let rank = (!chosen, kind_rank(stroke.kind), -stroke.length);
            ranked.push((rank, wish(brush, picture, s, stroke, mark)));
        }
    }
    // By length first: what comes later keeps that order among its equals.
    by_number(&mut ranked, |((_, _, length), _)| *length);
    by_number(&mut ranked, |((other, kind, _), _)| {
        f64::from(8 * u8::from(*other) + kind)
    });
    ranked.into_iter().map(|(_, wish)| wish).collect()
}

fn kind_rank(kind: StrokeKind) -> u8 {
    match kind {
        StrokeKind::Stem => 0,
        StrokeKind::Curve => 1,
        StrokeKind::Diagonal => 2,
        StrokeKind::Bar => 3,
    }
}

/// What is written of a letter: every mark where there is room, else its stems,
/// or the thickest mark of a letter without.
fn marks(report: &LetterReport, roomy: bool) -> Vec<(&Stroke, &Thickness)> {
    let all = report
        .strokes
        .iter()
        .flat_map(|s| s.marks.iter().map(move |m| (s, m)));
    if roomy {
        return all.collect();
    }
    let stems: Vec<_> = all
        .clone()
        .filter(|(s, _)| s.kind == StrokeKind::Stem)
        .collect();
    if stems.is_empty() {
        all.max_by(|(_, a), (_, b)| a.value.total_cmp(&b.value))
            .into_iter()
            .collect()
    } else {
        stems
    }
}

fn wish(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    s: &Standing,
    stroke: &Stroke,
    mark: &Thickness,
) -> Wish {
    // A straight stroke has one mark, which stands for the whole of it.
    let curved = stroke.kind == StrokeKind::Curve;
    let text = figure::length(if curved { mark.value } else { stroke.median });
    let size = brush.tag_size(&text);
    let map = to_canvas(picture, s);
    let at = |p: [f64; 2]| map * Point::new(p[0], p[1]);
    let (a, b) = (at(mark.from), at(mark.to));
    let mut spots = on_stroke(a, b, size);
    let ink = s.ink.map(|ink| picture.camera.rect(ink));
    let ends = ink.map(|ink| under_and_over(ink, a.midpoint(b).x, size));
    let (ends, beside) = (ends.into_iter().flatten(), beside(a, b, size));
    // In a small letter a figure beside a stroke fills the counter.
    let (allowed, aside): (usize, Vec<Point>) = if picture.em() >= ROOMY {
        (HIDES, beside.into_iter().chain(ends).collect())
    } else {
        (0, ends.chain(beside).collect())
    };
    spots.extend(clear_of_ink(picture, aside, size, allowed));
    Wish {
        text,
        size,
        spots,
        or: None,
    }
}

/// On the stroke, if it is broad enough to show at both sides of the figure.
fn on_stroke(a: Point, b: Point, size: Size) -> Vec<Point> {
    let (u, along) = ways(a, b);
    if (b - a).hypot() <= 2.0 * (reach(u, size) + BESIDE) {
        return Vec::new();
    }
    shifts(along, size)
        .map(|shift| a.midpoint(b) + shift)
        .to_vec()
}

/// Beside the stroke, at the mark and a little further along.
fn beside(a: Point, b: Point, size: Size) -> Vec<Point> {
    let (u, along) = ways(a, b);
    let off = 0.5 * (b - a).hypot() + reach(u, size) + BESIDE;
    shifts(along, size)
        .into_iter()
        .flat_map(|shift| [off, -off].map(|off| a.midpoint(b) + off * u + shift))
        .collect()
}

/// Under the letter's foot, in two rows, and over its head.
fn under_and_over(ink: Rect, x: f64, size: Size) -> [Point; 3] {
    let off = 0.5 * size.height + BESIDE;
    [ink.y1 + off, ink.y1 + off + size.height, ink.y0 - off].map(|y| Point::new(x, y))
}

/// The direction across a stroke and the one along it, of length 1.
fn ways(a: Point, b: Point) -> (Vec2, Vec2) {
    let way = b - a;
    let length = way.hypot();
    let u = if length > 0.0 {
        way / length
    } else {
        Vec2::new(1.0, 0.0)
    };
    (u, u.turn_90())
}

/// Not at all, a label's size one way, and the other way.
fn shifts(along: Vec2, size: Size) -> [Vec2; 3] {
    let step = 2.2 * reach(along, size);
    [0.0, step, -step].map(|s| s * along)
}

/// How far a box reaches from its middle in a direction.
fn reach(u: Vec2, size: Size) -> f64 {
    0.5 * (u.x.abs() * size.width + u.y.abs() * size.height)
}

/// The places where a label hides little ink, the clearest first.
pub(super) fn clear_of_ink(
    picture: &Picture<'_>,
    spots: Vec<Point>,
    size: Size,
    allowed: usize,
) -> impl Iterator<Item = Point> {
    let mut clear: Vec<(usize, Point)> = spots
        .into_iter()
        .map(|spot| (ink_under(picture, spot, size), spot))
        .filter(|(hidden, _)| *hidden <= allowed)
        .collect();
    by_number(&mut clear, |(hidden, _)| *hidden as f64);
    clear.into_iter().map(|(_, spot)| spot)
}

/// How many of a few points of a label at a place would hide ink.
fn ink_under(picture: &Picture<'_>, at: Point, size: Size) -> usize {
    let hides = |(dx, dy): &(f64, f64)| {
        let p = Point::new(at.x + dx * size.width, at.y + dy * size.height);
        let p = picture.camera.to_stage(p);
        let boxed = |s: &&Standing| s.ink.is_some_and(|ink| ink.contains(p));
        picture.letters().filter(boxed).any(|s| hit::is_ink(s, p))
    };
    let across = [-0.45, 0.0, 0.45].into_iter();
    let probes = across.flat_map(|dx| [-0.4, 0.4].map(|dy| (dx, dy)));
    probes.filter(hides).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIZE: Size = Size::new(24.0, 14.0);

    #[test]
    fn a_figure_goes_on_a_broad_stroke_only() {
        let broad = on_stroke(Point::new(0.0, 0.0), Point::new(60.0, 0.0), SIZE);
        assert_eq!(broad[0], Point::new(30.0, 0.0));
        assert!(on_stroke(Point::new(0.0, 0.0), Point::new(20.0, 0.0), SIZE).is_empty());
    }

    #[test]
    fn beside_means_clear_of_the_stroke() {
        for spot in beside(Point::new(0.0, 0.0), Point::new(10.0, 0.0), SIZE) {
            let r = Rect::from_center_size(spot, SIZE);
            assert!(r.x1 < 0.0 || r.x0 > 10.0, "{r:?}");
        }
    }

    #[test]
    fn a_mark_of_no_length_still_has_places() {
        let p = Point::new(3.0, 4.0);
        assert!(beside(p, p, SIZE).iter().all(|s| s.is_finite()));
    }
}
