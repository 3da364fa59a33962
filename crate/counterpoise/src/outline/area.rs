//! Area of the ink, overlaps counted once.
//!
//! Where no contours overlap, Green's theorem gives it exactly. Where they do,
//! the ink on level lines is summed instead: between two heights at which some
//! segment starts, ends or turns, its length is a smooth function of the
//! height, which Gauss-Legendre quadrature of few points sums almost exactly.

use super::{Outline, Ray, Span};
use kurbo::{ParamCurve, ParamCurveExtrema, common::GAUSS_LEGENDRE_COEFFS_8};

/// Level lines that look for overlaps. Overlaps that a letter is drawn with
/// (a bar over a stem) are taller than a 13th of it, or small.
const PROBES: u32 = 13;

/// Bands beyond this many are thinned out: the sum then converges by number.
const MOST_BANDS: usize = 400;

/// The most meetings of a level line with a segment that are looked for. A
/// letter needs some tens of thousands; a hostile outline of 10,000 curves is
/// summed more coarsely instead of taking seconds.
const MOST_MEETINGS: usize = 4_000_000;

/// Level lines in a band: the nodes of the quadrature.
const NODES: usize = GAUSS_LEGENDRE_COEFFS_8.len();

impl Outline {
    /// Area of the ink, square units; never negative.
    pub fn ink_area(&self) -> f64 {
        if self.overlaps() {
            self.summed_area()
        } else {
            self.signed_area().abs()
        }
    }

    /// Whether contours overlap, or run against the direction of the others, so
    /// that the signed area is not the ink's.
    pub fn overlaps(&self) -> bool {
        let Some(b) = self.bounds() else { return false };
        let mut crossings = Vec::new();
        let (mut least, mut most) = (0, 0);
        for i in 0..PROBES {
            let share = (f64::from(i) + 0.5) / f64::from(PROBES);
            self.crossings(&Ray::level(b.y0 + share * b.height()), &mut crossings);
            let mut winding = 0;
            for c in &crossings {
                winding += c.turn;
                (least, most) = (least.min(winding), most.max(winding));
            }
        }
        most - least > 1
    }

    fn summed_area(&self) -> f64 {
        let mut levels: Vec<f64> = Vec::new();
        for s in self.segments() {
            let seg = s.path_seg();
            levels.extend([seg.start().y, seg.end().y]);
            levels.extend(seg.extrema().into_iter().map(|t| s.at(t).y));
        }
        levels.sort_unstable_by(f64::total_cmp);
        levels.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let affordable = MOST_MEETINGS / (NODES * self.segments().len().max(1));
        let bands = MOST_BANDS.min(affordable.max(8));
        let step = levels.len().div_ceil(bands).max(1);
        let last = levels.last().copied();
        let mut levels: Vec<f64> = levels.into_iter().step_by(step).collect();
        levels.extend(last);

        let (mut crossings, mut spans) = (Vec::new(), Vec::<Span>::new());
        let mut area = 0.0;
        for w in levels.windows(2) {
            let (middle, half) = (0.5 * (w[0] + w[1]), 0.5 * (w[1] - w[0]));
            for (weight, node) in GAUSS_LEGENDRE_COEFFS_8 {
                self.spans(
                    &Ray::level(middle + half * node),
                    &mut crossings,
                    &mut spans,
                );
                area += weight * half * spans.iter().map(Span::length).sum::<f64>();
            }
        }
        area
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Rect, Shape};

    #[test]
    fn a_plus_of_two_bars_counts_its_middle_once() {
        let mut p = Rect::new(0.0, 40.0, 100.0, 60.0).to_path(0.1);
        p.extend(Rect::new(40.0, 0.0, 60.0, 100.0).to_path(0.1));
        let o = Outline::from_path(&p);
        assert_eq!(o.signed_area(), 4000.0);
        assert!((o.ink_area() - 3600.0).abs() < 1e-6);
    }

    #[test]
    fn two_circles_that_overlap() {
        let mut p = Circle::new((0.0, 0.0), 100.0).to_path(1e-9);
        p.extend(Circle::new((100.0, 0.0), 100.0).to_path(1e-9));
        // Two discs less their lens, r^2 (2 pi / 3 - sqrt 3 / 2) at distance r.
        let lens = 1e4 * (std::f64::consts::TAU / 3.0 - 3.0_f64.sqrt() / 2.0);
        let truth = 2e4 * std::f64::consts::PI - lens;
        let got = Outline::from_path(&p).ink_area();
        assert!((got / truth - 1.0).abs() < 1e-3, "{got} against {truth}");
    }

    #[test]
    fn direction_does_not_matter() {
        let p = Rect::new(0.0, 0.0, 30.0, 10.0).to_path(0.1);
        let o = Outline::from_path(&p.reverse_subpaths());
        assert_eq!(o.ink_area(), 300.0);
    }
}
