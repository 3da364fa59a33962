//! Bars made as thick as the stem, the letter's height kept.
//!
//! Heights are mapped so that every bar takes its new thickness and all other
//! level strokes keep theirs; the white between gives way. Serifs are level too,
//! but belong to their stems: they keep their thickness.

use super::levels::{MIDDLE, Stretch, column, relengthen, through};
use super::{Class, Done, Drawn, Figure, Nothing, at_height, is_reached, upright};
use crate::measure::strokes::{Stroke, StrokeKind, Thickness};
use crate::outline::Outline;
use crate::redraw::{Unable, straighten};
use kurbo::Point;

/// A bar is at least this share of its letter's width long; shorter level strokes
/// are serifs and terminals.
const LONG: f64 = 0.4;

/// A bar that departs from the stem by less than this share is as thick as it.
const SAME: f64 = 0.005;

pub(super) fn take_out(drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    let stem = stem(drawn, class).ok_or(Unable::NoStrokes)?;
    let bars = bars(drawn, class);
    if bars.is_empty() {
        return Err(Unable::NoStrokes.into());
    }
    if bars
        .iter()
        .all(|m| (thickness(m) / stem - 1.0).abs() < SAME)
    {
        return Err(Nothing::Without);
    }
    let wanted = |m: &Thickness| {
        let own = thickness(m);
        own + out * (stem - own)
    };
    set(drawn, class, &bars, stem, wanted)
}

/// The stem that the letter's bars are held against: its own, else the font's.
pub(super) fn stem(drawn: &Drawn, class: &Class) -> Option<f64> {
    let b = drawn.letter.bounds?;
    drawn
        .letter
        .strokes
        .iter()
        .filter(|s| s.kind == StrokeKind::Stem && s.length >= 0.5 * b.height())
        .map(|s| s.median)
        .reduce(f64::max)
        .or_else(|| class.stem(drawn.character))
}

/// The level extent of a mark across a level stroke.
fn thickness(m: &Thickness) -> f64 {
    (m.to.y - m.from.y).abs()
}

/// Columns where arms have no serif any more and no stem yet, and how many bars
/// they pass: shares of the letter's width.
fn columns(character: char) -> Option<(&'static [f64], usize)> {
    match character {
        'E' => Some((&MIDDLE, 3)),
        'F' => Some((&MIDDLE, 2)),
        'H' => Some((&MIDDLE, 1)),
        'L' => Some((&[0.6, 0.55, 0.65, 0.7], 1)),
        'T' => Some((&[0.3, 0.25, 0.7, 0.2], 1)),
        _ => None,
    }
}

/// A level stretch of ink thicker than this share of the height is no bar.
const THICKEST: f64 = 0.35;

/// The letter's bars, each where it was measured, from the lowest up. Straight arms
/// that end in serifs taper, so those of the capitals are read on a column; other
/// bars are the letter's level strokes.
pub(super) fn bars(drawn: &Drawn, class: &Class) -> Vec<Thickness> {
    let Some(b) = drawn.letter.bounds else {
        return Vec::new();
    };
    if let Some((shares, count)) = columns(drawn.character) {
        let Some((x, found)) = column(&drawn.outline, shares, count) else {
            return Vec::new();
        };
        if found.iter().any(|s| s.1 - s.0 > THICKEST * b.height()) {
            return Vec::new();
        }
        let mark = |s: &(f64, f64)| Thickness {
            value: s.1 - s.0,
            from: Point::new(x, s.0),
            to: Point::new(x, s.1),
        };
        return found.iter().map(mark).collect();
    }
    let lean = class.lean();
    let mut bars: Vec<Thickness> = drawn
        .letter
        .strokes
        .iter()
        .filter(|s| s.kind == StrokeKind::Bar && s.length >= LONG * b.width())
        .filter_map(|s| s.marks.first().copied())
        .filter(|m| m.runs_level(lean))
        .collect();
    crate::order::by_number(&mut bars, |m| m.centre().y);
    bars.dedup_by(|a, b| overlap(&extent(a), &extent(b)));
    bars
}

