//! The line's texture in the ink's place, and the letter that stands out of it.

use super::brush::{Brush, Surface};
use super::labels::Wish;
use super::{Drawn, Picture};
use crate::stage::texture::{Outlier, Texture, amount};
use crate::theme::Theme;
use counterpoise::measure::darkness::Blurred;
use kurbo::{Point, Rect, Size};
use std::rc::Rc;
use wasm_bindgen::{Clamped, JsValue};
use web_sys::ImageData;

/// Between a letter's body and its frame, CSS pixels.
const AWAY: f64 = 4.0;

/// Width of the frame, CSS pixels.
const FRAME: f64 = 2.0;

/// The blurred line as a picture in the ink's colour.
#[derive(Debug)]
pub(super) struct Tone {
    of: Rc<Texture>,
    surface: Surface,
}

/// Paints the line's texture.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>, tone: &mut Option<Tone>) -> Drawn {
    let Some(texture) = &picture.texture else {
        return Ok(());
    };
    let Some(sight) = &texture.sight else {
        return Ok(());
    };
    let known = tone.take().filter(|t| Rc::ptr_eq(&t.of, texture));
    let made = match known {
        Some(tone) => tone,
        None => Tone {
            of: Rc::clone(texture),
            surface: inked(&sight.blurred, &brush.theme.ink)?,
        },
    };
    brush.css()?;
    let Blurred {
        width,
        height,
        pixel,
        origin,
        ..
    } = sight.blurred;
    let size = Size::new(width as f64, height as f64) * (pixel * picture.camera.scale);
    let at = picture.camera.to_canvas(origin);
    brush
        .context
        .draw_image_with_html_canvas_element_and_dw_and_dh(
            &made.surface.canvas,
            at.x,
            at.y,
            size.width,
            size.height,
        )?;
    *tone = Some(made);
    if let Some(outlier) = texture.standout {
        frame(brush, picture, outlier)?;
    }
    Ok(())
}

/// Coverage as a colour's opacity.
fn inked(blurred: &Blurred, ink: &str) -> Result<Surface, JsValue> {
    let surface = Surface::aside()?;
    let size = Size::new(blurred.width as f64, blurred.height as f64);
    surface.fit(size, 1.0);
    let mut pixels = vec![0_u8; 4 * blurred.ink.len()];
    for (pixel, share) in pixels.chunks_exact_mut(4).zip(&blurred.ink) {
        pixel[3] = (255.0 * share.clamp(0.0, 1.0)).round() as u8;
    }
    let image = ImageData::new_with_u8_clamped_array_and_sh(
        Clamped(&pixels),
        blurred.width as u32,
        blurred.height as u32,
    )?;
    let c = &surface.context;
    c.put_image_data(&image, 0.0, 0.0)?;
    c.set_global_composite_operation("source-in")?;
    c.set_fill_style_str(ink);
    c.fill_rect(0.0, 0.0, size.width, size.height);
    Ok(surface)
}

/// A frame about the body of the letter that stands out.
fn frame(brush: &Brush<'_>, picture: &Picture<'_>, outlier: Outlier) -> Drawn {
    let r = framed(picture, outlier);
    let c = brush.context;
    for (colour, width) in [
        (&brush.theme.halo, FRAME + 2.0),
        (way(brush.theme, outlier.share), FRAME),
    ] {
        c.set_stroke_style_str(colour);
        c.set_line_width(width);
        c.stroke_rect(brush.crisp(r.x0), brush.crisp(r.y0), r.width(), r.height());
    }
    Ok(())
}

fn framed(picture: &Picture<'_>, outlier: Outlier) -> Rect {
    picture.camera.rect(outlier.body).inflate(AWAY, AWAY)
}

fn way(theme: &Theme, share: f64) -> &String {
    if share < 0.0 {
        &theme.below
    } else {
        &theme.above
    }
}

/// The colour of what is said of the letter that stands out.
pub(super) fn colour<'a>(picture: &Picture<'_>, theme: &'a Theme) -> &'a str {
    let outlier = picture.texture.as_ref().and_then(|t| t.standout);
    way(theme, outlier.map_or(0.0, |o| o.share))
}

/// By how much the letter stands out, over or under its frame.
pub(super) fn wish(brush: &Brush<'_>, picture: &Picture<'_>) -> Option<Wish> {
    let outlier = picture.texture.as_ref()?.standout?;
    let item = picture.standings.get(outlier.index)?.item;
    let name = picture.sorts.label(item.character, item.glyph);
    let text = format!("{name} looks {}", amount(outlier.share));
    let size = brush.tag_size(&text);
    let (r, off) = (framed(picture, outlier), 0.5 * size.height + 4.0);
    let room = picture.frame.letters;
    // At the line's ends the words give way inwards.
    let half = 0.5 * size.width + 2.0;
    let x = r
        .center()
        .x
        .clamp(room.x0 + half, (room.x1 - half).max(room.x0 + half));
    let heights = [
        r.y0 - off,
        r.y1 + off,
        r.y0 - off - size.height,
        r.y1 + off + size.height,
    ];
    Some(Wish {
        spots: heights.map(|y| Point::new(x, y)).to_vec(),
        text,
        size,
        or: None,
    })
}
