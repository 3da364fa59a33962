//! The deviations under each letter: for weight, width and height, a bar up
//! from a zero line if the letter has more than the other letters make one
//! expect, down if less.
//!
//! A bar is filled where the deviation is more than letters of the font commonly
//! show, and hollow where it is not, so that the eye stops at what stands out.
//! Of a letter with a finding, the row that the finding speaks of shows the
//! finding's own difference, and beside the letter's name stands the finding's
//! number in the list.

use super::brush::{Brush, Hang};
use super::columns::{Column, columns};
use super::{Drawn, Picture};
use crate::stage::figure;
use crate::stage::standing::Standing;
use counterpoise::report::{Cause, Deviation, FindingReport, Measure};
use kurbo::{Point, Rect};
use std::f64::consts::TAU;

/// A row: its measure, its name, and the deviation that fills half its height.
/// Heights lie far closer together than widths do.
const ROWS: [(Measure, &str, f64); 3] = [
    (Measure::Weight, "weight", 0.15),
    (Measure::Width, "width", 0.3),
    (Measure::Height, "height", 0.05),
];

/// Beyond this many spreads a letter stands out: in a normal scatter one in
/// twenty lies farther.
const STANDS_OUT: f64 = 2.0;

/// Less than this share is never worth a filled bar: no eye sees it.
const LEAST_SEEN: f64 = 0.005;

/// Widths of a bar, CSS pixels, and its share of the column.
const BAR: (f64, f64) = (3.0, 16.0);
const BAR_SHARE: f64 = 0.4;

/// Height of the point of a bar that would be longer than its row, CSS pixels.
const TIP: f64 = 6.0;

/// Between a letter's foot and the line that leads to its column, CSS pixels.
const LEAD_GAP: f64 = 4.0;

/// Room that a row keeps above and below its bars, CSS pixels.
const ROW_PAD: f64 = 2.0;

/// Radius of the disc that holds a finding's number, in label heights, and the
/// white beside it, CSS pixels.
const DISC: f64 = 0.66;
const APART: f64 = 4.0;

/// Radius of the dot that stands for a number where there is no room for it.
const DOT: f64 = 2.5;

/// Paints the strip, if it is shown.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let frame = picture.frame;
    if frame.strip.height() <= 0.0 {
        return Ok(());
    }
    brush.css()?;
    brush.rect(frame.strip, &brush.theme.paper);
    brush.level(
        frame.strip.x0,
        frame.strip.x1,
        frame.strip.y0,
        &brush.theme.rule,
    );
    let columns = visible_columns(picture);
    for column in columns.iter().filter(|c| c.shared) {
        lead(brush, picture, column);
    }
    let c = brush.context;
    c.save();
    c.begin_path();
    c.rect(
        frame.names,
        frame.strip.y0,
        frame.strip.x1 - frame.names,
        frame.strip.height(),
    );
    c.clip();
    for row in 0..ROWS.len() {
        let y = zero_line(picture, row);
        brush.level(frame.names, frame.strip.x1, y, &brush.theme.rule);
    }
    for column in &columns {
        let s = &picture.standings[column.letter];
        caption(brush, picture, column, s)?;
        bars(brush, picture, column, s)?;
    }
    c.restore();
    headings(brush, picture)
}

fn zero_line(picture: &Picture<'_>, row: usize) -> f64 {
    let frame = picture.frame;
    frame.strip.y0 + frame.captions + (row as f64 + 0.5) * frame.row
}

fn visible_columns(picture: &Picture<'_>) -> Vec<Column> {
    let camera = picture.camera;
    let extents: Vec<(usize, f64, f64)> = picture
        .standings
        .iter()
        .enumerate()
        .filter(|(_, s)| s.ink.is_some())
        .map(|(i, s)| {
            let (left, right) = s.column();
            let on_canvas = |x| camera.to_canvas(Point::new(x, 0.0)).x;
            (i, on_canvas(left), on_canvas(right))
        })
        .collect();
    let mut columns = columns(&extents);
    let (left, right) = (picture.frame.names, picture.frame.strip.x1);
    columns.retain(|c| c.right > left && c.left < right);
    columns
}

