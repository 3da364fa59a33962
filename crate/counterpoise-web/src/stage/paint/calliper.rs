//! The calliper: a rule across the letters, its ink and white told apart by
//! line, each length written beside it.

use super::brush::{Brush, Hang};
use super::labels::{self, Label, Taken, Wish};
use super::{Drawn, Picture};
use crate::stage::figure;
use crate::stage::state::{CalliperState, Interval};
use crate::stage::view::Camera;
use kurbo::{Point, Rect, Size, Vec2};

/// Half a tick at an edge of ink, the side of an end's handle, CSS pixels.
const TICK: f64 = 7.0;
const HANDLE: f64 = 9.0;

/// Width of the line over ink and over white, CSS pixels.
const OVER_INK: f64 = 4.0;
const OVER_WHITE: f64 = 1.5;

/// A stretch shorter than this has no figure of its own, CSS pixels: its ticks
/// touch, and the figure could be anyone's.
const LEAST_WRITTEN: f64 = 4.0;

/// The line on the canvas.
struct Rule {
    from: Point,
    to: Point,
    /// Of length 1.
    way: Vec2,
    scale: f64,
}

impl Rule {
    fn of(state: &CalliperState, camera: Camera) -> Self {
        let on_canvas = |p: [f64; 2]| camera.to_canvas(Point::new(p[0], p[1]));
        let (from, to) = (on_canvas(state.from), on_canvas(state.to));
        let length = (to - from).hypot();
        Self {
            from,
            to,
            way: if length > 0.0 {
                (to - from) / length
            } else {
                Vec2::new(1.0, 0.0)
            },
            scale: camera.scale,
        }
    }

    /// The point at a distance from the start, font units.
    fn at(&self, distance: f64) -> Point {
        self.from + self.way * (distance * self.scale)
    }

    fn handles(&self) -> [Rect; 2] {
        [self.from, self.to].map(|end| Rect::from_center_size(end, (HANDLE, HANDLE)))
    }
}

/// Paints the calliper, if there is one, with its figures where they were laid.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>, figures: &[Label]) -> Drawn {
    let Some(state) = &picture.calliper else {
        return Ok(());
    };
    brush.css()?;
    let rule = Rule::of(state, picture.camera);
    line(brush, &rule, state);
    for r in rule.handles() {
        brush.rect(r.inflate(1.5, 1.5), &brush.theme.halo);
        brush.rect(r, &brush.theme.calliper);
    }
    for label in figures {
        brush.tag(&label.text, label.at, Hang::Middle, &brush.theme.calliper)?;
    }
    Ok(())
}

fn line(brush: &Brush<'_>, rule: &Rule, state: &CalliperState) {
    let (halo, colour) = (&brush.theme.halo, &brush.theme.calliper);
    let end = rule.at(state.length);
    brush.line(rule.from, end, OVER_INK + 3.0, halo);
    brush.line(rule.from, end, OVER_WHITE, colour);
    for interval in state.intervals.iter().filter(|i| i.ink) {
        let (a, b) = (
            rule.at(interval.start),
            rule.at(interval.start + interval.length),
        );
        brush.line(a, b, OVER_INK, colour);
    }
    let across = rule.way.turn_90() * TICK;
    for interval in state.intervals.iter().skip(1) {
        let p = rule.at(interval.start);
        brush.line(p - across, p + across, OVER_WHITE + 2.0, halo);
        brush.line(p - across, p + across, OVER_WHITE, colour);
    }
}

/// Where the lengths go: ink on one side of the line and white on the other, so
/// that either row can be read along.
pub(super) fn figures(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Label> {
    let Some(state) = &picture.calliper else {
        return Vec::new();
    };
    let rule = Rule::of(state, picture.camera);
    // Ink above a level line, to the right of an upright one.
    let main = if rule.way.x.abs() >= rule.way.y.abs() {
        rule.way.x
    } else {
        rule.way.y
    };
    let up = rule.way.turn_90() * -main.signum();
    let wishes = state
        .intervals
        .iter()
        .filter(|i| !i.open && i.length * rule.scale >= LEAST_WRITTEN)
        .map(|i| wish(brush, &rule, i, if i.ink { up } else { -up }))
        .collect();
    labels::settle(
        wishes,
        picture.frame.letters,
        &mut Taken::of(&rule.handles()),
    )
}

fn wish(brush: &Brush<'_>, rule: &Rule, interval: &Interval, side: Vec2) -> Wish {
    let text = figure::length(interval.length);
    let size = brush.tag_size(&text);
    let middle = rule.at(interval.start + 0.5 * interval.length);
    let off = TICK + reach(side, size) + 1.0;
    let row = 2.0 * reach(side, size) + 2.0;
    Wish {
        text,
        size,
        // Where figures crowd, a second and a third row further out.
        spots: (0..3)
            .map(|k| middle + side * (off + f64::from(k) * row))
            .collect(),
        or: None,
    }
}

/// How far a box reaches from its middle in a direction.
fn reach(u: Vec2, size: Size) -> f64 {
    0.5 * (u.x.abs() * size.width + u.y.abs() * size.height)
}
