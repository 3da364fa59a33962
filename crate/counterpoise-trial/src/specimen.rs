//! A face measured: its letters' traits, and those of the same letters with
//! each fault planted.

use crate::fault::{FAULTS, Fault, plant};
use counterpoise::font::Font;
use counterpoise::judge::{LETTERS, Rule, Ruled, Traits, habits, traits};
use counterpoise::measure::{self, Context};

/// A letter with a fault, measured.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Planted {
    /// What was done.
    pub(crate) fault: Fault,
    /// By how much.
    pub(crate) size: f64,
    /// To which letter.
    pub(crate) letter: char,
    /// What it measures then.
    pub(crate) traits: Traits,
}

/// A face, measured.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Specimen {
    /// Its family.
    pub(crate) family: String,
    /// Which of its faces.
    pub(crate) face: String,
    /// Traits of the letters, in the order of [`LETTERS`].
    pub(crate) letters: Vec<Option<Traits>>,
    /// How it keeps the optical rules, in the order of [`Rule::ALL`].
    pub(crate) habits: [Option<f64>; Rule::ALL.len()],
    /// The letters with faults.
    pub(crate) planted: Vec<Planted>,
}

impl Specimen {
    /// A letter's traits.
    pub(crate) fn traits(&self, c: char) -> Option<Traits> {
        self.letters[LETTERS.find(c)?]
    }

    /// Measures a face, with faults planted if asked for.
    pub(crate) fn measure(family: &str, face: &str, font: &Font, with_faults: bool) -> Self {
        let context = Context::of(font);
        let reader = font.reader();
        let mut planted = Vec::new();
        let mut ruled = Vec::new();
        let letters = LETTERS
            .chars()
            .map(|c| {
                let glyph = reader.glyph(c)?;
                let outline = reader.outline(glyph).ok()?;
                let letter = measure::of_outline(&outline, reader.advance(glyph), &context);
                letter.bounds?;
                let faults = FAULTS.iter().filter(|_| with_faults);
                for (fault, size) in
                    faults.flat_map(|(f, sizes)| sizes.iter().map(move |s| (*f, *s)))
                {
                    if let Some(bad) = plant(fault, size, c, &outline, &letter, &context) {
                        let measured = measure::of_outline(&bad.outline, bad.advance, &context);
                        planted.push(Planted {
                            fault,
                            size,
                            letter: c,
                            traits: traits(&bad.outline, &measured, c, &context),
                        });
                    }
                }
                let traits = traits(&outline, &letter, c, &context);
                if Ruled::looks_at(c) {
                    ruled.push(Ruled::new(c, traits, &letter));
                }
                Some(traits)
            })
            .collect();
        Self {
            family: family.into(),
            face: face.into(),
            letters,
            habits: habits(&ruled, &context),
            planted,
        }
    }
}