/// The letter's name over its column.
fn caption(brush: &Brush<'_>, picture: &Picture<'_>, column: &Column, s: &Standing) -> Drawn {
    let frame = picture.frame;
    let found = numbers(picture, s);
    let mut room = column.width().max(0.9 * brush.label());
    let mut taken = 0.0;
    let mut shown: Vec<(f64, usize)> = Vec::new();
    for number in &found {
        let half = disc_half(brush, *number);
        let own = 2.0 * half + if shown.is_empty() { 0.0 } else { APART };
        if own > room {
            break;
        }
        room -= own;
        taken += own;
        shown.push((half, *number));
    }
    if shown.is_empty() && !found.is_empty() {
        dot(
            brush,
            Point::new(column.middle(), frame.strip.y0 + frame.captions),
        )?;
    }
    let letter = picture.sorts.label(s.item.character, s.item.glyph);
    let flip = match (s.item.mirrored, s.item.turned) {
        (false, false) => "",
        (true, false) => " mirrored",
        (false, true) => " turned",
        (true, true) => " turned, mirrored",
    };
    let whole = format!("{letter}{flip}");
    let apart = if shown.is_empty() { 0.0 } else { APART };
    let mut fitting = [whole, letter]
        .into_iter()
        .filter(|t| brush.width(t) + apart <= room);
    // The letter stands above; its number stands nowhere else.
    let name = fitting.next().unwrap_or_default();
    let mut wide = brush.width(&name);
    if wide > 0.0 {
        wide += apart;
    }
    let chosen = picture.is_chosen(&s.item);
    let colour = if chosen {
        &brush.theme.chosen
    } else {
        &brush.theme.label
    };
    let y = frame.strip.y0 + 0.55 * frame.captions;
    let left = column.middle() - 0.5 * (wide + taken);
    if !name.is_empty() {
        brush.text(&name, Point::new(left, y), Hang::Right, colour)?;
    }
    let mut x = left + wide;
    for (half, number) in shown {
        disc(brush, Point::new(x + half, y), half, number)?;
        x += 2.0 * half + APART;
    }
    if chosen {
        let y = frame.strip.y0 + frame.captions - 1.0;
        let (left, right) = (Point::new(column.left, y), Point::new(column.right, y));
        brush.line(left, right, 2.0, colour);
    }
    Ok(())
}

/// The numbers of a letter's findings.
fn numbers(picture: &Picture<'_>, s: &Standing) -> Vec<usize> {
    let own = |(number, found): &(usize, &FindingReport)| {
        (s.item.glyph == Some(found.glyph)).then_some(*number)
    };
    picture.marked.iter().filter_map(own).collect()
}

/// The dot that stands for a number.
fn dot(brush: &Brush<'_>, at: Point) -> Drawn {
    let c = brush.context;
    c.begin_path();
    c.arc(at.x, at.y, DOT, 0.0, TAU)?;
    c.set_fill_style_str(&brush.theme.label);
    c.fill();
    Ok(())
}

/// Half the breadth of a number's disc: numbers of two figures need a broader one.
fn disc_half(brush: &Brush<'_>, number: usize) -> f64 {
    let text = 0.5 * brush.width(&number.to_string());
    (DISC * brush.label()).max(text + APART)
}

/// A finding's number on a disc of ink, as it stands in the list.
fn disc(brush: &Brush<'_>, at: Point, half: f64, number: usize) -> Drawn {
    let c = brush.context;
    c.begin_path();
    c.ellipse(at.x, at.y, half, DISC * brush.label(), 0.0, 0.0, TAU)?;
    c.set_fill_style_str(&brush.theme.label);
    c.fill();
    brush.text(&number.to_string(), at, Hang::Middle, &brush.theme.paper)
}

/// A line from a letter's foot towards its column, where that is not under it.
fn lead(brush: &Brush<'_>, picture: &Picture<'_>, column: &Column) {
    let Some(ink) = picture.standings[column.letter].ink else {
        return;
    };
    let (foot, room) = (picture.camera.rect(ink), picture.frame.letters);
    let from = Point::new(foot.center().x, foot.y1.max(room.y0) + LEAD_GAP);
    let to = Point::new(column.middle(), room.y1);
    if from.y < to.y {
        let over = picture.over[column.letter];
        let colour = if over {
            &brush.theme.over
        } else {
            &brush.theme.rule
        };
        brush.line(from, to, brush.hair(), colour);
    }
}

