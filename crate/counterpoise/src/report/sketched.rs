//! Loose drawings, and previews of a change, on their way over the boundary.

use super::compare::FigureChange;
use crate::font::DrawnLetter;
use crate::measure::{Context, Letter, QUANTITIES, Subject};
use crate::outline::Outline;
use crate::redraw::Sketch;
use kurbo::BezPath;
use serde::{Deserialize, Serialize};
use std::fmt;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// A letter that stands in no font file: out of a drawing, or drawn anew.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LooseLetter {
    /// Its glyph's name, if it has one.
    pub name: Option<String>,
    /// The characters that lead to it.
    pub characters: String,
    /// Its advance width, font units.
    pub advance: f64,
    /// Its outline as SVG path data, font units, y up. Numbers are written so
    /// that they lead back to themselves.
    pub path: String,
}

/// Path data that is none.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NoPath;

impl fmt::Display for NoPath {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("This letter's outline cannot be read. Drop its drawing again.")
    }
}

impl std::error::Error for NoPath {}

impl From<&DrawnLetter> for LooseLetter {
    fn from(letter: &DrawnLetter) -> Self {
        Self {
            name: letter.name.clone(),
            characters: letter.characters.iter().collect(),
            advance: letter.advance,
            path: letter.outline.to_bez_path().to_svg(),
        }
    }
}

impl LooseLetter {
    /// As the library takes it.
    ///
    /// # Errors
    /// If its outline is no path data.
    pub fn drawn(&self) -> Result<DrawnLetter, NoPath> {
        let path = BezPath::from_svg(&self.path).map_err(|_| NoPath)?;
        if !self.advance.is_finite() {
            return Err(NoPath);
        }
        Ok(DrawnLetter {
            name: self.name.clone(),
            characters: self.characters.chars().collect(),
            advance: self.advance,
            outline: Outline::from_path(&path),
        })
    }
}

/// A change tried on a letter: a sketch for the artist.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct SketchReport {
    /// The outline as SVG path data, font units, y up.
    pub path: String,
    /// Its advance width.
    pub advance: f64,
    /// Every figure before and after; how it is drawn is left out, since the
    /// points are the same.
    pub figures: Vec<FigureChange>,
}

impl SketchReport {
    /// A sketch of a character's letter.
    pub fn of(sketch: &Sketch, character: Option<char>, context: &Context) -> Self {
        let take = |letter: &Letter, q: &crate::measure::Quantity| {
            let subject = Subject {
                letter,
                character,
                context,
            };
            (q.of)(&subject).filter(|v| v.is_finite())
        };
        Self {
            path: sketch.outline.to_bez_path().to_svg(),
            advance: sketch.after.advance,
            figures: QUANTITIES
                .iter()
                .map(|q| FigureChange {
                    id: q.id,
                    old: take(&sketch.before, q),
                    new: take(&sketch.after, q),
                })
                .filter(|f| f.old.is_some() || f.new.is_some())
                .collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Shape};

    #[test]
    fn a_letter_crosses_the_boundary_unchanged() {
        let drawn = DrawnLetter {
            name: Some("o".into()),
            characters: vec!['o', '\u{43e}'],
            advance: 512.0 / 3.0,
            outline: Outline::from_path(&Circle::new((0.1, -0.7), 100.0 / 3.0).to_path(0.01)),
        };
        let text = LooseLetter::from(&drawn);
        assert_eq!(text.drawn(), Ok(drawn));
        let none = LooseLetter {
            path: "M 0 0 L".into(),
            ..text
        };
        assert_eq!(none.drawn(), Err(NoPath));
    }
}
