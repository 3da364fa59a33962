//! The strokes: their middle lines, the marks of their thickness, and its figures.

use super::brush::{Brush, Hang};
use super::ink::to_canvas;
use super::labels::Label;
use super::shapes::Shapes;
use super::{Drawn, Picture, thickness};
use crate::stage::command::ItemId;
use crate::stage::frame::Frame;
use crate::stage::scene::Item;
use crate::stage::view::Camera;
use kurbo::Rect;

/// From these sizes of the em on, CSS pixels: below the first, a line hides the
/// stroke that it runs in; below the second, middle lines are all that can be
/// told apart; below the third, figures would hide the letters.
const LEAST_LINED: f64 = 40.0;
const LEAST_MARKED: f64 = 56.0;
const LEAST_WRITTEN: f64 = 64.0;

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
    obstacles: Vec<Rect>,
}

/// Paints the strokes of every letter that may be seen; their figures keep off
/// the obstacles.
pub(super) fn paint(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    shapes: &Shapes,
    obstacles: Vec<Rect>,
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
        obstacles,
    };
    if kept.key.as_ref() != Some(&key) {
        kept.labels = thickness::labels(brush, picture, &key.obstacles);
        kept.key = Some(key);
    }
    for label in &kept.labels {
        brush.tag(&label.text, label.at, Hang::Middle, &brush.theme.stroke)?;
    }
    Ok(())
}

fn lines(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes) -> Drawn {
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
    Ok(())
}
