//! The planted faults: what a hurried artist, or an automatic trace, might
//! leave in a face, one to a letter.

use kurbo::{Affine, Shape};
use serde::Serialize;

use crate::error::Error;
use crate::face::{Face, Letter, clean};
use crate::pen::Drawing;
use crate::style::{CAP, STEM};
use crate::{capitals_bowl, capitals_round, capitals_straight, lower_arched, measure, trace};

/// One planted fault, as `faults.json` lists it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Fault {
    /// The letter, or the two letters of a pair.
    pub letter: &'static str,
    /// What was changed.
    pub measure: &'static str,
    /// The measure in the face without faults.
    pub clean: f64,
    /// The measure in the face with faults.
    pub planted: f64,
    /// Unit of both: font units, or a number of points.
    pub unit: &'static str,
    /// The fault in plain words.
    pub sentence: String,
}

/// A fault before its figures are read.
struct Plan {
    letter: &'static str,
    measure: &'static str,
    unit: &'static str,
    plant: fn(&mut Face) -> Result<(), Error>,
    read: fn(&Face) -> Result<f64, Error>,
    say: fn(f64, f64) -> String,
}

/// The face with its faults, and the list of them with figures read off the
/// outlines of both revisions.
///
/// # Errors
/// When a letter or a measure that a fault needs is missing.
pub fn planted() -> Result<(Face, Vec<Fault>), Error> {
    let before = clean();
    let mut after = Face {
        version: "0.900",
        description: "A demonstration face of the Counterpoise project. This revision carries \
            planted faults, listed in faults.json: it is made to be found wanting.",
        ..clean()
    };
    for plan in &PLANS {
        (plan.plant)(&mut after)?;
    }
    let faults = PLANS
        .iter()
        .map(|plan| {
            let (clean, planted) = ((plan.read)(&before)?, (plan.read)(&after)?);
            Ok(Fault {
                letter: plan.letter,
                measure: plan.measure,
                clean: tenth(clean),
                planted: tenth(planted),
                unit: plan.unit,
                sentence: (plan.say)(clean, planted),
            })
        })
        .collect::<Result<_, Error>>()?;
    Ok((after, faults))
}

const UNITS: &str = "font units";

const PLANS: [Plan; 8] = [
    Plan {
        letter: "R",
        measure: "width",
        unit: UNITS,
        plant: |face| {
            let width = 0.86 * capitals_bowl::R_WIDTH;
            redraw(face, "R", &capitals_bowl::r_with(width.round()))
        },
        read: |face| {
            Ok(measure::outline(measure::letter(face, "R")?)?
                .bounding_box()
                .width())
        },
        say: |clean, planted| {
            format!(
                "R is too narrow: {} units of ink instead of {}, its strokes as thick as before.",
                whole(planted),
                whole(clean)
            )
        },
    },
    Plan {
        letter: "m",
        measure: "weight",
        unit: UNITS,
        plant: |face| {
            redraw(
                face,
                "m",
                &lower_arched::m_with(1.15 * lower_arched::M_STEM),
            )
        },
        read: |face| measure::stem(measure::letter(face, "m")?, (20.0, 280.0), false),
        say: |clean, planted| {
            format!(
                "m is too dark: its three stems are {:.1} units thick instead of {:.1}, \
                 and its counters narrower by as much.",
                planted, clean
            )
        },
    },
    Plan {
        letter: "C",
        measure: "overshoot",
        unit: UNITS,
        plant: |face| redraw(face, "C", &capitals_round::c_with(0.0)),
        read: |face| {
            Ok(measure::outline(measure::letter(face, "C")?)?
                .bounding_box()
                .y1
                - CAP)
        },
        say: |clean, planted| {
            format!(
                "C does not pass the flat letters ({} units instead of {} at top and foot), \
                 so it looks smaller than its neighbours.",
                whole(planted),
                whole(clean)
            )
        },
    },
    Plan {
        letter: "g",
        measure: "points",
        unit: "points",
        plant: |face| {
            let letter = letter_mut(face, "g")?;
            letter.path = trace::traced(&letter.path, 5);
            Ok(())
        },
        read: |face| measure::point_count(measure::letter(face, "g")?),
        say: |clean, planted| {
            format!(
                "g has {} points where {} draw the same shape: an automatic trace, not a drawing.",
                whole(planted),
                whole(clean)
            )
        },
    },
    Plan {
        letter: "E",
        measure: "stem",
        unit: UNITS,
        plant: |face| redraw(face, "E", &capitals_straight::e_with(1.085 * STEM)),
        read: |face| measure::stem(measure::letter(face, "E")?, (110.0, 310.0), true),
        say: |clean, planted| {
            format!("The stem of E is {planted:.1} units thick instead of {clean:.1}.")
        },
    },
    Plan {
        letter: "To",
        measure: "kerning",
        unit: UNITS,
        plant: |face| {
            let pair = face
                .kerning
                .iter_mut()
                .find(|k| (k.left, k.right) == ("T", "o"))
                .ok_or_else(|| Error::NoLetter("To".into()))?;
            pair.by -= 56;
            Ok(())
        },
        read: |face| {
            face.kerning
                .iter()
                .find(|k| (k.left, k.right) == ("T", "o"))
                .map(|k| f64::from(k.by))
                .ok_or_else(|| Error::NoLetter("To".into()))
        },
        say: |clean, planted| {
            format!(
                "The pair To is kerned too tight: {} units instead of {}.",
                whole(planted),
                whole(clean)
            )
        },
    },
    Plan {
        letter: "d",
        measure: "baseline",
        unit: UNITS,
        plant: |face| {
            let letter = letter_mut(face, "d")?;
            letter.path = Affine::translate((0.0, 12.0)) * &letter.path;
            Ok(())
        },
        read: |face| measure::right_foot(measure::letter(face, "d")?),
        say: |_, planted| {
            format!(
                "d stands {} units above the baseline: foot, bowl and ascender alike.",
                whole(planted)
            )
        },
    },
    Plan {
        letter: "h",
        measure: "leftBearing",
        unit: UNITS,
        plant: |face| {
            let letter = letter_mut(face, "h")?;
            letter.path = Affine::translate((24.0, 0.0)) * &letter.path;
            letter.advance += 24.0;
            Ok(())
        },
        read: |face| {
            Ok(measure::outline(measure::letter(face, "h")?)?
                .bounding_box()
                .x0)
        },
        say: |clean, planted| {
            format!(
                "h has too much white before it: {} units instead of {}, \
                 where n and m have {}.",
                whole(planted),
                whole(clean),
                whole(clean)
            )
        },
    },
];

/// Puts another drawing between the side bearings of a letter.
fn redraw(face: &mut Face, name: &'static str, drawing: &Drawing) -> Result<(), Error> {
    let letter = letter_mut(face, name)?;
    *letter = Letter::set(name, letter.code, drawing, letter.bearings());
    Ok(())
}

fn letter_mut<'a>(face: &'a mut Face, name: &str) -> Result<&'a mut Letter, Error> {
    face.letters
        .iter_mut()
        .find(|l| l.name == name)
        .ok_or_else(|| Error::NoLetter(name.into()))
}

fn whole(value: f64) -> f64 {
    value.round()
}

fn tenth(value: f64) -> f64 {
    (value * 10.0).round() / 10.0
}
