//! The guides: where the letters put them, where the file does, and how far
//! round letters reach past.

use super::brush::{Brush, Hang};
use super::labels::spread;
use super::{Drawn, Picture};
use crate::stage::figure;
use counterpoise::order::by_number;
use counterpoise::report::{Guide, GuideKind};
use kurbo::{Point, Rect};

/// A declared height nearer than this to the drawn one is the same, font units.
const SAME: f64 = 0.5;

/// Room to the canvas's edges, CSS pixels.
const EDGE: f64 = 8.0;

/// A label farther than this from its line is led back to it, over this way
/// along it, CSS pixels.
const MOVED: f64 = 2.0;
const LEAD: f64 = 12.0;

fn name(kind: GuideKind) -> &'static str {
    match kind {
        GuideKind::Baseline => "baseline",
        GuideKind::XHeight => "x-height",
        GuideKind::CapHeight => "cap height",
        GuideKind::Ascender => "ascender",
        GuideKind::Descender => "descender",
    }
}

/// The trade's short forms, for narrow canvases.
fn short_name(kind: GuideKind) -> &'static str {
    match kind {
        GuideKind::Baseline => "base",
        GuideKind::XHeight => "x",
        GuideKind::CapHeight => "cap",
        GuideKind::Ascender => "asc",
        GuideKind::Descender => "desc",
    }
}

/// The declared height, where it is another than the drawn one.
fn declared(guide: &Guide) -> Option<f64> {
    let declared = guide.declared?;
    let same = guide.drawn.is_some_and(|d| (d - declared).abs() < SAME);
    (!same).then_some(declared)
}

/// Paints bands and lines, under the letters.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    brush.css()?;
    let room = picture.frame.letters;
    let y_of = |h: f64| picture.camera.to_canvas(Point::new(0.0, h)).y;
    for guide in picture.sorts.guides() {
        if let (Some(flat), Some(round)) = (guide.drawn, guide.round) {
            band(brush, picture, y_of(flat), y_of(round));
        }
    }
    for guide in picture.sorts.guides() {
        if let Some(y) = guide.drawn.map(y_of).filter(|y| in_room(*y, room)) {
            brush.level(room.x0, room.x1, y, &brush.theme.guide);
        }
        if let Some(y) = declared(guide).map(y_of).filter(|y| in_room(*y, room)) {
            brush.dashed(6.0, 5.0)?;
            brush.level(room.x0, room.x1, y, &brush.theme.declared);
            brush.solid()?;
        }
    }
    Ok(())
}

fn in_room(y: f64, room: Rect) -> bool {
    room.y0 <= y && y <= room.y1
}

/// Where round letters end: a tint, closed by a dotted line.
fn band(brush: &Brush<'_>, picture: &Picture<'_>, flat: f64, round: f64) {
    let room = picture.frame.letters;
    let (y0, y1) = (flat.min(round).max(room.y0), flat.max(round).min(room.y1));
    if y1 - y0 < 0.5 {
        return;
    }
    brush.rect(Rect::new(room.x0, y0, room.x1, y1), &brush.theme.band);
}

/// One line of text at an edge.
#[derive(Debug)]
pub(super) struct Note {
    text: String,
    declared: bool,
    hang: Hang,
    /// Height of its line.
    line: f64,
    at: Point,
    pub(super) rect: Rect,
}

/// The guides' names at the left edge; at the right edge what the file declares,
/// where that differs, and how far round letters pass the line.
pub(super) fn notes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Note> {
    let room = picture.frame.letters;
    let y_of = |h: f64| picture.camera.to_canvas(Point::new(0.0, h)).y;
    let narrow = picture.frame.short;
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for guide in picture.sorts.guides() {
        if let Some(drawn) = guide.drawn {
            let named = if narrow { short_name } else { name };
            let told = format!("{} {}", named(guide.kind), figure::length(drawn));
            left.push((y_of(drawn), told, false));
            if let Some(round) = guide.round.filter(|r| (r - drawn).abs() >= SAME) {
                let told = format!("rounds +{}", figure::length((round - drawn).abs()));
                right.push((y_of(0.5 * (round + drawn)), told, false));
            }
        }
        if let Some(height) = declared(guide) {
            let told = format!("declared {}", figure::length(height));
            right.push((y_of(height), told, true));
        }
    }
    // A narrow canvas has no room at the right; the figures stand in the table.
    if narrow {
        right.clear();
    }
    let mut notes = column(brush, room, left, Hang::Right);
    notes.extend(column(brush, room, right, Hang::Left));
    notes
}

/// Stands notes (height, text, declared) one under the other at an edge.
fn column(
    brush: &Brush<'_>,
    room: Rect,
    mut told: Vec<(f64, String, bool)>,
    hang: Hang,
) -> Vec<Note> {
    told.retain(|n| in_room(n.0, room));
    by_number(&mut told, |t| t.0);
    let mut heights: Vec<f64> = told.iter().map(|n| n.0).collect();
    spread(&mut heights, 1.25 * brush.label(), (room.y0, room.y1));
    let x = if hang == Hang::Right {
        room.x0 + EDGE
    } else {
        room.x1 - EDGE
    };
    let place = |((line, text, declared), y): ((f64, String, bool), f64)| {
        let at = Point::new(x, y);
        Note {
            rect: brush.tag_rect(&text, at, hang),
            text,
            declared,
            hang,
            line,
            at,
        }
    };
    told.into_iter().zip(heights).map(place).collect()
}

/// Writes the notes, over the letters.
pub(super) fn paint_notes(brush: &Brush<'_>, notes: &[Note]) -> Drawn {
    brush.css()?;
    for note in notes {
        let colour = if note.declared {
            &brush.theme.declared
        } else {
            &brush.theme.guide
        };
        if (note.line - note.at.y).abs() > MOVED {
            // A note that gave way is led back to its line.
            let right = note.hang == Hang::Right;
            let (end, lead) = if right {
                (note.rect.x1, LEAD)
            } else {
                (note.rect.x0, -LEAD)
            };
            let (from, to) = (
                Point::new(end, note.at.y),
                Point::new(end + lead, note.line),
            );
            brush.line(from, to, brush.hair(), colour);
        }
        brush.tag(&note.text, note.at, note.hang, colour)?;
    }
    Ok(())
}
