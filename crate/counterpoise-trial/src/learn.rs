//! What the fitted model leaves: noise, correlation and the effects of causes,
//! each taken on faces that were not fitted.

use crate::families::lot;
use crate::fit::fit;
use crate::middle::median;
use crate::specimen::Specimen;
use counterpoise::judge::{
    Cause, FIGURES, LETTERS, Relations, Rule, SHOWN, Standing, Table, Together, Weighed, rarest,
    tabled,
};
use counterpoise::measure::MAD_TO_SD;
use nalgebra::{DMatrix, SymmetricEigen};
use std::collections::BTreeMap;

/// Departures beyond this many spreads count as so many.
const WINSOR: f64 = 3.0;

/// Correlations are shrunk towards none by this share.
const SHRINK: f64 = 0.15;

/// Learns the whole table. Families are parted in two; each half's departures
/// are read with the model fitted on the other.
pub(crate) fn learn(
    faces: &[&Specimen],
    factors: [usize; Together::ALL.len()],
    rounds: usize,
) -> Table {
    let (even, odd): (Vec<&Specimen>, Vec<&Specimen>) =
        faces.iter().partition(|f| lot(&f.family).is_multiple_of(2));
    let relations = fit(faces, factors, rounds);
    let effects = effects(&relations, faces);
    let mut table = blank(relations, effects.clone());
    table.usual = usual(faces);
    let (of_even, of_odd) = (fit(&even, factors, rounds), fit(&odd, factors, rounds));
    let mut halves: Vec<(Table, Vec<&Specimen>)> = [(of_even, odd), (of_odd, even)]
        .into_iter()
        .map(|(r, f)| {
            // The same figures in the same order, whatever a half lacks.
            (blank(aligned(&table.relations, &r), effects.clone()), f)
        })
        .collect();
    for _ in 0..4 {
        let noise = noise(&table, &halves);
        for (t, _) in &mut halves {
            t.noise.clone_from(&noise);
        }
        table.noise = noise;
    }
    table.correlations = correlations(&table, &halves);
    for (t, _) in &mut halves {
        t.correlations.clone_from(&table.correlations);
    }
    table.evened = evened(&halves);
    for (t, _) in &mut halves {
        t.evened = table.evened;
    }
    table.shown = shown(&halves);
    for (t, _) in &mut halves {
        t.shown = table.shown;
    }
    calibrate(&mut table, halves);
    table
}

/// What faces commonly do of each optical rule: quartiles of their habits.
fn usual(faces: &[&Specimen]) -> [[f64; 3]; Rule::ALL.len()] {
    std::array::from_fn(|rule| {
        let mut habits: Vec<f64> = faces.iter().filter_map(|f| f.habits[rule]).collect();
        habits.sort_unstable_by(f64::total_cmp);
        [1, 2, 3].map(|q| habits.get(habits.len() * q / 4).copied().unwrap_or(0.0))
    })
}

/// How strongly causes show in the letters of a font, on average over fonts.
fn shown(halves: &[(Table, Vec<&Specimen>)]) -> [[f64; SHOWN.len()]; Cause::ALL.len()] {
    let mut sums = [[0.0; SHOWN.len()]; Cause::ALL.len()];
    let mut n = 0.0;
    for (table, faces) in halves {
        for face in faces {
            let own = Weighed::of(table, table.relations.row(&face.letters)).shown();
            for (sum, v) in sums.as_flattened_mut().iter_mut().zip(own.as_flattened()) {
                *sum += v;
            }
            n += 1.0;
        }
    }
    sums.map(|of_cause| of_cause.map(|sum| sum / f64::max(n, 1.0)))
}

