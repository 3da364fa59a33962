//! The line's ink, and what is read from it.

use super::blur::{Blurred, Kernel};
use super::coverage::Tile;
use super::grid::Grid;
use kurbo::Rect;

/// The most copies of a word's last letter that are imagined beyond it: enough
/// for a body an eighth as wide as the blur reaches.
const MOST_COPIES: usize = 8;

/// A line's coverage, and the ink that word ends are read with.
pub(super) struct Page {
    grid: Grid,
    sigma: f64,
    /// The blur of the windows that bodies are read through: both ink and
    /// window are shares of pixels.
    window_blur: Kernel,
    ink: Vec<f32>,
}

/// The weight that each pixel of an axis has in the mean over a stretch of it,
/// after the blur: the stretch itself, blurred.
struct Window {
    first: isize,
    weights: Vec<f32>,
}

impl Window {
    /// For a stretch from `from` to `to`, in pixels.
    fn new(kernel: &Kernel, from: f64, to: f64) -> Self {
        let reach = kernel.reach();
        let first = from.floor() as isize - reach as isize;
        let cells = (to.ceil() as isize - first) as usize + reach;
        let stretch: Vec<f32> = (first..)
            .take(cells)
            .map(|i| {
                let cell = i as f64;
                ((cell + 1.0).min(to) - cell.max(from)).max(0.0) as f32
            })
            .collect();
        let mut weights = vec![0.0; cells];
        kernel.along(&stretch, &mut Vec::new(), &mut weights);
        Self { first, weights }
    }

    /// The weights of the cells `from..from + n`, and the first such cell.
    fn over(&self, from: usize, n: usize) -> (usize, &[f32]) {
        let start = self.first.clamp(from as isize, (from + n) as isize) as usize;
        let end =
            (self.first + self.weights.len() as isize).clamp(start as isize, (from + n) as isize);
        let skipped = (start as isize - self.first) as usize;
        let count = end as usize - start;
        // A window wholly before the cells leaves nothing to skip to.
        (
            start,
            self.weights.get(skipped..skipped + count).unwrap_or(&[]),
        )
    }
}

impl Page {
    pub(super) fn new(grid: Grid, sigma: f64) -> Self {
        Self {
            window_blur: Kernel::new(sigma, &grid, 2),
            sigma,
            ink: vec![0.0; grid.width * grid.height],
            grid,
        }
    }

    pub(super) fn grid(&self) -> &Grid {
        &self.grid
    }

    /// Adds a letter. Ink on ink is ink.
    pub(super) fn lay(&mut self, tile: &Tile) {
        for (row, ink) in tile.rows() {
            let start = row * self.grid.width + tile.column;
            for (sum, v) in self.ink[start..].iter_mut().zip(ink) {
                *sum = (*sum + v).min(1.0);
            }
        }
    }

    pub(super) fn blurred(&self) -> Blurred {
        Kernel::new(self.sigma, &self.grid, 1).picture(&self.ink, &self.grid)
    }

    /// Mean of the blurred ink over a body, from what is laid.
    pub(super) fn mean(&self, body: Rect) -> f64 {
        let (across, down) = self.windows(body);
        let (column, weights) = across.over(0, self.grid.width);
        let mut sum = 0.0;
        let (first_row, row_weights) = down.over(0, self.grid.height);
        for (row, &weight) in (first_row..).zip(row_weights) {
            let line = &self.ink[row * self.grid.width + column..];
            sum += f64::from(weight) * dot(line, weights);
        }
        sum / self.pixels(body)
    }

    /// What copies of a letter, set on where its word has ended, would add to
    /// the mean over its body.
    pub(super) fn imagined(&self, tile: &Tile, body: Rect, sides: Sides) -> f64 {
        let (_, down) = self.windows(body);
        let (first_row, row_weights) = down.over(tile.row, tile.height());
        let mut profile = vec![0.0_f32; tile.width];
        for (row, ink) in tile.rows() {
            let Some(weight) = row.checked_sub(first_row).and_then(|i| row_weights.get(i)) else {
                continue;
            };
            for (sum, v) in profile.iter_mut().zip(ink) {
                *sum += weight * v;
            }
        }
        let pitch = self.grid.column(body.x1) - self.grid.column(body.x0);
        let from = self.grid.column(body.x0);
        let mut sum = 0.0;
        // A copy on the right darkens the body as the letter itself would one
        // that stood as far on the left.
        for (wanted, side) in [(sides.after, -1.0), (sides.before, 1.0)] {
            if !wanted {
                continue;
            }
            for copy in 1..=MOST_COPIES {
                let at = from + side * copy as f64 * pitch;
                let window = Window::new(&self.window_blur, at, at + pitch);
                let (column, weights) = window.over(tile.column, tile.width);
                if weights.is_empty() {
                    break;
                }
                sum += dot(&profile[column - tile.column..], weights);
            }
        }
        sum / self.pixels(body)
    }

    fn windows(&self, body: Rect) -> (Window, Window) {
        let (grid, kernel) = (&self.grid, &self.window_blur);
        (
            Window::new(kernel, grid.column(body.x0), grid.column(body.x1)),
            Window::new(kernel, grid.row(body.y1), grid.row(body.y0)),
        )
    }

    fn pixels(&self, body: Rect) -> f64 {
        body.area() / (self.grid.pixel * self.grid.pixel)
    }
}

/// On which sides of a letter its word has ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Sides {
    pub(super) before: bool,
    pub(super) after: bool,
}

fn dot(a: &[f32], b: &[f32]) -> f64 {
    a.iter()
        .zip(b)
        .map(|(x, y)| f64::from(*x) * f64::from(*y))
        .sum()
}
