//! The ink of an SVG drawing (SVG 1.1 and 2: shapes, groups, transforms, uses,
//! fills, strokes).
//!
//! # Method and limits
//! The drawing is written anew with its shapes alone (`clean`), which bounds it
//! and leaves no script, reference or picture in it; then usvg resolves styles,
//! units and transforms, and the ink is taken shape by shape (`ink`). usvg keeps
//! single-precision coordinates: a point at 2048 is known within 0.0002. White
//! is paper. Clips, masks, dashes and markers are not read.

mod clean;
mod ink;
mod reach;

pub(crate) use clean::check_depth;

use crate::{DrawingError, Note};
use counterpoise::outline::Outline;

/// A drawing's ink: y runs up, one unit is one of the drawing's own.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheet {
    /// The ink of each shape, in painting order.
    pub shapes: Vec<Outline>,
    /// What the lab's own sheets say of themselves: the baseline is then at 0.
    pub own: Option<Own>,
    /// What was left out.
    pub notes: Vec<Note>,
}

/// What the lab's own sheets say of themselves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Own {
    /// Units per em; one unit of the drawing is one of these.
    pub units_per_em: f64,
    /// The letter's advance width.
    pub advance: f64,
}

/// Reads a drawing.
///
/// # Errors
/// If it is no SVG, or none that could be a few letters.
pub fn read(text: &str) -> Result<Sheet, DrawingError> {
    let cleaned = clean::clean(text)?;
    ink::ink(cleaned)
}

#[cfg(test)]
mod tests;
