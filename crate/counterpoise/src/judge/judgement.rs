//! The letters of an alphabet that stand out, the most noticeable first.

use super::alphabet::{Alphabet, Member};
use super::cause::Cause;
use super::class::fellows;
use super::deviation::{self, Deviation};
use super::economy::{Drawn, spendthrifts};
use super::finding::{Finding, Matter};
use super::linear::dot;
use super::meant::Meant;
use super::own;
use super::rarity::rarity;
use super::relations::{FIGURES, LETTERS};
use super::table::Table;
use super::traits::{Trait, Traits, scale};
use super::weigh::{Kind, Sign, Standing, Weighed};
use crate::measure::{Context, End, sides};
use crate::order::by_number;

/// A letter may have so many things the matter with it; the rest is noise.
const MOST_CAUSES: usize = 3;

/// A font that keeps this many kinds of figure more loosely than `FAR` times
/// what fonts at large do is like none that was fitted.
const FAR: f64 = 4.0;
const FAR_KINDS: usize = 2;

/// The letters that stand out in a font.
#[derive(Debug, Clone, PartialEq)]
pub struct Judgement {
    /// Every finding, rarest first, whatever the strictness.
    pub findings: Vec<Finding>,
    /// How every measured letter stands, by measure.
    pub letters: Vec<(char, Vec<Deviation>)>,
    /// What the reviewer has said is meant so, as it stands to the other letters.
    pub meant: Vec<Finding>,
    /// Whether the font is like those that the model was fitted on. Where it is
    /// not, its letters are held against the medians of like ones of its own.
    pub familiar: bool,
}

impl Judgement {
    /// Judges the shapes of an alphabet. How economically it is drawn is judged
    /// apart ([`Judgement::with_points`]): to count points takes longer than all
    /// the rest.
    pub fn of(alphabet: &Alphabet, table: &Table, meant: &Meant) -> Self {
        let members: Vec<Option<&Member>> = LETTERS.chars().map(|c| alphabet.member(c)).collect();
        let traits: Vec<Option<Traits>> = members.iter().map(|m| m.map(|m| m.traits)).collect();
        let row = table.relations.row(&traits);
        let mut weighed = Weighed::but_for(table, row.clone(), meant);
        let loose = Kind::ALL
            .iter()
            .filter(|&&k| weighed.looseness(k) > FAR)
            .count();
        let familiar = loose < FAR_KINDS;
        if !familiar {
            weighed = Weighed::by_own(table, row, meant);
        }
        let letters = alphabet
            .members()
            .iter()
            .map(|m| {
                let known = LETTERS.chars().position(|c| c == m.character);
                let deviations = match known.filter(|_| familiar) {
                    Some(letter) => deviation::by_model(&weighed, letter, m, alphabet),
                    None => alphabet.by_class(m.character),
                };
                (m.character, deviations)
            })
            .collect();
        let mut judgement = Self {
            findings: Vec::new(),
            letters,
            meant: Vec::new(),
            familiar,
        };
        for (letter, member) in members.into_iter().enumerate() {
            let Some(member) = member else {
                continue;
            };
            let tell = |sign| told(&weighed, sign, (letter, member), alphabet);
            let standing = weighed.standing(letter);
            if meant.whole(member.character) {
                let found = signs(&weighed, standing);
                judgement.meant.extend(found.into_iter().filter_map(tell));
            } else {
                let found = signs_meant(&weighed, &standing);
                judgement.meant.extend(found.into_iter().filter_map(tell));
                let found = signs(&weighed, standing);
                judgement
                    .findings
                    .extend(found.into_iter().filter_map(tell));
            }
        }
        judgement.sort();
        judgement
    }

    /// With the letters that have more points than the font's own economy takes.
    #[must_use]
    pub fn with_points(mut self, letters: &[Drawn], meant: &Meant) -> Self {
        let (so, not): (Vec<Finding>, Vec<Finding>) = spendthrifts(letters)
            .into_iter()
            .partition(|f| meant.holds(f.letter, f.cause));
        self.findings.extend(not);
        self.meant.extend(so);
        self.sort();
        self
    }

