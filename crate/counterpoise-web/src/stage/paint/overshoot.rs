//! Overshoot: at each top and foot that passes its guide or falls short of it,
//! a tick from the guide to the extremity, a mark of its form, and the amount.
//!
//! The mark of a flat end is a bar, of a round one an arc, of a pointed one an
//! angle; where there is room the word stands beside the amount.

use super::brush::Brush;
use super::figures::LEAST_WRITTEN;
use super::ink::to_canvas;
use super::labels::Wish;
use super::thickness::{ROOMY, clear_of_ink};
use super::{Drawn, Picture};
use crate::stage::figure;
use counterpoise::order::by_number;
use counterpoise::report::{Extremity, Form};
use kurbo::{Point, Rect, Vec2};
use std::f64::consts::{PI, TAU};

/// Less than this is on the guide, font units: rounding moves a point so far.
const ON_GUIDE: f64 = 0.5;

/// Half the bars at the tick's ends, and the least way between them, CSS pixels:
/// nearer together they would be a blot on the letter's edge, and the mark and
/// the amount say it all.
const BAR: f64 = 4.0;
const LEAST_TICK: f64 = 4.0;

/// The form's mark: half its breadth, its height, and the white between it and
/// the ink, CSS pixels.
const HALF: f64 = 5.0;
const HIGH: f64 = 5.0;
const AWAY: f64 = 3.0;

/// Width of the lines, CSS pixels.
const LINE: f64 = 1.5;

/// One end of a letter that is off its guide, on the canvas.
struct End {
    /// Where the guide is.
    guide: Point,
    /// Where the ink ends.
    ink: Point,
    /// Away from the letter, of length 1.
    out: Vec2,
    form: Form,
    overshoot: f64,
    chosen: bool,
}

impl End {
    /// The box of the form's mark.
    fn mark(&self) -> Rect {
        let near = self.beyond();
        Rect::from_points(
            near + Vec2::new(-HALF, 0.0),
            near + Vec2::new(HALF, self.out.y * HIGH),
        )
    }

    /// Where the mark begins: past the ink and past the guide.
    fn beyond(&self) -> Point {
        let past = (self.guide.y - self.ink.y) * self.out.y;
        self.ink + self.out * (past.max(0.0) + AWAY)
    }
}

fn ends(picture: &Picture<'_>) -> Vec<End> {
    let mut ends = Vec::new();
    for s in picture.letters() {
        let Some(glyph) = s.item.glyph else { continue };
        let Some(report) = picture.sorts.measured(glyph) else {
            continue;
        };
        let map = to_canvas(picture, s);
        let chosen = picture.is_chosen(&s.item);
        for (end, up) in [(report.top, 1.0), (report.foot, -1.0)] {
            let Some(Extremity {
                form,
                x,
                y,
                overshoot: Some(overshoot),
                ..
            }) = end
            else {
                continue;
            };
            if overshoot.abs() < ON_GUIDE {
                continue;
            }
            let ink = map * Point::new(x, y);
            ends.push(End {
                guide: map * Point::new(x, y - up * overshoot),
                // A turned letter has its top below.
                out: Vec2::new(0.0, (map * Point::new(x, y + up) - ink).y.signum()),
                ink,
                form,
                overshoot,
                chosen,
            });
        }
    }
    ends
}

/// The boxes of the marks of form, which no figure may cover.
pub(super) fn marks(picture: &Picture<'_>) -> Vec<Rect> {
    ends(picture).iter().map(End::mark).collect()
}

/// Paints ticks and marks of every letter that may be seen.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    if picture.em() < LEAST_WRITTEN {
        return Ok(());
    }
    let all = ends(picture);
    brush.css()?;
    let c = brush.context;
    // Twice, the ground first, so that the ticks stand out from the ink.
    for (colour, width) in [
        (&brush.theme.halo, LINE + 2.0),
        (&brush.theme.overshoot, LINE),
    ] {
        c.set_stroke_style_str(colour);
        c.set_line_width(width);
        c.begin_path();
        for end in &all {
            tick(brush, end);
            mark(brush, end)?;
        }
        c.stroke();
    }
    Ok(())
}

