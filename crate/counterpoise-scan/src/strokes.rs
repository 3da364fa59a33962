//! How thick the strokes of some ink are, and where.
//!
//! # Method, limits and source
//! Along the ridge of the distances ([`crate::distance`]) the paper is equally far
//! on both sides. From each place of the ridge the ink is followed to both sides,
//! to where the shade passes the edge's, along the way on which it is thinnest
//! near the direction of the nearest paper: that is its thickness, told between
//! pixels. Where the two sides differ, as in a corner, is no stroke. Places that
//! follow on from each other and run alike are a stroke. Strokes under
//! [`LEAST_PIXELS`] pixels thick are told, but grain and blur are then as large as
//! a twentieth of them.

use crate::distance::distances;
use crate::edge::out_of_ink;
use crate::level::Levelled;
use kurbo::{Point, Vec2};

/// Below this thickness, pixels, a stroke's figure is uncertain by 5% and more.
pub const LEAST_PIXELS: f64 = 8.0;

/// How a stroke runs, once the picture is straight.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Run {
    /// Upright.
    Upright,
    /// Level.
    Level,
    /// Neither, or turning.
    Other,
}

/// A stroke as the ink shows it, pixels, y down.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// How it runs.
    pub run: Run,
    /// Its median thickness.
    pub thickness: f64,
    /// Where it is thickest: the 95th centile, so that one grain does not tell.
    pub greatest: f64,
    /// How far it reaches along its way.
    pub length: f64,
    /// Its middle: the place on the ridge nearest to it.
    pub middle: Point,
    /// Across the ink there, from edge to edge.
    pub across: [Point; 2],
}

/// A stroke within this of upright or level (sine of 15 degrees) is one.
const WITHIN: f64 = 0.26;

/// The two sides of a ridge differ by no more than this share of the thickness.
const SIDES: f64 = 0.2;

/// A stroke is at least this many thicknesses long: the corners of a square dot
/// have ridges too.
const ELONGATION: f64 = 0.6;

/// Places nearer than this, pixels, follow on from each other.
const NEAR: i64 = 3;

/// A ridge's place.
#[derive(Debug, Clone, Copy)]
struct Place {
    x: i64,
    y: i64,
    thickness: f64,
    run: Run,
    across: [Point; 2],
}

/// The strokes of some ink within a window of a picture; `ink` says which of the
/// window's pixels are its.
pub fn strokes(
    levelled: &Levelled,
    (x0, y0, x1, y1): (usize, usize, usize, usize),
    ink: impl Fn(usize, usize) -> bool,
) -> Vec<Stroke> {
    // With a border of paper, so that ink at the window's edge ends there.
    let (width, height) = (x1 - x0 + 3, y1 - y0 + 3);
    let mask: Vec<bool> = (0..width * height)
        .map(|i| {
            let (x, y) = (i % width, i / width);
            let border = x == 0 || y == 0 || x == width - 1 || y == height - 1;
            !border && ink(x0 + x - 1, y0 + y - 1)
        })
        .collect();
    let far = distances(width, height, &mask);
    let depth = |x: usize, y: usize| f64::from(far.squared[y * width + x]).sqrt();
    let mut places = Vec::new();
    for y in 1..height - 1 {
        for x in 1..width - 1 {
            let d = depth(x, y);
            if d < 1.5 {
                continue;
            }
            let nearest = far.nearest[y * width + x] as usize;
            let to = Vec2::new(
                (nearest % width) as f64 - x as f64,
                (nearest / width) as f64 - y as f64,
            );
            let n = to / to.hypot();
            // On a slope the paper is farther one step away from it; on the ridge not.
            let behind = Vec2::new(x as f64, y as f64) - 1.5 * n;
            let (bx, by) = (behind.x.round() as usize, behind.y.round() as usize);
            if bx >= width || by >= height || depth(bx, by) > d + 0.75 {
                continue;
            }
            let at = Point::new((x0 + x) as f64 - 0.5, (y0 + y) as f64 - 0.5);
            if let Some(place) = place(levelled, at, n, d) {
                places.push(Place {
                    x: x as i64,
                    y: y as i64,
                    ..place
                });
            }
        }
    }
    let tall = (y1 - y0 + 1) as f64;
    let mut all: Vec<Stroke> = grouped(&places)
        .iter()
        .filter_map(|group| stroke(group))
        .filter(|s| s.length >= ELONGATION * s.thickness && s.length >= 0.05 * tall)
        .collect();
    all.sort_by(|a, b| b.length.total_cmp(&a.length));
    all
}

