//! `cargo lab-trial spacing fit`: learns how well-spaced families set their
//! sides, and writes what the library carries of it.

use crate::corpus;
use crate::families::{Family, Part, families};
use crate::middle::median;
use anyhow::{Context as _, Result};
use counterpoise::font::Font;
use counterpoise::measure::{Context, MAD_TO_SD};
use counterpoise::spacing::{
    Case, Model, RULED, RULED_SIDES, Reference, Rule, Spacing, reference, side_figures,
};
use nalgebra::{DMatrix, DVector};
use std::fs;
use std::path::Path;
use std::sync::Mutex;
use std::sync::atomic::{AtomicUsize, Ordering};

/// Bearings this near what is expected, as a share of the cap height, weigh no
/// more for being nearer: half of one unit in a hundred and twenty-five.
const NEAR: f64 = 0.004;

/// Rounds in which far departures are weighed down.
const ROUNDS: usize = 12;

/// How strongly factors are held small, in rows, once inputs are brought to one
/// scale: those of all letters, and those of one letter's side.
const HELD: f64 = 10.0;
const HELD_OF_LETTER: f64 = 3.0;

/// An opened face.
pub(crate) struct Faced {
    pub(crate) family: String,
    pub(crate) face: String,
    pub(crate) font: Font,
    pub(crate) context: Context,
}

/// Every upright face of a part.
pub(crate) fn upright(part: Part) -> Result<Vec<Faced>> {
    let families = families(part)?;
    let next = AtomicUsize::new(0);
    let done: Mutex<Vec<Result<Vec<Faced>>>> = Mutex::default();
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    std::thread::scope(|scope| {
        for _ in 0..threads {
            scope.spawn(|| {
                while let Some(family) = families.get(next.fetch_add(1, Ordering::Relaxed)) {
                    let opened = of_family(family);
                    done.lock().unwrap_or_else(|e| e.into_inner()).push(opened);
                }
            });
        }
    });
    let done = done.into_inner().unwrap_or_else(|e| e.into_inner());
    let mut all: Vec<Faced> = done
        .into_iter()
        .collect::<Result<Vec<_>>>()?
        .into_iter()
        .flatten()
        .collect();
    all.sort_by(|a, b| (&a.family, &a.face).cmp(&(&b.family, &b.face)));
    Ok(all)
}

fn of_family(family: &Family) -> Result<Vec<Faced>> {
    let mut all = Vec::new();
    for (bytes, face) in corpus::faces(family)?.into_iter().zip(&family.faces) {
        let font = Font::open(bytes).map_err(|e| anyhow::anyhow!("{}: {e}", face.file))?;
        let context = Context::of(&font);
        if context.slant.abs() < 1.0 {
            all.push(Faced {
                family: family.name.clone(),
                face: face.file.clone(),
                font,
                context,
            });
        }
    }
    Ok(all)
}

pub(crate) fn run(here: &Path) -> Result<()> {
    eprintln!("reading the families to fit");
    let faces = upright(Part::Fit)?;
    let model = learn(&faces);
    let file = here.join("../counterpoise/src/spacing/learned.bin");
    fs::write(&file, model.to_bytes()).context("the model could not be written")?;
    eprintln!("fitted {} faces; build again to try it", faces.len());
    Ok(())
}

/// Inputs and bearings of some sides.
#[derive(Default)]
struct Rows {
    inputs: Vec<Vec<f64>>,
    bearings: Vec<f64>,
}

impl Rows {
    fn push(&mut self, inputs: &[f64], bearing: f64) {
        self.inputs.push(inputs.to_vec());
        self.bearings.push(bearing);
    }
}

