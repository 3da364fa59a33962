//! Drawing: how a letter's outline is drawn, point by point.

mod points;

pub use points::Points;
