//! Stems and widths read from the ink of a scan or a photo, before anyone traces it.
//!
//! | file | question it answers |
//! |---|---|
//! | [`decode`] | what picture is in these bytes, within bounds? |
//! | [`level`] | what is paper and what is ink, on uneven paper? |
//! | [`straighten`] | how does the picture stand upright? |
//! | [`edge`] | where exactly does the ink end? |
//! | [`distance`] | how far is each place in the ink from the paper? |
//! | [`strokes`] | how thick are the strokes, and where? |
//! | [`letters`] | which ink is which letter, in font units? |
//! | [`trace`] | how far does a drawn outline lie from the ink? |
//!
//! Places in a picture are in pixels, x to the right and y down, the middle of
//! the first pixel at (0.5, 0.5).

pub mod decode;
pub mod distance;
pub mod edge;
mod error;
pub mod letters;
pub mod level;
pub mod straighten;
pub mod strokes;
pub mod trace;

pub use error::ScanError;

/// A picture in shades of grey: 0 black, 255 white.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Grey {
    /// Columns.
    pub width: usize,
    /// Rows.
    pub height: usize,
    /// Row after row, from the top.
    pub pixels: Vec<u8>,
}

impl Grey {
    /// The shade at a place, between the middles of the four pixels around it.
    /// Beyond the border the border goes on.
    pub fn at(&self, x: f64, y: f64) -> f64 {
        let (x, y) = (x - 0.5, y - 0.5);
        let clamp = |v: f64, n: usize| v.clamp(0.0, (n - 1) as f64);
        let (x, y) = (clamp(x, self.width), clamp(y, self.height));
        let (i, j) = (x as usize, y as usize);
        let (fx, fy) = (x - i as f64, y - j as f64);
        let (k, l) = ((i + 1).min(self.width - 1), (j + 1).min(self.height - 1));
        let p = |i: usize, j: usize| f64::from(self.pixels[j * self.width + i]);
        let top = p(i, j) * (1.0 - fx) + p(k, j) * fx;
        let foot = p(i, l) * (1.0 - fx) + p(k, l) * fx;
        top * (1.0 - fy) + foot * fy
    }
}