    fn sort(&mut self) {
        for list in [&mut self.findings, &mut self.meant] {
            by_number(list, |f| f.by_chance);
        }
    }

    /// The findings at a strictness: so many letters of a sound alphabet of 52
    /// would be named by mistake.
    pub fn at(&self, false_alarms: f64) -> impl Iterator<Item = &Finding> {
        self.findings
            .iter()
            .filter(move |f| f.by_chance <= false_alarms)
    }
}

/// The rarest sign of a standing that could be seen at all, with its rarity.
pub fn rarest(weighed: &Weighed<'_>, standing: &Standing) -> Option<(Sign, f64)> {
    Cause::ALL
        .into_iter()
        .filter_map(|cause| weighed.sign(standing, cause))
        .filter(|sign| sign.size.abs() >= sign.cause.least_seen())
        .map(|sign| (sign, share(weighed, standing, &sign)))
        .min_by(|a, b| a.1.total_cmp(&b.1))
}

/// The share of sound letters that show a cause as strongly.
fn share(weighed: &Weighed<'_>, standing: &Standing, sign: &Sign) -> f64 {
    if weighed.is_by_own() {
        return own::rarity(sign.strength, Cause::ALL.len());
    }
    let strengths = &weighed.table().strengths[standing.kin()][sign.cause as usize];
    rarity(strengths, sign.strength)
}

/// How many letters of a sound alphabet would show a sign as rare, whatever its cause.
fn by_chance(weighed: &Weighed<'_>, share: f64) -> f64 {
    let share = if weighed.is_by_own() {
        share
    } else {
        rarity(&weighed.table().rarest, -share.ln())
    };
    // So many of an alphabet's letters: figures and & come on top.
    FIGURES as f64 * share
}

/// Figures of one part of a letter do not differ so many times (natural
/// logarithm of four): where they do, another part was read as that one, such as
/// a hairline serif as a bar, and the figure would mislead.
const ANOTHER_PART: f64 = 1.386;

/// A sign in figures.
fn told(
    weighed: &Weighed<'_>,
    (sign, by_chance): (Sign, f64),
    (letter, member): (usize, &Member),
    alphabet: &Alphabet,
) -> Option<Finding> {
    let figures = figures(&sign, member, alphabet.context())?;
    if sign.cause.is_ratio() && sign.size.abs() > ANOTHER_PART {
        return None;
    }
    Some(Finding {
        letter: member.character,
        cause: Matter::Shape(sign.cause),
        value: figures.value,
        expected: figures.expected,
        spread: figures.spread,
        spreads: sign.strength,
        by_chance,
        beside: beside(weighed, letter, sign.cause, alphabet),
    })
}

/// What is the matter with a letter, one cause after another: what the first
/// explains is taken out before the next is looked for. Each with how many
/// letters of a sound alphabet would show as much. What is meant so is taken out
/// to begin with.
pub fn signs(weighed: &Weighed<'_>, mut standing: Standing) -> Vec<(Sign, f64)> {
    let letter = standing.letter;
    for cause in weighed.meant_causes(letter) {
        if let Some(sign) = weighed.sign(&standing, cause) {
            standing = weighed.without(&standing, &sign);
        }
    }
    let mut found: Vec<(Sign, f64)> = Vec::new();
    for _ in 0..MOST_CAUSES {
        let Some((sign, share)) = rarest(weighed, &standing) else {
            break;
        };
        // What is left of a cause once it is taken out is noise.
        let out = |cause| cause == sign.cause;
        if found.iter().any(|(f, _)| out(f.cause)) || weighed.meant_causes(letter).any(out) {
            break;
        }
        found.push((sign, by_chance(weighed, share)));
        standing = weighed.without(&standing, &sign);
    }
    found
}

