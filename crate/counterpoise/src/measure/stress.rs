//! Stress: the lean of a round letter's thin places, degrees from the upright,
//! positive where the top one leans left, as a broad pen held at a slant leaves
//! it (the trade's "axis").
//!
//! # Method
//! Around a ring the thickness is taken as a + b cos 2t + c sin 2t, where t is
//! the direction from the ring's centre, fitted by sums weighted with the angle
//! that each station stands for. The thin places lie where that is least. A
//! fit over the whole ring does not hang on the one thinnest station, whose
//! place is ill told.

use super::strokes::Stroke;
use kurbo::{Point, Vec2};
use std::f64::consts::{FRAC_PI_2, PI, TAU};

/// Below this contrast a ring is of one thickness and has no stress: the
/// amplitude of the fit as a share of its mean.
const LEAST_AMPLITUDE: f64 = 0.03;

/// The stress of a letter's largest ring; `None` if it has none, or is of one
/// thickness throughout.
pub fn stress(strokes: &[Stroke]) -> Option<f64> {
    let ring = strokes.iter().find(|s| s.closed)?;
    let n = ring.axis.len().min(ring.profile.len());
    if n < 5 {
        return None;
    }
    // The axis ends where it began.
    let points = &ring.axis[..n - 1];
    let sum = points.iter().fold(Vec2::ZERO, |sum, p| sum + p.to_vec2());
    let centre: Point = (sum / points.len() as f64).to_point();
    let towards: Vec<f64> = ring.axis[..n]
        .iter()
        .map(|&p| (p - centre).atan2())
        .collect();
    let (mut total, mut mean, mut b, mut c) = (0.0, 0.0, 0.0, 0.0);
    for i in 0..n - 1 {
        let step = (towards[i + 1] - towards[i] + PI).rem_euclid(TAU) - PI;
        let share = step.abs();
        let t = towards[i] + 0.5 * step;
        let thickness = 0.5 * (ring.profile[i] + ring.profile[i + 1]);
        total += share;
        mean += share * thickness;
        b += share * thickness * (2.0 * t).cos();
        c += share * thickness * (2.0 * t).sin();
    }
    if total <= 0.0 || 2.0 * b.hypot(c) < LEAST_AMPLITUDE * mean {
        return None;
    }
    // Thickest towards t0, so thinnest a quarter turn on, which leans from the
    // upright as t0 does from level.
    let thickest = 0.5 * c.atan2(b);
    let lean = (thickest + FRAC_PI_2).rem_euclid(PI) - FRAC_PI_2;
    Some(lean.to_degrees())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::measure::strokes::{StrokeContext, strokes};
    use crate::outline::Outline;
    use kurbo::{Affine, BezPath, Ellipse, Shape};

    /// An O whose counter is narrower than its outside, turned by `turn` degrees.
    fn ring(turn: f64) -> BezPath {
        let mut p = Ellipse::new((0.0, 0.0), (300.0, 360.0), 0.0).to_path(1e-6);
        p.extend(
            Ellipse::new((0.0, 0.0), (210.0, 320.0), 0.0)
                .to_path(1e-6)
                .reverse_subpaths(),
        );
        Affine::rotate(turn.to_radians()) * p
    }

    fn of(path: &BezPath) -> Option<f64> {
        let context = StrokeContext {
            units_per_em: 1000.0,
            slant: 0.0,
        };
        stress(&strokes(&Outline::from_path(path), &context))
    }

    #[test]
    fn stress_follows_the_turn_of_the_ring() {
        for turn in [-25.0, 0.0, 12.0, 30.0] {
            let got = of(&ring(turn)).unwrap();
            assert!((got - turn).abs() < 1.0, "{got} for {turn}");
        }
    }

    #[test]
    fn a_ring_of_one_thickness_has_none() {
        use kurbo::Circle;
        let mut p = Circle::new((0.0, 0.0), 300.0).to_path(1e-6);
        p.extend(
            Circle::new((0.0, 0.0), 210.0)
                .to_path(1e-6)
                .reverse_subpaths(),
        );
        assert_eq!(of(&p), None);
    }
}