fn extent(m: &Thickness) -> (f64, f64) {
    (m.from.y.min(m.to.y), m.from.y.max(m.to.y))
}

fn overlap(a: &(f64, f64), b: &(f64, f64)) -> bool {
    a.0 < b.1 && b.0 < a.1
}

/// Gives the bars new thicknesses.
pub(super) fn set(
    drawn: &Drawn,
    class: &Class,
    bars: &[Thickness],
    stem: f64,
    wanted: impl Fn(&Thickness) -> f64,
) -> Result<Done, Nothing> {
    let lean = class.lean();
    let mut stretches: Vec<Stretch> = bars
        .iter()
        .map(|m| Stretch {
            from: extent(m).0,
            to: extent(m).1,
            length: wanted(m),
        })
        .collect();
    // Every other level stroke keeps its own.
    let others = drawn.letter.strokes.iter().filter(|s| is_level(s));
    for m in others.flat_map(|s| &s.marks).filter(|m| m.runs_level(lean)) {
        let (from, to) = extent(m);
        if to > from
            && stretches
                .iter()
                .all(|s| !overlap(&(s.from, s.to), &(from, to)))
        {
            stretches.push(Stretch {
                from,
                to,
                length: to - from,
            });
        }
    }
    crate::order::by_number(&mut stretches, |s| s.from);
    let (outline, inks) = laid(drawn, class, bars, &mut stretches, &wanted)?;
    let mut figures = vec![Figure::units("stem", stem, stem)];
    let (mut was, mut is) = (Vec::new(), Vec::new());
    for (m, (low, high)) in bars.iter().zip(inks) {
        let (from, to) = extent(m);
        let x = m.centre().x;
        figures.push(Figure::units("bar", to - from, high - low));
        figures.push(Figure::percent(
            "bar, of the stem",
            100.0 * (to - from) / stem,
            100.0 * (high - low) / stem,
        ));
        was.push((Point::new(x, from), Point::new(x, to)));
        is.push((Point::new(x, low), Point::new(x, high)));
    }
    Ok(Done {
        outline,
        figures,
        was,
        is,
    })
}

/// Rounds of mending: an edge that is not quite level moves a little less, or more,
/// than its stretch of heights.
const ROUNDS: usize = 6;

/// The outline with its stretches relengthened until every bar is as thick as
/// wanted, and the ink of each bar.
fn laid(
    drawn: &Drawn,
    class: &Class,
    bars: &[Thickness],
    stretches: &mut [Stretch],
    wanted: &impl Fn(&Thickness) -> f64,
) -> Result<(Outline, Vec<(f64, f64)>), Nothing> {
    let b = drawn.letter.bounds.ok_or(Unable::NoInk)?;
    for _ in 0..ROUNDS {
        let warp = relengthen(b.y0, b.y1, stretches).ok_or(Unable::NoRoom)?;
        let moved = |o: &Outline| Ok::<_, Unable>(straighten(o, &warp.along(o)));
        let outline = at_height(upright(&drawn.outline, class.lean(), moved)?, b);
        let inks = bars
            .iter()
            .map(|m| through(&outline, m.centre().x, warp.at(m.centre().y)))
            .collect::<Option<Vec<_>>>()
            .ok_or(Unable::OutOfReach)?;
        let reached = |(m, ink): (&Thickness, &(f64, f64))| is_reached(ink.1 - ink.0, wanted(m));
        if bars.iter().zip(&inks).all(reached) {
            return Ok((outline, inks));
        }
        for (m, ink) in bars.iter().zip(&inks) {
            if let Some(s) = stretches.iter_mut().find(|s| s.from == extent(m).0) {
                s.length = (s.length + wanted(m) - (ink.1 - ink.0)).max(0.0);
            }
        }
    }
    Err(Unable::OutOfReach.into())
}

fn is_level(s: &Stroke) -> bool {
    matches!(s.kind, StrokeKind::Bar | StrokeKind::Curve)
}
