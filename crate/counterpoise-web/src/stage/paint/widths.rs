//! Widths as brackets under each letter, in the letter's own column: the
//! counter, the way from outer stem to outer stem, the ink between its side
//! bearings, and the advance.
//!
//! Brackets of one measure stand in one row, so that the eye can run along it;
//! no two in a row cover each other. Ink of neighbours does overlap, in scripts
//! everywhere, so its brackets have a second row to give way to.

use super::brush::{Brush, Hang};
use super::ink::to_canvas;
use super::{Drawn, Picture};
use crate::stage::figure;
use crate::stage::standing::Standing;
use counterpoise::order::by_number;
use counterpoise::report::LetterReport;
use kurbo::Point;
use std::rc::Rc;

/// From this size of the em on, CSS pixels: below, brackets would be dots.
const LEAST_EM: f64 = 40.0;

/// Height of a bracket's ends, and its line's place in the row, CSS pixels.
const END: f64 = 4.0;
const TOP: f64 = 5.0;

/// White between two figures, CSS pixels.
const APART: f64 = 3.0;

/// Two brackets may share a pixel where one ends and the next begins.
const TOUCH: f64 = 1.0;

/// What is bracketed, from the letter down; on a low stage the last are left out.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Row {
    Counter,
    Body,
    Ink,
    /// Ink that would cover other ink's bracket.
    InkAgain,
    Advance,
}

const ROWS: [Row; 4] = [Row::Counter, Row::Body, Row::Ink, Row::Advance];
const CROWDED: [Row; 5] = [
    Row::Counter,
    Row::Body,
    Row::Ink,
    Row::InkAgain,
    Row::Advance,
];

impl Row {
    fn name(self, short: bool) -> &'static str {
        match (self, short) {
            (Self::Counter, _) => "counter",
            (Self::Body, false) => "outer stems",
            (Self::Body, true) => "stems",
            (Self::Ink, false) => "ink, bearings",
            (Self::Ink, true) => "ink",
            (Self::InkAgain, _) => "",
            (Self::Advance, _) => "advance",
        }
    }
}

fn rows(picture: &Picture<'_>) -> &'static [Row] {
    let frame = picture.frame;
    let all: &[Row] = if frame.crowded { &CROWDED } else { &ROWS };
    let fit = (frame.widths.height() / frame.bracket_row) as usize;
    &all[..fit.min(all.len())]
}

/// A bracket on the canvas.
#[derive(Debug, Clone, PartialEq)]
struct Bracket {
    row: Row,
    from: f64,
    to: f64,
    text: String,
    chosen: bool,
    /// The side bearings before and after it.
    beside: [Option<Bearing>; 2],
}

/// A side bearing, written only where it fits the white that it tells.
#[derive(Debug, Clone, PartialEq)]
struct Bearing {
    middle: f64,
    room: f64,
    text: String,
}

/// Paints the brackets, if they are shown.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let room = picture.frame.widths;
    if room.height() <= 0.0 {
        return Ok(());
    }
    brush.css()?;
    leads(brush, picture)?;
    brush.rect(room, &brush.theme.paper);
    brush.level(room.x0, room.x1, room.y0, &brush.theme.rule);
    if picture.em() < LEAST_EM {
        let told = "Bring the letters nearer to read their widths.";
        let at = Point::new(0.5 * (picture.frame.names + room.x1), room.center().y);
        return brush.text(told, at, Hang::Middle, &brush.theme.label);
    }
    let c = brush.context;
    c.save();
    c.begin_path();
    let names = picture.frame.names;
    c.rect(names, room.y0, room.x1 - names, room.height());
    c.clip();
    let mut rest: Vec<Bracket> = picture
        .letters()
        .flat_map(|s| brackets(picture, s))
        .collect();
    // By place first: what comes later keeps that order among its equals.
    by_number(&mut rest, |b| b.from);
    by_number(&mut rest, |b| {
        f64::from(8 * u8::from(!b.chosen) + b.row as u8)
    });
    for (at, &row) in rows(picture).iter().enumerate() {
        let (here, later) = rest.into_iter().partition(|b| b.row == row);
        rest = later;
        let Settled { placed, left } = settle(here, |text| brush.width(text));
        for (bracket, figures) in &placed {
            draw(brush, picture, at, bracket, figures)?;
        }
        if row == Row::Ink {
            let row = Row::InkAgain;
            rest.extend(left.into_iter().map(|b| Bracket { row, ..b }));
        }
    }
    c.restore();
    headings(brush, picture)
}