fn bars(brush: &Brush<'_>, picture: &Picture<'_>, column: &Column, s: &Standing) -> Drawn {
    let Some(glyph) = s.item.glyph else {
        return Ok(());
    };
    let deviations = picture.stage.deviations(glyph);
    for (row, (measure, _, full)) in ROWS.iter().enumerate() {
        let own = |(_, f): &&(usize, &FindingReport)| {
            f.glyph == glyph && row_of(f.cause).is_some_and(|(m, _)| m == *measure)
        };
        let found = picture.marked.iter().find(own).map(|(_, f)| *f);
        let ink = s.sort.as_ref().and_then(|sort| sort.ink());
        let height = ink.map_or(0.0, |ink| ink.height());
        let told = found.and_then(|f| Told::of_finding(f, height));
        let plain = || {
            let d = deviations.iter().find(|d| d.measure == *measure)?;
            Told::of_deviation(d)
        };
        if let Some(told) = told.or_else(plain) {
            bar(
                brush,
                picture,
                column,
                zero_line(picture, row),
                &told,
                *full,
            )?;
        }
    }
    Ok(())
}

/// How far off, as a share of what is expected.
fn share(d: &Deviation) -> Option<f64> {
    let share = (d.value - d.expected) / d.expected;
    share.is_finite().then_some(share)
}

fn stands_out(d: &Deviation, share: f64) -> bool {
    share.abs() >= LEAST_SEEN && (d.value - d.expected).abs() > STANDS_OUT * d.spread
}

/// The row that tells of a cause, and the word for it there; none of what the
/// strip has no row for.
fn row_of(cause: Cause) -> Option<(Measure, &'static str)> {
    Some(match cause {
        Cause::Width => (Measure::Width, "width"),
        Cause::Strokes => (Measure::Weight, "strokes"),
        Cause::Uprights => (Measure::Weight, "uprights"),
        Cause::Levels => (Measure::Weight, "levels"),
        Cause::Pair => (Measure::Weight, "stems"),
        Cause::Overshoot => (Measure::Height, "overshoot"),
        Cause::Raised => (Measure::Height, "raised"),
        Cause::Left | Cause::Right | Cause::Points => return None,
    })
}

/// What a bar tells.
struct Told {
    share: f64,
    out: bool,
    /// What is written, the first that fits.
    texts: Vec<String>,
}

impl Told {
    fn of_deviation(d: &Deviation) -> Option<Self> {
        let share = share(d)?;
        let out = stands_out(d, share);
        let texts = if out || share.abs() >= LEAST_SEEN {
            vec![figure::signed_percent(share)]
        } else {
            Vec::new()
        };
        Some(Self { share, out, texts })
    }

    /// Of a finding, for a letter of this height, of which differences of height
    /// are a share.
    fn of_finding(found: &FindingReport, height: f64) -> Option<Self> {
        let (measure, word) = row_of(found.cause)?;
        let off = found.value - found.expected;
        let whole = if measure == Measure::Height {
            height
        } else {
            found.expected
        };
        let share = off / whole;
        let plus = if off > 0.0 { "+" } else { "" };
        let amount = format!("{plus}{}", figure::length(off));
        share.is_finite().then(|| Self {
            share,
            out: true,
            texts: vec![format!("{word} {amount}"), amount],
        })
    }
}

