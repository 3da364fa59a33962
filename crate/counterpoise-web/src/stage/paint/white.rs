//! The white between neighbours as a tint, with how far apart the eye takes
//! them to be; a pair that breaks the line's rhythm has a stronger tint, an
//! outline, and by how much it does.

use super::brush::Brush;
use super::figures::LEAST_WRITTEN;
use super::labels::Wish;
use super::{Drawn, Picture};
use crate::stage::figure;
use crate::stage::white::Between;
use crate::theme::Theme;
use counterpoise::order::by_number;
use kurbo::{PathEl, Point, Rect, Shape};

/// Strength of the tint, of a pair in the rhythm and of one that breaks it.
const TINT: f64 = 0.16;
const STRONG: f64 = 0.4;

/// Width of the outline of a pair that breaks the rhythm, CSS pixels.
const LINE: f64 = 1.5;

/// Paints the whites that may be seen.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let Some(white) = &picture.white else {
        return Ok(());
    };
    brush.css()?;
    let c = brush.context;
    for between in white.pairs.iter().filter(|b| is_seen(picture, b)) {
        let colour = colour(brush.theme, between);
        trace(brush, picture, between);
        c.set_fill_style_str(colour);
        c.set_global_alpha(if between.place.breaks { STRONG } else { TINT });
        c.fill();
        c.set_global_alpha(1.0);
        if between.place.breaks {
            c.set_stroke_style_str(colour);
            c.set_line_width(LINE);
            c.stroke();
        }
    }
    Ok(())
}

fn trace(brush: &Brush<'_>, picture: &Picture<'_>, between: &Between) {
    let (c, camera) = (brush.context, picture.camera);
    c.begin_path();
    for element in between.outline.elements() {
        match *element {
            PathEl::MoveTo(p) => {
                let p = camera.to_canvas(p);
                c.move_to(p.x, p.y);
            }
            PathEl::LineTo(p) => {
                let p = camera.to_canvas(p);
                c.line_to(p.x, p.y);
            }
            // A white's outline is of straight steps.
            _ => c.close_path(),
        }
    }
}

fn on_canvas(picture: &Picture<'_>, between: &Between) -> Rect {
    picture.camera.rect(between.outline.bounding_box())
}

fn is_seen(picture: &Picture<'_>, between: &Between) -> bool {
    on_canvas(picture, between).overlaps(picture.frame.letters)
}

/// Too wide and too tight are told apart by the sign of the amount too.
fn colour<'a>(theme: &'a Theme, between: &Between) -> &'a str {
    match between.place {
        p if !p.breaks => &theme.width,
        p if p.off > 0.0 => &theme.above,
        _ => &theme.below,
    }
}

/// The distances of every pair that may be seen, those that break the rhythm
/// first, with how far they are off.
pub(super) fn wishes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Wish> {
    let Some(white) = &picture.white else {
        return Vec::new();
    };
    if picture.em() < LEAST_WRITTEN {
        return Vec::new();
    }
    let mut pairs: Vec<&Between> = white.pairs.iter().filter(|b| is_seen(picture, b)).collect();
    by_number(&mut pairs, |b| f64::from(u8::from(!b.place.breaks)));
    pairs.iter().map(|b| wish(brush, picture, b)).collect()
}

fn wish(brush: &Brush<'_>, picture: &Picture<'_>, between: &Between) -> Wish {
    let place = between.place;
    let distance = figure::length(place.distance.round());
    let text = if place.breaks {
        let plus = if place.off > 0.0 { "+" } else { "" };
        format!("{distance} ({plus}{})", figure::length(place.off.round()))
    } else {
        distance
    };
    let size = brush.tag_size(&text);
    let r = on_canvas(picture, between);
    let (x, row) = (r.center().x, size.height + 1.0);
    let first = r.y1 + 0.5 * size.height + 3.0;
    let spots = (0..4)
        .map(|i| Point::new(x, first + f64::from(i) * row))
        .chain([Point::new(x, r.y0 - 0.5 * size.height - 3.0)])
        .collect();
    Wish {
        spots,
        text,
        size,
        or: None,
    }
}
