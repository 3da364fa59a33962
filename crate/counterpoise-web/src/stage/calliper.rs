//! The calliper: ink and white along a straight line across the letters.
//!
//! The line is laid through each letter's own outline, exactly, in the letter's
//! own units; a letter stands on the stage by an isometry, so distances along
//! the line are the same. Ink of several letters is united.

use super::command::{ItemId, Lie};
use super::scene::Calliper;
use super::standing::{Standing, in_sort};
use super::state::{CalliperState, Interval};
use counterpoise::order::by_number;
use counterpoise::outline::Ray;
use kurbo::{Point, Vec2};

/// Ends nearer than this are one place, font units: crossings are exact to
/// about a ten-millionth of it, and no drawing means less.
const TOUCH: f64 = 1e-4;

/// Within this of level or upright a dragged line snaps, degrees: less than an
/// artist means by a slant, more than a hand wavers.
const SNAP: f64 = 3.0;

impl Calliper {
    /// Its length.
    pub(crate) fn length(&self) -> f64 {
        (self.to - self.from).hypot()
    }

    /// Its middle.
    pub(crate) fn middle(&self) -> Point {
        self.from.midpoint(self.to)
    }

    /// Turned about its middle until it lies so.
    pub(crate) fn turned(&self, to: Lie) -> Self {
        let half = 0.5 * lie(self.to - self.from, to).normalize_to(self.length());
        let m = self.middle();
        Self {
            from: m - half,
            to: m + half,
        }
    }
}

trait NormalizeTo {
    fn normalize_to(self, length: f64) -> Self;
}

impl NormalizeTo for Vec2 {
    fn normalize_to(self, length: f64) -> Self {
        let own = self.hypot();
        if own > 0.0 {
            self * (length / own)
        } else {
            self
        }
    }
}

/// The part of a way that is level or upright; a way that has none runs right or up.
fn lie(way: Vec2, to: Lie) -> Vec2 {
    match to {
        Lie::Level if way.x == 0.0 => Vec2::new(1.0, 0.0),
        Lie::Level => Vec2::new(way.x, 0.0),
        Lie::Upright if way.y == 0.0 => Vec2::new(0.0, 1.0),
        Lie::Upright => Vec2::new(0.0, way.y),
    }
}

/// The end of a dragged line, snapped to level or upright as seen from its
/// other end: always if `forced`, else if it is near.
pub(crate) fn snapped(fixed: Point, end: Point, forced: bool) -> Point {
    let way = end - fixed;
    let (level, upright) = (way.x.abs(), way.y.abs());
    let off = level.min(upright).atan2(level.max(upright)).to_degrees();
    if !forced && off > SNAP {
        return end;
    }
    if level >= upright {
        Point::new(end.x, fixed.y)
    } else {
        Point::new(fixed.x, end.y)
    }
}

/// What a calliper reads.
pub(crate) fn read(calliper: &Calliper, standings: &[Standing]) -> CalliperState {
    let way = calliper.to - calliper.from;
    let angle = way.atan2().to_degrees();
    CalliperState {
        from: [calliper.from.x, calliper.from.y],
        to: [calliper.to.x, calliper.to.y],
        length: calliper.length(),
        // atan2 gives -180 for a way that runs left along negative nought.
        angle: if angle <= -180.0 { 180.0 } else { angle },
        intervals: intervals(&inks(calliper, standings), calliper.length()),
    }
}

/// A stretch of one letter's ink, from and to in distances from the start.
#[derive(Debug, Clone, PartialEq)]
struct Ink {
    from: f64,
    to: f64,
    letters: Vec<ItemId>,
}

/// The stretches of ink, letter by letter united, in order along the line; they
/// may run past its ends.
fn inks(calliper: &Calliper, standings: &[Standing]) -> Vec<Ink> {
    let length = calliper.length();
    let mut all = Vec::new();
    let (mut crossings, mut spans) = (Vec::new(), Vec::new());
    for s in standings {
        let Some(sort) = &s.sort else { continue };
        let (a, b) = (in_sort(s.map, calliper.from), in_sort(s.map, calliper.to));
        let Some(ray) = Ray::new(a, b - a) else {
            continue;
        };
        sort.outline.spans(&ray, &mut crossings, &mut spans);
        let here = spans.iter().map(|span| (span.from.s, span.to.s));
        all.extend(
            here.filter(|&(from, to)| to > TOUCH && from < length - TOUCH && to - from > TOUCH)
                .map(|(from, to)| Ink {
                    from,
                    to,
                    letters: vec![s.item.id],
                }),
        );
    }
    unite(all)
}

fn unite(mut all: Vec<Ink>) -> Vec<Ink> {
    by_number(&mut all, |i| i.from);
    let mut united: Vec<Ink> = Vec::with_capacity(all.len());
    for ink in all {
        match united.last_mut() {
            Some(last) if ink.from <= last.to + TOUCH => {
                last.to = last.to.max(ink.to);
                for id in ink.letters {
                    if !last.letters.contains(&id) {
                        last.letters.push(id);
                    }
                }
            }
            _ => united.push(ink),
        }
    }
    united
}

/// Ink and white by turns, from end to end of the line.
fn intervals(inks: &[Ink], length: f64) -> Vec<Interval> {
    let mut out = Vec::with_capacity(2 * inks.len() + 1);
    let mut at = 0.0;
    let mut before: &[ItemId] = &[];
    for ink in inks {
        if ink.from > at + TOUCH {
            out.push(white(at, ink.from, before, &ink.letters, before.is_empty()));
        }
        let (from, to) = (ink.from.max(0.0), ink.to.min(length));
        out.push(Interval {
            ink: true,
            start: from,
            length: to - from,
            open: ink.from < -TOUCH || ink.to > length + TOUCH,
            letters: ink.letters.clone(),
        });
        (at, before) = (to, &ink.letters);
    }
    if length > at + TOUCH {
        out.push(white(at, length, before, &[], true));
    }
    out
}