/// From the edges of a chosen letter down to its brackets.
fn leads(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let foot = picture.frame.widths.y0;
    brush.dashed(2.0, 3.0)?;
    for s in picture.letters().filter(|s| picture.is_chosen(&s.item)) {
        let Some(ink) = s.ink.map(|ink| picture.camera.rect(ink)) else {
            continue;
        };
        let sides = measured(picture, s).and_then(|report| report.sides);
        let map = to_canvas(picture, s);
        let stems = sides.map(|s| s.outer.map(|x| map * Point::new(x, 0.0)));
        let ends = [Point::new(ink.x0, ink.y1), Point::new(ink.x1, ink.y1)];
        for p in ends.into_iter().chain(stems.into_iter().flatten()) {
            if p.y < foot {
                let x = brush.crisp(p.x);
                let (from, to) = (Point::new(x, p.y + 2.0), Point::new(x, foot));
                brush.line(from, to, brush.hair(), &brush.theme.width);
            }
        }
    }
    brush.solid()
}

/// A letter's measures, once they are taken.
fn measured(picture: &Picture<'_>, s: &Standing) -> Option<Rc<LetterReport>> {
    picture.sorts.measured(s.item.glyph?)
}

fn brackets(picture: &Picture<'_>, s: &Standing) -> Vec<Bracket> {
    let Some(report) = measured(picture, s) else {
        return Vec::new();
    };
    let map = to_canvas(picture, s);
    let bracket = |row, [a, b]: [f64; 2]| {
        let [p, q] = [a, b].map(|x| (map * Point::new(x, 0.0)).x);
        Bracket {
            row,
            from: p.min(q),
            to: p.max(q),
            text: figure::length(b - a),
            chosen: picture.is_chosen(&s.item),
            beside: [None, None],
        }
    };
    let mut all = Vec::new();
    if let Some(sides) = report.sides {
        all.extend(sides.inner.map(|inner| bracket(Row::Counter, inner)));
        all.push(bracket(Row::Body, sides.outer));
    }
    if let Some(bounds) = report.bounds {
        let mut ink = bracket(Row::Ink, [bounds.x_min, bounds.x_max]);
        let bearing = |white: Option<f64>, [a, b]: [f64; 2]| {
            let [p, q] = [a, b].map(|x| (map * Point::new(x, 0.0)).x);
            Some(Bearing {
                middle: 0.5 * (p + q),
                room: (p - q).abs(),
                text: figure::length(white?),
            })
        };
        ink.beside = [
            bearing(report.left_bearing, [0.0, bounds.x_min]),
            bearing(report.right_bearing, [bounds.x_max, report.advance]),
        ];
        all.push(ink);
    }
    if report.advance > 0.0 {
        all.push(bracket(Row::Advance, [0.0, report.advance]));
    }
    all
}

/// A row's brackets with the figures that found room, and those left for
/// another row.
struct Settled {
    placed: Vec<(Bracket, Vec<(f64, String)>)>,
    left: Vec<Bracket>,
}

/// Stands brackets in a row, the first with the first choice.
fn settle(brackets: Vec<Bracket>, width: impl Fn(&str) -> f64) -> Settled {
    let mut lines: Vec<(f64, f64)> = Vec::new();
    let mut figures: Vec<(f64, f64)> = Vec::new();
    let mut take = |x: f64, text: &str| {
        let half = 0.5 * (width(text) + APART);
        let own = (x - half, x + half);
        let free = figures.iter().all(|f| own.1 <= f.0 || own.0 >= f.1);
        if free {
            figures.push(own);
        }
        free
    };
    let (mut placed, mut left) = (Vec::new(), Vec::new());
    for bracket in brackets {
        let covered = |l: &(f64, f64)| bracket.to > l.0 + TOUCH && bracket.from < l.1 - TOUCH;
        if lines.iter().any(covered) {
            left.push(bracket);
            continue;
        }
        lines.push((bracket.from, bracket.to));
        let middle = 0.5 * (bracket.from + bracket.to);
        let mut written = Vec::new();
        if take(middle, &bracket.text) {
            written.push((middle, bracket.text.clone()));
        }
        placed.push((bracket, written));
    }
    // Bearings come last: no bearing keeps a width from being written.
    for (bracket, written) in &mut placed {
        for bearing in bracket.beside.iter().flatten() {
            let fits = width(&bearing.text) <= bearing.room;
            if fits && take(bearing.middle, &bearing.text) {
                written.push((bearing.middle, bearing.text.clone()));
            }
        }
    }
    Settled { placed, left }
}

