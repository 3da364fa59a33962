//! A directed line through the letter.

use kurbo::{Point, Vec2};

/// A line with a direction of length 1; places on it are distances from its origin.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ray {
    origin: Point,
    direction: Vec2,
}

impl Ray {
    /// A line through `origin`; `None` unless the direction is finite and not nought.
    pub fn new(origin: Point, direction: Vec2) -> Option<Self> {
        let length = direction.hypot();
        (origin.is_finite() && length.is_finite() && length > 0.0).then(|| Self {
            origin,
            direction: direction / length,
        })
    }

    /// A level line at height `y`, running right from x = 0.
    pub fn level(y: f64) -> Self {
        Self {
            origin: Point::new(0.0, y),
            direction: Vec2::new(1.0, 0.0),
        }
    }

    /// An upright line at `x`, running up from the baseline.
    pub fn upright(x: f64) -> Self {
        Self {
            origin: Point::new(x, 0.0),
            direction: Vec2::new(0.0, 1.0),
        }
    }

    /// Where distances are counted from.
    pub fn origin(&self) -> Point {
        self.origin
    }

    /// Its direction, of length 1.
    pub fn direction(&self) -> Vec2 {
        self.direction
    }

    /// The point at a distance from the origin.
    pub fn at(&self, s: f64) -> Point {
        self.origin + s * self.direction
    }

    /// Distance of a point's foot on the line from the origin.
    pub(super) fn along(&self, p: Point) -> f64 {
        self.direction.dot(p - self.origin)
    }

    /// Signed distance of a point from the line, positive to the left.
    pub(super) fn aside(&self, p: Point) -> f64 {
        self.direction.cross(p - self.origin)
    }
}
