//! A picture blurred by a Gaussian.

use super::grid::Grid;
use kurbo::{Point, Rect};

/// Variance of a pixel's own box, square pixels: coverage has been blurred by
/// that much already.
const PIXEL_VARIANCE: f64 = 1.0 / 12.0;

/// A line of letters as an eye sees it that does not make out the strokes.
#[derive(Debug, Clone, PartialEq)]
pub struct Blurred {
    /// Pixels across.
    pub width: usize,
    /// Pixels down.
    pub height: usize,
    /// Font units a pixel.
    pub pixel: f64,
    /// The upper left corner of the picture, font units (y up).
    pub origin: Point,
    /// Share of ink of every pixel, 0 to 1, row by row from the top.
    pub ink: Vec<f32>,
}

impl Blurred {
    /// All the ink, square font units.
    pub fn total_ink(&self) -> f64 {
        self.ink.iter().map(|&v| f64::from(v)).sum::<f64>() * self.pixel * self.pixel
    }

    /// The darkest spot inside a box, font units; 0 outside the picture.
    pub(super) fn peak(&self, place: Rect) -> f64 {
        // A pixel belongs to the box that its middle lies in.
        let cells = |from: f64, to: f64, most: usize| {
            let cell = |v: f64| ((v - 0.5).ceil().max(0.0) as usize).min(most);
            cell(from)..cell(to)
        };
        let (x, y) = (self.origin.x, self.origin.y);
        let columns = cells(
            (place.x0 - x) / self.pixel,
            (place.x1 - x) / self.pixel,
            self.width,
        );
        let rows = cells(
            (y - place.y1) / self.pixel,
            (y - place.y0) / self.pixel,
            self.height,
        );
        let mut darkest = (0.0_f32, 0, 0);
        for row in rows {
            for column in columns.clone() {
                let ink = self.ink[row * self.width + column];
                if ink > darkest.0 {
                    darkest = (ink, column, row);
                }
            }
        }
        self.crest(darkest.1, darkest.2)
    }

    /// The crest of the parabolas through a pixel and those beside, above and
    /// below it: the true peak lies between pixels.
    fn crest(&self, column: usize, row: usize) -> f64 {
        let at = |column: usize, row: usize| f64::from(self.ink[row * self.width + column]);
        let middle = at(column, row);
        if column == 0 || row == 0 || column + 1 >= self.width || row + 1 >= self.height {
            return middle;
        }
        let rise = |before: f64, after: f64| {
            let bend = 2.0 * middle - before - after;
            // At a box's edge the ink may still rise outwards.
            if bend > 0.0 && before.max(after) <= middle {
                (before - after).powi(2) / (8.0 * bend)
            } else {
                0.0
            }
        };
        let across = rise(at(column - 1, row), at(column + 1, row));
        let down = rise(at(column, row - 1), at(column, row + 1));
        (middle + across + down).min(1.0)
    }
}

/// A Gaussian's weights: their middle one, and those to one side of it. All
/// together are 1, so that no ink is lost or won.
#[derive(Debug, Clone)]
pub(super) struct Kernel {
    middle: f32,
    side: Vec<f32>,
}

impl Kernel {
    /// For a standard deviation in font units.
    pub(super) fn new(sigma: f64, grid: &Grid) -> Self {
        let variance = (sigma / grid.pixel).powi(2) - PIXEL_VARIANCE;
        if variance <= 0.0 {
            return Self {
                middle: 1.0,
                side: Vec::new(),
            };
        }
        // The grid's reach is one pixel more than the kernel's.
        let side: Vec<f64> = (1..grid.reach)
            .map(|k| (-0.5 * (k as f64).powi(2) / variance).exp())
            .collect();
        let whole = 1.0 + 2.0 * side.iter().sum::<f64>();
        Self {
            middle: (1.0 / whole) as f32,
            side: side.iter().map(|v| (v / whole) as f32).collect(),
        }
    }

    /// How far it reaches, pixels.
    pub(super) fn reach(&self) -> usize {
        self.side.len()
    }

    /// Blurs along one line of pixels, beyond whose ends all is white.
    /// `padded` is scratch.
    pub(super) fn along(&self, line: &[f32], padded: &mut Vec<f32>, into: &mut [f32]) {
        let (n, reach) = (line.len(), self.side.len());
        padded.clear();
        padded.resize(n + 2 * reach, 0.0);
        padded[reach..reach + n].copy_from_slice(line);
        scaled(self.middle, line, into);
        for (k, &weight) in (1..).zip(&self.side) {
            let (before, after) = (&padded[reach - k..][..n], &padded[reach + k..][..n]);
            for ((out, a), b) in into.iter_mut().zip(before).zip(after) {
                *out += weight * (a + b);
            }
        }
    }

    /// Blurs a picture, first down its columns, then along its rows.
    pub(super) fn picture(&self, ink: &[f32], grid: &Grid) -> Blurred {
        let (width, height) = (grid.width, grid.height);
        let row = |y: usize| &ink[y * width..][..width];
        let mut out = vec![0.0; width * height];
        let (mut down, mut padded) = (vec![0.0; width], Vec::new());
        for (y, into) in out.chunks_exact_mut(width).enumerate() {
            scaled(self.middle, row(y), &mut down);
            for (k, &weight) in (1..).zip(&self.side) {
                let above = y.checked_sub(k);
                let below = Some(y + k).filter(|&y| y < height);
                for line in [above, below].into_iter().flatten().map(row) {
                    for (sum, v) in down.iter_mut().zip(line) {
                        *sum += weight * v;
                    }
                }
            }
            self.along(&down, &mut padded, into);
        }
        Blurred {
            width,
            height,
            pixel: grid.pixel,
            origin: grid.origin,
            ink: out,
        }
    }
}

fn scaled(weight: f32, line: &[f32], into: &mut [f32]) {
    for (out, v) in into.iter_mut().zip(line) {
        *out = weight * v;
    }
}
