//! The outline's points: a diamond for a point of the curve, a bar across the
//! handle's end for one that steers it.

use super::brush::Brush;
use super::ink::to_canvas;
use super::{Drawn, Picture};
use counterpoise::outline::{Outline, Segment};
use kurbo::{ParamCurve, PathSeg, Point, Vec2};
use web_sys::CanvasRenderingContext2d;

/// Shown from this size of the em on, CSS pixels: below, the points run together.
pub(super) const LEAST_EM: f64 = 120.0;

/// Half a diamond and half a handle's bar, CSS pixels.
const DIAMOND: f64 = 4.0;
const BAR: f64 = 3.5;

/// Paints the points of every letter that may be seen.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    if picture.em() < LEAST_EM {
        return Ok(());
    }
    brush.css()?;
    let c = brush.context;
    c.set_stroke_style_str(&brush.theme.point);
    c.set_fill_style_str(&brush.theme.point);
    c.set_line_width(brush.hair());
    for s in picture.letters() {
        let Some(sort) = &s.sort else { continue };
        let map = to_canvas(picture, s);
        let near = picture.frame.letters.inflate(80.0, 80.0);
        let segments = || {
            sort.outline
                .segments()
                .iter()
                .map(|segment| map * segment.path_seg())
        };
        let size = size(&sort.outline, picture.camera.scale);
        c.begin_path();
        for seg in segments() {
            handles(seg, &mut |from, to| {
                if near.contains(from) || near.contains(to) {
                    handle(c, from, to, BAR * size);
                }
            });
        }
        c.stroke();
        c.begin_path();
        for seg in segments() {
            let p = seg.start();
            if near.contains(p) {
                diamond(c, p, DIAMOND * size);
            }
        }
        c.fill();
    }
    Ok(())
}

/// How large points are drawn: smaller where an outline has so many that they
/// would hide each other, as an automatic trace does.
pub(super) fn size(outline: &Outline, scale: f64) -> f64 {
    let lengths = outline.segments().iter().map(Segment::length);
    let mean = scale * lengths.sum::<f64>() / outline.segments().len().max(1) as f64;
    (mean / (4.0 * DIAMOND)).clamp(0.3, 1.0)
}

/// Each handle, from its point on the curve to its end.
fn handles(seg: PathSeg, each: &mut impl FnMut(Point, Point)) {
    match seg {
        PathSeg::Line(_) => {}
        PathSeg::Quad(q) => {
            each(q.p0, q.p1);
            each(q.p2, q.p1);
        }
        PathSeg::Cubic(c) => {
            each(c.p0, c.p1);
            each(c.p3, c.p2);
        }
    }
}

fn handle(c: &CanvasRenderingContext2d, from: Point, to: Point, bar: f64) {
    let way = to - from;
    let length = way.hypot();
    if length < 0.5 {
        return;
    }
    c.move_to(from.x, from.y);
    c.line_to(to.x, to.y);
    let across: Vec2 = way.turn_90() * (bar / length);
    let (a, b) = (to - across, to + across);
    c.move_to(a.x, a.y);
    c.line_to(b.x, b.y);
}

pub(super) fn diamond(c: &CanvasRenderingContext2d, p: Point, half: f64) {
    c.move_to(p.x - half, p.y);
    c.line_to(p.x, p.y - half);
    c.line_to(p.x + half, p.y);
    c.line_to(p.x, p.y + half);
    c.close_path();
}
