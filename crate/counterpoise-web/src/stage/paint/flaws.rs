//! Flaws of drawing: a ring at each place, a square where the font's format
//! itself asks for another drawing, and in words what is to be seen there.

use super::brush::Brush;
use super::ink::to_canvas;
use super::labels::Wish;
use super::points::LEAST_EM;
use super::thickness::clear_of_ink;
use super::{Drawn, Picture};
use counterpoise::order::by_number;
use counterpoise::report::{Flaw, FlawBasis};
use kurbo::{Point, Size, Vec2};
use std::f64::consts::TAU;

/// Radius of a ring, CSS pixels; flaws nearer to each other than this share one.
const RING: f64 = 5.0;

/// Width of its line, CSS pixels.
const LINE: f64 = 1.75;

/// The most rings of a frame. A line with more is no drawing that anyone mends
/// ring by ring; the letters' panel counts them.
const MOST_RINGS: usize = 1500;

/// The most words sought places for.
const MOST_WORDS: usize = 300;

/// Kinds named at one place; more are counted.
const MOST_NAMED: usize = 2;

/// Flaws at one place of the canvas.
struct Spot {
    at: Point,
    format: bool,
    names: Vec<&'static str>,
    chosen: bool,
}

fn spots(picture: &Picture<'_>) -> Vec<Spot> {
    let near = picture.frame.letters.inflate(RING, RING);
    let mut all: Vec<Spot> = Vec::new();
    for s in picture.letters() {
        let Some(glyph) = s.item.glyph else { continue };
        let Some(report) = picture.sorts.measured(glyph) else {
            continue;
        };
        let Some(drawing) = &report.drawing else {
            continue;
        };
        let map = to_canvas(picture, s);
        let chosen = picture.is_chosen(&s.item);
        let own = all.len();
        for flaw in &drawing.flaws {
            let at = map * Point::new(flaw.at[0], flaw.at[1]);
            if near.contains(at) {
                gather(&mut all, own, at, flaw, chosen);
            }
            if all.len() >= MOST_RINGS {
                return all;
            }
        }
    }
    by_number(&mut all, |spot| {
        f64::from(2 * u8::from(!spot.chosen) + u8::from(!spot.format))
    });
    all
}

/// Adds a flaw to the letter's spot at its place, or makes one.
fn gather(all: &mut Vec<Spot>, own: usize, at: Point, flaw: &Flaw, chosen: bool) {
    let format = flaw.basis == FlawBasis::Format;
    match all[own..].iter_mut().find(|s| s.at.distance(at) < RING) {
        Some(spot) => {
            spot.format |= format;
            if !spot.names.contains(&flaw.name) {
                spot.names.push(flaw.name);
            }
        }
        None => all.push(Spot {
            at,
            format,
            names: vec![flaw.name],
            chosen,
        }),
    }
}

/// Paints the rings of every letter that may be seen.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    if picture.em() < LEAST_EM {
        return Ok(());
    }
    let spots = spots(picture);
    brush.css()?;
    let c = brush.context;
    for (colour, width) in [(&brush.theme.halo, LINE + 2.0), (&brush.theme.flaw, LINE)] {
        c.set_stroke_style_str(colour);
        c.set_line_width(width);
        c.begin_path();
        for Spot { at, format, .. } in &spots {
            if *format {
                c.rect(at.x - RING, at.y - RING, 2.0 * RING, 2.0 * RING);
            } else {
                c.move_to(at.x + RING, at.y);
                c.arc(at.x, at.y, RING, 0.0, TAU)?;
            }
        }
        c.stroke();
    }
    Ok(())
}

/// The words of every place, the chosen letters' first.
pub(super) fn wishes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Wish> {
    if picture.em() < LEAST_EM {
        return Vec::new();
    }
    let spots = spots(picture);
    spots
        .iter()
        .take(MOST_WORDS)
        .map(|spot| {
            let text = words(&spot.names);
            let size = brush.tag_size(&text);
            let beside = around(spot.at, size);
            Wish {
                // Ink that is flawed is shown faint: words may lie on it.
                spots: clear_of_ink(picture, beside, size, 6).collect(),
                text,
                size,
                or: None,
            }
        })
        .collect()
}

fn words(names: &[&str]) -> String {
    let told = names[..names.len().min(MOST_NAMED)].join(", ");
    match names.len().saturating_sub(MOST_NAMED) {
        0 => told,
        more => format!("{told} and {more} more"),
    }
}

/// Right, left, over and under a ring, and at its corners.
fn around(at: Point, size: Size) -> Vec<Point> {
    let (x, y) = (
        RING + 3.0 + 0.5 * size.width,
        RING + 2.0 + 0.5 * size.height,
    );
    [
        (1.0, 0.0),
        (-1.0, 0.0),
        (0.0, -1.0),
        (0.0, 1.0),
        (1.0, -1.0),
        (-1.0, -1.0),
        (1.0, 1.0),
        (-1.0, 1.0),
    ]
    .map(|(a, b)| at + Vec2::new(a * x, b * y))
    .to_vec()
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::report::FlawKind;

    fn flaw(name: &'static str, basis: FlawBasis) -> Flaw {
        Flaw {
            kind: FlawKind::Stub,
            name,
            at: [0.0, 0.0],
            size: 1.0,
            contour: 0,
            basis,
            sentence: String::new(),
        }
    }

    #[test]
    fn flaws_at_one_place_share_a_ring_and_its_words() {
        let mut all = Vec::new();
        let mut add = |name, basis, x: f64| {
            gather(&mut all, 0, Point::new(x, 0.0), &flaw(name, basis), false);
        };
        add("kink", FlawBasis::Practice, 0.0);
        add("kink", FlawBasis::Practice, 1.0);
        add("stub", FlawBasis::Format, 2.0);
        add("stub", FlawBasis::Practice, 40.0);
        assert_eq!(all.len(), 2);
        assert_eq!(words(&all[0].names), "kink, stub");
        assert!(all[0].format && !all[1].format);
        assert_eq!(words(&["a", "b", "c", "d"]), "a, b and 2 more");
    }

    #[test]
    fn words_keep_off_their_ring() {
        for p in around(Point::ZERO, Size::new(60.0, 15.0)) {
            let r = kurbo::Rect::from_center_size(p, (60.0, 15.0));
            let ring = kurbo::Rect::from_center_size((0.0, 0.0), (2.0 * RING, 2.0 * RING));
            assert!(!r.overlaps(ring), "{p:?}");
        }
    }
}
