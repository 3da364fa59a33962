//! The trial: faults planted, a letter at a time, in families never fitted.
//!
//! A letter's score for a fault is the strength of that fault's own cause. The
//! letter is judged against what the rest of its untouched face expects of it,
//! which is what the judgement does too: no letter vouches for itself. What of
//! the whole judgement, every cause competing and every letter of the faulty
//! face judged anew, is told by how often the faulty letter stands among the
//! first three; that is done on a sample.

use crate::fault::{FAULTS, Fault};
use crate::limit::{Read, limit};
use crate::plain;
use crate::specimen::{Planted, Specimen};
use counterpoise::judge::{Cause, FIGURES, LETTERS, Table, Traits, Weighed, signs};
use serde::Serialize;
use std::collections::BTreeMap;

/// Seed of the samples and of the bootstrap.
pub(crate) const SEED: u64 = 20_261_125;

/// Letters in which the whole judgement is tried, a fault, size and face.
const SAMPLE: usize = 3;

/// Resamplings of families for the intervals.
const RESAMPLINGS: usize = 200;

/// Sizes of the ladder on which the smallest fault is sought, as multiples of
/// the smallest planted: between planted and untouched, and beyond, a fault
/// moves each figure in proportion.
const LADDER: [f64; 8] = [0.25, 0.5, 0.75, 1.0, 1.5, 2.0, 3.0, 4.0];

/// What came of one fault at one size, either way.
#[derive(Debug, Clone, Serialize)]
#[serde(rename_all = "snake_case")]
pub(crate) struct Outcome {
    pub(crate) fault: &'static str,
    /// Share of what is changed.
    pub(crate) size: f64,
    /// Letters planted.
    pub(crate) letters: usize,
    pub(crate) auc: f64,
    /// Bootstrap over families, 95%.
    pub(crate) auc_interval: [f64; 2],
    /// At one false alarm of this cause per 52 sound letters.
    pub(crate) recall: f64,
    pub(crate) recall_interval: [f64; 2],
    /// At the second strongest of the same untouched face: one false alarm in it.
    pub(crate) recall_in_face: f64,
    /// Among the first three findings of the faulty face.
    pub(crate) top3: f64,
    pub(crate) plain_auc: f64,
    pub(crate) plain_recall: f64,
    /// Smallest size found nine times in ten; null where no size of the ladder is.
    pub(crate) smallest_found: Option<f64>,
    /// Letters in which it is found worst, with their own area under the curve.
    pub(crate) worst: String,
    /// Whether that size is a ratio's logarithm, not a share of the height.
    pub(crate) ratio: bool,
    /// How far the cause's size, read off the letter, moves: the logarithm of a
    /// ratio, or a share of the cap height.
    pub(crate) moves: f64,
    /// How far that size lies from nought in sound letters, one spread.
    pub(crate) spread: f64,
    /// The area under the curve that such a spread leaves, were it normal.
    pub(crate) limit_auc: f64,
    /// The recall that it leaves.
    pub(crate) limit_recall: f64,
    /// Area and recall that the sizes leave as they do scatter, each letter among
    /// its own kind.
    pub(crate) as_drawn: (f64, f64),
    /// Letters that designers choose most freely, with their spreads.
    pub(crate) freest: Vec<(char, f64)>,
}

#[derive(Debug, Clone, Serialize)]
pub(crate) struct Trial {
    pub(crate) families: usize,
    pub(crate) faces: usize,
    pub(crate) seed: u64,
    /// Of capitals and lower case.
    pub(crate) faults: Vec<Outcome>,
    /// Of figures and the &, held against sound ones of their own.
    pub(crate) figures: Vec<Outcome>,
}

/// One planted letter's scores.
struct Score {
    family: usize,
    face: usize,
    letter: char,
    ours: f64,
    plain: f64,
    ladder: [f64; LADDER.len()],
    read: Read,
}

/// Scores of sound letters for one cause, by family.
type Sound = Vec<(usize, usize, f64, f64)>;

pub(crate) fn run(table: &Table, faces: &[Specimen]) -> Trial {
    let mut families: Vec<&str> = faces.iter().map(|f| f.family.as_str()).collect();
    families.dedup();
    let (letters, figures) = LETTERS.split_at(FIGURES);
    Trial {
        families: families.len(),
        faces: faces.len(),
        seed: SEED,
        faults: outcomes(table, faces, &families, letters),
        figures: outcomes(table, faces, &families, figures),
    }
}

