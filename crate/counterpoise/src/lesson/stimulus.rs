//! What is shown when the eye is tried: letters of the font with one figure set to
//! a level, computed on the real outline as in the lessons.

use super::eye::Scale;
use super::{Class, Drawn, Nothing, bars, halves, overshoot, rounds};
use crate::measure::End;
use crate::outline::Outline;
use crate::redraw::Unable;

/// What the eye is asked about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Matter {
    /// Which is taller: the round letter or the straight one? The level is how far
    /// the round one passes the lines at either end, in per cent of the height.
    Taller,
    /// Which is thicker: the level stroke or the upright one? The level is the
    /// level stroke's thickness in per cent of the upright's.
    Thicker,
    /// Which is heavier: the round stroke or the straight one? The level is the
    /// round one's thickness in per cent of the straight one's.
    Heavier,
    /// Which half is larger: the lower or the upper? The level is how far the bar
    /// lies above the middle, in per cent of the height.
    Lower,
}

/// What is asked, and what is known of it beforehand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Asked {
    /// The letter that is changed.
    pub letter: char,
    /// The letter beside it; `None` where one letter holds both things.
    pub beside: Option<char>,
    /// The levels that can be shown.
    pub scale: Scale,
    /// How the font itself draws it, in the unit of the levels.
    pub own: f64,
    /// The handbook's figure and where it is from; `None` where no published figure
    /// is known.
    pub handbook: Option<f64>,
}

/// A picture of a question.
#[derive(Debug, Clone, PartialEq)]
pub struct Stimulus {
    /// The changed letter.
    pub changed: Outline,
    /// Its advance width.
    pub advance: f64,
    /// The letter beside it, with its advance.
    pub beside: Option<(Outline, f64)>,
}

/// Pairs of a round letter and a straight one beside it.
const ROUND_AND_STRAIGHT: [(char, char); 2] = [('O', 'H'), ('o', 'x')];
const ROUND_AND_STEM: [(char, char); 2] = [('O', 'I'), ('o', 'l')];
const BARRED: &str = "LTEHt";
const WAISTED: &str = "HEB";

impl Matter {
    /// Every question.
    pub const ALL: [Self; 4] = [Self::Taller, Self::Thicker, Self::Heavier, Self::Lower];

    /// What can be asked of a font; `None` where it lacks the letters, or they
    /// cannot be changed so over the whole scale.
    pub fn ask(self, class: &Class) -> Option<Asked> {
        let whole = |asked: &Asked| {
            let Scale { least, most, step } = asked.scale;
            let steps = ((most - least) / step).round() as i32;
            (0..=steps).all(|i| {
                let level = asked.scale.level(f64::from(i));
                self.show(class, asked, level).is_ok()
            })
        };
        match self {
            Self::Taller => ROUND_AND_STRAIGHT.iter().find_map(|&(letter, beside)| {
                let drawn = class.drawn(letter)?;
                class.drawn(beside)?;
                let height = height(&drawn, class)?;
                let ends = [End::Top, End::Foot].map(|e| overshoot::passes(&drawn, class, e));
                let asked = Asked {
                    letter,
                    beside: Some(beside),
                    scale: Scale {
                        least: -4.0,
                        most: 10.0,
                        step: 0.5,
                    },
                    own: 50.0 * (ends[0]? + ends[1]?) / height,
                    // Karow, Digital Formats for Typefaces, p. 26, as secondary pages
                    // quote it.
                    handbook: Some(3.0),
                };
                whole(&asked).then_some(asked)
            }),
            Self::Thicker => BARRED.chars().find_map(|letter| {
                let drawn = class.drawn(letter)?;
                let stem = bars::stem(&drawn, class)?;
                let bar = bars::bars(&drawn, class).first().copied()?;
                let asked = Asked {
                    letter,
                    beside: None,
                    scale: Scale {
                        least: 60.0,
                        most: 124.0,
                        step: 2.0,
                    },
                    own: 100.0 * (bar.to.y - bar.from.y).abs() / stem,
                    handbook: None,
                };
                whole(&asked).then_some(asked)
            }),
            Self::Heavier => ROUND_AND_STEM.iter().find_map(|&(letter, beside)| {
                let drawn = class.drawn(letter)?;
                class.drawn(beside)?;
                let asked = Asked {
                    letter,
                    beside: Some(beside),
                    scale: Scale {
                        least: 82.0,
                        most: 130.0,
                        step: 2.0,
                    },
                    own: 100.0 * rounds::side(&drawn.letter, class)?.value / class.stem(letter)?,
                    handbook: None,
                };
                whole(&asked).then_some(asked)
            }),
            Self::Lower => WAISTED.chars().find_map(|letter| {
                let drawn = class.drawn(letter)?;
                let waist = halves::Waist::of(&drawn.outline)?;
                let asked = Asked {
                    letter,
                    beside: None,
                    scale: Scale {
                        least: -8.0,
                        most: 12.0,
                        step: 0.5,
                    },
                    own: 100.0 * waist.raised() / drawn.letter.bounds?.height(),
                    handbook: None,
                };
                whole(&asked).then_some(asked)
            }),
        }
    }

    /// Draws a question at a level.
    ///
    /// # Errors
    /// If the letter cannot be changed so.
    pub fn show(self, class: &Class, asked: &Asked, level: f64) -> Result<Stimulus, Nothing> {
        let drawn = class.drawn(asked.letter).ok_or(Unable::NoInk)?;
        let changed = match self {
            Self::Taller => {
                let height = height(&drawn, class).ok_or(Unable::NoNumber)?;
                let to = Some(level * height / 100.0);
                overshoot::set(&drawn, class, to, to)?
            }
            Self::Thicker => {
                let stem = bars::stem(&drawn, class).ok_or(Unable::NoStrokes)?;
                let bars = bars::bars(&drawn, class);
                bars::set(&drawn, class, &bars, stem, |_| level * stem / 100.0)?
            }
            Self::Heavier => {
                let stem = class.stem(asked.letter).ok_or(Unable::NoStrokes)?;
                rounds::set(&drawn, class, level * stem / 100.0)?
            }
            Self::Lower => {
                let height = drawn.letter.bounds.ok_or(Unable::NoInk)?.height();
                halves::set(&drawn, class, level * height / 100.0)?
            }
        };
        let beside = asked.beside.and_then(|c| class.drawn(c));
        Ok(Stimulus {
            changed: changed.outline,
            advance: drawn.letter.advance,
            beside: beside.map(|d| (d.outline, d.letter.advance)),
        })
    }
}

fn height(drawn: &Drawn, class: &Class) -> Option<f64> {
    let height = class.flat_top(drawn.character)? - class.baseline();
    (height > 0.0).then_some(height)
}
