//! The few measures that the list of faults states, read off the outlines as
//! they stand in the font file.

use kurbo::{Affine, BezPath, Line, ParamCurve, Shape};

use crate::error::Error;
use crate::face::{Face, Letter};
use crate::spline::{self, Curves};

/// A letter's outline as TrueType points draw it, on whole units.
pub(crate) fn outline(letter: &Letter) -> Result<BezPath, Error> {
    let contours = spline::knots(&letter.path, Curves::Quadratic, letter.name)?;
    Ok(spline::outline(&contours))
}

/// How many points a letter's TrueType outline has, on and off the curve.
pub(crate) fn point_count(letter: &Letter) -> Result<f64, Error> {
    let contours = spline::knots(&letter.path, Curves::Quadratic, letter.name)?;
    Ok(contours.iter().map(Vec::len).sum::<usize>() as f64)
}

/// The ink that a level line at a height runs through, as intervals.
///
/// The face's contours neither touch nor overlap, so edges alternate between
/// going in and coming out.
pub(crate) fn level_runs(path: &BezPath, y: f64) -> Vec<(f64, f64)> {
    let reach = path.bounding_box().inflate(10.0, 10.0);
    let line = Line::new((reach.x0, y), (reach.x1, y));
    let mut edges: Vec<f64> = path
        .segments()
        .flat_map(|s| s.intersect_line(line))
        .map(|hit| line.eval(hit.line_t).x)
        .collect();
    edges.sort_by(f64::total_cmp);
    edges
        .chunks_exact(2)
        .map(|pair| (pair[0], pair[1]))
        .collect()
}

/// The ink that an upright line runs through.
pub(crate) fn upright_runs(path: &BezPath, x: f64) -> Vec<(f64, f64)> {
    let swapped = Affine::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]) * path;
    level_runs(&swapped, x)
}

/// Median level thickness of the strokes that a letter shows between two
/// heights: all of them, or the first from the left.
pub(crate) fn stem(letter: &Letter, heights: (f64, f64), first: bool) -> Result<f64, Error> {
    // An odd fraction of a unit, so that no line runs through a point.
    const STEP: f64 = 7.31;
    let path = outline(letter)?;
    let mut found = Vec::new();
    let mut y = heights.0 + STEP / 2.0;
    while y < heights.1 {
        let runs = level_runs(&path, y);
        let count = if first { 1 } else { runs.len() };
        found.extend(runs.iter().take(count).map(|r| r.1 - r.0));
        y += STEP;
    }
    median(found).ok_or_else(|| Error::NoMeasure(format!("the stem of {}", letter.name)))
}

fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    if values.len() % 2 == 1 {
        values.get(middle).copied()
    } else {
        let below = values.get(middle.checked_sub(1)?)?;
        Some(f64::midpoint(*below, *values.get(middle)?))
    }
}

/// Where the stem at the right of a letter stands.
pub(crate) fn right_foot(letter: &Letter) -> Result<f64, Error> {
    let path = outline(letter)?;
    // Well inside the flare of the foot, off every point.
    const INSIDE: f64 = 40.3;
    let x = path.bounding_box().x1 - INSIDE;
    upright_runs(&path, x)
        .first()
        .map(|run| run.0)
        .ok_or_else(|| Error::NoMeasure(format!("the foot of {}", letter.name)))
}

/// A letter of a face, which must have it.
pub(crate) fn letter<'a>(face: &'a Face, name: &str) -> Result<&'a Letter, Error> {
    face.letter(name)
        .ok_or_else(|| Error::NoLetter(name.into()))
}
