//! The strokes: their middle lines, and their thickness written on them.

use super::brush::{Brush, Hang};
use super::ink::to_canvas;
use super::labels::{self, Label, Taken, Wish};
use super::shapes::Shapes;
use super::{Drawn, Picture};
use crate::stage::command::ItemId;
use crate::stage::figure;
use crate::stage::frame::Frame;
use crate::stage::hit;
use crate::stage::scene::Item;
use crate::stage::standing::Standing;
use crate::stage::view::Camera;
use counterpoise::report::{Stroke, StrokeKind, Thickness};
use kurbo::{Affine, Point, Size, Vec2};

/// From these sizes of the em on, CSS pixels: below the first, middle lines are
/// all that can be told apart; below the second, figures would hide the letters.
const LEAST_MARKED: f64 = 70.0;
const LEAST_WRITTEN: f64 = 150.0;

/// A stroke shown shorter than its label carries none, in label widths.
const LEAST_LENGTH: f64 = 1.0;

/// Between a mark's end and a label beside it, CSS pixels.
const BESIDE: f64 = 4.0;

/// Width of marks, CSS pixels.
const MARK: f64 = 1.5;

/// Where the labels are, until a letter or the view moves.
#[derive(Debug, Default)]
pub(super) struct StrokeLabels {
    key: Option<Key>,
    labels: Vec<Label>,
}

#[derive(Debug, PartialEq)]
struct Key {
    camera: Camera,
    frame: Frame,
    start: f64,
    items: Vec<Item>,
    chosen: Vec<ItemId>,
}

/// Paints the strokes of every letter that may be seen.
pub(super) fn paint(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    shapes: &Shapes,
    kept: &mut StrokeLabels,
) -> Drawn {
    lines(brush, picture, shapes)?;
    brush.css()?;
    if picture.em() < LEAST_WRITTEN {
        return Ok(());
    }
    let key = Key {
        camera: picture.camera,
        frame: picture.frame,
        start: picture.setting.start,
        items: picture.scene.items.clone(),
        chosen: picture.chosen.to_vec(),
    };
    if kept.key.as_ref() != Some(&key) {
        kept.labels = place(brush, picture);
        kept.key = Some(key);
    }
    for label in &kept.labels {
        brush.tag(&label.text, label.at, Hang::Middle, &brush.theme.stroke)?;
    }
    Ok(())
}

fn lines(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes) -> Drawn {
    let (c, scale) = (brush.context, picture.camera.scale);
    c.set_stroke_style_str(&brush.theme.stroke);
    let drawn = || {
        picture.letters().filter_map(|s| {
            let shape = shapes.get(s.item.glyph)?;
            Some((s, shape.axes.as_ref()?, shape.marks.as_ref()?))
        })
    };
    brush.dashed(5.0 / scale, 3.0 / scale)?;
    c.set_line_width(brush.hair() / scale);
    for (s, axes, _) in drawn() {
        brush.through(to_canvas(picture, s))?;
        c.stroke_with_path(axes);
    }
    brush.solid()?;
    if picture.em() >= LEAST_MARKED {
        c.set_line_width(MARK / scale);
        for (s, _, marks) in drawn() {
            brush.through(to_canvas(picture, s))?;
            c.stroke_with_path(marks);
        }
    }
    Ok(())
}

/// A wish with what it ranks by: chosen letters first, then stems, curves,
/// diagonals, bars, the longest first.
struct Ranked {
    rank: (bool, u8, f64),
    wish: Wish,
}

