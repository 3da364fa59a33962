//! The table as a small file: little-endian, and no finer than it is known.
//!
//! | part | what |
//! |---|---|
//! | mark | `CPL4` |
//! | counts | figures (u16); factors of each group (u8 each); [`SHARES`]'s length (u8) |
//! | figures | letter, trait (u8 each); mean (i16, 1/8192); root of noise (u16, logarithm, 1/2048); spread factor (u8, logarithm, 1/64); effect of each learned cause (i8, 1/32) |
//! | loadings | group by group, figure by figure: scale (f32), then i8s, 1/127 |
//! | correlations | figure by figure, up to but without itself: i8, 1/127 |
//! | evened | letter by letter: u8, logarithm, 1/64 |
//! | rarities | each cause's strengths in letters and in figures, then the rarest sign's (f32) |
//! | fonts | what [`SHOWN`] of a font's letters show of each cause (f32) |
//! | habits | each optical rule's three quartiles (f32) |

use super::Table;
use crate::judge::cause::Cause;
use crate::judge::rarity::SHARES;
use crate::judge::relations::{Group, LETTERS, Relations, Together, Variable};
use crate::judge::rules::Rule;
use crate::judge::traits::Trait;
use crate::judge::weigh::SHOWN;

const MARK: &[u8; 4] = b"CPL4";
const MEAN: f64 = 8192.0;
/// Steps of the noise's root, and of spread factors, on logarithmic scales that
/// begin at the least that there is.
const ROOT: (f64, f64) = (1e-9, 2048.0);
const FACTOR: (f64, f64) = (0.14, 64.0);
const EFFECT: f64 = 32.0;
const CORRELATION: f64 = 127.0;
const LOADING: f64 = 127.0;

/// Writes a table.
pub fn write(table: &Table) -> Vec<u8> {
    let mut out = MARK.to_vec();
    let relations = &table.relations;
    let n = relations.variables.len();
    out.extend((n as u16).to_le_bytes());
    out.extend(relations.groups.iter().map(|g| g.factors as u8));
    out.push(SHARES.len() as u8);
    let float = |out: &mut Vec<u8>, v: f64| out.extend((v as f32).to_le_bytes());
    for (i, v) in relations.variables.iter().enumerate() {
        out.extend([v.letter as u8, v.of as u8]);
        // Casts of numbers beyond the type's range end at its bounds.
        out.extend(((v.mean * MEAN).round() as i16).to_le_bytes());
        out.extend((steps(v.noise.sqrt(), ROOT) as u16).to_le_bytes());
        out.push(steps(table.noise[i], FACTOR) as u8);
        for cause in learned() {
            let effect = table.effects[cause as usize][i] * EFFECT;
            out.push(effect.round() as i8 as u8);
        }
    }
    for group in &relations.groups {
        for loading in group.loadings.chunks(group.factors.max(1)) {
            let most = loading.iter().fold(1e-12_f64, |m, w| m.max(w.abs()));
            float(&mut out, most);
            for w in loading {
                out.push((w / most * LOADING).round() as i8 as u8);
            }
        }
    }
    for own in &table.correlations {
        let before = &own[..own.len().saturating_sub(1)];
        out.extend(before.iter().map(|c| (c * CORRELATION).round() as i8 as u8));
    }
    out.extend(table.evened.iter().map(|&e| steps(e, FACTOR) as u8));
    for strengths in table.strengths.as_flattened().iter().chain([&table.rarest]) {
        for &s in strengths {
            float(&mut out, s);
        }
    }
    for &v in table
        .shown
        .as_flattened()
        .iter()
        .chain(table.usual.as_flattened())
    {
        float(&mut out, v);
    }
    out
}

