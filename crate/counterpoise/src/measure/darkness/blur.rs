//! A picture blurred by a Gaussian.

use super::grid::Grid;
use kurbo::Point;

/// Variance of a pixel's own box, square pixels: whatever is given pixel by
/// pixel as shares of them has been blurred by that much already.
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
}

/// A Gaussian's weights: their middle one, and those to one side of it. All
/// together are 1, so that no ink is lost or won.
#[derive(Debug, Clone)]
pub(super) struct Kernel {
    middle: f32,
    side: Vec<f32>,
}

impl Kernel {
    /// For a standard deviation in font units, of which the pixels' boxes have
    /// done their part `boxes` times.
    pub(super) fn new(sigma: f64, grid: &Grid, boxes: u32) -> Self {
        let variance = (sigma / grid.pixel).powi(2) - f64::from(boxes) * PIXEL_VARIANCE;
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
