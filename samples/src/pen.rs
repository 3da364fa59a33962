//! A pen for closed contours, in the words of this face: edges that narrow
//! towards a stroke's waist and widen towards its end, and quarter turns.

use kurbo::{Affine, BezPath, CubicBez, Point, Vec2};

/// Draws one contour, from point to point.
#[derive(Clone, Debug)]
pub(crate) struct Pen {
    path: BezPath,
    at: Point,
}

impl Pen {
    /// Sets the pen down.
    pub(crate) fn at(x: f64, y: f64) -> Self {
        let mut path = BezPath::new();
        path.move_to((x, y));
        Self {
            path,
            at: Point::new(x, y),
        }
    }

    /// A straight edge.
    pub(crate) fn line(mut self, x: f64, y: f64) -> Self {
        self.path.line_to((x, y));
        self.at = Point::new(x, y);
        self
    }

    /// A parabola through one handle, given in full.
    pub(crate) fn bend(mut self, hx: f64, hy: f64, x: f64, y: f64) -> Self {
        self.path.quad_to((hx, hy), (x, y));
        self.at = Point::new(x, y);
        self
    }

    /// An upright edge from a stroke's flared end to its waist.
    pub(crate) fn narrow(self, x: f64, y: f64) -> Self {
        let middle = f64::midpoint(self.at.y, y);
        self.bend(x, middle, x, y)
    }

    /// An upright edge from a stroke's waist to its flared end.
    pub(crate) fn widen(self, x: f64, y: f64) -> Self {
        let (here, middle) = (self.at.x, f64::midpoint(self.at.y, y));
        self.bend(here, middle, x, y)
    }

    /// A level edge from an arm's flared end to its root.
    pub(crate) fn narrow_level(self, x: f64, y: f64) -> Self {
        let middle = f64::midpoint(self.at.x, x);
        self.bend(middle, y, x, y)
    }

    /// A level edge from an arm's root to its flared end.
    pub(crate) fn widen_level(self, x: f64, y: f64) -> Self {
        let (here, middle) = (self.at.y, f64::midpoint(self.at.x, x));
        self.bend(middle, here, x, y)
    }

    /// A curve whose handles are given from their own points: `out` from the
    /// point where the pen is, `back` from the point where it arrives.
    ///
    /// A joint is smooth when one curve's `back` and the next one's `out` lie
    /// on one line with opposite signs, which this form shows at a glance.
    pub(crate) fn curve(mut self, out: (f64, f64), back: (f64, f64), x: f64, y: f64) -> Self {
        let to = Point::new(x, y);
        self.path
            .curve_to(self.at + Vec2::from(out), to + Vec2::from(back), to);
        self.at = to;
        self
    }

    /// A quarter turn that leaves level and arrives upright.
    pub(crate) fn turn(self, x: f64, y: f64, fullness: f64) -> Self {
        let d = Point::new(x, y) - self.at;
        self.curve((d.x * fullness, 0.0), (0.0, -d.y * fullness), x, y)
    }

    /// A quarter turn that leaves upright and arrives level.
    pub(crate) fn turn_up(self, x: f64, y: f64, fullness: f64) -> Self {
        let d = Point::new(x, y) - self.at;
        self.curve((0.0, d.y * fullness), (-d.x * fullness, 0.0), x, y)
    }

    /// Part of a curve that is given whole, and that begins where the pen is.
    pub(crate) fn along(mut self, curve: CubicBez) -> Self {
        self.path.curve_to(curve.p1, curve.p2, curve.p3);
        self.at = curve.p3;
        self
    }

    /// Closes the contour with a straight edge, or with none if the pen is
    /// back where it began.
    pub(crate) fn close(mut self) -> BezPath {
        self.path.close_path();
        self.path
    }
}

/// A letter's contours: ink clockwise, counters anticlockwise, as TrueType
/// outlines want them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Drawing {
    contours: Vec<BezPath>,
}

impl Drawing {
    /// A drawing that begins with the contour of its ink.
    pub(crate) fn ink(contour: BezPath) -> Self {
        Self::default().and_ink(contour)
    }

    /// Adds a separate piece of ink, such as a dot.
    pub(crate) fn and_ink(mut self, contour: BezPath) -> Self {
        self.contours.push(wound(contour, true));
        self
    }

    /// Cuts a counter out of the ink.
    pub(crate) fn counter(mut self, contour: BezPath) -> Self {
        self.contours.push(wound(contour, false));
        self
    }

    /// The same drawing moved, turned or scaled.
    pub(crate) fn transformed(&self, by: Affine) -> Self {
        let flips = by.determinant() < 0.0;
        let contours = self
            .contours
            .iter()
            .map(|c| {
                let moved = by * c;
                if flips {
                    moved.reverse_subpaths()
                } else {
                    moved
                }
            })
            .collect();
        Self { contours }
    }

    /// The drawing turned half round about the middle of the height `top`.
    pub(crate) fn turned(&self, top: f64) -> Self {
        self.transformed(Affine::new([-1.0, 0.0, 0.0, -1.0, 0.0, top]))
    }

    /// All contours as one path.
    pub(crate) fn path(&self) -> BezPath {
        self.contours.iter().flatten().collect()
    }
}

fn wound(contour: BezPath, clockwise: bool) -> BezPath {
    use kurbo::Shape;
    if (contour.area() < 0.0) == clockwise {
        contour
    } else {
        contour.reverse_subpaths()
    }
}
