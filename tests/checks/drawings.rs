//! Letters out of open fonts, written as SVG and read again: every length is what
//! it was.

use crate::{Fonts, face, open};
use counterpoise::font::{Drawn, DrawnLetter, Font};
use counterpoise::measure::{self, Context, QUANTITIES, Subject, Unit};
use counterpoise::outline::Outline;
use counterpoise::redraw::{SvgSheet, svg};
use counterpoise_checks::manifest::Face;
use counterpoise_drawings::svg as drawing;
use kurbo::{Affine, BezPath};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Lengths agree within this, font units.
const LENGTH: f64 = 0.05;

const LETTERS: &str = "HOSnaoRgM";

/// A face and the units per em that it is brought to.
const SIZES: [(&str, u16); 3] = [("sourcesans", 250), ("sourcesans", 1000), ("dejavu", 2048)];

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    SIZES
        .into_iter()
        .map(|(id, units)| {
            Ok(fonts.check(
                format!("drawings::exported and dropped again::{id} at {units}"),
                vec![face(id)?],
                move |faces| faces.iter().try_for_each(|f| round_trip(f, units)),
            ))
        })
        .collect()
}

/// The face's letters as loose drawings at some units per em.
fn sized(face: &Face, units: u16) -> Result<Font, Failed> {
    let font = open(face)?;
    let reader = font.reader();
    let scale = f64::from(units) / f64::from(font.units_per_em());
    let letters = ('A'..='Z')
        .chain('a'..='z')
        .filter_map(|c| {
            let glyph = reader.glyph(c)?;
            Some(DrawnLetter {
                name: None,
                characters: vec![c],
                advance: reader.advance(glyph) * scale,
                outline: reader
                    .outline(glyph)
                    .ok()?
                    .transformed(Affine::scale(scale)),
            })
        })
        .collect();
    Ok(Font::drawn(Drawn::new(units, letters)).map_err(|e| e.to_string())?)
}

fn round_trip(face: &Face, units: u16) -> Result<(), Failed> {
    let font = sized(face, units)?;
    let context = Context::of(&font);
    let reader = font.reader();
    let (mut compared, mut worst) = (0, 0.0_f64);
    for c in LETTERS.chars() {
        let glyph = reader.glyph(c).ok_or_else(|| format!("no {c}"))?;
        let outline = reader.outline(glyph).map_err(|e| e.to_string())?;
        let advance = reader.advance(glyph);
        let text = svg(
            &outline,
            &SvgSheet {
                title: &c.to_string(),
                advance,
                units_per_em: f64::from(units),
                top: 0.8 * f64::from(units),
                foot: -0.2 * f64::from(units),
                sketch: false,
            },
        );
        let sheet = drawing::read(&text).map_err(|e| format!("{c}: {e}"))?;
        let own = sheet
            .own
            .ok_or("the lab does not know its own sheet again")?;
        let mut path = BezPath::new();
        for shape in &sheet.shapes {
            path.extend(shape.to_bez_path());
        }
        let again = Outline::from_path(&path);
        let figures = |outline: &Outline, advance: f64| -> Vec<(&'static str, Option<f64>)> {
            let letter = measure::of_outline(outline, advance, &context);
            let subject = Subject {
                letter: &letter,
                character: Some(c),
                context: &context,
            };
            let lengths = QUANTITIES.iter().filter(|q| q.unit == Unit::Units);
            lengths.map(|q| (q.id, (q.of)(&subject))).collect()
        };
        let (was, is) = (figures(&outline, advance), figures(&again, own.advance));
        for ((id, was), (_, is)) in was.into_iter().zip(is) {
            match (was, is) {
                (None, None) => {}
                (Some(a), Some(b)) if (a - b).abs() <= LENGTH => {
                    compared += 1;
                    worst = worst.max((a - b).abs());
                }
                _ => return Err(format!("{c}: {id} was {was:?} and is {is:?}").into()),
            }
        }
    }
    if compared < 50 {
        return Err(format!("only {compared} lengths were compared").into());
    }
    println!(
        "{} at {units}: {compared} lengths, worst {worst:.5}",
        face.id
    );
    Ok(())
}
