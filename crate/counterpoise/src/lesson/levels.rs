//! Level strokes on an upright line through a letter, and a map of heights that
//! gives stretches of it new lengths.

use crate::outline::{Outline, Ray};
use crate::redraw::Warp;

/// Where on the letter's width an upright line is tried, from the middle out.
pub(super) const MIDDLE: [f64; 9] = [0.5, 0.46, 0.54, 0.42, 0.58, 0.38, 0.62, 0.34, 0.66];

/// The first of some columns of a letter (shares of its width) whose ink is so many
/// stretches, from the lowest up.
pub(super) fn column(
    outline: &Outline,
    shares: &[f64],
    stretches: usize,
) -> Option<(f64, Vec<(f64, f64)>)> {
    let b = outline.bounds()?;
    shares.iter().find_map(|share| {
        let x = b.x0 + share * b.width();
        let found = self::stretches(outline, x);
        (found.len() == stretches).then_some((x, found))
    })
}

/// The stretch of ink on an upright line that holds a height.
pub(super) fn through(outline: &Outline, x: f64, y: f64) -> Option<(f64, f64)> {
    let all = stretches(outline, x);
    all.into_iter().find(|s| s.0 <= y && s.1 >= y)
}

/// All stretches of ink on an upright line, from the lowest up.
pub(super) fn stretches(outline: &Outline, x: f64) -> Vec<(f64, f64)> {
    let (mut scratch, mut spans) = (Vec::new(), Vec::new());
    outline.spans(&Ray::upright(x), &mut scratch, &mut spans);
    spans.iter().map(|s| (s.from.s, s.to.s)).collect()
}

/// A stretch of heights and the length it is to have.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Stretch {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) length: f64,
}

/// A map of `lo..hi` onto itself in which each stretch takes its new length, and
/// what lies between gives way by one share. `None` where there is too little.
pub(super) fn relengthen(lo: f64, hi: f64, stretches: &[Stretch]) -> Option<Warp> {
    /// What is between keeps at least this share of its own length.
    const LEAST: f64 = 0.2;
    let own: f64 = stretches.iter().map(|s| s.to - s.from).sum();
    let asked: f64 = stretches.iter().map(|s| s.length).sum();
    let free = (hi - lo) - own;
    let left = (hi - lo) - asked;
    if free <= 0.0 || left < LEAST * free {
        return None;
    }
    let share = left / free;
    let mut knots = vec![(lo, lo)];
    let (mut at, mut to) = (lo, lo);
    for s in stretches {
        to += (s.from - at) * share;
        knots.push((s.from, to));
        to += s.length;
        knots.push((s.to, to));
        at = s.to;
    }
    knots.push((hi, to + (hi - at) * share));
    Some(Warp::new(knots))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn stretches_take_their_lengths_and_the_ends_stay() {
        let bar = Stretch {
            from: 300.0,
            to: 360.0,
            length: 100.0,
        };
        let warp = relengthen(0.0, 700.0, &[bar]).unwrap();
        assert!((warp.at(360.0) - warp.at(300.0) - 100.0).abs() < 1e-9);
        assert_eq!((warp.at(0.0), warp.at(700.0)), (0.0, 700.0));
        let all = Stretch {
            length: 690.0,
            ..bar
        };
        assert_eq!(relengthen(0.0, 700.0, &[all]), None);
    }
}
