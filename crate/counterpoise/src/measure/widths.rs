//! Widths of a letter without its serifs: from outer stem to outer stem, and
//! the white between them. Font units.
//!
//! Ink width alone compares badly: a serif or a tail widens the ink and not the
//! letter. Here the uprights speak: stems, and the sides of curves. In a
//! slanted face they are first set upright, by the font's own slant.

use super::strokes::{Stroke, StrokeKind};

/// An upright shorter than this share of the letter's tallest is a serif's
/// edge, not a side of the letter.
const TALL: f64 = 0.4;

/// The sides of a letter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sides {
    /// From the outer edge of the first upright to that of the last.
    pub body: f64,
    /// White between the first upright and the last; `None` of a letter with one.
    pub counter: Option<f64>,
    /// Left and right edge of the first upright, where it stands on the baseline.
    pub first: (f64, f64),
    /// Left and right edge of the last.
    pub last: (f64, f64),
}

/// The sides of a letter; `None` if it has no upright, as v and x have none.
pub fn sides(strokes: &[Stroke], slant: f64) -> Option<Sides> {
    let lean = slant.to_radians().tan();
    let set_upright = |p: kurbo::Point| p.x - p.y * lean;
    // Each upright as its left and right edge.
    let uprights: Vec<(f64, f64, f64)> = strokes
        .iter()
        .filter(|s| matches!(s.kind, StrokeKind::Stem | StrokeKind::Curve))
        .flat_map(|s| s.marks.iter().map(move |m| (s.length, m)))
        .filter(|(_, m)| m.runs_upright(lean))
        .map(|(length, m)| {
            let (a, b) = (set_upright(m.from), set_upright(m.to));
            (length, a.min(b), a.max(b))
        })
        .collect();
    let tallest = uprights.iter().map(|u| u.0).reduce(f64::max)?;
    let sides = || uprights.iter().filter(|u| u.0 >= TALL * tallest);
    let first = sides().min_by(|a, b| a.1.total_cmp(&b.1))?;
    let last = sides().max_by(|a, b| a.2.total_cmp(&b.2))?;
    let white = last.1 - first.2;
    Some(Sides {
        body: last.2 - first.1,
        counter: (white > 0.0).then_some(white),
        first: (first.1, first.2),
        last: (last.1, last.2),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::strokes::{StrokeContext, strokes};
    use crate::outline::Outline;
    use kurbo::{Affine, BezPath, Rect, Shape};

    /// Two stems with slab feet, and a bar.
    fn h() -> BezPath {
        let mut p = BezPath::new();
        for r in [
            Rect::new(50.0, 0.0, 140.0, 700.0),
            Rect::new(450.0, 0.0, 540.0, 700.0),
            Rect::new(0.0, 0.0, 190.0, 40.0),
            Rect::new(400.0, 0.0, 590.0, 40.0),
            Rect::new(100.0, 330.0, 500.0, 400.0),
        ] {
            p.extend(r.to_path(0.1));
        }
        p
    }

    fn of(path: &BezPath, slant: f64) -> Option<Sides> {
        let context = StrokeContext {
            units_per_em: 1000.0,
            slant,
        };
        sides(&strokes(&Outline::from_path(path), &context), slant)
    }

    #[test]
    fn serifs_do_not_widen_a_letter() {
        let s = of(&h(), 0.0).unwrap();
        assert!((s.body - 490.0).abs() < 0.01, "{s:?}");
        assert!((s.counter.unwrap() - 310.0).abs() < 0.01, "{s:?}");
        let edges = [s.first.0, s.first.1, s.last.0, s.last.1];
        for (edge, is) in edges.iter().zip([50.0, 140.0, 450.0, 540.0]) {
            assert!((edge - is).abs() < 0.01, "{s:?}");
        }
    }

    #[test]
    fn a_slanted_letter_has_the_width_of_its_upright() {
        let skew = Affine::new([1.0, 0.0, 12.0_f64.to_radians().tan(), 1.0, 0.0, 0.0]);
        let s = of(&(skew * h()), 12.0).unwrap();
        assert!((s.body - 490.0).abs() < 2.0, "{s:?}");
    }

    #[test]
    fn no_upright_no_sides() {
        let bar = Rect::new(0.0, 200.0, 300.0, 270.0).to_path(0.1);
        assert_eq!(of(&bar, 0.0), None);
    }
}
