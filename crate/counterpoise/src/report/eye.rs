//! The trial of the eye on its way over the boundary.

use super::Point;
use crate::lesson::eye::{LENGTH, Rule, Trial};
use crate::lesson::{Asked, Class, Matter, Stimulus};
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// What the eye is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum EyeMatter {
    /// Which is taller: the round letter or the straight one?
    Taller,
    /// Which is thicker: the level stroke or the upright one?
    Thicker,
    /// Which is heavier: the round stroke or the straight one?
    Heavier,
    /// Which half is larger: the lower or the upper?
    Lower,
}

impl EyeMatter {
    /// Every question.
    pub const ALL: [Self; 4] = [Self::Taller, Self::Thicker, Self::Heavier, Self::Lower];

    /// By its name on the boundary.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|m| format!("{m:?}").eq_ignore_ascii_case(name))
    }

    /// As the library knows it.
    pub fn matter(self) -> Matter {
        match self {
            Self::Taller => Matter::Taller,
            Self::Thicker => Matter::Thicker,
            Self::Heavier => Matter::Heavier,
            Self::Lower => Matter::Lower,
        }
    }
}

/// What can be asked of the open font. Levels are per cent.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeSetup {
    /// What is asked.
    pub matter: EyeMatter,
    /// The letter that is changed.
    pub letter: char,
    /// The letter beside it.
    pub beside: Option<char>,
    /// The lowest level that is shown.
    pub least: f64,
    /// The highest.
    pub most: f64,
    /// The finest step between levels.
    pub step: f64,
    /// How the font itself draws it.
    pub own: f64,
    /// The handbook's figure.
    pub handbook: Option<f64>,
    /// Questions in a trial.
    pub questions: usize,
    /// The shares of "larger" at which the two staircases settle.
    pub settles: [f64; 2],
}

impl EyeSetup {
    /// As the library has it.
    pub fn of(matter: EyeMatter, asked: &Asked) -> Self {
        Self {
            matter,
            letter: asked.letter,
            beside: asked.beside,
            least: asked.scale.least,
            most: asked.scale.most,
            step: asked.scale.step,
            own: asked.own,
            handbook: asked.handbook,
            questions: LENGTH,
            settles: [
                Rule::TwoDownOneUp.settles_at(),
                Rule::TwoUpOneDown.settles_at(),
            ],
        }
    }
}

/// A letter of a question.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeLetter {
    /// Its outline: SVG path data, font units, y up.
    pub path: String,
    /// Its advance width.
    pub advance: f64,
}

/// A question.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeQuestion {
    /// Which of the trial's questions, from 1.
    pub number: usize,
    /// The changed letter.
    pub changed: EyeLetter,
    /// The letter beside it.
    pub beside: Option<EyeLetter>,
    /// Whether the changed letter stands second.
    pub second: bool,
}

impl EyeQuestion {
    /// The next question of a trial; `None` after the last.
    pub fn next(trial: &mut Trial, class: &Class, matter: Matter, asked: &Asked) -> Option<Self> {
        let number = trial.answers().len() + 1;
        let question = trial.question()?;
        // Every level of the scale was shown once before the trial was offered.
        let Stimulus {
            changed,
            advance,
            beside,
        } = matter.show(class, asked, question.level).ok()?;
        let letter = |outline: &crate::outline::Outline, advance| EyeLetter {
            path: outline.to_bez_path().to_svg(),
            advance,
        };
        Some(Self {
            number,
            changed: letter(&changed, advance),
            beside: beside.map(|(outline, advance)| letter(&outline, advance)),
            second: question.second,
        })
    }
}

/// An answer.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeAnswer {
    /// Which staircase asked: 0 comes down to 70.7%, 1 goes up to 29.3%.
    pub staircase: usize,
    /// The level.
    pub level: f64,
    /// Whether the changed letter stood second.
    pub second: bool,
    /// Whether it was said to be the larger.
    pub larger: bool,
    /// Whether the staircase turned there.
    pub turned: bool,
}

/// The answers at one level.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeLevel {
    /// The level.
    pub level: f64,
    /// Questions asked there.
    pub asked: u32,
    /// Answers of "larger".
    pub larger: u32,
}

/// The curve through the answers.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeFit {
    /// Where both look equal.
    pub equal: f64,
    /// Where the 95% interval of that begins; `null` beyond what was shown.
    pub low: Option<f64>,
    /// Where it ends.
    pub high: Option<f64>,
    /// The curve's spread.
    pub spread: f64,
    /// The curve: levels, each with the chance of "larger".
    pub curve: Vec<Point>,
}

/// What a trial found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct EyeResult {
    /// Every answer, in order.
    pub answers: Vec<EyeAnswer>,
    /// The answers level by level.
    pub levels: Vec<EyeLevel>,
    /// The curve.
    pub fit: Option<EyeFit>,
    /// Where the staircases settled: the means of their turns.
    pub settled: [Option<f64>; 2],
}

/// Places of the curve that is drawn.
const PLACES: u32 = 80;

impl EyeResult {
    /// Reads a trial.
    pub fn of(trial: &Trial, asked: &Asked) -> Self {
        let (least, most) = (asked.scale.least, asked.scale.most);
        let place = |i: u32| least + (most - least) * f64::from(i) / f64::from(PLACES);
        Self {
            answers: trial
                .answers()
                .iter()
                .map(|a| EyeAnswer {
                    staircase: a.question.staircase,
                    level: a.question.level,
                    second: a.question.second,
                    larger: a.larger,
                    turned: a.turned,
                })
                .collect(),
            levels: trial
                .by_level()
                .iter()
                .map(|l| EyeLevel {
                    level: l.level,
                    asked: l.asked,
                    larger: l.larger,
                })
                .collect(),
            fit: trial.fit().map(|fit| EyeFit {
                equal: fit.equal,
                low: fit.low,
                high: fit.high,
                spread: fit.spread,
                curve: (0..=PLACES)
                    .map(|i| [place(i), fit.chance(place(i))])
                    .collect(),
            }),
            settled: trial.settled(),
        }
    }
}