fn bar(
    brush: &Brush<'_>,
    picture: &Picture<'_>,
    column: &Column,
    zero: f64,
    told: &Told,
    full: f64,
) -> Drawn {
    let (share, out) = (told.share, told.out);
    let half = 0.5 * picture.frame.row - ROW_PAD;
    let height = half * (share / full).clamp(-1.0, 1.0);
    let width = (BAR_SHARE * column.width()).clamp(BAR.0, BAR.1);
    let x0 = column.middle() - 0.5 * width;
    // Nought shows too, as a block on the line: measured, and as expected.
    let height = if height.abs() < 1.0 {
        height.signum()
    } else {
        height
    };
    let r = Rect::from_points((x0, zero), (x0 + width, zero - height));
    let colour = match share {
        s if s.abs() < LEAST_SEEN => &brush.theme.rule,
        s if s > 0.0 => &brush.theme.above,
        _ => &brush.theme.below,
    };
    let tip = if share.abs() > full {
        TIP.min(height.abs())
    } else {
        0.0
    };
    bar_path(brush, r, share, tip);
    let c = brush.context;
    if out {
        c.set_fill_style_str(colour);
        c.fill();
    } else {
        c.set_stroke_style_str(colour);
        c.set_line_width(brush.hair());
        c.stroke();
    }
    let fits = |text: &&String| brush.width(text) + 4.0 < column.width();
    if half > 0.9 * brush.label()
        && let Some(text) = told.texts.iter().find(fits)
    {
        // In the empty half of the row.
        let y = zero + 0.5 * half * share.signum();
        let colour = if out { colour } else { &brush.theme.label };
        brush.text(text, Point::new(column.middle(), y), Hang::Middle, colour)?;
    }
    Ok(())
}

/// A bar from the zero line, on whole device pixels; one that would be longer
/// than its row ends in a point.
fn bar_path(brush: &Brush<'_>, r: Rect, share: f64, tip: f64) {
    let [x0, x1, y0, y1] = [r.x0, r.x1, r.y0, r.y1].map(|v| brush.crisp(v));
    let (zero, end, tip) = if share < 0.0 {
        (y0, y1, -tip)
    } else {
        (y1, y0, tip)
    };
    let c = brush.context;
    c.begin_path();
    c.move_to(x0, zero);
    c.line_to(x0, end + tip);
    c.line_to(0.5 * (x0 + x1), end);
    c.line_to(x1, end + tip);
    c.line_to(x1, zero);
    c.close_path();
}

/// The rows' names and scales at the left; over the row on a narrow canvas.
fn headings(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let frame = picture.frame;
    for (row, (_, name, full)) in ROWS.iter().enumerate() {
        let y = zero_line(picture, row);
        let told = if frame.short {
            (*name).to_owned()
        } else {
            format!("{name} \u{00B1}{:.0}%", 100.0 * full)
        };
        if frame.names > 0.0 {
            let at = Point::new(frame.names - 8.0, y);
            brush.text(&told, at, Hang::Left, &brush.theme.label)?;
        } else {
            brush.tag(name, Point::new(6.0, y), Hang::Right, &brush.theme.label)?;
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn deviation(value: f64, expected: f64, spread: f64) -> Deviation {
        Deviation {
            measure: Measure::Width,
            value,
            expected,
            spread,
            beside: "HN".to_owned(),
        }
    }

    #[test]
    fn what_stands_out() {
        let out = |d: &Deviation| stands_out(d, share(d).unwrap());
        assert!(out(&deviation(120.0, 100.0, 5.0)));
        assert!(!out(&deviation(108.0, 100.0, 5.0)));
        assert!(out(&deviation(98.0, 100.0, 0.0)));
        assert!(!out(&deviation(100.1, 100.0, 0.0)));
    }

    #[test]
    fn a_finding_tells_its_cause_and_its_difference_in_units() {
        let mut found = FindingReport {
            letter: "R".to_owned(),
            glyph: 1,
            cause: Cause::Width,
            value: 500.0,
            expected: 550.0,
            low: 540.0,
            high: 560.0,
            difference: -50.0,
            spreads: -4.0,
            by_chance: 0.01,
            beside: "BPK".to_owned(),
            sentence: String::new(),
        };
        let told = Told::of_finding(&found, 700.0).unwrap();
        assert_eq!(told.texts, ["width \u{2212}50", "\u{2212}50"]);
        assert!((told.share + 50.0 / 550.0).abs() < 1e-9 && told.out);
        // An overshoot of nought is expected of no height but the letter's own.
        (found.cause, found.value, found.expected) = (Cause::Raised, 14.0, 0.0);
        let told = Told::of_finding(&found, 700.0).unwrap();
        assert_eq!(told.texts[0], "raised +14");
        assert!((told.share - 0.02).abs() < 1e-9);
        found.cause = Cause::Left;
        assert!(Told::of_finding(&found, 700.0).is_none());
    }

    #[test]
    fn no_share_of_nothing() {
        assert_eq!(share(&deviation(10.0, 0.0, 1.0)), None);
    }
}
