//! Joins filled: where a curved stroke springs from another it is given the
//! thickness that it has further on.
//!
//! Along the stroke's middle line, from the join to where the stroke has its full
//! thickness, a strip of ink as thick as that is laid over the letter, so that the
//! notch between the two strokes fills. Contours that overlap count as one ink
//! (OpenType, non-zero winding), as in the letter itself.

use super::{Class, Done, Drawn, Figure, Measured, Nothing};
use crate::measure::strokes::{Stroke, Thickness};
use crate::outline::Outline;
use crate::redraw::Unable;
use kurbo::{BezPath, Point, Vec2};

/// A join thinner than its stroke by less than this share is not thinned.
const SAME: f64 = 0.02;

/// How far into the other stroke the strip begins, as a share of the join: less
/// than any stem is thick.
const INTO: f64 = 0.35;

pub(super) fn take_out(drawn: &Drawn, class: &Class, out: f64) -> Result<Done, Nothing> {
    let joins: Vec<Join> = drawn.letter.strokes.iter().flat_map(of_stroke).collect();
    if joins.is_empty() {
        let curved = drawn.letter.strokes.iter().any(|s| !s.joins.is_empty());
        return Err(if curved {
            Nothing::Without
        } else {
            Unable::NoStrokes.into()
        });
    }
    let mut path = drawn.outline.to_bez_path();
    let way = drawn.outline.signed_area();
    let most = class.stem(drawn.character).unwrap_or(f64::INFINITY);
    let mut done = Done {
        outline: Outline::default(),
        figures: Vec::new(),
        was: Vec::new(),
        is: Vec::new(),
    };
    for join in &joins {
        // No stroke of a letter is to become heavier than its stem.
        let full = join.full.min(most).max(join.thin());
        let thick = |own: f64| own + out * (full - own).max(0.0);
        if out > 0.0 {
            strip(&mut path, join, &thick, way);
        }
        done.figures
            .push(Figure::units("stroke further on", full, full));
        done.figures.push(Figure::units(
            "stroke at the join",
            join.thin(),
            thick(join.thin()),
        ));
        done.was.push(join.across(join.thin()));
        done.is.push(join.across(thick(join.thin())));
    }
    done.outline = Outline::from_path(&path);
    Ok(done)
}

/// The thinned end of a stroke, from the join to where it is full.
#[derive(Debug, Clone)]
struct Join {
    /// Middle line from the join on.
    axis: Vec<Point>,
    /// Its thickness at each point.
    profile: Vec<f64>,
    full: f64,
}

impl Join {
    fn thin(&self) -> f64 {
        self.profile[0]
    }

    /// Directions square to the middle line, at each point.
    fn normals(&self) -> Vec<Vec2> {
        let n = self.axis.len();
        (0..n)
            .map(|i| {
                let d = self.axis[(i + 1).min(n - 1)] - self.axis[i.saturating_sub(1)];
                let d = d / d.hypot().max(1e-9);
                Vec2::new(-d.y, d.x)
            })
            .collect()
    }

    fn across(&self, thickness: f64) -> Measured {
        let n = self.normals()[0] * (0.5 * thickness);
        (self.axis[0] - n, self.axis[0] + n)
    }
}

fn of_stroke(stroke: &Stroke) -> Vec<Join> {
    let (axis, profile) = (&stroke.axis, &stroke.profile);
    if axis.len() < 4 || axis.len() != profile.len() {
        return Vec::new();
    }
    let at = |m: &Thickness, p: &Point| m.centre().distance(*p);
    let half = axis.len() / 2;
    stroke
        .joins
        .iter()
        .filter_map(|m| {
            let last = axis.len() - 1;
            let from_start = at(m, &axis[0]) <= at(m, &axis[last]);
            let (mut axis, mut profile) = (axis.clone(), profile.clone());
            if !from_start {
                axis.reverse();
                profile.reverse();
            }
            // The thickest of the nearer half: further on is the other end's.
            let near = &profile[..=half];
            let (full_at, full) = near
                .iter()
                .copied()
                .enumerate()
                .max_by(|a, b| a.1.total_cmp(&b.1))?;
            if profile[0] >= (1.0 - SAME) * full || full_at == 0 {
                return None;
            }
            axis.truncate(full_at + 1);
            profile.truncate(full_at + 1);
            Some(Join {
                axis,
                profile,
                full,
            })
        })
        .collect()
}

/// Lays a strip along the join, its contour running the way of the letter's ink.
fn strip(path: &mut BezPath, join: &Join, thick: &dyn Fn(f64) -> f64, way: f64) {
    let normals = join.normals();
    let mut axis = join.axis.clone();
    let mut halves: Vec<f64> = join.profile.iter().map(|&own| 0.5 * thick(own)).collect();
    let mut normals = normals;
    // A little into the stroke that it springs from, so that no seam is left.
    let back = Vec2::new(normals[0].y, -normals[0].x) * (-INTO * join.thin());
    axis.insert(0, axis[0] + back);
    halves.insert(0, halves[0]);
    normals.insert(0, normals[0]);
    let side = |sign: f64| -> Vec<Point> {
        (0..axis.len())
            .map(|i| axis[i] + normals[i] * (sign * halves[i]))
            .collect()
    };
    let (mut one, mut other) = (side(1.0), side(-1.0));
    other.reverse();
    one.append(&mut other);
    let area: f64 = (0..one.len())
        .map(|i| one[i].to_vec2().cross(one[(i + 1) % one.len()].to_vec2()))
        .sum();
    if (area > 0.0) != (way > 0.0) {
        one.reverse();
    }
    path.move_to(one[0]);
    one[1..].iter().for_each(|&p| path.line_to(p));
    path.close_path();
}
