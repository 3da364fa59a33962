//! What of a side's shape its bearing is expected from: shares of the cap
//! height, the same figures for every side of every letter.

use super::grid::{Grid, LEVELS};
use super::side::{Side, Sides};
use std::ops::Range;

/// Depths to which the white behind the foremost ink is averaged over the band.
/// Shallow ones tell a flat side from a bowed one, deep ones an open one.
const DEPTHS: [f64; 7] = [0.03, 0.06, 0.1, 0.15, 0.2, 0.3, 0.45];

/// The depth to which each third of the band is averaged.
const OF_THIRDS: f64 = 0.2;

/// Figures of one side.
pub const SIDE_FIGURES: usize = DEPTHS.len() + 3;

/// The figures of a side that tell it among those of one letter in many fonts:
/// the white to a fifth of the height, over all and in each third.
pub(super) const BRIEF_FIGURES: usize = 4;

/// Mean white behind the foremost ink to each of the depths, then in the lower,
/// middle and upper third of the band; shares of the cap height.
pub fn side_figures(side: &Side, letter: &Sides, grid: &Grid) -> [f64; SIDE_FIGURES] {
    let mut all = [0.0; SIDE_FIGURES];
    let band = letter.band.clone();
    for (to, deepest) in all.iter_mut().zip(DEPTHS) {
        *to = mean(&side.depth, band.clone(), deepest * grid.height) / grid.height;
    }
    for (third, to) in all[DEPTHS.len()..].iter_mut().enumerate() {
        let at = |i: usize| band.start + i * band.len() / 3;
        *to = mean(
            &side.depth,
            at(third)..at(third + 1),
            OF_THIRDS * grid.height,
        ) / grid.height;
    }
    all
}

/// Of [`side_figures`], those that tell a side among those of its letter.
pub(super) fn brief(all: &[f64; SIDE_FIGURES]) -> [f64; BRIEF_FIGURES] {
    [all[4], all[7], all[8], all[9]]
}

fn mean(depth: &[f64; LEVELS], levels: Range<usize>, deepest: f64) -> f64 {
    let count = levels.len();
    if count == 0 {
        return deepest;
    }
    depth[levels].iter().map(|d| d.min(deepest)).sum::<f64>() / count as f64
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::Outline;
    use crate::spacing::sides;
    use kurbo::{BezPath, Rect, Shape};

    #[test]
    fn an_angle_has_its_white_above() {
        let grid = Grid {
            height: 640.0,
            x_height: 480.0,
            lean: 0.0,
        };
        let mut l: BezPath = Rect::new(50.0, 0.0, 130.0, 640.0).to_path(0.1);
        l.extend(Rect::new(50.0, 0.0, 530.0, 80.0).to_path(0.1));
        let s = sides(&Outline::from_path(&l), 560.0, Some('L'), &grid).unwrap();
        assert!(side_figures(&s.left, &s, &grid).iter().all(|&f| f == 0.0));
        let right = side_figures(&s.right, &s, &grid);
        // 8 of 64 levels are the foot, the others 400 of 640 deep.
        assert!((right[4] - 0.2 * 56.0 / 64.0).abs() < 1e-12);
        assert!((right[8] - 0.2).abs() < 1e-12 && right[7] < 0.15);
        assert_eq!(brief(&right), [right[4], right[7], right[8], right[9]]);
    }
}
