//! Letters as ink coverage: the share of every pixel that is ink.
//!
//! Coverage is the exact area under the flattened outline, not a count of
//! samples, so a letter's ink does not change as it moves by parts of a pixel.
//! Where contours overlap, a pixel that an edge crosses inside other ink is full.

use super::grid::Grid;
use crate::outline::Outline;
use ab_glyph_rasterizer::{Rasterizer, point};
use kurbo::{Affine, PathEl, Point, Rect, flatten};

/// How far a chord may leave its curve, pixels. On a stroke six pixels thick
/// two edges this far out of place are less than 4 parts in 1,000 of its ink.
const CHORD: f64 = 0.01;

/// Pixels around a letter's box: the accumulation writes one past an edge.
const MARGIN: usize = 2;

/// A letter's coverage, in its own corner of the grid.
#[derive(Debug, Default)]
pub(super) struct Tile {
    /// Its first column and row on the grid.
    pub(super) column: usize,
    pub(super) row: usize,
    pub(super) width: usize,
    /// Row by row; empty if nothing was drawn.
    pub(super) ink: Vec<f32>,
}

impl Tile {
    pub(super) fn height(&self) -> usize {
        self.ink.len() / self.width.max(1)
    }

    /// Its rows, with their place on the grid.
    pub(super) fn rows(&self) -> impl Iterator<Item = (usize, &[f32])> {
        (self.row..).zip(self.ink.chunks_exact(self.width.max(1)))
    }
}

/// Draws letters one by one; holds the memory between them.
pub(super) struct Brush {
    raster: Rasterizer,
    tile: Tile,
}

impl Brush {
    pub(super) fn new() -> Self {
        Self {
            raster: Rasterizer::new(0, 0),
            tile: Tile::default(),
        }
    }

    /// Draws a letter with its origin at `x` on the baseline. `bounds` are the
    /// outline's own; the grid was made to hold them there.
    pub(super) fn draw(&mut self, outline: &Outline, bounds: Rect, x: f64, grid: &Grid) -> &Tile {
        let cell = |v: f64, most: usize| (v.floor().max(0.0) as usize).min(most.saturating_sub(1));
        let column = cell(grid.column(x + bounds.x0), grid.width).saturating_sub(MARGIN);
        let row = cell(grid.row(bounds.y1), grid.height).saturating_sub(MARGIN);
        let past_column = cell(grid.column(x + bounds.x1), grid.width) + MARGIN + 1;
        let past_row = cell(grid.row(bounds.y0), grid.height) + MARGIN + 1;
        let (width, height) = (
            past_column.min(grid.width) - column,
            past_row.min(grid.height) - row,
        );

        self.raster.reset(width, height);
        let to_tile = Affine::new([
            1.0 / grid.pixel,
            0.0,
            0.0,
            -1.0 / grid.pixel,
            grid.column(x) - column as f64,
            grid.row(0.0) - row as f64,
        ]);
        let single = |p: Point| point(p.x as f32, p.y as f32);
        let (mut first, mut at) = (Point::ZERO, Point::ZERO);
        flatten(to_tile * outline.to_bez_path(), CHORD, |el| match el {
            PathEl::MoveTo(p) => (first, at) = (p, p),
            PathEl::LineTo(p) => {
                self.raster.draw_line(single(at), single(p));
                at = p;
            }
            PathEl::ClosePath => {
                self.raster.draw_line(single(at), single(first));
                at = first;
            }
            // Flattening leaves no curves.
            PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
        });

        let tile = &mut self.tile;
        (tile.column, tile.row, tile.width) = (column, row, width);
        tile.ink.clear();
        tile.ink.reserve(width * height);
        self.raster
            .for_each_pixel(|_, cover| tile.ink.push(cover.min(1.0)));
        tile
    }
}
