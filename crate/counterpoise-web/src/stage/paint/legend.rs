//! At the stage's head: what marks on the letters mean that do not say so
//! themselves.

use super::brush::{Brush, Hang};
use super::points::LEAST_EM;
use super::{Drawn, Picture, refit};
use crate::stage::command::Within;
use kurbo::Point;

/// White before an entry, and between its mark and its words, CSS pixels.
const APART: f64 = 18.0;
const BESIDE: f64 = 6.0;

/// A mark before an entry's words.
#[derive(Debug, Clone, Copy)]
enum Mark {
    None,
    Line,
    Kept,
    Added,
    Spare,
}

/// Paints the legend, if there is one.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let room = picture.frame.legend;
    if room.height() <= 0.0 {
        return Ok(());
    }
    brush.css()?;
    brush.rect(room, &brush.theme.paper);
    brush.level(room.x0, room.x1, room.y1, &brush.theme.rule);
    let y = room.center().y;
    let mut x = 8.0;
    for (mark, words) in entries(picture) {
        let breadth = match mark {
            Mark::None => 0.0,
            Mark::Line => 22.0,
            _ => 2.0 * refit::HALF,
        };
        let lead = if breadth > 0.0 { breadth + BESIDE } else { 0.0 };
        // Entries that find no room are told by the switches' own hints.
        if x + lead + brush.width(words) > room.x1 - 4.0 {
            break;
        }
        draw(brush, mark, Point::new(x + 0.5 * breadth, y));
        let at = Point::new(x + lead, y);
        brush.text(words, at, Hang::Right, &brush.theme.label)?;
        x += lead + brush.width(words) + APART;
    }
    Ok(())
}

fn entries(picture: &Picture<'_>) -> Vec<(Mark, &'static str)> {
    let setting = picture.setting;
    if let Some(texture) = &picture.texture {
        let told = match (&texture.sight, texture.standout) {
            (None, _) => "no ink on the line",
            (_, None) => "no letter stands out",
            (_, Some(_)) => "framed: the letter that stands out most",
        };
        return vec![
            (Mark::None, "the line as a blurred eye sees it"),
            (Mark::None, told),
        ];
    }
    if !setting.layers.refit {
        return Vec::new();
    }
    if setting.blur > 0.0 {
        return vec![(Mark::None, "the refit shows on sharp letters")];
    }
    if !refit::is_shown(picture) {
        return vec![(Mark::None, "the refit shows on larger letters")];
    }
    let line = match setting.refit_within {
        Within::Half => "refit, within half a unit",
        Within::Two => "refit, within two units",
    };
    let mut entries = vec![(Mark::Line, line)];
    if picture.em() < LEAST_EM {
        entries.push((Mark::None, "points show on larger letters"));
    } else {
        entries.extend([
            (Mark::Spare, "does without"),
            (Mark::Kept, "kept"),
            (Mark::Added, "set anew"),
        ]);
    }
    entries
}

fn draw(brush: &Brush<'_>, mark: Mark, at: Point) {
    match mark {
        Mark::None => {}
        Mark::Line => {
            let ends = [-11.0, 11.0].map(|dx| Point::new(at.x + dx, at.y));
            brush.line(ends[0], ends[1], 2.0, &brush.theme.refit);
        }
        Mark::Kept => refit::kept(brush, &[at], refit::HALF),
        Mark::Added => refit::added(brush, &[at], refit::HALF),
        Mark::Spare => refit::spare(brush, &[at], refit::HALF),
    }
}