/// Reads a table; `None` if the file is not one.
pub fn read(file: &[u8]) -> Option<Table> {
    let mut bytes = Bytes(file);
    if bytes.take(4)? != MARK {
        return None;
    }
    let n = usize::from(u16::from_le_bytes(bytes.array()?));
    let factors: [u8; Together::ALL.len()] = bytes.array()?;
    let [shares] = bytes.array()?;
    if usize::from(shares) != SHARES.len() {
        return None;
    }
    let mut relations = Relations::default();
    let mut noise = Vec::with_capacity(n);
    let mut effects: [Vec<f64>; Cause::ALL.len()] = Default::default();
    for _ in 0..n {
        let [letter, of] = bytes.array()?;
        let of = *Trait::ALL.get(usize::from(of))?;
        let letter = usize::from(letter);
        let in_order = relations
            .variables
            .last()
            .is_none_or(|v: &Variable| v.letter <= letter);
        if letter >= LETTERS.len() || !in_order {
            return None;
        }
        let mean = f64::from(i16::from_le_bytes(bytes.array()?)) / MEAN;
        let root = value(u16::from_le_bytes(bytes.array()?), ROOT);
        relations.variables.push(Variable {
            letter,
            of,
            mean,
            noise: root * root,
        });
        let [factor] = bytes.array()?;
        noise.push(value(factor.into(), FACTOR));
        for cause in Cause::ALL {
            effects[cause as usize].push(match cause.known_effect(of) {
                Some(effect) => effect,
                None => f64::from(i8::from_le_bytes(bytes.array()?)) / EFFECT,
            });
        }
    }
    for (together, factors) in Together::ALL.into_iter().zip(factors.map(usize::from)) {
        let variables: Vec<usize> = (0..n)
            .filter(|&i| Together::of(relations.variables[i].of) == together)
            .collect();
        let mut loadings = Vec::with_capacity(variables.len() * factors);
        for _ in &variables {
            let most = bytes.float()?;
            for _ in 0..factors {
                loadings.push(f64::from(i8::from_le_bytes(bytes.array()?)) / LOADING * most);
            }
        }
        relations.groups[together as usize] = Group {
            factors,
            variables,
            loadings,
        };
    }
    let mut correlations = Vec::with_capacity(n);
    for i in 0..n {
        let from = relations.of_letter(relations.variables[i].letter).start;
        let mut own = Vec::with_capacity(i + 1 - from);
        for &b in bytes.take(i - from)? {
            own.push(f64::from(b as i8) / CORRELATION);
        }
        own.push(1.0);
        correlations.push(own);
    }
    let evened: [u8; LETTERS.len()] = bytes.array()?;
    let evened = evened.map(|e| value(e.into(), FACTOR));
    let mut strengths: [[Vec<f64>; Cause::ALL.len()]; 2] = Default::default();
    let mut rarest = Vec::new();
    for list in strengths.as_flattened_mut().iter_mut().chain([&mut rarest]) {
        for _ in SHARES {
            list.push(bytes.float()?);
        }
    }
    let mut shown = [[0.0; SHOWN.len()]; Cause::ALL.len()];
    for strength in shown.as_flattened_mut() {
        *strength = bytes.float()?;
    }
    let mut usual = [[0.0; 3]; Rule::ALL.len()];
    for quartile in usual.as_flattened_mut() {
        *quartile = bytes.float()?;
    }
    bytes.0.is_empty().then_some(Table {
        relations,
        noise,
        correlations,
        effects,
        shown,
        evened,
        strengths,
        rarest,
        usual,
    })
}

/// How many steps of a logarithmic scale a number lies above its beginning.
fn steps(number: f64, (least, steps): (f64, f64)) -> f64 {
    ((number / least).ln() * steps).round()
}

fn value(at: u16, (least, steps): (f64, f64)) -> f64 {
    least * (f64::from(at) / steps).exp()
}

fn learned() -> impl Iterator<Item = Cause> {
    Cause::ALL.into_iter().filter(|c| c.is_ratio())
}

struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    fn take(&mut self, n: usize) -> Option<&'a [u8]> {
        let (head, tail) = self.0.split_at_checked(n)?;
        self.0 = tail;
        Some(head)
    }

    fn array<const N: usize>(&mut self) -> Option<[u8; N]> {
        self.take(N)?.try_into().ok()
    }

    fn float(&mut self) -> Option<f64> {
        let v = f64::from(f32::from_le_bytes(self.array()?));
        v.is_finite().then_some(v)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_written_is_read() {
        let table = Table::shipped().unwrap();
        assert_eq!(read(&write(&table)).unwrap(), table);
    }

    #[test]
    fn a_cut_file_is_none() {
        let file = write(&Table::shipped().unwrap());
        for n in (0..file.len()).step_by(997) {
            assert!(read(&file[..n]).is_none());
        }
    }
}
