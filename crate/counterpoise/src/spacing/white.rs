//! The white between two letters that stand beside each other. Font units.
//!
//! At each level the white is what lies between the facing edges, but no more
//! than so much behind the foremost ink of either letter: what lies deeper
//! belongs to the letter's inside. Where a letter has no ink, it counts as if it
//! were that deep. The levels are those from the baseline to the x-height of two
//! lower-case letters, and to the cap height where a capital or figure takes
//! part; of other signs, those that either reaches through.
//!
//! The [*optical distance*](PairWhite::distance) is what the eye is taken to
//! compare from pair to pair: the harmonic mean of the white over the levels, in
//! which near places count for more than far ones. Held against the kerned pairs
//! of 90 open families, this mean leaves them more even than the plain mean of
//! the area, the geometric one, or higher powers. A depth of 0.15 leaves all
//! pairs a little more even still (by a tenth), but asks 17 thousandths of the
//! cap height too little of T, V, W and Y before lower-case letters, where 0.2
//! asks what their designers gave to within 5.

use super::grid::{Grid, LEVELS};
use super::side::{Side, Sides};
use kurbo::Point;
use std::ops::Range;

/// White further behind a letter's foremost ink than this share of the cap height
/// is not between the letters.
pub const DEEPEST: f64 = 0.2;

/// Below this share of the cap height white is as good as none: letters that
/// touch would else count as infinitely near. The same families are evenest so.
const LEAST: f64 = 0.08;

/// The white between two letters.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PairWhite {
    /// Between the foremost ink of the two; negative where one reaches over the other.
    pub gap: f64,
    /// Mean of the white over the levels, limited in depth.
    pub mean: f64,
    /// Its area, square units.
    pub area: f64,
    /// What the eye is taken to compare: the mean in which near places count more.
    pub distance: f64,
    /// The least white at any level, not limited in depth; `None` where the two
    /// face each other at no level.
    pub least: Option<f64>,
}

/// Sides of a font's letters laid out flat, so that a pair is one pass over two
/// rows of numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Whites {
    grid: Grid,
    left: Vec<Row>,
    right: Vec<Row>,
}

/// One side as pairs need it.
#[derive(Debug, Clone, PartialEq)]
struct Row {
    bearing: f64,
    band: Range<usize>,
    /// Depth at each level, limited.
    depth: [f32; LEVELS],
    /// Which levels have ink at any depth: their true depth, else infinite.
    ink: [f32; LEVELS],
}

impl Row {
    fn of(side: &Side, letter: &Sides, deepest: f64) -> Self {
        let mut row = Self {
            bearing: side.bearing,
            band: letter.band.clone(),
            depth: [deepest as f32; LEVELS],
            ink: [f32::INFINITY; LEVELS],
        };
        for level in 0..LEVELS {
            row.depth[level] = side.depth[level].min(deepest) as f32;
            row.ink[level] = side.depth[level] as f32;
        }
        row
    }
}

impl Whites {
    /// Lays out the sides of some letters; pairs are named by their places here.
    pub fn of<'a>(letters: impl IntoIterator<Item = &'a Sides>, grid: &Grid) -> Self {
        let deepest = DEEPEST * grid.height;
        let (left, right) = letters
            .into_iter()
            .map(|l| (Row::of(&l.left, l, deepest), Row::of(&l.right, l, deepest)))
            .unzip();
        Self {
            grid: *grid,
            left,
            right,
        }
    }

    /// Gives a letter's side another bearing: 0 the left, 1 the right.
    pub fn set_bearing(&mut self, letter: usize, side: usize, bearing: f64) {
        let rows = if side == 0 {
            &mut self.left
        } else {
            &mut self.right
        };
        if let Some(row) = rows.get_mut(letter) {
            row.bearing = bearing;
        }
    }

    /// How many letters there are.
    pub fn len(&self) -> usize {
        self.left.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.left.is_empty()
    }

    /// The bands in which the eye takes two facing sides: pairs of which both are
    /// the same are of one kind, as two capitals.
    pub fn bands(&self, first: usize, second: usize) -> Option<[Range<usize>; 2]> {
        Some([
            self.right.get(first)?.band.clone(),
            self.left.get(second)?.band.clone(),
        ])
    }

    /// The white between two letters set `apart` further than their bearings say;
    /// `None` where there are no such letters, or no levels.
    pub fn pair(&self, first: usize, second: usize, apart: f64) -> Option<PairWhite> {
        let (a, b) = (self.right.get(first)?, self.left.get(second)?);
        let levels = band(a, b);
        if levels.is_empty() {
            return None;
        }
        let gap = a.bearing + b.bearing + apart;
        let count = levels.len() as f64;
        let floor = LEAST * self.grid.height;
        let (mut sum, mut near, mut least) = (0.0, 0.0, f32::INFINITY);
        for level in levels {
            let white = gap + f64::from(a.depth[level] + b.depth[level]);
            sum += white;
            near += 1.0 / white.max(floor);
            least = least.min(a.ink[level] + b.ink[level]);
        }
        Some(PairWhite {
            gap,
            mean: sum / count,
            area: sum * self.grid.step(),
            distance: count / near,
            least: least.is_finite().then(|| gap + f64::from(least)),
        })
    }

    /// How far apart two letters must be set for their optical distance to be
    /// so much: the kern that makes it so.
    pub fn kern_for(&self, first: usize, second: usize, distance: f64) -> Option<f64> {
        /// Newton's step settles in four or five; halving, where it would leave
        /// the bracket, in the rest.
        const STEPS: u32 = 24;
        const CLOSE: f64 = 0.02;
        let (a, b) = (self.right.get(first)?, self.left.get(second)?);
        let levels = band(a, b);
        if levels.is_empty() {
            return None;
        }
        let (count, floor) = (levels.len() as f64, LEAST * self.grid.height);
        let bearings = a.bearing + b.bearing;
        let (mut low, mut high) = (-2.0 * self.grid.height, 2.0 * self.grid.height);
        let mut apart = 0.0;
        for _ in 0..STEPS {
            let (mut near, mut growth) = (0.0, 0.0);
            for (x, y) in a.depth[levels.clone()].iter().zip(&b.depth[levels.clone()]) {
                let white = bearings + apart + f64::from(x + y);
                let inverse = 1.0 / white.max(floor);
                near += inverse;
                growth += if white > floor {
                    inverse * inverse
                } else {
                    0.0
                };
            }
            let is = count / near;
            let off = distance - is;
            if off.abs() < CLOSE {
                break;
            }
            if off > 0.0 {
                low = apart;
            } else {
                high = apart;
            }
            let step = apart + off * count / (is * is * growth);
            apart = if step > low && step < high {
                step
            } else {
                0.5 * (low + high)
            };
        }
        Some(apart)
    }

    /// The outline of the white between two letters, up the first one's edge and
    /// down the second one's, from the first letter's origin; in a slanted face
    /// leaning as the letters do.
    pub fn polygon(&self, first: usize, second: usize, advance: f64, apart: f64) -> Vec<Point> {
        let (Some(a), Some(b)) = (self.right.get(first), self.left.get(second)) else {
            return Vec::new();
        };
        let half = 0.5 * self.grid.step();
        let lean = |x: f64, y: f64| Point::new(2.0 * x - self.grid.upright(x, y), y);
        let edge = |x: f64, level: usize| {
            let y = self.grid.y(level);
            [lean(x, y - half), lean(x, y + half)]
        };
        let levels = band(a, b);
        let up = levels
            .clone()
            .flat_map(|l| edge(advance - a.bearing - f64::from(a.depth[l]), l));
        let down = levels.rev().flat_map(|l| {
            let [low, high] = edge(advance + apart + b.bearing + f64::from(b.depth[l]), l);
            [high, low]
        });
        up.chain(down).collect()
    }
}

