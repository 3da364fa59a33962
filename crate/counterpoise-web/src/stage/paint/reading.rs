//! The line at reading sizes: plain text, as its reader meets it.

use super::brush::{Brush, Hang};
use super::shapes::Shapes;
use super::{Drawn, Picture};
use crate::stage::figure;
use crate::stage::frame::reading_row;
use kurbo::{Affine, Point};

/// Height of the baseline within a row, from its top: leaves room for descenders.
const BASELINE: f64 = 0.72;

/// Paints the reading rows, if there are any.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes) -> Drawn {
    let room = picture.frame.reading;
    if room.height() <= 0.0 {
        return Ok(());
    }
    let c = brush.context;
    brush.css()?;
    brush.rect(room, &brush.theme.paper);
    brush.level(room.x0, room.x1, room.y0, &brush.theme.rule);
    c.save();
    c.begin_path();
    c.rect(room.x0, room.y0, room.width(), room.height());
    c.clip();
    let mut top = room.y0 + 0.5 * brush.label();
    for &size in &picture.setting.reading {
        row(brush, picture, shapes, size, top)?;
        top += reading_row(size);
    }
    c.restore();
    Ok(())
}

fn row(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes, size: f64, top: f64) -> Drawn {
    let (c, frame) = (brush.context, picture.frame);
    let scale = size / picture.sorts.units_per_em();
    let baseline = top + BASELINE * reading_row(size);
    let snapped = (baseline * brush.ratio).round() / brush.ratio;
    let told = format!("{} px", figure::length(size));
    let aside = if frame.names > 0.0 {
        frame.names
    } else {
        brush.width(&told) + 16.0
    };
    brush.css()?;
    let middle = Point::new(aside - 8.0, baseline - 0.35 * size);
    brush.text(&told, middle, Hang::Left, &brush.theme.declared)?;
    c.set_fill_style_str(&brush.theme.ink);
    // The line as it is set, whatever was moved on the stage above.
    let start = aside + 4.0;
    for s in &picture.standings {
        let (right, up) = (f64::from(s.item.shift.0), f64::from(s.item.shift.1));
        let x = start + scale * (s.own + right - picture.setting.start);
        if x > frame.canvas.x1 {
            continue;
        }
        if let Some(shape) = shapes.get(s.item.glyph) {
            let y = snapped - scale * up;
            brush.through(Affine::new([scale, 0.0, 0.0, -scale, x, y]))?;
            c.fill_with_path_2d(&shape.outline);
        }
    }
    brush.css()
}