fn tick(brush: &Brush<'_>, end: &End) {
    let c = brush.context;
    if (end.guide.y - end.ink.y).abs() < LEAST_TICK {
        return;
    }
    for p in [end.guide, end.ink] {
        let y = brush.crisp(p.y);
        c.move_to(p.x - BAR, y);
        c.line_to(p.x + BAR, y);
    }
    c.move_to(end.guide.x, end.guide.y);
    c.line_to(end.ink.x, end.ink.y);
}

fn mark(brush: &Brush<'_>, end: &End) -> Drawn {
    let (c, p, out) = (brush.context, end.beyond(), end.out.y);
    match end.form {
        Form::Flat => {
            let y = brush.crisp(p.y + 0.5 * out * HIGH);
            c.move_to(p.x - HALF, y);
            c.line_to(p.x + HALF, y);
        }
        Form::Pointed => {
            c.move_to(p.x - HALF, p.y);
            c.line_to(p.x, p.y + out * HIGH);
            c.line_to(p.x + HALF, p.y);
        }
        Form::Round => {
            let (from, to) = if out < 0.0 { (PI, TAU) } else { (0.0, PI) };
            c.move_to(p.x + HALF * from.cos(), p.y);
            c.ellipse(p.x, p.y, HALF, HIGH, 0.0, from, to)?;
        }
    }
    Ok(())
}

/// The amounts of every letter that may be seen, the chosen letters' first.
pub(super) fn wishes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Wish> {
    let mut ends = ends(picture);
    by_number(&mut ends, |end| f64::from(u8::from(!end.chosen)));
    ends.iter()
        .map(|end| {
            let amount = amount(end.overshoot);
            let short = wish(brush, picture, end, amount.clone());
            if picture.em() < ROOMY {
                return short;
            }
            let word = match end.form {
                Form::Flat => "flat",
                Form::Round => "round",
                Form::Pointed => "pointed",
            };
            let mut long = wish(brush, picture, end, format!("{amount} {word}"));
            long.or = Some(Box::new(short));
            long
        })
        .collect()
}

/// Past the guide with a plus, short of it with a minus.
fn amount(overshoot: f64) -> String {
    let plus = if overshoot > 0.0 { "+" } else { "" };
    format!("{plus}{}", figure::length(overshoot))
}

fn wish(brush: &Brush<'_>, picture: &Picture<'_>, end: &End, text: String) -> Wish {
    let size = brush.tag_size(&text);
    let far = end.beyond().y + end.out.y * (HIGH + 0.5 * size.height + 1.0);
    let x = end.ink.x;
    let beside = 0.5 * size.width + HALF + 3.0;
    let level = end.beyond().y + 0.5 * end.out.y * HIGH;
    let row = end.out.y * size.height;
    let spots = vec![
        Point::new(x, far),
        Point::new(x + beside, level),
        Point::new(x - beside, level),
        Point::new(x, far + row),
        Point::new(x + beside, far),
        Point::new(x - beside, far),
    ];
    Wish {
        spots: clear_of_ink(picture, spots, size, 1).collect(),
        text,
        size,
        or: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_have_their_sign() {
        assert_eq!(amount(12.0), "+12");
        assert_eq!(amount(-3.5), "\u{2212}3.5");
    }

    #[test]
    fn the_mark_lies_beyond_ink_and_guide() {
        let end = |ink: f64, guide: f64, out: f64| End {
            guide: Point::new(0.0, guide),
            ink: Point::new(0.0, ink),
            out: Vec2::new(0.0, out),
            form: Form::Round,
            overshoot: 1.0,
            chosen: false,
        };
        // Past the guide, then short of it; canvas heights count downwards.
        assert!(end(100.0, 104.0, -1.0).mark().y1 <= 100.0 - AWAY);
        assert!(end(104.0, 100.0, -1.0).mark().y1 <= 100.0 - AWAY);
        assert!(end(100.0, 96.0, 1.0).mark().y0 >= 100.0 + AWAY);
    }
}
