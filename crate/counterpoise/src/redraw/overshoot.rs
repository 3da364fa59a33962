//! A letter whose top and foot reach further, or less far, with its strokes kept.
//!
//! The strokes at top and foot move whole; what is between gives way.

use super::Unable;
use super::Warp;
use super::smooth::straighten;
use crate::outline::Outline;

/// The share of a letter's height at either end that moves whole: more than the
/// thickest arch of a bold letter, and less than half.
const ZONE: f64 = 0.25;

/// Moves the top up by `top` and the foot down by `foot`, font units; negative,
/// towards the middle.
///
/// # Errors
/// If there is no ink, or the ends would meet.
pub fn reach(outline: &Outline, top: f64, foot: f64) -> Result<Outline, Unable> {
    let b = outline.bounds().ok_or(Unable::NoInk)?;
    let zone = ZONE * b.height();
    // What is between the zones must not be turned over.
    if -(top + foot) >= b.height() - 2.0 * zone {
        return Err(Unable::OutOfReach);
    }
    let warp = Warp::new(vec![
        (b.y0, b.y0 - foot),
        (b.y0 + zone, b.y0 + zone - foot),
        (b.y1 - zone, b.y1 - zone + top),
        (b.y1, b.y1 + top),
    ]);
    Ok(straighten(outline, &warp.along(outline)))
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Shape};

    #[test]
    fn the_ends_reach_as_far_as_asked() {
        let ring = Outline::from_path(&Circle::new((200.0, 250.0), 250.0).to_path(0.1));
        let b = reach(&ring, 12.0, 7.0).unwrap().bounds().unwrap();
        assert!(
            (b.y1 - 512.0).abs() < 1e-6 && (b.y0 + 7.0).abs() < 1e-6,
            "{b:?}"
        );
        assert!((b.width() - 500.0).abs() < 1e-6);
        assert_eq!(reach(&ring, -300.0, 0.0), Err(Unable::OutOfReach));
        assert_eq!(reach(&Outline::default(), 1.0, 1.0), Err(Unable::NoInk));
    }
}