fn place(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Label> {
    let mut ranked: Vec<Ranked> = Vec::new();
    for s in picture.letters() {
        let Some(glyph) = s.item.glyph else { continue };
        let map = to_canvas(picture, s);
        let chosen = picture.is_chosen(&s.item);
        for stroke in &picture.sorts.report(glyph).strokes {
            let rank = (!chosen, kind_rank(stroke.kind), -stroke.length);
            let marks = stroke.marks.iter();
            ranked.extend(marks.filter_map(|mark| {
                let wish = wish(brush, picture, stroke, mark, map)?;
                Some(Ranked { rank, wish })
            }));
        }
    }
    ranked.sort_by(|a, b| {
        let ((ac, ak, al), (bc, bk, bl)) = (a.rank, b.rank);
        (ac, ak).cmp(&(bc, bk)).then(al.total_cmp(&bl))
    });
    let wishes = ranked.into_iter().map(|r| r.wish).collect();
    let mut bounds = picture.frame.letters;
    bounds.x0 += if picture.setting.layers.guides {
        picture.frame.names
    } else {
        0.0
    };
    labels::settle(wishes, bounds, &mut Taken::default())
}

fn kind_rank(kind: StrokeKind) -> u8 {
    match kind {
        StrokeKind::Stem => 0,
        StrokeKind::Curve => 1,
        StrokeKind::Diagonal => 2,
        StrokeKind::Bar => 3,
    }
}

fn wish(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    stroke: &Stroke,
    mark: &Thickness,
    map: Affine,
) -> Option<Wish> {
    // A straight stroke has one mark, which stands for the whole of it.
    let value = if stroke.kind == StrokeKind::Curve {
        mark.value
    } else {
        stroke.median
    };
    let text = figure::length(value);
    let size = brush.tag_size(&text);
    if stroke.length * picture.camera.scale < LEAST_LENGTH * size.width {
        return None;
    }
    let at = |p: [f64; 2]| map * Point::new(p[0], p[1]);
    let mut spots = spots(at(mark.from), at(mark.to), size);
    // The places on the stroke itself cover its ink by intent.
    if let Some(beside) = spots.iter().position(|s| !s.on_stroke) {
        spots[beside..].sort_by_cached_key(|s| ink_under(picture, s.at, size));
    }
    Some(Wish {
        text,
        size,
        spots: spots.into_iter().map(|s| s.at).collect(),
    })
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

/// A place for a label.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Spot {
    at: Point,
    on_stroke: bool,
}

/// On the stroke where it is broad enough to show at both sides of the figure,
/// else beside it, at the mark and a little further along.
fn spots(a: Point, b: Point, size: Size) -> Vec<Spot> {
    let (middle, way) = (a.midpoint(b), b - a);
    let thickness = way.hypot();
    let u = if thickness > 0.0 {
        way / thickness
    } else {
        Vec2::new(1.0, 0.0)
    };
    let half = half_extent(u, size);
    let along = u.turn_90();
    let step = 2.2 * half_extent(along, size);
    let off = 0.5 * thickness + half + BESIDE;
    let shifts = [0.0, step, -step];
    let on = shifts.map(|s| Spot {
        at: middle + s * along,
        on_stroke: true,
    });
    let beside = shifts.into_iter().flat_map(|s| {
        [off, -off].map(|off| Spot {
            at: middle + off * u + s * along,
            on_stroke: false,
        })
    });
    if thickness > 2.0 * half + 2.0 * BESIDE {
        on.into_iter().chain(beside).collect()
    } else {
        beside.collect()
    }
}

/// How far a box reaches from its middle in a direction.
fn half_extent(u: Vec2, size: Size) -> f64 {
    0.5 * (u.x.abs() * size.width + u.y.abs() * size.height)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_goes_on_a_broad_stroke_and_beside_a_thin_one() {
        let size = Size::new(24.0, 14.0);
        let broad = spots(Point::new(0.0, 0.0), Point::new(60.0, 0.0), size);
        assert!(broad[0].on_stroke && broad[0].at == Point::new(30.0, 0.0));
        let thin = spots(Point::new(0.0, 0.0), Point::new(10.0, 0.0), size);
        assert_eq!(thin[0].at, Point::new(5.0 + 5.0 + 12.0 + BESIDE, 0.0));
        assert!(thin.iter().all(|s| !s.on_stroke));
    }

    #[test]
    fn a_mark_of_no_length_still_has_places() {
        let p = Point::new(3.0, 4.0);
        let places = spots(p, p, Size::new(24.0, 14.0));
        assert!(places.iter().all(|s| s.at.is_finite()));
    }
}