/// By how much signs of width are made even over letters: the strength that one
/// sound letter in 25 to a hundred passes, of letters (or figures) together beside
/// the very letter's, to the power 0.7, since few faces tell it.
fn evened(halves: &[(Table, Vec<&Specimen>)]) -> [f64; LETTERS.len()] {
    const POWER: f64 = 0.7;
    /// Fewer faces than this tell no tail.
    const LEAST: usize = 100;
    let mut of_letters: Vec<Vec<f64>> = vec![Vec::new(); LETTERS.len()];
    each_letter(halves, |weighed, standing| {
        if let Some(sign) = weighed.sign(standing, Cause::Width) {
            of_letters[standing.letter].push(sign.strength);
        }
    });
    let tail = |mut strengths: Vec<f64>| {
        strengths.sort_unstable_by(f64::total_cmp);
        let at = |share: f64| {
            strengths[(share * strengths.len() as f64) as usize]
                .max(1e-3)
                .ln()
        };
        ((at(0.96) + at(0.98) + at(0.99)) / 3.0).exp()
    };
    let mut evened = [1.0; LETTERS.len()];
    for kin in [0..FIGURES, FIGURES..LETTERS.len()] {
        let together = of_letters[kin.clone()].concat();
        if together.len() < LEAST {
            continue;
        }
        let usual = tail(together);
        for letter in kin {
            let own = &of_letters[letter];
            if own.len() >= LEAST {
                evened[letter] = (usual / tail(own.clone())).powf(POWER).clamp(0.4, 2.0);
            }
        }
    }
    evened
}

/// Tables how strongly causes show in sound letters.
fn calibrate(table: &mut Table, mut halves: Vec<(Table, Vec<&Specimen>)>) {
    let mut strengths: [[Vec<f64>; Cause::ALL.len()]; 2] = Default::default();
    each_letter(&halves, |weighed, standing| {
        for cause in Cause::ALL {
            let sign = weighed.sign(standing, cause);
            strengths[standing.kin()][cause as usize].push(sign.map_or(0.0, |s| s.strength));
        }
    });
    table.strengths = strengths.map(|of_kin| of_kin.map(tabled));
    for (t, _) in &mut halves {
        t.strengths.clone_from(&table.strengths);
    }
    let mut rare = Vec::new();
    each_letter(&halves, |weighed, standing| {
        rare.push(rarest(weighed, standing).map_or(0.0, |(_, share)| -share.ln()));
    });
    table.rarest = tabled(rare);
}

