//! What became of the findings of the earlier revision.
//!
//! A finding is known again by its letter and its cause; where the letter has
//! none of the very cause, by one that tells of the same strokes or the same
//! ends otherwise (the strokes were thick, now the upright ones alone are).

use crate::judge::{Cause, Finding, Matter};

/// A finding as far as it is known again: of a judgement, or out of a record of one.
pub trait Told {
    /// The letter.
    fn letter(&self) -> char;
    /// What is the matter.
    fn cause(&self) -> Matter;
    /// Measured less expected.
    fn difference(&self) -> f64;
    /// How far off, in spreads.
    fn spreads(&self) -> f64;
    /// How many letters of a sound alphabet would show as much.
    fn by_chance(&self) -> f64;
}

impl Told for Finding {
    fn letter(&self) -> char {
        self.letter
    }

    fn cause(&self) -> Matter {
        self.cause
    }

    fn difference(&self) -> f64 {
        Self::difference(self)
    }

    fn spreads(&self) -> f64 {
        self.spreads
    }

    fn by_chance(&self) -> f64 {
        self.by_chance
    }
}

/// Findings whose size changed by less than this share are as they were: figures
/// of one letter move a little when other letters do (common practice, no source).
pub const MARKED: f64 = 0.15;

/// A finding that is no longer told is settled if it lost at least this share of
/// its size. With less it slipped under the line by chance, and is better at most.
pub const SETTLED: f64 = 0.25;

/// What became of a finding.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Fate {
    /// It is no longer told.
    Settled,
    /// It is still there, and less.
    Better,
    /// It is as it was.
    Same,
    /// It is still there, and more.
    Worse,
    /// It was not told before.
    New,
}

/// A finding of either revision, with what became of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fated<'a, F> {
    /// What became of it.
    pub fate: Fate,
    /// As the earlier revision had it; `None` of a new one.
    pub old: Option<&'a F>,
    /// As the later one has it; `None` where nothing like it is found.
    pub new: Option<&'a F>,
}

/// Holds the findings of two revisions against each other, at a strictness: so
/// many letters of a sound alphabet would be named by mistake. Earlier findings
/// come first, in their order, then the new ones.
pub fn fates<'a, F: Told>(old: &'a [F], new: &'a [F], false_alarms: f64) -> Vec<Fated<'a, F>> {
    let told = |f: &F| f.by_chance() <= false_alarms;
    let mut taken = vec![false; new.len()];
    let mut all = Vec::new();
    for pass in [alike as fn(&F, &F) -> bool, akin] {
        for (place, before) in old.iter().enumerate().filter(|(_, f)| told(f)) {
            if all.iter().any(|&(p, _)| p == place) {
                continue;
            }
            let now = (0..new.len()).find(|&i| !taken[i] && pass(before, &new[i]));
            if let Some(now) = now {
                taken[now] = true;
                let fate = fate(before, &new[now], told(&new[now]));
                let new = Some(&new[now]);
                all.push((
                    place,
                    Fated {
                        fate,
                        old: Some(before),
                        new,
                    },
                ));
            }
        }
    }
    for (place, before) in old.iter().enumerate().filter(|(_, f)| told(f)) {
        if all.iter().all(|&(p, _)| p != place) {
            let fate = Fate::Settled;
            all.push((
                place,
                Fated {
                    fate,
                    old: Some(before),
                    new: None,
                },
            ));
        }
    }
    all.sort_by_key(|&(place, _)| place);
    let mut all: Vec<Fated<'a, F>> = all.into_iter().map(|(_, f)| f).collect();
    for (i, now) in new.iter().enumerate().filter(|(_, f)| told(f)) {
        if taken[i] {
            continue;
        }
        // Found before, but not told: it is new only if it grew.
        let before = old.iter().find(|f| alike(*f, now));
        let fate = match before {
            Some(before) if fate(before, now, true) == Fate::Same => Fate::Same,
            _ => Fate::New,
        };
        all.push(Fated {
            fate,
            old: before.filter(|_| fate == Fate::Same),
            new: Some(now),
        });
    }
    all
}

fn alike<F: Told>(a: &F, b: &F) -> bool {
    a.letter() == b.letter() && a.cause() == b.cause()
}

fn akin<F: Told>(a: &F, b: &F) -> bool {
    a.letter() == b.letter() && kin(a.cause()) == kin(b.cause())
}

/// Causes that one change of drawing may move between.
fn kin(cause: Matter) -> u8 {
    match cause {
        Matter::Points => 0,
        Matter::Shape(Cause::Width) => 1,
        Matter::Shape(Cause::Strokes | Cause::Uprights | Cause::Levels | Cause::Pair) => 2,
        Matter::Shape(Cause::Overshoot | Cause::Raised) => 3,
        Matter::Shape(Cause::Left) => 4,
        Matter::Shape(Cause::Right) => 5,
    }
}

fn fate<F: Told>(before: &F, now: &F, still_told: bool) -> Fate {
    let (was, is) = (before.spreads().abs(), now.spreads().abs());
    // Too much became too little: what was asked for was overdone.
    let turned = before.difference() * now.difference() < 0.0;
    if !still_told {
        return if turned || is <= (1.0 - SETTLED) * was {
            Fate::Settled
        } else {
            Fate::Better
        };
    }
    if is >= (1.0 + MARKED) * was {
        Fate::Worse
    } else if is <= (1.0 - MARKED) * was {
        Fate::Better
    } else {
        Fate::Same
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn finding(letter: char, cause: Cause, spreads: f64, by_chance: f64) -> Finding {
        Finding {
            letter,
            cause: Matter::Shape(cause),
            value: 500.0,
            expected: 500.0 - 10.0 * spreads,
            spread: 10.0,
            spreads,
            by_chance,
            beside: String::new(),
        }
    }

    #[test]
    fn each_finding_meets_its_fate() {
        let old = [
            finding('R', Cause::Width, 5.0, 0.1),
            finding('m', Cause::Strokes, 4.0, 0.2),
            finding('C', Cause::Overshoot, 4.0, 0.3),
            finding('d', Cause::Raised, 3.0, 0.4),
            finding('E', Cause::Uprights, 3.0, 0.5),
            finding('h', Cause::Left, 2.5, 0.9),
            finding('k', Cause::Left, 2.0, 3.0),
        ];
        let new = [
            finding('m', Cause::Uprights, 2.0, 0.9),
            finding('C', Cause::Overshoot, 5.0, 0.1),
            finding('d', Cause::Raised, 3.1, 0.4),
            finding('E', Cause::Uprights, 1.0, 6.0),
            finding('h', Cause::Left, 2.4, 1.1),
            finding('S', Cause::Width, 4.0, 0.2),
            finding('k', Cause::Left, 2.1, 0.95),
        ];
        let told: Vec<(char, Fate)> = fates(&old, &new, 1.0)
            .iter()
            .map(|f| (f.old.or(f.new).unwrap().letter, f.fate))
            .collect();
        assert_eq!(
            told,
            [
                ('R', Fate::Settled),
                // Told of the strokes before, of the upright ones alone now.
                ('m', Fate::Better),
                ('C', Fate::Worse),
                ('d', Fate::Same),
                ('E', Fate::Settled),
                // It slipped under the line, and is hardly less.
                ('h', Fate::Better),
                ('S', Fate::New),
                // It slipped over the line, and is hardly more.
                ('k', Fate::Same),
            ]
        );
    }
}