/// The levels in which two letters are compared: up to the taller band of the two.
fn band(a: &Row, b: &Row) -> Range<usize> {
    if a.band.is_empty() {
        return b.band.clone();
    }
    if b.band.is_empty() {
        return a.band.clone();
    }
    a.band.start.min(b.band.start)..a.band.end.max(b.band.end)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::Outline;
    use crate::spacing::sides;
    use kurbo::{BezPath, Rect, Shape};

    const GRID: Grid = Grid {
        height: 640.0,
        x_height: 480.0,
        lean: 0.0,
    };

    fn letter(path: &BezPath, advance: f64, c: char) -> Sides {
        sides(&Outline::from_path(path), advance, Some(c), &GRID).unwrap()
    }

    /// A stem, and a stem with a bar on top that reaches over its right.
    fn two() -> Whites {
        let stem = Rect::new(50.0, 0.0, 130.0, 640.0).to_path(0.1);
        let mut gamma = stem.clone();
        gamma.extend(Rect::new(50.0, 560.0, 530.0, 640.0).to_path(0.1));
        Whites::of(
            [&letter(&stem, 180.0, 'I'), &letter(&gamma, 540.0, 'F')],
            &GRID,
        )
    }

    #[test]
    fn the_white_between_stems_is_a_rectangle() {
        let white = two().pair(0, 0, 10.0).unwrap();
        assert!((white.area - 110.0 * 640.0).abs() < 1e-6);
        assert_eq!(
            (white.gap, white.mean, white.least),
            (110.0, 110.0, Some(110.0))
        );
        assert!((white.distance - 110.0).abs() < 1e-9);
    }

    #[test]
    fn white_counts_no_deeper_than_the_limit() {
        // Of 64 levels 8 lie at the bar; behind it the stem is 400 back.
        let white = two().pair(1, 0, 0.0).unwrap();
        let (near, far) = (60.0, 60.0 + DEEPEST * 640.0);
        assert!((white.mean - (8.0 * near + 56.0 * far) / 64.0).abs() < 1e-4);
        let mean = 64.0 / (8.0 / near + 56.0 / far);
        assert!((white.distance - mean).abs() < 1e-4);
        assert_eq!(white.least, Some(60.0));
    }

    #[test]
    fn the_kern_for_a_distance_gives_that_distance() {
        let whites = two();
        let wanted = whites.pair(0, 0, 0.0).unwrap().distance;
        let kern = whites.kern_for(1, 0, wanted).unwrap();
        assert!(kern < 0.0);
        assert!((whites.pair(1, 0, kern).unwrap().distance - wanted).abs() < 0.1);
    }

    #[test]
    fn the_polygon_has_the_area_of_the_white() {
        let whites = two();
        let p = whites.polygon(1, 0, 540.0, -20.0);
        let shoelace: f64 = (0..p.len())
            .map(|i| p[i].to_vec2().cross(p[(i + 1) % p.len()].to_vec2()))
            .sum();
        let area = whites.pair(1, 0, -20.0).unwrap().area;
        assert!(
            (0.5 * shoelace.abs() - area).abs() < 1.0,
            "{shoelace} {area}"
        );
        assert!(whites.polygon(9, 0, 0.0, 0.0).is_empty());
    }

    #[test]
    fn letters_that_touch_are_near_and_not_infinitely_so() {
        let white = two().pair(0, 0, -200.0).unwrap();
        assert_eq!(white.gap, -100.0);
        assert!((white.distance - LEAST * 640.0).abs() < 1e-9);
    }
}
