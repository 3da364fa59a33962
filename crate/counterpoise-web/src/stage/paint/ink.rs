//! The letters themselves.

use super::brush::{Brush, Hang, Surface};
use super::shapes::Shapes;
use super::{Drawn, Picture, refit};
use crate::stage::standing::Standing;
use counterpoise::report::GuideKind;
use kurbo::{Affine, Point, Rect, Size};
use wasm_bindgen::JsValue;
use web_sys::CanvasPattern;

/// The ink is this faint where outlines or points are to be seen on it.
const FAINT: f64 = 0.22;

/// The tint of a letter laid over another.
const TINT: f64 = 0.3;

/// Side of the hatching's tile, CSS pixels.
const HATCH: f64 = 7.0;

/// Width of outlines, CSS pixels.
const OUTLINE: f64 = 1.25;
const OVER_OUTLINE: f64 = 2.0;

/// A canvas aside for letters that are to be blurred together.
#[derive(Debug)]
pub(super) struct Blurred(Surface);

/// Paints every letter that may be seen, from the lowest up.
pub(super) fn paint(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    shapes: &Shapes,
    blurred: &mut Option<Blurred>,
) -> Drawn {
    for s in picture.letters().filter(|s| s.item.is_missing()) {
        gap(brush, picture, s)?;
    }
    let spread = picture.setting.blur * picture.sorts.x_height() * picture.camera.scale;
    if spread <= 0.0 {
        *blurred = None;
        return letters(brush, picture, shapes);
    }
    // Blurred one by one, letters would not run together as they do in the eye;
    // and one blur of the whole is cheaper than sixty.
    let aside = match blurred {
        Some(aside) => aside,
        None => blurred.insert(Blurred(Surface::aside()?)),
    };
    let size = picture.frame.canvas.size();
    aside.0.fit(size, brush.ratio);
    let other = brush.on(&aside.0.context);
    other.begin()?;
    aside
        .0
        .context
        .clear_rect(0.0, 0.0, size.width, size.height);
    letters(&other, picture, shapes)?;
    brush.context.save();
    brush
        .context
        .set_filter(&format!("blur({}px)", spread * brush.ratio));
    brush.context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)?;
    brush
        .context
        .draw_image_with_html_canvas_element(&aside.0.canvas, 0.0, 0.0)?;
    brush.context.restore();
    Ok(())
}

fn letters(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes) -> Drawn {
    let hatch = if picture.over.contains(&true) {
        Some(hatching(brush)?)
    } else {
        None
    };
    for &i in &picture.seen {
        let s = &picture.standings[i];
        if picture.over[i] {
            laid_over(brush, picture, shapes, s, hatch.as_ref())?;
        } else {
            plain(brush, picture, shapes, s)?;
        }
    }
    brush.css()
}

/// The map from a letter's units to CSS pixels.
pub(super) fn to_canvas(picture: &Picture<'_>, s: &Standing) -> Affine {
    let c = picture.camera;
    Affine::new([c.scale, 0.0, 0.0, -c.scale, c.origin.x, c.origin.y]) * s.map
}

fn plain(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes, s: &Standing) -> Drawn {
    let Some(shape) = shapes.get(s.item.glyph) else {
        return Ok(());
    };
    let (c, layers) = (brush.context, picture.setting.layers);
    let refit = refit::is_shown(picture);
    brush.through(to_canvas(picture, s))?;
    if layers.fill {
        let faint = layers.outline || layers.points || layers.flaws || refit;
        c.set_global_alpha(if faint { FAINT } else { 1.0 });
        c.set_fill_style_str(&brush.theme.ink);
        c.fill_with_path_2d(&shape.outline);
        c.set_global_alpha(1.0);
    }
    if layers.outline || refit || !layers.fill {
        c.set_stroke_style_str(&brush.theme.ink);
        // Under a refit, which lies on it to a hair, it is the finer of the two.
        let width = if refit { brush.hair() } else { OUTLINE };
        c.set_line_width(width / picture.camera.scale);
        c.stroke_with_path(&shape.outline);
    }
    Ok(())
}

