//! Straight stems of H, I, l and n against an independent scan of fontTools' outlines.

use crate::{Fonts, open};
use counterpoise::measure::{self, Context};
use counterpoise_checks::compare::Comparison;
use counterpoise_checks::manifest::{Face, Use};
use counterpoise_checks::{figures, stems};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Thicknesses must agree to this, font units.
const THICKNESS: f64 = 0.5;

/// Directions must agree to this, degrees.
const LEAN: f64 = 0.5;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    fonts.each("stems", Use::Stems, every_stem)
}

fn every_stem(face: &Face) -> Result<(), Failed> {
    let font = open(face)?;
    let (reader, context) = (font.reader(), Context::of(&font));
    let scan = figures::stems(&face.path())?;
    let mut agreed = Comparison::default();
    for (&c, found) in &scan.stems {
        let Some(glyph) = reader.glyph(c) else {
            continue;
        };
        let letter = measure::letter(&reader, glyph, &context)?;
        for stem in found.iter().flatten().filter(|s| s.is_straight()) {
            let what = format!("{c} at {:.0}", stem.x);
            let ours = stems::beside(&letter, stem);
            agreed.near(
                format!("{what}, thickness"),
                ours.map(|s| s.median),
                Some(stem.median),
                THICKNESS,
            );
            let lean = ours.and_then(|s| s.angle).map(|a| 90.0 - a);
            agreed.near(format!("{what}, lean"), lean, Some(stem.lean), LEAN);
        }
    }
    println!(
        "{}: {} figures, worst {:.3}",
        face.id,
        agreed.compared(),
        agreed.worst()
    );
    agreed.verdict()?;
    Ok(())
}
