//! Rounds: ovals a little squarer than an ellipse, whose stress may lean.

use kurbo::{BezPath, CubicBez, Point};

use crate::pen::Pen;

/// An oval given by its extremes, leaning back by `lean` (the sine of the
/// turn): its top moves left, its left side moves up, and so on round.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Oval {
    pub(crate) left: f64,
    pub(crate) foot: f64,
    pub(crate) right: f64,
    pub(crate) top: f64,
    pub(crate) lean: f64,
    pub(crate) fullness: f64,
}

impl Oval {
    fn half(&self) -> (f64, f64) {
        ((self.right - self.left) / 2.0, (self.top - self.foot) / 2.0)
    }

    fn centre(&self) -> Point {
        Point::new(
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.foot, self.top),
        )
    }

    /// The point at the top.
    pub(crate) fn at_top(&self) -> Point {
        let x = self.centre().x - self.lean * self.half().0;
        Point::new(x.round(), self.top)
    }

    /// The point at the foot.
    pub(crate) fn at_foot(&self) -> Point {
        let x = self.centre().x + self.lean * self.half().0;
        Point::new(x.round(), self.foot)
    }

    /// The point at the left.
    pub(crate) fn at_left(&self) -> Point {
        let y = self.centre().y + self.lean * self.half().1;
        Point::new(self.left, y.round())
    }

    /// The point at the right.
    pub(crate) fn at_right(&self) -> Point {
        let y = self.centre().y - self.lean * self.half().1;
        Point::new(self.right, y.round())
    }

    /// Handle share of the two flatter quarters, upper right and lower left.
    ///
    /// A leaning ellipse is a sheared circle: these quarters span more than a
    /// right angle of it, the other two less, and the handles follow.
    pub(crate) fn flat(&self) -> f64 {
        self.handle(1.0)
    }

    /// Handle share of the two tighter quarters, upper left and lower right.
    pub(crate) fn tight(&self) -> f64 {
        self.handle(-1.0)
    }

    fn handle(&self, side: f64) -> f64 {
        const CIRCLE: f64 = 0.552_284_75;
        let turn = side * self.lean.asin();
        let span = std::f64::consts::FRAC_PI_2 + turn;
        let ellipse = 4.0 / 3.0 * (span / 4.0).tan() * turn.cos() / (1.0 + turn.sin());
        ellipse * self.fullness / CIRCLE
    }

    /// The quarter from the left point over to the top.
    pub(crate) fn upper_left(&self) -> CubicBez {
        quarter_upright(self.at_left(), self.at_top(), self.tight())
    }

    /// The quarter from the top down to the right point.
    pub(crate) fn upper_right(&self) -> CubicBez {
        quarter_level(self.at_top(), self.at_right(), self.flat())
    }

    /// The quarter from the right point down to the foot.
    pub(crate) fn lower_right(&self) -> CubicBez {
        quarter_upright(self.at_right(), self.at_foot(), self.tight())
    }

    /// The quarter from the foot up to the left point.
    pub(crate) fn lower_left(&self) -> CubicBez {
        quarter_level(self.at_foot(), self.at_left(), self.flat())
    }

    /// The closed contour, from the left point clockwise.
    pub(crate) fn contour(&self) -> BezPath {
        let from = self.at_left();
        Pen::at(from.x, from.y)
            .along(self.upper_left())
            .along(self.upper_right())
            .along(self.lower_right())
            .along(self.lower_left())
            .close()
    }
}

/// A quarter that leaves upright and arrives level.
fn quarter_upright(from: Point, to: Point, handle: f64) -> CubicBez {
    let d = to - from;
    CubicBez::new(
        from,
        Point::new(from.x, from.y + d.y * handle),
        Point::new(to.x - d.x * handle, to.y),
        to,
    )
}

/// A quarter that leaves level and arrives upright.
fn quarter_level(from: Point, to: Point, handle: f64) -> CubicBez {
    let d = to - from;
    CubicBez::new(
        from,
        Point::new(from.x + d.x * handle, from.y),
        Point::new(to.x, to.y - d.y * handle),
        to,
    )
}