/// Turns tried about the way to the nearest paper, radians: the nearest pixel
/// tells a direction no better than one part in the distance.
const TURNS: [f64; 7] = [-0.12, -0.08, -0.04, 0.0, 0.04, 0.08, 0.12];

fn place(levelled: &Levelled, at: Point, n: Vec2, depth: f64) -> Option<Place> {
    let reach = 1.5 * depth + 3.0;
    let mut best: Option<(f64, f64, Vec2)> = None;
    for turn in TURNS {
        let (sin, cos) = turn.sin_cos();
        let way = Vec2::new(n.x * cos - n.y * sin, n.x * sin + n.y * cos);
        let (Some(a), Some(b)) = (
            out_of_ink(levelled, at, way, reach),
            out_of_ink(levelled, at, -way, reach),
        ) else {
            continue;
        };
        if best.is_none_or(|(p, q, _)| a + b < p + q) {
            best = Some((a, b, way));
        }
    }
    let (a, b, way) = best?;
    let thickness = a + b;
    if (a - b).abs() > (SIDES * thickness).max(2.0) {
        return None;
    }
    let run = if way.y.abs() <= WITHIN {
        Run::Upright
    } else if way.x.abs() <= WITHIN {
        Run::Level
    } else {
        Run::Other
    };
    Some(Place {
        x: 0,
        y: 0,
        thickness,
        run,
        across: [at - b * way, at + a * way],
    })
}

/// Places that follow on from each other and run alike.
fn grouped(places: &[Place]) -> Vec<Vec<Place>> {
    use std::collections::HashMap;
    let mut by_cell: HashMap<(i64, i64), usize> = HashMap::new();
    for (i, p) in places.iter().enumerate() {
        by_cell.insert((p.x, p.y), i);
    }
    let mut taken = vec![false; places.len()];
    let mut groups = Vec::new();
    for first in 0..places.len() {
        if taken[first] {
            continue;
        }
        taken[first] = true;
        let mut group = Vec::new();
        let mut open = vec![first];
        while let Some(i) = open.pop() {
            let p = places[i];
            group.push(p);
            for dy in -NEAR..=NEAR {
                for dx in -NEAR..=NEAR {
                    let Some(&j) = by_cell.get(&(p.x + dx, p.y + dy)) else {
                        continue;
                    };
                    let q = places[j];
                    let alike = (q.thickness - p.thickness).abs() <= SIDES * p.thickness;
                    if !taken[j] && q.run == p.run && alike {
                        taken[j] = true;
                        open.push(j);
                    }
                }
            }
        }
        groups.push(group);
    }
    groups
}

fn stroke(group: &[Place]) -> Option<Stroke> {
    let mut thicknesses: Vec<f64> = group.iter().map(|p| p.thickness).collect();
    thicknesses.sort_by(f64::total_cmp);
    let at = |share: f64| thicknesses[((thicknesses.len() - 1) as f64 * share) as usize];
    let extent = |of: fn(&Place) -> i64| {
        let values = group.iter().map(of);
        let (least, most) = (values.clone().min()?, values.max()?);
        Some((least as f64, most as f64))
    };
    let ((left, right), (top, foot)) = (extent(|p| p.x)?, extent(|p| p.y)?);
    let run = group.first()?.run;
    let length = match run {
        Run::Upright => foot - top,
        Run::Level => right - left,
        Run::Other => (foot - top).hypot(right - left),
    };
    let (cx, cy) = (0.5 * (left + right), 0.5 * (top + foot));
    let middle = group.iter().min_by(|a, b| {
        let off = |p: &Place| (p.x as f64 - cx).hypot(p.y as f64 - cy);
        off(a).total_cmp(&off(b))
    })?;
    Some(Stroke {
        run,
        thickness: at(0.5),
        greatest: at(0.95),
        length,
        middle: middle.across[0].midpoint(middle.across[1]),
        across: middle.across,
    })
}
