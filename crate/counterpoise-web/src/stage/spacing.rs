//! How far apart letters stand: by their own side bearings, with the font's
//! kerning between them, or as the lab suggests.
//!
//! The stage does not work any of it out. It is handed what is to be added to
//! each letter's sides and to the gap of each pair, and adds it.

use super::command::{Fitting, Spacing};
use super::scene::Item;
use super::{Done, Stage};
use crate::refuse::{Refuse, finite};
use std::collections::HashMap;

/// What is added to the font's own spacing, font units.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Added {
    sides: HashMap<u16, [f64; 2]>,
    pairs: HashMap<(u16, u16), f64>,
}

impl Added {
    /// Takes in what the page has been told.
    ///
    /// # Errors
    /// If a length is no number.
    pub(crate) fn of(fitting: &Fitting) -> Result<Self, Refuse> {
        let mut added = Self::default();
        for &(glyph, left, right) in &fitting.sides {
            let sides = [
                finite("side bearing", left)?,
                finite("side bearing", right)?,
            ];
            added.sides.insert(glyph, sides);
        }
        for &(left, right, gap) in &fitting.pairs {
            added.pairs.insert((left, right), finite("kern", gap)?);
        }
        Ok(added)
    }

    /// What is added at a letter's left and right side. A letter that stands
    /// another way round has its sides changed with it.
    pub(crate) fn sides(&self, item: &Item) -> [f64; 2] {
        let own = item.glyph.and_then(|g| self.sides.get(&g));
        let [left, right] = own.copied().unwrap_or_default();
        if item.mirrored == item.turned {
            [left, right]
        } else {
            [right, left]
        }
    }

    /// What is added between two letters of the line. A pair is made for letters
    /// that stand upright.
    pub(crate) fn gap(&self, left: &Item, right: &Item) -> f64 {
        let flipped = |item: &Item| item.mirrored || item.turned;
        if flipped(left) || flipped(right) {
            return 0.0;
        }
        let pair = left.glyph.zip(right.glyph);
        pair.and_then(|p| self.pairs.get(&p))
            .copied()
            .unwrap_or(0.0)
    }
}

impl Stage {
    /// What is added to the line as it is spaced now.
    pub(super) fn added(&self) -> &Added {
        &self.fittings[self.scene.setting.spacing as usize]
    }

    /// Takes what a spacing adds from now on.
    ///
    /// # Errors
    /// If a length is no number, or the spacing is the font's own, to which
    /// nothing is added; nothing has changed then.
    pub(crate) fn set_fitting(
        &mut self,
        spacing: Spacing,
        fitting: &Fitting,
    ) -> Result<(), Refuse> {
        if spacing == Spacing::Bearings {
            return Err(Refuse::OwnSpacing);
        }
        let added = Added::of(fitting)?;
        let own = &mut self.fittings[spacing as usize];
        if *own != added {
            *own = added;
            self.refit();
            self.touch();
        }
        Ok(())
    }

    pub(super) fn set_spacing(&mut self, spacing: Spacing) -> Done {
        self.scene.setting.spacing = spacing;
        self.refit();
        let (name, status) = match spacing {
            Spacing::Bearings => (
                "Space by side bearings",
                "The letters stand by their side bearings alone.",
            ),
            Spacing::Kerned => (
                "Space with kerning",
                "The letters stand with the font's own kerning.",
            ),
            Spacing::Suggested => (
                "Space as suggested",
                "The letters stand as the lab suggests.",
            ),
        };
        Done::new(name, status)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::command::Command;
    use crate::stage::testing::stage;

    fn places(stage: &Stage) -> Vec<f64> {
        stage.state().items.iter().map(|i| i.x).collect()
    }

    fn fitting() -> Fitting {
        Fitting {
            sides: vec![(1, 10.0, -20.0)],
            pairs: vec![(1, 4, -30.0)],
        }
    }

    #[test]
    fn pairs_and_sides_move_what_follows() {
        let mut stage = stage("HOH");
        assert_eq!(places(&stage), [0.0, 600.0, 1400.0]);
        let kern = Fitting {
            sides: Vec::new(),
            ..fitting()
        };
        stage.set_fitting(Spacing::Kerned, &kern).unwrap();
        stage.set_fitting(Spacing::Suggested, &fitting()).unwrap();
        for (spacing, expected) in [
            (Spacing::Kerned, [0.0, 570.0, 1370.0]),
            // The pen moves by the sides that are added; the letter stands behind its left one.
            (Spacing::Suggested, [10.0, 560.0, 1370.0]),
            (Spacing::Bearings, [0.0, 600.0, 1400.0]),
        ] {
            stage.run(Command::SetSpacing { spacing }).unwrap();
            assert_eq!(places(&stage), expected, "{spacing:?}");
        }
        stage.run(Command::Undo).unwrap();
        assert_eq!(places(&stage), [10.0, 560.0, 1370.0]);
    }

    #[test]
    fn a_letter_turned_about_is_not_kerned() {
        let mut stage = stage("HO");
        stage.set_fitting(Spacing::Kerned, &fitting()).unwrap();
        let spacing = Spacing::Kerned;
        stage.run(Command::SetSpacing { spacing }).unwrap();
        stage.run(Command::SelectAll).unwrap();
        stage.run(Command::Mirror).unwrap();
        // Mirrored, the H has the right side's change on its left.
        assert_eq!(places(&stage), [-20.0, 590.0]);
    }

    #[test]
    fn what_is_no_length_is_refused() {
        let mut stage = stage("HO");
        let bad = Fitting {
            pairs: vec![(1, 4, f64::NAN)],
            ..Fitting::default()
        };
        assert!(stage.set_fitting(Spacing::Kerned, &bad).is_err());
        assert!(stage.set_fitting(Spacing::Bearings, &fitting()).is_err());
    }
}
