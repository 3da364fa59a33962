//! Marks about letters: corners about a chosen one, a pin over a pinned one.

use super::brush::Brush;
use super::{Drawn, Picture};
use crate::stage::standing::Standing;
use kurbo::{Point, Rect};
use std::f64::consts::TAU;

/// Between the ink and the corners, and the corners' arms, CSS pixels.
const AWAY: f64 = 6.0;
const ARM: f64 = 9.0;

/// Paints the marks of every letter that may be seen.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    brush.css()?;
    for s in picture.letters() {
        let r = about(picture, s);
        if picture.is_chosen(&s.item) {
            corners(brush, r);
        }
        if s.item.pinned {
            pin(brush, picture, r)?;
        }
    }
    Ok(())
}

/// The box of a letter's ink on the canvas; of a space, its advance.
fn about(picture: &Picture<'_>, s: &Standing) -> Rect {
    let (left, right) = s.breadth();
    let space = Rect::new(left, 0.0, right.max(left), picture.sorts.x_height());
    picture.camera.rect(s.ink.unwrap_or(space))
}

fn corners(brush: &Brush<'_>, r: Rect) {
    let c = brush.context;
    let r = r.inflate(AWAY, AWAY);
    let arm = ARM.min(0.4 * r.width()).min(0.4 * r.height());
    c.set_stroke_style_str(&brush.theme.chosen);
    c.set_line_width(2.0);
    c.begin_path();
    for (x, sx) in [(r.x0, 1.0), (r.x1, -1.0)] {
        for (y, sy) in [(r.y0, 1.0), (r.y1, -1.0)] {
            let (x, y) = (brush.crisp(x), brush.crisp(y));
            c.move_to(x + sx * arm, y);
            c.line_to(x, y);
            c.line_to(x, y + sy * arm);
        }
    }
    c.stroke();
}

/// The boxes of the corners of the chosen letters.
pub(super) fn corners_of(picture: &Picture<'_>) -> impl Iterator<Item = Rect> {
    let chosen = picture.letters().filter(|s| picture.is_chosen(&s.item));
    chosen.flat_map(|s| {
        let r = about(picture, s).inflate(AWAY, AWAY);
        [(r.x0, r.y0), (r.x1, r.y0), (r.x0, r.y1), (r.x1, r.y1)]
            .map(|corner| Rect::from_center_size(corner, (ARM, ARM)))
    })
}

/// A pin's length from its point to the middle of its head, and the head's
/// radius, CSS pixels.
const PIN: f64 = 13.0;
const HEAD: f64 = 4.5;

/// Where a pin's point is: on the letter's top; within the canvas if the top is not.
fn pin_point(picture: &Picture<'_>, r: Rect) -> Point {
    let room = picture.frame.letters;
    let highest = room.y0 + PIN + HEAD + 2.0;
    Point::new(r.center().x, (r.y0 - 2.0).min(room.y1 - 2.0).max(highest))
}

/// The boxes of the pins that may be seen.
pub(super) fn pins(picture: &Picture<'_>) -> impl Iterator<Item = Rect> {
    picture.letters().filter(|s| s.item.pinned).map(|s| {
        let p = pin_point(picture, about(picture, s));
        Rect::new(p.x - HEAD, p.y - PIN - HEAD, p.x + HEAD, p.y)
    })
}

fn pin(brush: &Brush<'_>, picture: &Picture<'_>, r: Rect) -> Drawn {
    let point = pin_point(picture, r);
    let head = Point::new(point.x, point.y - PIN);
    brush.line(point, head, 2.0, &brush.theme.pinned);
    let c = brush.context;
    c.begin_path();
    c.arc(head.x, head.y, HEAD, 0.0, TAU)?;
    c.set_fill_style_str(&brush.theme.pinned);
    c.fill();
    c.set_stroke_style_str(&brush.theme.halo);
    c.set_line_width(1.0);
    c.stroke();
    Ok(())
}
