//! What a suggested change would look like before anyone draws it.
//!
//! A preview keeps the artist's points and handles and moves them: strokes keep
//! their thickness where a letter is made wider ([`widen`]), and the letter its
//! size where the strokes are made thicker ([`reweigh`]). It is a sketch to
//! draw over, never a finished letter, and [`svg`] says so in the file.

mod embolden;
mod overshoot;
mod shift;
mod sketch;
mod smooth;
mod svg;
mod warp;
mod weight;
mod widen;

pub use embolden::embolden;
pub use overshoot::reach;
pub use sketch::{Change, Sketch, Unable, Which, sketch};
pub use smooth::{SMOOTH, straighten};
pub use svg::{SvgSheet, svg};
pub use warp::Warp;
pub use weight::reweigh;
pub use widen::widen;

use crate::measure::strokes::Thickness;
use kurbo::Affine;

/// From where to where a mark reaches sideways, once the letter stands upright;
/// `lean` is the tangent of the font's slant.
fn across(m: &Thickness, lean: f64) -> (f64, f64) {
    let (a, b) = (m.from.x - m.from.y * lean, m.to.x - m.to.y * lean);
    (a.min(b), a.max(b))
}

/// Leans what stands upright.
fn shear(lean: f64) -> Affine {
    Affine::new([1.0, 0.0, lean, 1.0, 0.0, 0.0])
}
