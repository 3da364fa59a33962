//! The finding that stands on the stage: on its letter, what was measured and
//! what the other letters let one expect, each drawn at its place with its
//! figure. What was measured is a whole line, what was expected a dashed one,
//! and the words say which is which.

use super::brush::Brush;
use super::figures::LEAST_WRITTEN;
use super::ink::to_canvas;
use super::labels::Wish;
use super::thickness::clear_of_ink;
use super::{Drawn, Picture, chosen};
use crate::stage::figure;
use crate::stage::standing::Standing;
use counterpoise::report::{Cause, Extremity, FindingReport, LetterReport, StrokeKind, Thickness};
use kurbo::{Affine, Point, Rect, Vec2};

/// Width of the lines and of the ground behind them, CSS pixels.
const LINE: f64 = 2.5;
const GROUND: f64 = 6.0;

/// Half the bars at the ends of a span, CSS pixels.
const BAR: f64 = 6.0;

/// Between the letter and the first of the spans under or over it, and from one
/// span to the next, in label heights.
const AWAY: f64 = 1.1;
const ROW: f64 = 1.5;

/// Between the two thicknesses along a stroke, in label heights.
const ALONG: f64 = 1.6;

/// How far the line of a height reaches to its own side of the place and to the
/// other, CSS pixels: the two cross there, and their figures stand at far ends.
const FAR: f64 = 46.0;
const NEAR: f64 = 14.0;

/// Between a line's end and its figure, CSS pixels.
const BESIDE: f64 = 7.0;

/// Two figures of one letter nearer than this, as a share, are one place's.
const SAME: f64 = 0.002;

/// What was measured, or what was expected, on the canvas.
#[derive(Debug, Clone, PartialEq)]
struct Mark {
    from: Point,
    to: Point,
    expected: bool,
    /// Whether bars close its ends: a length, not a height.
    span: bool,
    text: String,
    /// Where its figure is written first of all.
    first: Point,
}

impl Mark {
    /// A length, its figure after its right end.
    fn span(found: &FindingReport, from: Point, to: Point, expected: bool) -> Self {
        Self {
            from,
            to,
            expected,
            span: true,
            text: told(found, expected),
            first: to + Vec2::new(BESIDE, 0.0),
        }
    }

    /// The box that no figure may cover.
    fn rect(&self) -> Rect {
        let way = (self.to - self.from).normalize();
        let side = if self.span && way.is_finite() {
            BAR * way.turn_90()
        } else {
            Vec2::ZERO
        };
        let corners = [
            self.from - side,
            self.from + side,
            self.to - side,
            self.to + side,
        ];
        let boxed = corners
            .iter()
            .fold(Rect::from_points(self.from, self.to), |r, p| r.union_pt(*p));
        boxed.inflate(1.0, 1.0)
    }
}