/// How strongly that shows in a letter which is meant so.
fn signs_meant(weighed: &Weighed<'_>, standing: &Standing) -> Vec<(Sign, f64)> {
    weighed
        .meant_causes(standing.letter)
        .filter_map(|cause| weighed.sign(standing, cause))
        .map(|sign| (sign, by_chance(weighed, share(weighed, standing, &sign))))
        .collect()
}

struct Figures {
    value: f64,
    expected: f64,
    spread: f64,
}

/// The figure, in font units, that tells a cause best.
fn figures(sign: &Sign, member: &Member, context: &Context) -> Option<Figures> {
    let (letter, traits) = (&member.letter, &member.traits);
    let height = scale(context);
    let ratio = |value: f64| Figures {
        value,
        expected: value * (-sign.size).exp(),
        spread: value * (-sign.size).exp() * sign.spread,
    };
    let length = |value: f64| Figures {
        value,
        expected: value - sign.size * height,
        spread: sign.spread * height,
    };
    let of = |t: Trait| traits.get(t).map(|v| v.exp() * height);
    Some(match sign.cause {
        Cause::Width => ratio(of(Trait::Width)?),
        Cause::Strokes => ratio(member.weight?),
        Cause::Uprights => ratio(
            of(Trait::Stem)
                .or_else(|| of(Trait::Side))
                .or(member.weight)?,
        ),
        Cause::Levels => ratio(
            // A letter with neither has no level stroke to speak of.
            of(Trait::Bar).or_else(|| of(Trait::Arch))?,
        ),
        Cause::Pair => {
            let last =
                of(Trait::Stem).filter(|_| sides(&letter.strokes, context.slant).is_some())?;
            ratio(last)
        }
        Cause::Overshoot => {
            let end = |end, e: Option<_>| context.past(member.character, end, &e?);
            length(end(End::Top, letter.top).or_else(|| end(End::Foot, letter.foot))?)
        }
        Cause::Left => length(traits.get(Trait::Left)? * height),
        Cause::Right => length(traits.get(Trait::Right)? * height),
        Cause::Raised => length(letter.foot?.y),
    })
}

/// How many letters are named beside a finding.
const BESIDE: usize = 3;

/// The letters of the font whose own figures move most with this one's.
/// What is meant so says nothing of others.
pub(super) fn beside(
    weighed: &Weighed<'_>,
    letter: usize,
    cause: Cause,
    alphabet: &Alphabet,
) -> String {
    let (table, meant) = (weighed.table(), weighed.meant());
    let relations = &table.relations;
    let effect = &table.effects[cause as usize];
    let Some(main) = relations
        .of_letter(letter)
        .max_by(|&a, &b| effect[a].abs().total_cmp(&effect[b].abs()))
    else {
        return String::new();
    };
    let (of, w) = (relations.variables[main].of, relations.loading(main));
    if weighed.is_by_own() {
        let like = LETTERS.chars().nth(letter).zip(own::class_of(Kind::of(of)));
        let like = like.and_then(|(c, class)| fellows(c, class));
        return like
            .into_iter()
            .flatten()
            .filter(|&c| alphabet.member(c).is_some() && !meant.holds(c, Matter::Shape(cause)))
            .take(BESIDE)
            .collect();
    }
    let mut like: Vec<(f64, char)> = LETTERS
        .chars()
        .enumerate()
        .filter(|&(other, c)| other != letter && alphabet.member(c).is_some())
        // Figures had no part in what is expected of a letter.
        .filter(|&(other, _)| letter >= FIGURES || other < FIGURES)
        .filter(|&(_, c)| !meant.holds(c, Matter::Shape(cause)))
        .filter_map(|(other, c)| {
            let i = relations
                .of_letter(other)
                .find(|&i| relations.variables[i].of == of)?;
            let v = relations.loading(i);
            let size = |i: usize, w: &[f64]| dot(w, w) + relations.variables[i].noise;
            Some((dot(w, v) / (size(main, w) * size(i, v)).sqrt(), c))
        })
        .collect();
    by_number(&mut like, |l| -l.0);
    like.iter().take(BESIDE).map(|l| l.1).collect()
}
