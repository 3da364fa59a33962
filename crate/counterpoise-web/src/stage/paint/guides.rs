//! The guides: where the letters put them, where the file does, and how far
//! round letters reach past.

use super::brush::{Brush, Hang};
use super::labels::spread;
use super::{Drawn, Picture};
use crate::stage::figure;
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
struct Note {
    y: f64,
    text: String,
    declared: bool,
}

/// Writes the guides' names at the left edge; at the right edge what the file
/// declares, where that differs, and how far round letters pass the line.
pub(super) fn paint_labels(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    brush.css()?;
    let room = picture.frame.letters;
    let y_of = |h: f64| picture.camera.to_canvas(Point::new(0.0, h)).y;
    let (mut left, mut right) = (Vec::new(), Vec::new());
    for guide in picture.sorts.guides() {
        if let Some(drawn) = guide.drawn {
            left.push(Note {
                y: y_of(drawn),
                text: format!("{} {}", name(guide.kind), figure::length(drawn)),
                declared: false,
            });
            // A narrow canvas has no room beside the letters for this one.
            let wide = picture.frame.names > 0.0;
            if let Some(round) = guide.round.filter(|r| wide && (r - drawn).abs() >= SAME) {
                let past = figure::length((round - drawn).abs());
                right.push(Note {
                    y: y_of(0.5 * (round + drawn)),
                    text: format!("rounds +{past}"),
                    declared: false,
                });
            }
        }
        if let Some(height) = declared(guide) {
            right.push(Note {
                y: y_of(height),
                text: format!("declared {}", figure::length(height)),
                declared: true,
            });
        }
    }
    notes(brush, room, left, Hang::Right)?;
    notes(brush, room, right, Hang::Left)
}

fn notes(brush: &Brush<'_>, room: Rect, mut notes: Vec<Note>, hang: Hang) -> Drawn {
    notes.retain(|n| in_room(n.y, room));
    notes.sort_by(|a, b| a.y.total_cmp(&b.y));
    let mut heights: Vec<f64> = notes.iter().map(|n| n.y).collect();
    spread(&mut heights, 1.25 * brush.label());
    let right = hang == Hang::Right;
    let (x, inwards) = if right {
        (room.x0 + EDGE, 1.0)
    } else {
        (room.x1 - EDGE, -1.0)
    };
    for (note, y) in notes.iter().zip(heights) {
        let colour = if note.declared {
            &brush.theme.declared
        } else {
            &brush.theme.guide
        };
        if (note.y - y).abs() > MOVED {
            // A label that gave way is led back to its line.
            let end = x + inwards * brush.tag_size(&note.text).width;
            let (from, to) = (Point::new(end, y), Point::new(end + inwards * LEAD, note.y));
            brush.line(from, to, brush.hair(), colour);
        }
        brush.tag(&note.text, Point::new(x, y), hang, colour)?;
    }
    Ok(())
}