fn each_letter(halves: &[(Table, Vec<&Specimen>)], mut look: impl FnMut(&Weighed<'_>, &Standing)) {
    for (table, faces) in halves {
        for face in faces {
            let weighed = Weighed::of(table, table.relations.row(&face.letters));
            for (letter, _) in face.letters.iter().enumerate().filter(|(_, t)| t.is_some()) {
                look(&weighed, &weighed.standing(letter));
            }
        }
    }
}

fn blank(relations: Relations, effects: [Vec<f64>; Cause::ALL.len()]) -> Table {
    let n = relations.variables.len();
    Table {
        correlations: (0..n)
            .map(|i| {
                let from = relations.of_letter(relations.variables[i].letter).start;
                let mut own = vec![0.0; i + 1 - from];
                own[i - from] = 1.0;
                own
            })
            .collect(),
        noise: vec![1.0; n],
        effects,
        shown: Default::default(),
        evened: [1.0; LETTERS.len()],
        strengths: Default::default(),
        rarest: Vec::new(),
        usual: Default::default(),
        relations,
    }
}

/// A model with the figures of another, in its order; one that it lacks is all noise.
fn aligned(like: &Relations, of: &Relations) -> Relations {
    let mut out = like.clone();
    for (i, v) in like.variables.iter().enumerate() {
        let together = Together::of(v.of) as usize;
        let group = &mut out.groups[together];
        let k = of.groups[together].factors;
        if group.factors != k {
            (group.factors, group.loadings) = (k, vec![0.0; k * group.variables.len()]);
        }
        let Ok(at) = group.variables.binary_search(&i) else {
            continue;
        };
        let to = &mut group.loadings[at * k..(at + 1) * k];
        match of
            .variables
            .iter()
            .position(|w| w.letter == v.letter && w.of == v.of)
        {
            Some(j) => {
                out.variables[i] = of.variables[j];
                to.copy_from_slice(of.loading(j));
            }
            None => to.fill(0.0),
        }
    }
    out
}

fn standings<'a>(halves: &'a [(Table, Vec<&'a Specimen>)]) -> Vec<Vec<Option<f64>>> {
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let jobs: Vec<(&Table, &Specimen)> = halves
        .iter()
        .flat_map(|(t, f)| f.iter().map(move |f| (t, *f)))
        .collect();
    std::thread::scope(|scope| {
        let parts: Vec<_> = jobs
            .chunks(jobs.len().div_ceil(threads))
            .map(|jobs| {
                scope.spawn(move || {
                    jobs.iter()
                        .map(|(table, face)| {
                            let weighed = Weighed::of(table, table.relations.row(&face.letters));
                            let mut off = vec![None; table.noise.len()];
                            for letter in 0..LETTERS.len() {
                                let s = weighed.standing(letter);
                                for (&i, &z) in s.variables.iter().zip(&s.off) {
                                    off[i] = Some(z);
                                }
                            }
                            off
                        })
                        .collect::<Vec<_>>()
                })
            })
            .collect();
        parts
            .into_iter()
            .flat_map(|p| p.join().expect("no thread fails"))
            .collect()
    })
}

fn noise(table: &Table, halves: &[(Table, Vec<&Specimen>)]) -> Vec<f64> {
    let all = standings(halves);
    (0..table.noise.len())
        .map(|i| {
            let mut off: Vec<f64> = all.iter().filter_map(|z| Some(z[i]?.abs())).collect();
            let middle = MAD_TO_SD * median(&mut off).unwrap_or(1.0);
            (table.noise[i] * middle.clamp(0.5, 2.0)).clamp(0.2, 4.0)
        })
        .collect()
}

fn correlations(table: &Table, halves: &[(Table, Vec<&Specimen>)]) -> Vec<Vec<f64>> {
    let all = standings(halves);
    let clip = |z: f64| z.clamp(-WINSOR, WINSOR);
    let product = |i: usize, j: usize| {
        let (sum, n) = all
            .iter()
            .filter_map(|z| Some(clip(z[i]?) * clip(z[j]?)))
            .fold((0.0, 0.0), |(s, n), v| (s + v, n + 1.0));
        sum / f64::max(n, 20.0)
    };
    let mut correlations = vec![Vec::new(); table.noise.len()];
    for letter in 0..LETTERS.len() {
        let own = table.relations.of_letter(letter);
        let from = own.start;
        let products = DMatrix::from_fn(own.len(), own.len(), |a, b| product(from + a, from + b));
        let definite = definite(products);
        for i in own {
            correlations[i] = (from..=i).map(|j| definite[(i - from, j - from)]).collect();
        }
    }
    correlations
}

/// The nearest that is a correlation: products over those faces that have both
/// figures do not quite agree with each other.
fn definite(products: DMatrix<f64>) -> DMatrix<f64> {
    /// Directions in which figures never depart would count without bound.
    const LEAST: f64 = 0.05;
    let n = products.nrows();
    let size: Vec<f64> = (0..n).map(|i| products[(i, i)].max(0.05).sqrt()).collect();
    let shrunk = DMatrix::from_fn(n, n, |a, b| {
        if a == b {
            1.0
        } else {
            (1.0 - SHRINK) * products[(a, b)] / (size[a] * size[b])
        }
    });
    let mut eigen = SymmetricEigen::new(shrunk);
    eigen.eigenvalues.apply(|v| *v = v.max(LEAST));
    let raised = eigen.recompose();
    DMatrix::from_fn(n, n, |a, b| {
        raised[(a, b)] / (raised[(a, a)] * raised[(b, b)]).sqrt()
    })
}

/// How far each cause moves each figure: known, or the median of what the
/// planted faults did.
fn effects(relations: &Relations, faces: &[&Specimen]) -> [Vec<f64>; Cause::ALL.len()] {
    let mut tried: BTreeMap<(usize, usize), Vec<f64>> = BTreeMap::new();
    for face in faces {
        for p in &face.planted {
            let cause = p.fault.cause();
            if !cause.is_ratio() {
                continue;
            }
            let Some(letter) = LETTERS.find(p.letter) else {
                continue;
            };
            let Some(before) = face.traits(p.letter) else {
                continue;
            };
            for i in relations.of_letter(letter) {
                let of = relations.variables[i].of;
                if let (Some(a), Some(b)) = (before.get(of), p.traits.get(of)) {
                    tried
                        .entry((cause as usize, i))
                        .or_default()
                        .push((b - a) / (1.0 + p.size).ln());
                }
            }
        }
    }
    Cause::ALL.map(|cause| {
        relations
            .variables
            .iter()
            .enumerate()
            .map(|(i, v)| {
                cause.known_effect(v.of).unwrap_or_else(|| {
                    match tried.get_mut(&(cause as usize, i)) {
                        Some(values) if values.len() >= 10 => median(values).unwrap_or(0.0),
                        _ => 0.0,
                    }
                })
            })
            .collect()
    })
}