/// Whether a finding is shown, on sharp letters.
fn marks(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Mark> {
    let Some(found) = picture.finding else {
        return Vec::new();
    };
    if !picture.setting.layers.findings || picture.em() < LEAST_WRITTEN {
        return Vec::new();
    }
    let here = |s: &&Standing| s.item.glyph == Some(found.glyph);
    let chosen = |s: &&Standing| picture.is_chosen(&s.item);
    // Of several, the one that was stood up: it is chosen until another is.
    let standing = picture
        .letters()
        .filter(here)
        .find(chosen)
        .or_else(|| picture.letters().find(here));
    let Some(s) = standing else {
        return Vec::new();
    };
    let report = picture.sorts.report(found.glyph);
    let place = Place {
        map: to_canvas(picture, s),
        label: brush.label(),
        ink: s.ink.map(|ink| picture.camera.rect(ink)),
        room: picture.frame.letters,
    };
    place.marks(found, &report)
}

/// Where a letter stands on the canvas, and what room there is about it.
struct Place {
    map: Affine,
    label: f64,
    ink: Option<Rect>,
    room: Rect,
}

impl Place {
    fn marks(&self, found: &FindingReport, report: &LetterReport) -> Vec<Mark> {
        match found.cause {
            Cause::Width => self.width(found, report),
            Cause::Left => self.bearing(found, report, -1.0),
            Cause::Right => self.bearing(found, report, 1.0),
            Cause::Strokes => self.thickness(found, report, |_| true),
            Cause::Uprights | Cause::Pair => {
                self.thickness(found, report, |k| k != StrokeKind::Bar)
            }
            Cause::Levels => self.thickness(found, report, |k| k != StrokeKind::Stem),
            Cause::Overshoot => self.overshoot(found, report),
            Cause::Raised => self.raised(found, report),
            Cause::Points => self.points(found),
        }
    }

    /// The letter's width, and the width expected from the same side: from the
    /// upright that it begins with, or both ways from its middle.
    fn width(&self, found: &FindingReport, report: &LetterReport) -> Vec<Mark> {
        let ink = report.bounds.map(|b| [b.x_min, b.x_max]);
        let stems = report.sides.map(|s| s.outer);
        let off = |[a, b]: &[f64; 2]| (b - a - found.value).abs();
        let all = [ink, stems].into_iter().flatten();
        let Some(measured) = all.min_by(|a, b| off(a).total_cmp(&off(b))) else {
            return Vec::new();
        };
        let more = found.expected - found.value;
        let expected = if stems.is_some() {
            [measured[0], measured[1] + more]
        } else {
            [measured[0] - 0.5 * more, measured[1] + 0.5 * more]
        };
        self.spans(found, measured, expected)
    }

    /// The white before or after the letter, held at the edge of its ink or of
    /// its outer stem, whichever it was measured to.
    fn bearing(&self, found: &FindingReport, report: &LetterReport, way: f64) -> Vec<Mark> {
        let Some(bounds) = report.bounds else {
            return Vec::new();
        };
        let stems = report.sides.map(|s| s.outer);
        let edges = [Some([bounds.x_min, bounds.x_max]), stems];
        let off = |edge: &f64| {
            let white = if way < 0.0 {
                *edge
            } else {
                report.advance - edge
            };
            (white - found.value).abs()
        };
        let at = |[left, right]: [f64; 2]| if way < 0.0 { left } else { right };
        let edges = edges.into_iter().flatten().map(at);
        let Some(edge) = edges.min_by(|a, b| off(a).total_cmp(&off(b))) else {
            return Vec::new();
        };
        let span = |white: f64| [edge, edge + way * white];
        self.spans(found, span(found.value), span(found.expected))
    }

    /// Two level spans under the letter, or over it where there is more room.
    fn spans(&self, found: &FindingReport, measured: [f64; 2], expected: [f64; 2]) -> Vec<Mark> {
        let Some(ink) = self.ink else {
            return Vec::new();
        };
        let (under, over) = (self.room.y1 - ink.y1, ink.y0 - self.room.y0);
        let (edge, way) = if under >= (AWAY + 2.0 * ROW) * self.label || under >= over {
            (ink.y1, 1.0)
        } else {
            (ink.y0, -1.0)
        };
        let span = |row: f64, [a, b]: [f64; 2], expected: bool| {
            let y = edge + way * (AWAY + row * ROW) * self.label;
            let [a, b] = [a, b].map(|x| (self.map * Point::new(x, 0.0)).x);
            let [from, to] = [a.min(b), a.max(b)].map(|x| Point::new(x, y));
            Mark::span(found, from, to, expected)
        };
        vec![span(0.0, measured, false), span(1.0, expected, true)]
    }

    /// A stroke's thickness where it is what was measured, and the expected one
    /// beside it along the stroke.
    fn thickness(
        &self,
        found: &FindingReport,
        report: &LetterReport,
        of: impl Fn(StrokeKind) -> bool,
    ) -> Vec<Mark> {
        let strokes = report.strokes.iter().filter(|s| of(s.kind));
        let at = strokes.flat_map(|s| &s.marks);
        let off = |t: &&Thickness| (t.value - found.value).abs();
        let Some(at) = at.min_by(|a, b| off(a).total_cmp(&off(b))) else {
            return Vec::new();
        };
        let [a, b] = [at.from, at.to].map(|p| self.map * Point::new(p[0], p[1]));
        let way = (b - a).normalize();
        if !way.is_finite() || at.value <= 0.0 {
            return Vec::new();
        }
        let (middle, along) = (a.midpoint(b), way.turn_90());
        let scale = (b - a).hypot() / at.value;
        let mark = |value: f64, shift: f64, expected: bool| {
            let centre = middle + shift * ALONG * self.label * along;
            let half = 0.5 * scale * value * way;
            let [from, to] = if half.x < 0.0 {
                [centre + half, centre - half]
            } else {
                [centre - half, centre + half]
            };
            Mark::span(found, from, to, expected)
        };
        vec![
            mark(found.value, 0.0, false),
            mark(found.expected, 1.0, true),
        ]
    }

    /// The heights of the top or foot that was measured; of both where both are.
    fn overshoot(&self, found: &FindingReport, report: &LetterReport) -> Vec<Mark> {
        let ends = [(report.top, 1.0), (report.foot, -1.0)];
        let off = |end: &Extremity| end.overshoot.map(|o| (o - found.value).abs());
        let known = || {
            ends.iter()
                .filter_map(|(end, up)| Some((off(end.as_ref()?)?, (*end)?, *up)))
        };
        let Some(least) = known().map(|(off, ..)| off).min_by(f64::total_cmp) else {
            return Vec::new();
        };
        let size = found.value.abs().max(found.expected.abs());
        known()
            .filter(|(off, ..)| *off <= least + SAME * size)
            .flat_map(|(_, end, up)| {
                let moved = up * (found.expected - found.value);
                self.heights(found, end.x, end.y, end.y + moved)
            })
            .collect()
    }

    /// The height that the letter stands at, and the one that it should.
    fn raised(&self, found: &FindingReport, report: &LetterReport) -> Vec<Mark> {
        let (Some(foot), Some(bounds)) = (report.foot, report.bounds) else {
            return Vec::new();
        };
        // A round foot hangs below the height that the letter stands at: the
        // lines are then the whole letter's.
        let x = if (foot.y - found.value).abs() < 1.0 {
            foot.x
        } else {
            0.5 * (bounds.x_min + bounds.x_max)
        };
        self.heights(found, x, found.value, found.expected)
    }

    /// Two level lines that cross the place, the one to its left, the other to
    /// its right.
    fn heights(&self, found: &FindingReport, x: f64, measured: f64, expected: f64) -> Vec<Mark> {
        let line = |y: f64, way: f64, expected: bool| {
            let p = self.map * Point::new(x, y);
            let from = p - Vec2::new(way * NEAR, 0.0);
            let to = p + Vec2::new(way * FAR, 0.0);
            Mark {
                from,
                to,
                expected,
                span: false,
                text: told(found, expected),
                first: to + Vec2::new(way * BESIDE, 0.0),
            }
        };
        vec![line(measured, -1.0, false), line(expected, 1.0, true)]
    }

    /// Counts have no place on the letter: they are written under it.
    fn points(&self, found: &FindingReport) -> Vec<Mark> {
        let Some(ink) = self.ink else {
            return Vec::new();
        };
        let mark = |row: f64, expected: bool| {
            let y = ink.y1 + (AWAY + row * ROW) * self.label;
            let at = Point::new(ink.center().x, y);
            Mark {
                from: at,
                to: at,
                expected,
                span: false,
                text: told(found, expected),
                first: at,
            }
        };
        vec![mark(0.0, false), mark(1.0, true)]
    }
}

/// The figure with the word for what it is.
fn told(found: &FindingReport, expected: bool) -> String {
    let unit = if found.cause == Cause::Points {
        " points"
    } else {
        ""
    };
    if expected {
        format!("expected {}{unit}", figure::length(found.expected))
    } else {
        format!("is {}{unit}", figure::length(found.value))
    }
}

/// The boxes of the lines, which no figure may cover.
pub(super) fn boxes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Rect> {
    let all = marks(brush, picture);
    if all.is_empty() {
        return Vec::new();
    }
    let lines = all.iter().filter(|m| m.from != m.to).map(Mark::rect);
    lines.chain(chosen::corners_of(picture)).collect()
}

/// Paints the lines.
pub(super) fn paint(brush: &Brush<'_>, picture: &Picture<'_>) -> Drawn {
    let all = marks(brush, picture);
    let Some(found) = picture.finding.filter(|_| !all.is_empty()) else {
        return Ok(());
    };
    brush.css()?;
    let measured = if found.value > found.expected {
        &brush.theme.above
    } else {
        &brush.theme.below
    };
    let c = brush.context;
    // The ground of all first, so that no line covers another.
    c.set_stroke_style_str(&brush.theme.halo);
    c.set_line_width(GROUND);
    c.begin_path();
    for mark in &all {
        trace(brush, mark);
    }
    c.stroke();
    for expected in [true, false] {
        if expected {
            brush.dashed(5.0, 3.0)?;
            c.set_stroke_style_str(&brush.theme.label);
        } else {
            brush.solid()?;
            c.set_stroke_style_str(measured);
        }
        c.set_line_width(LINE);
        c.begin_path();
        for mark in all.iter().filter(|m| m.expected == expected) {
            trace(brush, mark);
        }
        c.stroke();
    }
    brush.solid()
}

fn trace(brush: &Brush<'_>, mark: &Mark) {
    let (c, way) = (brush.context, (mark.to - mark.from).normalize());
    if !way.is_finite() {
        return;
    }
    c.move_to(mark.from.x, mark.from.y);
    c.line_to(mark.to.x, mark.to.y);
    if mark.span {
        let side = BAR * way.turn_90();
        for end in [mark.from, mark.to] {
            c.move_to((end - side).x, (end - side).y);
            c.line_to((end + side).x, (end + side).y);
        }
    }
}

/// The figures, with their words.
pub(super) fn wishes(brush: &Brush<'_>, picture: &Picture<'_>) -> Vec<Wish> {
    let all = marks(brush, picture);
    all.iter()
        .map(|mark| {
            let size = brush.tag_size(&mark.text);
            let half = 0.5 * size.width;
            let outward = (mark.first - mark.to).x.signum();
            let first = if mark.from == mark.to {
                mark.first
            } else {
                mark.first + Vec2::new(outward * half, 0.0)
            };
            let (left, right) = (mark.from.x.min(mark.to.x), mark.from.x.max(mark.to.x));
            let middle = mark.from.midpoint(mark.to);
            let row = 1.1 * size.height;
            let mut spots = vec![
                first,
                Point::new(right + BESIDE + half, middle.y),
                Point::new(left - BESIDE - half, middle.y),
            ];
            for step in [1.0, -1.0, 2.0, -2.0, 3.0, -3.0] {
                spots.extend(
                    [middle.x, right + half, left - half]
                        .map(|x| Point::new(x, middle.y + step * row)),
                );
            }
            // It must be read: where every place is over ink, it stands where
            // it hides the least.
            Wish {
                spots: clear_of_ink(picture, spots, size, usize::MAX).collect(),
                text: mark.text.clone(),
                size,
                or: None,
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::testing::{finding, sorts};
    use counterpoise::report::{Bounds, Form, Sides};

    /// Half a pixel a unit, y down, an L of 400 units on the baseline.
    fn place() -> Place {
        Place {
            map: Affine::new([0.5, 0.0, 0.0, -0.5, 100.0, 400.0]),
            label: 12.0,
            ink: Some(Rect::new(125.0, 50.0, 325.0, 400.0)),
            room: Rect::new(0.0, 0.0, 1000.0, 500.0),
        }
    }

    fn report() -> LetterReport {
        let sorts = sorts();
        let mut report = (*sorts.report(3)).clone();
        report.advance = 500.0;
        report.bounds = Some(Bounds {
            x_min: 50.0,
            y_min: 0.0,
            x_max: 450.0,
            y_max: 700.0,
        });
        report
    }

    /// How long each line is, in font units.
    fn lengths(marks: &[Mark]) -> Vec<f64> {
        let length = |m: &Mark| (m.to - m.from).hypot() / 0.5;
        marks.iter().map(length).collect()
    }

    #[test]
    fn a_width_shows_what_is_and_what_was_expected_under_the_letter() {
        let found = finding('L', "HIO", Cause::Width);
        let mut report = report();
        let marks = place().marks(&found, &report);
        assert_eq!(lengths(&marks), [400.0, 440.0]);
        assert_eq!(marks[0].text, "is 400");
        assert_eq!(marks[1].text, "expected 440");
        assert!(marks.iter().all(|m| m.from.y > 400.0 && m.to.y < 500.0));
        // Without an upright, both ways from the middle.
        assert!(marks[1].from.x < marks[0].from.x && marks[1].to.x > marks[0].to.x);
        report.sides = Some(Sides {
            outer: [50.0, 150.0],
            inner: None,
        });
        let marks = place().marks(&found, &report);
        assert_eq!(lengths(&marks), [400.0, 440.0]);
        assert_eq!(marks[1].from.x, marks[0].from.x);
    }

    #[test]
    fn what_has_no_room_below_stands_above() {
        let found = finding('L', "HIO", Cause::Width);
        let low = Place {
            room: Rect::new(0.0, 0.0, 1000.0, 410.0),
            ..place()
        };
        let marks = low.marks(&found, &report());
        assert!(marks.iter().all(|m| m.from.y < 50.0));
    }

    #[test]
    fn white_is_shown_on_its_own_side_of_the_edge() {
        let mut found = finding('L', "HIO", Cause::Left);
        (found.value, found.expected) = (50.0, 30.0);
        let marks = place().marks(&found, &report());
        assert_eq!(lengths(&marks), [50.0, 30.0]);
        assert!(marks.iter().all(|m| m.to.x == 125.0));
        found.cause = Cause::Right;
        let marks = place().marks(&found, &report());
        assert!(marks.iter().all(|m| m.from.x == 325.0));
    }

    #[test]
    fn thicknesses_lie_across_the_stroke_side_by_side() {
        let mut found = finding('L', "HIO", Cause::Uprights);
        (found.value, found.expected) = (100.0, 110.0);
        let marks = place().marks(&found, &report());
        assert_eq!(lengths(&marks), [100.0, 110.0]);
        assert_eq!(
            marks[0].from.midpoint(marks[0].to),
            Point::new(150.0, 225.0)
        );
        assert!((marks[0].from.y - marks[1].from.y).abs() > BAR);
    }

    #[test]
    fn heights_are_as_far_apart_as_the_figures() {
        let mut found = finding('L', "HIO", Cause::Overshoot);
        (found.value, found.expected) = (2.0, 12.0);
        let mut report = report();
        let end = |y: f64| Extremity {
            form: Form::Round,
            y,
            x: 200.0,
            breadth: 0.0,
            overshoot: Some(2.0),
        };
        (report.top, report.foot) = (Some(end(702.0)), Some(end(-2.0)));
        let marks = place().marks(&found, &report);
        let heights: Vec<f64> = marks.iter().map(|m| (400.0 - m.from.y) / 0.5).collect();
        assert_eq!(heights, [702.0, 712.0, -2.0, -12.0]);
        found.cause = Cause::Raised;
        (found.value, found.expected) = (-2.0, -10.0);
        let marks = place().marks(&found, &report);
        let heights: Vec<f64> = marks.iter().map(|m| (400.0 - m.from.y) / 0.5).collect();
        assert_eq!(heights, [-2.0, -10.0]);
    }

    #[test]
    fn a_letter_without_what_a_cause_needs_has_no_marks() {
        let bare = LetterReport {
            bounds: None,
            strokes: Vec::new(),
            ..report()
        };
        for cause in [
            Cause::Width,
            Cause::Left,
            Cause::Strokes,
            Cause::Overshoot,
            Cause::Raised,
        ] {
            let found = finding('L', "HIO", cause);
            assert!(place().marks(&found, &bare).is_empty(), "{cause:?}");
        }
    }
}
