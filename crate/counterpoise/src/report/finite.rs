//! Whether all numbers of a report are numbers: JSON has no NaN and no infinity,
//! and a reader of our files must never meet one.

use super::{Bounds, Deviation, Drawing, Extremity, Flaw, LetterReport, Sides, Stroke, Thickness};

pub(super) trait Finite {
    fn finite(&self) -> bool;
}

impl Finite for f64 {
    fn finite(&self) -> bool {
        self.is_finite()
    }
}

impl<T: Finite> Finite for Option<T> {
    fn finite(&self) -> bool {
        self.as_ref().is_none_or(T::finite)
    }
}

impl<T: Finite> Finite for Vec<T> {
    fn finite(&self) -> bool {
        self.iter().all(T::finite)
    }
}

impl<const N: usize> Finite for [f64; N] {
    fn finite(&self) -> bool {
        self.iter().all(|n| n.is_finite())
    }
}

impl Finite for Thickness {
    fn finite(&self) -> bool {
        let Self { value, from, to } = self;
        value.finite() && from.finite() && to.finite()
    }
}

impl Finite for Stroke {
    fn finite(&self) -> bool {
        let Self {
            kind: _,
            median,
            least,
            greatest,
            marks,
            length,
            angle,
            axis,
        } = self;
        [*median, *length].finite()
            && [*least, *greatest].iter().all(Finite::finite)
            && marks.finite()
            && angle.finite()
            && axis.finite()
    }
}

impl Finite for Extremity {
    fn finite(&self) -> bool {
        let Self {
            form: _,
            y,
            x,
            breadth,
            overshoot,
        } = self;
        [*y, *x, *breadth].finite() && overshoot.finite()
    }
}

impl Finite for Bounds {
    fn finite(&self) -> bool {
        [self.x_min, self.y_min, self.x_max, self.y_max].finite()
    }
}

impl Finite for Sides {
    fn finite(&self) -> bool {
        let Self { outer, inner } = self;
        outer.finite() && inner.finite()
    }
}

impl Finite for Flaw {
    fn finite(&self) -> bool {
        self.at.finite() && self.size.finite()
    }
}

impl Finite for Drawing {
    fn finite(&self) -> bool {
        self.flaws.finite()
    }
}

impl Finite for Deviation {
    fn finite(&self) -> bool {
        [self.value, self.expected, self.spread].finite()
    }
}

impl Finite for LetterReport {
    // Taken apart, so that a new field cannot be forgotten here.
    fn finite(&self) -> bool {
        let Self {
            glyph: _,
            name: _,
            character: _,
            advance,
            left_bearing,
            right_bearing,
            bounds,
            area,
            top,
            foot,
            strokes,
            sides,
            drawing,
            // Taken up only if they are finite.
            figures: _,
            trouble: _,
        } = self;
        advance.finite()
            && [left_bearing, right_bearing].iter().all(|b| b.finite())
            && bounds.finite()
            && area.finite()
            && top.finite()
            && foot.finite()
            && strokes.finite()
            && sides.finite()
            && drawing.finite()
    }
}