/// A tint, hatching and a strong outline: both letters can be told apart by
/// line and texture alone.
fn laid_over(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    shapes: &Shapes,
    s: &Standing,
    hatch: Option<&CanvasPattern>,
) -> Drawn {
    let Some(shape) = shapes.get(s.item.glyph) else {
        return Ok(());
    };
    let c = brush.context;
    let map = to_canvas(picture, s);
    brush.through(map)?;
    if picture.setting.layers.fill {
        c.set_global_alpha(TINT);
        c.set_fill_style_str(&brush.theme.over);
        c.fill_with_path_2d(&shape.outline);
        c.set_global_alpha(1.0);
        if let Some(hatch) = hatch {
            c.save();
            c.clip_with_path_2d(&shape.outline);
            hatch_box(brush, picture, s, hatch)?;
            c.restore();
        }
    }
    brush.through(map)?;
    c.set_stroke_style_str(&brush.theme.over);
    c.set_line_width(OVER_OUTLINE / picture.camera.scale);
    c.stroke_with_path(&shape.outline);
    Ok(())
}

/// Hatching moves with its letter: it starts at the letter's ink.
fn hatch_box(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    s: &Standing,
    hatch: &CanvasPattern,
) -> Drawn {
    let Some(ink) = s.ink else { return Ok(()) };
    let r = picture.camera.rect(ink);
    let shown = r.intersect(picture.frame.canvas);
    let (k, c) = (brush.ratio, brush.context);
    let origin = Point::new((r.x0 * k).round(), (r.y0 * k).round());
    c.set_transform(1.0, 0.0, 0.0, 1.0, origin.x, origin.y)?;
    c.set_fill_style_canvas_pattern(hatch);
    let of = Rect::new(shown.x0 * k, shown.y0 * k, shown.x1 * k, shown.y1 * k) - origin.to_vec2();
    c.fill_rect(of.x0, of.y0, of.width().max(0.0), of.height().max(0.0));
    Ok(())
}

/// A tile of lines that rise to the right.
fn hatching(brush: &Brush<'_>) -> Result<CanvasPattern, JsValue> {
    let tile = Surface::aside()?;
    let side = (HATCH * brush.ratio).round().max(2.0);
    tile.fit(Size::new(side, side), 1.0);
    let c = &tile.context;
    c.set_stroke_style_str(&brush.theme.over);
    c.set_line_width(1.4 * brush.ratio);
    c.begin_path();
    // Three lines, so that the tiles meet without a gap at their corners.
    for shift in [-1.0, 0.0, 1.0] {
        c.move_to(shift * side - 1.0, side + 1.0);
        c.line_to((shift + 1.0) * side + 1.0, -1.0);
    }
    c.stroke();
    brush
        .context
        .create_pattern_with_html_canvas_element(&tile.canvas, "repeat")?
        .ok_or_else(|| JsValue::from_str("no pattern"))
}

/// Where the font lacks a letter: a dashed box with the character in it.
fn gap(brush: &Brush<'_>, picture: &Picture<'_>, s: &Standing) -> Drawn {
    brush.css()?;
    let top = picture
        .sorts
        .height(GuideKind::CapHeight)
        .unwrap_or_else(|| picture.sorts.x_height());
    let (left, right) = s.breadth();
    let r = picture
        .camera
        .rect(Rect::new(left, 0.0, right, top))
        .inset(-2.0);
    if r.width() <= 0.0 || r.height() <= 0.0 {
        return Ok(());
    }
    let (c, colour) = (brush.context, &brush.theme.missing);
    c.set_stroke_style_str(colour);
    c.set_line_width(brush.hair());
    brush.dashed(4.0, 3.0)?;
    c.stroke_rect(brush.crisp(r.x0), brush.crisp(r.y0), r.width(), r.height());
    brush.solid()?;
    let name = picture.sorts.label(s.item.character, None);
    let told = format!("no {name}");
    let fits = |text: &str| brush.width(text) + 6.0 < r.width();
    if fits(&told) {
        brush.text(&told, r.center(), Hang::Middle, colour)?;
    } else if fits(&name) {
        brush.text(&name, r.center(), Hang::Middle, colour)?;
    }
    Ok(())
}