fn draw(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    at: usize,
    bracket: &Bracket,
    figures: &[(f64, String)],
) -> Drawn {
    let frame = picture.frame;
    let top = frame.widths.y0 + at as f64 * frame.bracket_row + 1.0;
    let y = brush.crisp(top + TOP);
    let c = brush.context;
    let colour = if bracket.chosen {
        &brush.theme.chosen
    } else {
        &brush.theme.width
    };
    c.set_stroke_style_str(colour);
    c.set_line_width(if bracket.chosen { 2.0 } else { brush.hair() });
    c.begin_path();
    // Open to the letter above; drawn within its own ends, so that neighbours
    // that touch stay two.
    let inset = 0.5 * TOUCH;
    let (from, to) = (
        brush.crisp(bracket.from + inset),
        brush.crisp(bracket.to - inset),
    );
    c.move_to(from, y - END);
    c.line_to(from, y);
    c.line_to(to, y);
    c.line_to(to, y - END);
    c.stroke();
    for (x, text) in figures {
        let at = Point::new(*x, y + 0.68 * brush.label());
        brush.text(text, at, Hang::Middle, colour)?;
    }
    Ok(())
}

/// The rows' names at the left, where there is room for them.
fn headings(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let frame = picture.frame;
    if frame.names <= 0.0 {
        return Ok(());
    }
    for (i, row) in rows(picture).iter().enumerate() {
        let y = frame.widths.y0 + (i as f64 + 0.5) * frame.bracket_row + 1.0;
        let at = Point::new(frame.names - 8.0, y);
        brush.text(row.name(frame.short), at, Hang::Left, &brush.theme.label)?;
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bracket(from: f64, to: f64) -> Bracket {
        Bracket {
            row: Row::Ink,
            from,
            to,
            text: "123".to_owned(),
            chosen: false,
            beside: [None, None],
        }
    }

    #[test]
    fn brackets_that_touch_share_a_row_and_those_that_overlap_do_not() {
        let all = vec![
            bracket(0.0, 50.0),
            bracket(50.0, 90.0),
            bracket(80.0, 120.0),
        ];
        let Settled { placed, left } = settle(all, |_| 20.0);
        assert_eq!((placed.len(), left.len()), (2, 1));
        assert!(placed[1].0.from >= placed[0].0.to - TOUCH);
        assert_eq!(left[0].from, 80.0);
    }

    #[test]
    fn no_two_figures_of_a_row_overlap() {
        let all = (0..20).map(|i| bracket(f64::from(i) * 8.0, f64::from(i) * 8.0 + 7.0));
        let Settled { placed, .. } = settle(all.collect(), |_| 20.0);
        assert_eq!(placed.len(), 20);
        let mut at: Vec<f64> = placed
            .iter()
            .flat_map(|p| p.1.iter().map(|f| f.0))
            .collect();
        at.sort_unstable_by(f64::total_cmp);
        assert!(at.len() >= 5);
        assert!(
            at.windows(2).all(|w| w[1] - w[0] >= 20.0 + APART - 1e-9),
            "{at:?}"
        );
    }

    #[test]
    fn a_bearing_gives_way_to_widths() {
        let mut first = bracket(0.0, 60.0);
        first.beside[1] = Some(Bearing {
            middle: 75.0,
            room: 30.0,
            text: "9".to_owned(),
        });
        let second = bracket(61.0, 90.0);
        let Settled { placed, .. } = settle(vec![first, second], |_| 20.0);
        assert_eq!(placed[0].1.len(), 1);
        assert_eq!(placed[1].1.len(), 1);
    }
}
