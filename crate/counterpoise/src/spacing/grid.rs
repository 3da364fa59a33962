//! The heights at which the sides of all letters of a font are read: one ladder
//! of levels for the whole font, so that two letters' sides can be added level
//! by level. Font units.

use crate::judge::scale;
use crate::measure::{Context, GuideKind};
use std::ops::Range;

/// Levels between baseline and cap height. With half as many a hairline serif
/// falls between two levels; with twice as many nothing comes out otherwise.
const TO_CAP_HEIGHT: usize = 64;

/// Levels below the baseline: a third of the cap height, where most descenders end.
const BELOW: usize = 21;

/// Levels of the ladder: up to a sixth above the cap height, where most
/// ascenders end. What reaches further is not seen from the side.
pub const LEVELS: usize = BELOW + TO_CAP_HEIGHT + 11;

/// The ladder of levels, and what it is read against.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// The cap height as drawn, or what stands in for it: lengths that depend on
    /// the size of the letters are shares of it.
    pub height: f64,
    /// The x-height as drawn, or what a x-height commonly is beside the cap height.
    pub x_height: f64,
    /// Run of the uprights to the right for each unit up.
    pub lean: f64,
}

impl Grid {
    /// The ladder of a font.
    pub fn of(context: &Context) -> Self {
        /// A common x-height, as a share of the cap height (common practice, no source).
        const X_HEIGHT: f64 = 0.7;
        let height = scale(context);
        let drawn = context.drawn(GuideKind::XHeight);
        Self {
            height,
            x_height: drawn
                .filter(|&x| x > 0.0 && x < 1.1 * height)
                .unwrap_or(X_HEIGHT * height),
            lean: context.slant.to_radians().tan(),
        }
    }

    /// Distance between two levels.
    pub fn step(&self) -> f64 {
        self.height / TO_CAP_HEIGHT as f64
    }

    /// Height of a level: the middle of its strip.
    pub fn y(&self, level: usize) -> f64 {
        (level as f64 - BELOW as f64 + 0.5) * self.step()
    }

    /// The levels whose strips' middles lie between two heights.
    pub fn levels(&self, from: f64, to: f64) -> Range<usize> {
        let at = |y: f64| {
            let level = (y / self.step() - 0.5).ceil() + BELOW as f64;
            level.clamp(0.0, LEVELS as f64) as usize
        };
        let (a, b) = (at(from), at(to));
        a..b.max(a)
    }

    /// The band in which the eye takes a letter's sides: to the x-height for the
    /// lower case, to the cap height for capitals and figures, from the foot to
    /// the top of its ink for all else.
    pub fn band(&self, c: Option<char>, foot: f64, top: f64) -> Range<usize> {
        match c {
            Some(c) if c.is_lowercase() => self.levels(0.0, self.x_height),
            Some(c) if c.is_uppercase() || c.is_ascii_digit() => self.levels(0.0, self.height),
            _ => self.levels(foot, top),
        }
    }

    /// Where a place of a slanted letter lies once the letter stands upright,
    /// sheared about half the cap height, where its sides meet its neighbours'.
    pub fn upright(&self, x: f64, y: f64) -> f64 {
        x - self.lean * (y - 0.5 * self.height)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GRID: Grid = Grid {
        height: 640.0,
        x_height: 480.0,
        lean: 0.0,
    };

    #[test]
    fn the_baseline_and_the_cap_height_lie_between_levels() {
        assert_eq!(GRID.levels(0.0, 640.0), BELOW..BELOW + TO_CAP_HEIGHT);
        assert_eq!(GRID.y(BELOW), 5.0);
        assert_eq!(GRID.levels(0.0, 480.0).len(), 48);
    }

    #[test]
    fn what_lies_beyond_the_ladder_has_no_levels() {
        assert_eq!(GRID.levels(5000.0, 9000.0).len(), 0);
        assert_eq!(GRID.levels(f64::NEG_INFINITY, f64::INFINITY).len(), LEVELS);
        assert_eq!(GRID.levels(f64::NAN, f64::NAN).len(), 0);
        assert_eq!(GRID.levels(300.0, 100.0).len(), 0);
    }
}
