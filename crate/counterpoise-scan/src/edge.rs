//! Where exactly the ink ends: between pixels, where the shade passes the edge's.

use crate::level::Levelled;
use kurbo::{BezPath, Point, Vec2};
use std::collections::HashMap;

/// Steps along a line, pixels: half of what a shade takes to change.
const STEP: f64 = 0.5;

/// How far from a place in the ink the paper begins, pixels; `None` if it does not
/// within `reach`.
pub fn out_of_ink(levelled: &Levelled, from: Point, way: Vec2, reach: f64) -> Option<f64> {
    passes(levelled, from, way, reach, |shade, edge| shade >= edge)
}

/// How far from a place on the paper the ink begins.
pub fn into_ink(levelled: &Levelled, from: Point, way: Vec2, reach: f64) -> Option<f64> {
    passes(levelled, from, way, reach, |shade, edge| shade < edge)
}

fn passes(
    levelled: &Levelled,
    from: Point,
    way: Vec2,
    reach: f64,
    there: fn(f64, f64) -> bool,
) -> Option<f64> {
    let shade = |s: f64| {
        let p = from + s * way;
        levelled.grey.at(p.x, p.y)
    };
    let (mut s, mut before) = (0.0, shade(0.0));
    while s < reach {
        let next = s + STEP;
        let now = shade(next);
        if there(now, levelled.edge) {
            let share = (levelled.edge - before) / (now - before);
            return Some(
                s + STEP
                    * if share.is_finite() {
                        share.clamp(0.0, 1.0)
                    } else {
                        0.5
                    },
            );
        }
        (s, before) = (next, now);
    }
    None
}

/// The edges of some ink as closed polygons, ink to the left as seen with y up:
/// lines of equal shade between the pixels' middles (marching squares; where ink
/// meets ink at a corner, the mean of the four shades says whether it joins).
/// `ink` says which pixels belong; around them the picture is taken as it is, and
/// pixels of other ink as paper. y runs up, from the picture's foot.
pub fn edges(
    levelled: &Levelled,
    (x0, y0, x1, y1): (usize, usize, usize, usize),
    others: impl Fn(usize, usize) -> bool,
) -> BezPath {
    let (grey, edge) = (&levelled.grey, levelled.edge);
    let shade = |x: i64, y: i64| -> f64 {
        let inside = x >= 0 && y >= 0 && (x as usize) < grey.width && (y as usize) < grey.height;
        if !inside || others(x as usize, y as usize) {
            return 255.0;
        }
        f64::from(grey.pixels[y as usize * grey.width + x as usize])
    };
    // Crossings lie on the lines between neighbouring middles: named by the left or
    // upper one, and whether the line runs right or down.
    type Place = (i64, i64, bool);
    let at = |(x, y, right): Place| {
        let (a, b) = (
            shade(x, y),
            if right {
                shade(x + 1, y)
            } else {
                shade(x, y + 1)
            },
        );
        let t = ((edge - a) / (b - a)).clamp(0.0, 1.0);
        let (px, py) = (x as f64 + 0.5, y as f64 + 0.5);
        let (px, py) = if right { (px + t, py) } else { (px, py + t) };
        Point::new(px, grey.height as f64 - py)
    };
    let mut next: HashMap<Place, Place> = HashMap::new();
    let mut order = Vec::new();
    for y in y0 as i64 - 2..=y1 as i64 + 1 {
        for x in x0 as i64 - 2..=x1 as i64 + 1 {
            let corners = [
                shade(x, y),
                shade(x + 1, y),
                shade(x + 1, y + 1),
                shade(x, y + 1),
            ];
            let ink = corners.map(|c| c < edge);
            let sides: [Place; 4] = [
                (x, y, true),
                (x + 1, y, false),
                (x, y + 1, true),
                (x, y, false),
            ];
            // Round the cell: leaving the ink ends a piece of edge, entering begins one.
            let leaves: Vec<usize> = (0..4).filter(|&i| ink[i] && !ink[(i + 1) % 4]).collect();
            let enters: Vec<usize> = (0..4).filter(|&i| !ink[i] && ink[(i + 1) % 4]).collect();
            let mean = corners.iter().sum::<f64>() / 4.0;
            for &out in &leaves {
                // With two pieces in a cell the mean says which corners they cut off.
                let back = if mean < edge {
                    (1..4).map(|k| (out + k) % 4).find(|i| enters.contains(i))
                } else {
                    (1..4)
                        .map(|k| (out + 4 - k) % 4)
                        .find(|i| enters.contains(i))
                };
                if let Some(back) = back {
                    next.insert(sides[out], sides[back]);
                    order.push(sides[out]);
                }
            }
        }
    }
    let mut path = BezPath::new();
    for start in order {
        let Some(mut place) = next.remove(&start) else {
            continue;
        };
        let mut points = vec![at(start)];
        while place != start {
            points.push(at(place));
            match next.remove(&place) {
                Some(on) => place = on,
                None => break,
            }
        }
        if points.len() >= LEAST_POINTS {
            polygon(&points, &mut path);
        }
    }
    path
}

/// A ring of fewer crossings is a single speck of grain.
const LEAST_POINTS: usize = 12;

/// Points nearer than this to the line between those that are kept are left out,
/// pixels: grain moves an edge by as much.
const SPARE: f64 = 0.08;

fn polygon(points: &[Point], path: &mut BezPath) {
    let mut kept = 0;
    path.move_to(points[0]);
    for i in 2..points.len() {
        let (a, b) = (points[kept], points[i]);
        let chord = b - a;
        let off = |p: &Point| chord.cross(*p - a).abs() / chord.hypot().max(1e-9);
        if points[kept + 1..i].iter().any(|p| off(p) > SPARE) {
            kept = i - 1;
            path.line_to(points[kept]);
        }
    }
    path.line_to(points[points.len() - 1]);
    path.close_path();
}