/// What came of the faults planted in some of the letters.
fn outcomes(table: &Table, faces: &[Specimen], families: &[&str], tried: &str) -> Vec<Outcome> {
    let family = |f: &Specimen| families.binary_search(&f.family.as_str()).unwrap_or(0);
    let mut sound: BTreeMap<usize, Sound> = BTreeMap::new();
    let mut scores: BTreeMap<(usize, u32), Vec<Score>> = BTreeMap::new();
    let mut firsts: BTreeMap<(usize, u32), (f64, f64)> = BTreeMap::new();
    let mut random = fastrand::Rng::with_seed(SEED);
    for (at, face) in faces.iter().enumerate() {
        let weighed = Weighed::of(table, table.relations.row(&face.letters));
        for (letter, c) in LETTERS.chars().enumerate().filter(|l| tried.contains(l.1)) {
            let Some(traits) = face.traits(c) else {
                continue;
            };
            for cause in Cause::ALL {
                let ours = strength(&weighed, letter, cause);
                let plain = plain::score(face, c, &traits, cause);
                sound
                    .entry(cause as usize)
                    .or_default()
                    .push((family(face), at, ours, plain));
            }
        }
        for (which, (fault, sizes)) in FAULTS.iter().enumerate() {
            for &size in *sizes {
                let key = (which, (size.abs() * 1000.0).round() as u32);
                let planted: Vec<&Planted> = face
                    .planted
                    .iter()
                    .filter(|p| p.fault == *fault && p.size == size && tried.contains(p.letter))
                    .collect();
                for p in &planted {
                    scores.entry(key).or_default().extend(score(
                        &weighed,
                        face,
                        family(face),
                        at,
                        p,
                    ));
                }
                let mut sample = planted;
                random.shuffle(&mut sample);
                for p in sample.into_iter().take(SAMPLE) {
                    let (found, tried) = firsts.entry(key).or_default();
                    *tried += 1.0;
                    if among_first_three(table, face, p) {
                        *found += 1.0;
                    }
                }
            }
        }
    }
    scores
        .iter()
        .map(|(key, scores)| {
            let fault = FAULTS[key.0].0;
            let size = f64::from(key.1) / 1000.0;
            let (found, tried) = firsts.get(key).copied().unwrap_or((0.0, 1.0));
            let cause = fault.cause() as usize;
            outcome(
                fault,
                size,
                scores,
                &sound[&cause],
                found / tried,
                families.len(),
            )
        })
        .collect()
}

fn strength(weighed: &Weighed<'_>, letter: usize, cause: Cause) -> f64 {
    weighed
        .sign(&weighed.standing(letter), cause)
        .map_or(0.0, |s| s.strength)
}

fn score(
    weighed: &Weighed<'_>,
    face: &Specimen,
    family: usize,
    at: usize,
    p: &Planted,
) -> Option<Score> {
    let letter = LETTERS.find(p.letter)?;
    let clean = face.traits(p.letter)?;
    let cause = p.fault.cause();
    let of = |traits: &Traits| strength(&weighed.with_letter(letter, traits), letter, cause);
    let size = |traits: &Traits| {
        let drawn = weighed.with_letter(letter, traits);
        let sign = drawn.sign(&drawn.standing(letter), cause);
        sign.map_or(0.0, |s| s.size)
    };
    Some(Score {
        family,
        face: at,
        letter: p.letter,
        ours: of(&p.traits),
        plain: plain::score(face, p.letter, &p.traits, cause),
        ladder: LADDER.map(|step| of(&clean.towards(&p.traits, step))),
        read: Read {
            letter: p.letter,
            before: size(&clean),
            after: size(&p.traits),
        },
    })
}

/// Judges the whole faulty face and looks where the faulty letter stands.
fn among_first_three(table: &Table, face: &Specimen, p: &Planted) -> bool {
    let mut letters = face.letters.clone();
    if let Some(at) = LETTERS.find(p.letter) {
        letters[at] = Some(p.traits);
    }
    let weighed = Weighed::of(table, table.relations.row(&letters));
    let mut all: Vec<(f64, f64, char)> = LETTERS
        .chars()
        .enumerate()
        .filter(|(letter, _)| letters[*letter].is_some())
        .flat_map(|(letter, c)| {
            signs(&weighed, weighed.standing(letter))
                .into_iter()
                .map(move |(sign, chance)| (chance, -sign.strength, c))
        })
        .collect();
    all.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    all.iter().take(3).any(|f| f.2 == p.letter)
}

