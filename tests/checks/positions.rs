//! Variable fonts brought to random positions: outlines point by point and
//! advances against fontTools' instancer, and against what HarfBuzz draws and
//! sets at the same position of the file itself, letters that have another form
//! there among them (`reference/positions.py`).

use crate::Fonts;
use counterpoise::font::Font;
use counterpoise_checks::manifest::{Face, Use};
use counterpoise_checks::{place, python};
use counterpoise_formats::FontFile;
use libtest_mimic::{Failed, Trial};
use serde::{Deserialize, Serialize};
use std::collections::BTreeMap;
use std::fs;
use std::path::PathBuf;
use std::sync::Arc;

/// Positions of each font: three that are chosen, twenty at random.
const POSITIONS: usize = 23;

/// Half a unit for either side that rounds: the bar is one unit.
const ONE: f64 = 1.0;

/// A pair's kern and an advance each round by themselves.
const SET: f64 = 2.0;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    fonts.each("positions", Use::Positions, one_face)
}

#[derive(Serialize)]
struct Entry {
    font: PathBuf,
    still: PathBuf,
    position: BTreeMap<String, f64>,
}

#[derive(Deserialize, Debug)]
struct Apart {
    points: f64,
    drawn: f64,
    advance: f64,
    set: f64,
    glyphs: usize,
    formed: usize,
    other: Vec<String>,
}

/// The lab itself reads all that the module writes.
fn every_letter(plain: Vec<u8>) -> Result<(), Failed> {
    let font = Font::open(plain)?;
    let reader = font.reader();
    if reader.characters().is_empty() {
        return Err("no character is left".into());
    }
    for (c, glyph) in reader.characters() {
        reader.outline(glyph).map_err(|e| format!("{c}: {e}"))?;
    }
    Ok(())
}

fn one_face(face: &Face) -> Result<(), Failed> {
    python::set_up()?;
    let file = FontFile::open(fs::read(face.path())?)?;
    let report = file.face(0)?;
    let folder = place::target().join("positions").join(&face.id);
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder)?;
    // A web font is unpacked for the reference tools; that it unpacks as it was
    // packed is held elsewhere.
    let font = folder.join("varies.otf");
    fs::write(&font, file.plain(0, None, None)?)?;
    let mut random = fastrand::Rng::with_seed(0x9E37_79B9);
    let mut entries = Vec::new();
    for i in 0..POSITIONS {
        let values: Vec<f64> = report
            .axes
            .iter()
            .map(|axis| match i {
                // The ends of every axis, where it was drawn, then anywhere.
                0 => axis.min,
                1 => axis.max,
                2 => axis.default,
                _ => axis.min + random.f64() * (axis.max - axis.min),
            })
            .collect();
        let still = folder.join(format!("still-{i}.otf"));
        let plain = file.plain(0, Some(&values), Some("Still"))?;
        fs::write(&still, &plain)?;
        every_letter(plain)?;
        let tags = report.axes.iter().map(|a| a.tag.clone());
        entries.push(Entry {
            font: font.clone(),
            still,
            position: tags.zip(values).collect(),
        });
    }
    let list = folder.join("list.json");
    fs::write(&list, serde_json::to_vec(&entries)?)?;
    let said = python::script("positions.py", &[&list.to_string_lossy()])?;
    let apart: Vec<Apart> = serde_json::from_slice(&said)?;
    let most = |of: fn(&Apart) -> f64| apart.iter().map(of).fold(0.0, f64::max);
    let (points, drawn) = (most(|a| a.points), most(|a| a.drawn));
    let (advance, set) = (most(|a| a.advance), most(|a| a.set));
    let formed: usize = apart.iter().map(|a| a.formed).sum();
    println!(
        "{}: {} positions, {} glyphs each; farthest apart: points {points:.3}, drawn {drawn:.3}, \
         advances {advance}, set {set}; {formed} in another form",
        face.id,
        apart.len(),
        apart.first().map_or(0, |a| a.glyphs),
    );
    let other: Vec<&String> = apart.iter().flat_map(|a| &a.other).collect();
    if !other.is_empty() {
        return Err(format!("{}: of another make: {other:?}", face.id).into());
    }
    let told = report.notes.iter().any(|n| n.contains("another form"));
    if told != (formed > 0) {
        return Err(format!(
            "{}: {formed} have another form, and: {:?}",
            face.id, report.notes
        )
        .into());
    }
    if points > ONE || drawn > ONE || advance > ONE || set > SET {
        return Err(format!("{}: {apart:?}", face.id).into());
    }
    fs::remove_dir_all(&folder)?;
    Ok(())
}
