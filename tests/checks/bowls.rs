//! Bowls that run into a stem: their letter is as heavy as the face declares.
//!
//! StdVW is the dominant width of a face's upright strokes (Adobe Technical Note
//! 5176, Private DICT). These letters are a ring and a stem of that width. Where the
//! two meet, the ink is a third thicker than either; it is the corner's, not the
//! stroke's.

use crate::{Fonts, face, open};
use counterpoise::measure::{self, Context, main_weight};
use counterpoise_checks::compare::Comparison;
use counterpoise_checks::figures;
use counterpoise_checks::manifest::Face;
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Letters must be as heavy as StdVW to this share of it: rings are drawn a unit or two
/// off the stem for the eye.
const NEAR: f64 = 0.02;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    ["texgyreadventor-regular", "texgyreadventor-bold"]
        .iter()
        .map(|id| {
            let faces = vec![face(id)?];
            Ok(fonts.check(format!("bowls::{id}"), faces, |faces| {
                faces.iter().try_for_each(every_bowl)
            }))
        })
        .collect()
}

fn every_bowl(face: &Face) -> Result<(), Failed> {
    let font = open(face)?;
    let (reader, context) = (font.reader(), Context::of(&font));
    let declared = figures::stems(&face.path())?.declared;
    let width = declared
        .private
        .and_then(|p| p.StdVW)
        .ok_or("the face declares no StdVW")?;
    let mut agreed = Comparison::default();
    for c in "abdgpq".chars() {
        let glyph = reader.glyph(c).ok_or("the face has no such letter")?;
        let letter = measure::letter(&reader, glyph, &context)?;
        let weight = main_weight(&letter.strokes);
        agreed.near(c, weight, Some(width), NEAR * width);
    }
    println!("{}: worst {:.2} of {width}", face.id, agreed.worst());
    agreed.verdict()?;
    Ok(())
}