fn outcome(
    fault: Fault,
    size: f64,
    scores: &[Score],
    sound: &Sound,
    top3: f64,
    families: usize,
) -> Outcome {
    let ours: Vec<f64> = scores.iter().map(|s| s.ours).collect();
    let plain: Vec<f64> = scores.iter().map(|s| s.plain).collect();
    let sound_ours = sorted(sound.iter().map(|s| s.2).collect());
    let sound_plain = sorted(sound.iter().map(|s| s.3).collect());
    let line = one_in_52(&sound_ours);
    let share =
        |of: &[f64], line: f64| of.iter().filter(|&&v| v > line).count() as f64 / of.len() as f64;

    // One false alarm in the very face: its second strongest sound letter.
    let mut by_face: BTreeMap<usize, Vec<f64>> = BTreeMap::new();
    for s in sound {
        by_face.entry(s.1).or_default().push(s.2);
    }
    let lines: BTreeMap<usize, f64> = by_face
        .into_iter()
        .map(|(face, all)| (face, one_in_52(&sorted(all))))
        .collect();
    let in_face = scores.iter().filter(|s| s.ours > lines[&s.face]).count() as f64;

    let mut random = fastrand::Rng::with_seed(SEED);
    let (mut aucs, mut recalls) = (Vec::new(), Vec::new());
    for _ in 0..RESAMPLINGS {
        let mut times = vec![0usize; families];
        for _ in 0..families {
            times[random.usize(..families)] += 1;
        }
        let drawn: Vec<f64> = scores
            .iter()
            .flat_map(|s| std::iter::repeat_n(s.ours, times[s.family]))
            .collect();
        let clean = sorted(
            sound
                .iter()
                .flat_map(|s| std::iter::repeat_n(s.2, times[s.0]))
                .collect(),
        );
        if !drawn.is_empty() && !clean.is_empty() {
            aucs.push(auc(&drawn, &clean));
            recalls.push(share(&drawn, one_in_52(&clean)));
        }
    }
    let smallest = LADDER
        .iter()
        .enumerate()
        .find(|(i, _)| {
            let found = scores.iter().filter(|s| s.ladder[*i] > line).count() as f64;
            found >= 0.9 * scores.len() as f64
        })
        .map(|(_, step)| step * size);
    let mut worst: Vec<(f64, char)> = LETTERS
        .chars()
        .filter_map(|c| {
            let own: Vec<f64> = scores
                .iter()
                .filter(|s| s.letter == c)
                .map(|s| s.ours)
                .collect();
            (own.len() >= 20).then(|| (auc(&own, &sound_ours), c))
        })
        .collect();
    worst.sort_by(|a, b| a.0.total_cmp(&b.0));
    let reads: Vec<&Read> = scores.iter().map(|s| &s.read).collect();
    let limit = limit(&reads);
    let worst: Vec<String> = worst
        .iter()
        .take(6)
        .map(|(a, c)| format!("{c} {a:.2}"))
        .collect();
    Outcome {
        fault: name(fault),
        size,
        letters: scores.len(),
        auc: auc(&ours, &sound_ours),
        auc_interval: interval(aucs),
        recall: share(&ours, line),
        recall_interval: interval(recalls),
        recall_in_face: in_face / scores.len() as f64,
        top3,
        plain_auc: auc(&plain, &sound_plain),
        plain_recall: share(&plain, one_in_52(&sound_plain)),
        smallest_found: smallest,
        worst: worst.join(", "),
        ratio: fault.cause().is_ratio(),
        moves: limit.moves,
        spread: limit.spread,
        limit_auc: limit.auc,
        limit_recall: limit.recall,
        as_drawn: limit.as_drawn,
        freest: limit.freest,
    }
}

fn name(fault: Fault) -> &'static str {
    match fault {
        Fault::Width => "ink width, stems kept",
        Fault::Strokes => "strokes",
        Fault::Uprights => "upright strokes alone",
        Fault::Levels => "level strokes alone",
        Fault::Overshoot => "overshoot removed or doubled",
        Fault::LeftBearing => "left side bearing",
        Fault::RightBearing => "right side bearing",
        Fault::Pair => "pair of stems unequal",
        Fault::Raised => "raised or lowered",
    }
}

fn sorted(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_unstable_by(f64::total_cmp);
    values
}

/// The score that one sound letter in 52 reaches or passes.
pub(crate) fn one_in_52(sorted: &[f64]) -> f64 {
    let above = (sorted.len() as f64 / 52.0).round().max(1.0) as usize;
    sorted
        .len()
        .checked_sub(above + 1)
        .map_or(f64::INFINITY, |i| sorted[i])
}

fn interval(values: Vec<f64>) -> [f64; 2] {
    let all = sorted(values);
    let at = |q: f64| {
        all.get((q * all.len() as f64) as usize)
            .copied()
            .unwrap_or(f64::NAN)
    };
    [at(0.025), at(0.975)]
}

/// Area under the curve: how often a faulty letter scores above a sound one,
/// ties counting half (Mann and Whitney's statistic).
pub(crate) fn auc(faulty: &[f64], sound: &[f64]) -> f64 {
    let sum: f64 = faulty
        .iter()
        .map(|f| {
            let below = sound.partition_point(|s| s < f);
            let upto = sound.partition_point(|s| s <= f);
            0.5 * (below + upto) as f64
        })
        .sum();
    sum / (faulty.len() as f64 * sound.len() as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_area_is_that_of_the_definition() {
        // 3 of 4 pairs in order, one tied: (2 + 0.5 + 1) / 4 ...
        assert_eq!(auc(&[2.0, 3.0], &[1.0, 2.0]), 3.5 / 4.0);
        assert_eq!(auc(&[1.0], &[1.0]), 0.5);
    }

    #[test]
    fn one_in_fifty_two_is_passed_by_one_in_fifty_two() {
        let scores: Vec<f64> = (0..520).map(f64::from).collect();
        let line = one_in_52(&scores);
        assert_eq!(scores.iter().filter(|&&s| s > line).count(), 10);
    }
}
