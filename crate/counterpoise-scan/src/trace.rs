//! How far a drawn outline lies from the ink that it was traced over.

use crate::edge::{into_ink, out_of_ink};
use crate::level::Levelled;
use counterpoise::outline::Outline;
use kurbo::{Affine, Point, Vec2};

/// A place of an outline beside the ink.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beside {
    /// The place, font units.
    pub at: Point,
    /// How far the ink's edge lies outside the outline there, font units: positive
    /// where the ink is larger; `None` where no edge is near.
    pub distance: Option<f64>,
}

/// Walks an outline in steps of some font units and tells how far the ink's edge
/// lies from it, square to it. `to_picture` leads from font units to pixels of
/// the straightened picture, and scales both ways alike; `reach` is how far is
/// looked, font units.
pub fn beside(
    levelled: &Levelled,
    outline: &Outline,
    to_picture: Affine,
    step: f64,
    reach: f64,
) -> Vec<Beside> {
    /// Places told at most: one a pixel of the largest letter.
    const MOST: usize = 20_000;
    let scale = to_picture.determinant().abs().sqrt();
    if !(scale.is_finite() && scale > 0.0 && step > 0.0) {
        return Vec::new();
    }
    // Ink lies left of an anticlockwise contour.
    let side = if outline.signed_area() >= 0.0 {
        1.0
    } else {
        -1.0
    };
    let mut all = Vec::new();
    for segment in outline.segments() {
        let count = (segment.length() / step).ceil().clamp(1.0, 1000.0) as u32;
        for k in 0..count {
            if all.len() >= MOST {
                return all;
            }
            let t = (f64::from(k) + 0.5) / f64::from(count);
            let (at, along) = (segment.at(t), segment.tangent(t));
            let outward = Vec2::new(along.y, -along.x) * side;
            let from = to_picture * at;
            let way = to_picture * (at + outward) - from;
            let way = way / way.hypot();
            let inked = levelled.grey.at(from.x, from.y) < levelled.edge;
            let found = if inked {
                out_of_ink(levelled, from, way, reach * scale)
            } else {
                into_ink(levelled, from, -way, reach * scale).map(|d| -d)
            };
            all.push(Beside {
                at,
                distance: found.map(|d| d / scale),
            });
        }
    }
    all
}
