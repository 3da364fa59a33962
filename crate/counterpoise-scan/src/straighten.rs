//! A picture turned so that the baseline lies level.

use crate::Grey;
use crate::level::Levelled;

/// Scans lie within this of straight, degrees.
const MOST: f64 = 8.0;

/// How finely skew is looked for, degrees.
const STEP: f64 = 0.1;

/// The angle that two points of the baseline make with level, degrees; positive
/// where it falls to the right, as y runs down. `None` of two points in one place.
pub fn by_points(a: [f64; 2], b: [f64; 2]) -> Option<f64> {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    (dx.hypot(dy) > 0.0).then(|| (dy / dx).atan().to_degrees())
}

/// Estimates the skew: of all angles the one whose rows change most sharply from
/// ink to paper, as the flat feet and tops of letters make them (the projection
/// profile, common in the reading of documents). A single round letter has no
/// flat edge, and its skew cannot be told so.
pub fn estimate(levelled: &Levelled) -> f64 {
    let grey = &levelled.grey;
    // A few hundred rows show an angle as well as thousands.
    let every = (grey.pixels.len() as f64 / 400_000.0)
        .sqrt()
        .ceil()
        .max(1.0) as usize;
    let mut ink = Vec::new();
    for y in (0..grey.height).step_by(every) {
        for x in (0..grey.width).step_by(every) {
            if levelled.is_ink(x, y) {
                ink.push((x as f64, y as f64));
            }
        }
    }
    let bin = every as f64;
    let sharpness = |degrees: f64| {
        let slope = degrees.to_radians().tan();
        let reach = (grey.width as f64 * slope.abs() + grey.height as f64) / bin;
        let shift = (grey.width as f64 * slope).max(0.0);
        let mut rows = vec![0.0_f64; reach as usize + 3];
        for &(x, y) in &ink {
            let at = (y - x * slope + shift) / bin;
            let (k, f) = (at as usize, at.fract());
            if k + 1 < rows.len() {
                rows[k] += 1.0 - f;
                rows[k + 1] += f;
            }
        }
        rows.windows(2).map(|w| (w[1] - w[0]).powi(2)).sum::<f64>()
    };
    let steps = (MOST / STEP) as i32;
    (-steps..=steps)
        .map(|k| f64::from(k) * STEP)
        .max_by(|a, b| sharpness(*a).total_cmp(&sharpness(*b)))
        .unwrap_or(0.0)
}

/// The picture turned back by an angle about its middle, at its own size.
pub fn turned(grey: &Grey, degrees: f64) -> Grey {
    if degrees == 0.0 {
        return grey.clone();
    }
    let (sin, cos) = degrees.to_radians().sin_cos();
    let (cx, cy) = (0.5 * grey.width as f64, 0.5 * grey.height as f64);
    let mut pixels = Vec::with_capacity(grey.pixels.len());
    for y in 0..grey.height {
        for x in 0..grey.width {
            let (dx, dy) = (x as f64 + 0.5 - cx, y as f64 + 0.5 - cy);
            let (u, v) = (cx + dx * cos - dy * sin, cy + dx * sin + dy * cos);
            pixels.push(grey.at(u, v).round() as u8);
        }
    }
    Grey { pixels, ..*grey }
}