fn learn(faces: &[Faced]) -> Model {
    let mut shapes = [Rows::default(), Rows::default()];
    let mut controls = [Rows::default(), Rows::default()];
    let mut letters: Vec<Rows> = (0..RULED_SIDES).map(|_| Rows::default()).collect();
    for face in faces {
        let spacing = Spacing::by(&face.font, &face.context, RULED.chars(), None);
        let grid = spacing.grid;
        let references: Vec<(Case, Reference)> = [Case::Lower, Case::Capital]
            .into_iter()
            .filter_map(|c| Some((c, reference(&face.font, &face.context, &grid, c)?)))
            .collect();
        for letter in &spacing.letters {
            let case = Case::of(Some(letter.character));
            let Some((_, reference)) = references.iter().find(|(c, _)| *c == case) else {
                continue;
            };
            for side in [0, 1] {
                let figures = side_figures(letter.side(side), &letter.sides, &grid);
                let bearing = letter.side(side).bearing / grid.height;
                shapes[case as usize].push(&reference.of_shapes(&figures), bearing);
                if !case.controls().contains(&letter.character) {
                    let inputs = reference.of_controls(&figures, side);
                    controls[case as usize].push(&inputs, bearing);
                }
                if let Some(at) = Model::ruled(letter.character, side) {
                    letters[at].push(&reference.of_letters(&figures, side), bearing);
                }
            }
        }
    }
    let mut model = Model {
        shapes: shapes.map(|rows| least_absolute(&rows, HELD)),
        controls: controls.map(|rows| least_absolute(&rows, HELD)),
        letters: letters
            .iter()
            .map(|rows| least_absolute(rows, HELD_OF_LETTER))
            .collect(),
        spreads: vec![1.0; RULED_SIDES],
    };
    model.spreads = spreads(faces, &model);
    model
}

/// How far each side commonly lies from what its own font implies.
fn spreads(faces: &[Faced], model: &Model) -> Vec<f64> {
    let mut strays: Vec<Vec<f64>> = vec![Vec::new(); RULED_SIDES];
    for face in faces {
        let spacing = Spacing::by(&face.font, &face.context, RULED.chars(), Some(model));
        for letter in &spacing.letters {
            for side in [0, 1] {
                if let (Some(at), Some(implied)) = (
                    Model::ruled(letter.character, side),
                    letter.expected[side].implied,
                ) {
                    let stray = (letter.side(side).bearing - implied).abs();
                    strays[at].push(stray / spacing.grid.height);
                }
            }
        }
    }
    strays
        .iter_mut()
        .map(|all| MAD_TO_SD * median(all).unwrap_or(0.0))
        // A side that nearly all fonts set alike may still be a unit off.
        .map(|spread| spread.max(0.0015))
        .collect()
}

/// The linear rule of least absolute deviations, factors held small: ridge
/// regressions in which far departures weigh less and less.
fn least_absolute(rows: &Rows, held: f64) -> Rule {
    let (n, width) = (rows.inputs.len(), rows.inputs.first().map_or(0, Vec::len));
    let count = n.max(1) as f64;
    let mean: Vec<f64> = (0..width)
        .map(|j| rows.inputs.iter().map(|r| r[j]).sum::<f64>() / count)
        .collect();
    let size: Vec<f64> = (0..width)
        .map(|j| {
            let sum: f64 = rows.inputs.iter().map(|r| (r[j] - mean[j]).powi(2)).sum();
            // An input that never changes tells nothing and gets no factor.
            (sum / count).sqrt().max(1e-6)
        })
        .collect();
    let at = |i: usize, j: usize| match j {
        j if j < width => (rows.inputs[i][j] - mean[j]) / size[j],
        _ => 1.0,
    };
    let inputs = DMatrix::from_fn(n, width + 1, at);
    let bearings = DVector::from_column_slice(&rows.bearings);
    let mut weights = vec![1.0; n];
    let mut solved = DVector::zeros(width + 1);
    for _ in 0..=ROUNDS {
        let weighed = DMatrix::from_fn(n, width + 1, |i, j| weights[i] * inputs[(i, j)]);
        let mut squares = weighed.transpose() * &inputs;
        for j in 0..width {
            squares[(j, j)] += held;
        }
        // Never singular: the factors are held, and the last is of ones.
        if let Some(factor) = squares.cholesky() {
            solved = factor.solve(&(weighed.transpose() * &bearings));
        }
        let off = &inputs * &solved - &bearings;
        weights = off.iter().map(|d| 1.0 / d.abs().max(NEAR)).collect();
        let sum: f64 = weights.iter().sum();
        weights.iter_mut().for_each(|w| *w *= count / sum);
    }
    let mut factors: Vec<f64> = (0..width).map(|j| solved[j] / size[j]).collect();
    let moved: f64 = factors.iter().zip(&mean).map(|(f, m)| f * m).sum();
    factors.push(solved[width] - moved);
    Rule(factors)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_is_found_among_outliers() {
        let mut rows = Rows::default();
        for i in 0..400 {
            let x = f64::from(i % 20) / 20.0;
            let wild = if i % 9 == 0 { 3.0 } else { 0.0 };
            rows.push(&[x, 1.0], 0.5 * x + 0.1 + wild);
        }
        let rule = least_absolute(&rows, 0.01);
        assert!((rule.says(&[0.3, 1.0]) - 0.25).abs() < 0.01, "{rule:?}");
    }
}
