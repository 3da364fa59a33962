//! `cargo lab-trial spacing`: are bearings suggested as their designers set
//! them, and are moved bearings found, in families that nothing was fitted on?
//!
//! *Stripped and suggested*: the bearings of a face are taken away and set anew,
//! by the handbook from the control letters, by what was learned from the
//! control letters (H, O, n, o keep theirs), or from shapes alone, up to one
//! value that is added to every side of the face. A family's figure is the
//! median, over all sides of its faces but the control letters', of how far that
//! is from the designer's own, in thousandths of the em. The handbook leaves
//! some sides to the eye: beside it the others are counted over its sides alone.
//!
//! *Moved*: a side's bearing is made 15% larger or smaller, where it is 3.3% of
//! the cap height or more, as in the trial of the judgement. The score is how
//! many spreads the side lies from what its font's other sides imply.

use crate::families::Part;
use crate::middle::median;
use crate::spacing_fit::{Faced, upright};
use crate::spacing_report;
use crate::trial::auc;
use anyhow::Result;
use counterpoise::spacing::{Case, RULED, Spaced, Spacing};
use serde::Serialize;
use std::collections::BTreeMap;
use std::path::Path;

/// What is planted: as `fault.rs` has it.
const MOVED: f64 = 0.15;
const LEAST_BEARING: f64 = 0.033;

/// How far suggestions are from the designer's bearings, thousandths of the em.
#[derive(Debug, Clone, Default, Serialize)]
pub(crate) struct Apart {
    /// By the handbook, over the sides that it sets.
    pub(crate) handbook: f64,
    /// From the control letters, over the same sides.
    pub(crate) controls_there: f64,
    /// From the control letters, over all sides.
    pub(crate) controls: f64,
    /// From shapes alone and one value for the face, over all sides.
    pub(crate) shapes: f64,
}

/// How moved bearings of one side are found.
#[derive(Debug, Clone, Serialize)]
pub(crate) struct Found {
    pub(crate) side: &'static str,
    /// Which bearings were moved: all that may be, or those where 15% is at
    /// least so many thousandths of the em.
    pub(crate) moved_by_at_least: f64,
    pub(crate) moved: usize,
    pub(crate) auc: f64,
}

#[derive(Debug, Clone, Serialize)]
pub(crate) struct Outcome {
    pub(crate) families: usize,
    pub(crate) faces: usize,
    /// The median of the families' own.
    pub(crate) middle: Apart,
    /// Families in which the learned rule is nearer than the handbook.
    pub(crate) nearer_than_handbook: usize,
    pub(crate) found: Vec<Found>,
    pub(crate) by_family: BTreeMap<String, Apart>,
}

pub(crate) fn run(here: &Path) -> Result<()> {
    eprintln!("reading the families for trial");
    let faces = upright(Part::Trial)?;
    let spaced: Vec<(&Faced, Spacing)> = faces
        .iter()
        .map(|f| (f, Spacing::of(&f.font, &f.context, RULED.chars())))
        .collect();
    let by_family = apart(&spaced);
    let of = |pick: fn(&Apart) -> f64| {
        let mut all: Vec<f64> = by_family.values().map(pick).collect();
        median(&mut all).unwrap_or(f64::NAN)
    };
    let outcome = Outcome {
        families: by_family.len(),
        faces: faces.len(),
        middle: Apart {
            handbook: of(|a| a.handbook),
            controls_there: of(|a| a.controls_there),
            controls: of(|a| a.controls),
            shapes: of(|a| a.shapes),
        },
        nearer_than_handbook: by_family
            .values()
            .filter(|a| a.controls_there < a.handbook)
            .count(),
        found: found(&spaced),
        by_family,
    };
    spacing_report::write(&outcome, here)
}

fn apart(spaced: &[(&Faced, Spacing)]) -> BTreeMap<String, Apart> {
    let mut families: BTreeMap<String, [Vec<f64>; 4]> = BTreeMap::new();
    for (face, spacing) in spaced {
        let em = f64::from(face.font.units_per_em()) / 1000.0;
        let all = families.entry(face.family.clone()).or_default();
        let mut tracking: Vec<f64> = sides(spacing)
            .filter_map(|(l, s)| Some(l.side(s).bearing - l.expected[s].shape?))
            .collect();
        let tracking = median(&mut tracking).unwrap_or(0.0);
        for (letter, s) in sides(spacing) {
            if Case::of(Some(letter.character))
                .controls()
                .contains(&letter.character)
            {
                continue;
            }
            let off = |suggested: f64| (suggested - letter.side(s).bearing).abs() / em;
            let expected = &letter.expected[s];
            let Some((controls, shape)) = expected.controls.zip(expected.shape) else {
                continue;
            };
            if let Some(book) = expected.handbook {
                all[0].push(off(book));
                all[1].push(off(controls));
            }
            all[2].push(off(controls));
            all[3].push(off(shape + tracking));
        }
    }
    families
        .into_iter()
        .map(|(name, mut all)| {
            let [handbook, controls_there, controls, shapes] =
                all.each_mut().map(|v| median(v).unwrap_or(f64::NAN));
            (
                name,
                Apart {
                    handbook,
                    controls_there,
                    controls,
                    shapes,
                },
            )
        })
        .collect()
}

fn sides(spacing: &Spacing) -> impl Iterator<Item = (&Spaced, usize)> {
    spacing.letters.iter().flat_map(|l| [(l, 0), (l, 1)])
}

fn found(spaced: &[(&Faced, Spacing)]) -> Vec<Found> {
    let mut all = Vec::new();
    for (side, name) in ["left", "right"].into_iter().enumerate() {
        for least in [0.0, 8.0, 12.0] {
            let (mut sound, mut moved) = (Vec::new(), Vec::new());
            for (face, spacing) in spaced {
                let em = f64::from(face.font.units_per_em()) / 1000.0;
                for letter in &spacing.letters {
                    let e = &letter.expected[side];
                    let Some((implied, spread)) = e.implied.zip(e.spread) else {
                        continue;
                    };
                    let bearing = letter.side(side).bearing;
                    let score = |bearing: f64| (bearing - implied).abs() / spread;
                    sound.push(score(bearing));
                    if bearing > LEAST_BEARING * spacing.grid.height
                        && MOVED * bearing / em >= least
                    {
                        moved.extend([1.0 - MOVED, 1.0 + MOVED].map(|by| score(by * bearing)));
                    }
                }
            }
            sound.sort_unstable_by(f64::total_cmp);
            all.push(Found {
                side: name,
                moved_by_at_least: least,
                moved: moved.len(),
                auc: auc(&moved, &sound),
            });
        }
    }
    all
}
