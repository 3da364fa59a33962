//! The refit over the outline: its line, the drawn points that it keeps, those
//! that it does without, those that it sets anew, and both counts.

use super::brush::Brush;
use super::figures::LEAST_WRITTEN;
use super::ink::to_canvas;
use super::labels::Wish;
use super::points::{LEAST_EM, diamond, size};
use super::shapes::Shapes;
use super::thickness::{ROOMY, clear_of_ink};
use super::{Drawn, Picture};
use crate::stage::command::Within;
use counterpoise::order::by_number;
use counterpoise::report::{Drawing, Need};
use kurbo::Point;
use web_sys::CanvasRenderingContext2d;

/// Width of the refit's line, of crosses and of new points, CSS pixels.
const LINE: f64 = 1.75;
const MARK: f64 = 1.75;

/// Half a point's mark, CSS pixels.
pub(super) const HALF: f64 = 4.5;

/// Whether letters are large enough for a line on their edge not to hide them.
pub(super) fn is_shown(picture: &Picture<'_>) -> bool {
    picture.is_sharp() && picture.setting.layers.refit && picture.em() >= LEAST_WRITTEN
}

/// Paints the refit of every letter that may be seen, as far as it is made.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>, shapes: &Shapes) -> Drawn {
    if !is_shown(picture) {
        return Ok(());
    }
    let within = picture.setting.refit_within;
    let (c, scale) = (brush.context, picture.camera.scale);
    c.set_stroke_style_str(&brush.theme.refit);
    c.set_line_width(LINE / scale);
    for s in picture.letters() {
        let Some(path) = s.item.glyph.and_then(|g| shapes.refit(g, within)) else {
            continue;
        };
        brush.through(to_canvas(picture, s))?;
        c.stroke_with_path(path);
    }
    brush.css()?;
    if picture.em() < LEAST_EM {
        return Ok(());
    }
    let near = picture.frame.letters.inflate(HALF, HALF);
    for s in picture.letters() {
        let Some(redrawn) = s.item.glyph.and_then(|g| picture.sorts.redrawn(g, within)) else {
            continue;
        };
        let Some(sort) = &s.sort else { continue };
        let map = to_canvas(picture, s);
        let half = HALF * size(&sort.outline, scale);
        let shown = |points: &[Point]| -> Vec<Point> {
            let on_canvas = points.iter().map(|p| map * *p);
            on_canvas.filter(|p| near.contains(*p)).collect()
        };
        kept(brush, &shown(&redrawn.kept), half);
        added(brush, &shown(&redrawn.added), half);
        spare(brush, &shown(&redrawn.spare), half);
    }
    Ok(())
}

/// A filled diamond for each point that stays.
pub(super) fn kept(brush: &Brush<'_>, points: &[Point], half: f64) {
    let c = brush.context;
    c.set_fill_style_str(&brush.theme.refit);
    c.begin_path();
    points.iter().for_each(|p| diamond(c, *p, half));
    c.fill();
}

/// A hollow diamond for each point that is new.
pub(super) fn added(brush: &Brush<'_>, points: &[Point], half: f64) {
    let c = brush.context;
    c.begin_path();
    points.iter().for_each(|p| diamond(c, *p, half));
    c.set_fill_style_str(&brush.theme.halo);
    c.fill();
    c.set_stroke_style_str(&brush.theme.refit);
    c.set_line_width(MARK);
    c.stroke();
}

/// A cross for each point that goes.
pub(super) fn spare(brush: &Brush<'_>, points: &[Point], half: f64) {
    let c = brush.context;
    c.begin_path();
    points.iter().for_each(|p| cross(c, *p, half));
    // A ground under it, so that it reads over ink and over lines.
    for (colour, width) in [(&brush.theme.halo, MARK + 2.0), (&brush.theme.ink, MARK)] {
        c.set_stroke_style_str(colour);
        c.set_line_width(width);
        c.stroke();
    }
}

fn cross(c: &CanvasRenderingContext2d, p: Point, half: f64) {
    for side in [-1.0, 1.0] {
        c.move_to(p.x - half, p.y - side * half);
        c.line_to(p.x + half, p.y + side * half);
    }
}

/// The counts of every letter that may be seen, the chosen letters' first.
pub(super) fn wishes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Wish> {
    if picture.em() < LEAST_WRITTEN {
        return Vec::new();
    }
    let within = picture.setting.refit_within;
    let mut all = Vec::new();
    for s in picture.letters() {
        let (Some(glyph), Some(ink)) = (s.item.glyph, s.ink) else {
            continue;
        };
        let Some(report) = picture.sorts.measured(glyph) else {
            continue;
        };
        let Some(drawing) = &report.drawing else {
            continue;
        };
        let ink = picture.camera.rect(ink);
        let wish = |text: String| {
            let size = brush.tag_size(&text);
            let off = 0.5 * size.height + 5.0;
            // Past what other layers write there.
            let spots = (0..4)
                .map(|row| off + f64::from(row) * 0.5 * size.height)
                .flat_map(|away| [ink.y0 - away, ink.y1 + away])
                .map(|y| Point::new(ink.center().x, y))
                .collect();
            Wish {
                spots: clear_of_ink(picture, spots, size, 0).collect(),
                text,
                size,
                or: None,
            }
        };
        let (long, short) = counts(drawing, within);
        let short = wish(short);
        let wish = if picture.em() < ROOMY {
            short
        } else {
            Wish {
                or: Some(Box::new(short)),
                ..wish(long)
            }
        };
        all.push((!picture.is_chosen(&s.item), wish));
    }
    by_number(&mut all, |(others, _)| f64::from(u8::from(*others)));
    all.into_iter().map(|(_, wish)| wish).collect()
}

/// Points drawn and points needed, in words and in short.
fn counts(drawing: &Drawing, within: Within) -> (String, String) {
    let Need { points, complete } = match within {
        Within::Half => drawing.within_half,
        Within::Two => drawing.within_two,
    };
    let drawn = drawing.drawn;
    let most = if complete { "" } else { "at most " };
    (
        format!("drawn {drawn}, needed {most}{points}"),
        format!("{drawn} \u{2192} {points}"),
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_counts_say_whether_they_are_whole() {
        let need = |points, complete| Need { points, complete };
        let drawing = Drawing {
            drawn: 42,
            within_half: need(18, true),
            within_two: need(12, false),
            flaws: Vec::new(),
            flaws_left_out: 0,
            not_looked_for: Vec::new(),
        };
        let of = |within| counts(&drawing, within).0;
        assert_eq!(of(Within::Half), "drawn 42, needed 18");
        assert_eq!(of(Within::Two), "drawn 42, needed at most 12");
        assert_eq!(counts(&drawing, Within::Half).1, "42 \u{2192} 18");
    }
}