fn white(from: f64, to: f64, before: &[ItemId], after: &[ItemId], open: bool) -> Interval {
    let mut letters = before.to_vec();
    letters.extend(after.iter().filter(|id| !before.contains(id)));
    Interval {
        ink: false,
        start: from,
        length: to - from,
        open,
        letters,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::testing::{self, stage};

    fn read_at(
        stage: &crate::stage::Stage,
        from: (f64, f64),
        to: (f64, f64),
    ) -> Vec<(bool, f64, bool)> {
        let line = Calliper {
            from: from.into(),
            to: to.into(),
        };
        let r = read(&line, &stage.standings());
        let sum: f64 = r.intervals.iter().map(|i| i.length).sum();
        assert!((sum - r.length).abs() < 1e-9, "the intervals fill the line");
        assert!(
            r.intervals.windows(2).all(|w| w[0].ink != w[1].ink),
            "by turns"
        );
        r.intervals
            .iter()
            .map(|i| (i.ink, (i.length * 1e6).round() / 1e6, i.open))
            .collect()
    }

    #[test]
    fn across_an_h() {
        // Stems 50..150 and 450..550 of 700, bar 300..400, advance 600.
        let s = stage("H");
        assert_eq!(
            read_at(&s, (0.0, 100.0), (600.0, 100.0)),
            [
                (false, 50.0, true),
                (true, 100.0, false),
                (false, 300.0, false),
                (true, 100.0, false),
                (false, 50.0, true)
            ]
        );
        assert_eq!(
            read_at(&s, (100.0, 350.0), (500.0, 350.0)),
            [(true, 400.0, true)]
        );
        assert_eq!(
            read_at(&s, (300.0, 700.0), (300.0, 0.0)),
            [
                (false, 300.0, true),
                (true, 100.0, false),
                (false, 300.0, true)
            ]
        );
    }

    #[test]
    fn white_between_letters_knows_its_neighbours() {
        let s = stage("HH");
        let line = Calliper {
            from: (500.0, 100.0).into(),
            to: (700.0, 100.0).into(),
        };
        let r = read(&line, &s.standings());
        let white = r.intervals.iter().find(|i| !i.ink).unwrap();
        assert!((white.length - 100.0).abs() < 1e-9 && !white.open);
        assert_eq!(white.letters, [0, 1]);
    }

    #[test]
    fn laid_over_letters_are_one_ink() {
        let mut s = stage("HI");
        // I is a stem of 50..150: over H's left stem, 30 to its right.
        s.run(testing::place(1, 30.0)).unwrap();
        let got = read_at(&s, (0.0, 100.0), (300.0, 100.0));
        assert_eq!(
            got,
            [
                (false, 50.0, true),
                (true, 130.0, false),
                (false, 120.0, true)
            ]
        );
    }

    #[test]
    fn a_disc_is_read_along_any_diameter() {
        // A disc of radius 350 about (400, 350).
        let s = stage("O");
        for degrees in [0, 17, 45, 90, 133, 180, 251] {
            let u = Vec2::from_angle(f64::from(degrees).to_radians());
            let m = Point::new(400.0, 350.0);
            let got = read_at(&s, (m - 500.0 * u).into(), (m + 500.0 * u).into());
            assert_eq!(got.len(), 3);
            assert!((got[1].1 - 700.0).abs() < 0.1, "{degrees}: {}", got[1].1);
        }
    }

    #[test]
    fn mirrored_and_turned_letters_are_read_as_they_stand() {
        use crate::stage::command::Command;
        // L: stem 50..150, foot 0..100 to 450.
        let mut s = stage("L");
        let upright = |s: &crate::stage::Stage| read_at(s, (400.0, -10.0), (400.0, 710.0));
        assert_eq!(upright(&s)[1], (true, 100.0, false));
        s.run(Command::SelectAll).unwrap();
        s.run(Command::Mirror).unwrap();
        assert_eq!(upright(&s)[1], (true, 700.0, false));
        s.run(Command::Turn).unwrap();
        let turned = upright(&s);
        assert_eq!(turned[0], (false, 610.0, true));
        assert_eq!(turned[1], (true, 100.0, false));
    }

    #[test]
    fn a_line_of_no_length_reads_nothing() {
        let s = stage("H");
        assert!(read_at(&s, (100.0, 100.0), (100.0, 100.0)).is_empty());
    }

    #[test]
    fn snapping() {
        let o = Point::ORIGIN;
        assert_eq!(
            snapped(o, Point::new(100.0, 2.0), false),
            Point::new(100.0, 0.0)
        );
        assert_eq!(
            snapped(o, Point::new(2.0, -100.0), false),
            Point::new(0.0, -100.0)
        );
        let slanted = Point::new(100.0, 20.0);
        assert_eq!(snapped(o, slanted, false), slanted);
        assert_eq!(snapped(o, slanted, true), Point::new(100.0, 0.0));
    }

    #[test]
    fn turning_keeps_the_middle_and_the_length() {
        let c = Calliper {
            from: Point::new(0.0, 0.0),
            to: Point::new(30.0, 40.0),
        };
        let level = c.turned(Lie::Level);
        assert_eq!(
            (level.from, level.to),
            (Point::new(-10.0, 20.0), Point::new(40.0, 20.0))
        );
        let upright = level.turned(Lie::Upright);
        assert_eq!(
            (upright.from, upright.to),
            (Point::new(15.0, -5.0), Point::new(15.0, 45.0))
        );
    }
}
