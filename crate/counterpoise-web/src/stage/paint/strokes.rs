//! The strokes: their middle lines, and the marks of their thickness.

use super::brush::Brush;
use super::ink::to_canvas;
use super::shapes::Shapes;
use super::{Drawn, Picture};

/// From these sizes of the em on, CSS pixels: below the first, a line hides the
/// stroke that it runs in; below the second, middle lines are all that can be
/// told apart.
const LEAST_LINED: f64 = 40.0;
const LEAST_MARKED: f64 = 56.0;

/// Width of marks, CSS pixels.
const MARK: f64 = 1.5;

/// Paints the strokes of every letter that may be seen.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes) -> Drawn {
    if picture.em() < LEAST_LINED {
        return Ok(());
    }
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
    brush.css()
}
