//! A UFO folder: which glyphs it lists, and what it says of itself.

use super::Ufo;
use super::archive::Archive;
use super::glif::{self, Glif};
use super::plist::{self, Value};
use crate::{DrawingError, Note};
use counterpoise::font::{Declared, Drawn, DrawnLetter, GlyphError, Names};
use counterpoise::outline::Outline;
use kurbo::{Affine, BezPath};
use std::collections::BTreeMap;

/// Components within components deeper than this are a circle.
const MAX_DEPTH: usize = 12;

/// Glyphs beyond this have no number in a font.
const MAX_GLYPHS: usize = 65_535;

/// Notes beyond this are not told: they say the same of every glyph.
const MAX_NOTES: usize = 20;

pub(super) fn read(archive: &mut Archive) -> Result<Ufo, DrawingError> {
    let list = |archive: &mut Archive, name: &str| plist::parse(&archive.text(name)?, name);
    let meta = list(archive, "metainfo.plist")?;
    let version = meta.get("formatVersion").and_then(Value::number);
    match version {
        Some(2.0 | 3.0) => {}
        Some(v) => return Err(DrawingError::UfoVersion(v.to_string())),
        None => return Err(DrawingError::BrokenUfo("metainfo.plist".into())),
    }
    let info = if archive.has("fontinfo.plist") {
        list(archive, "fontinfo.plist")?
    } else {
        Value::Dict(Vec::new())
    };
    let layer = if archive.has("layercontents.plist") {
        default_layer(&list(archive, "layercontents.plist")?)
    } else {
        "glyphs".to_owned()
    };
    let contents = list(archive, &format!("{layer}/contents.plist"))?;
    let Value::Dict(contents) = contents else {
        return Err(DrawingError::BrokenUfo("contents.plist".into()));
    };
    let mut notes = Vec::new();
    let mut glyphs = BTreeMap::new();
    for (name, file) in contents.iter().take(MAX_GLYPHS) {
        let Some(file) = file.text().filter(|f| !f.contains(['/', '\\'])) else {
            continue;
        };
        let text = match archive.text(&format!("{layer}/{file}")) {
            Err(DrawingError::Unpacked) => return Err(DrawingError::Unpacked),
            other => other,
        };
        match text.and_then(|t| glif::parse(&t)) {
            Ok(glif) => {
                glyphs.insert(name.clone(), glif);
            }
            Err(_) => tell(
                &mut notes,
                Note::Glyph(format!(
                    "The glyph {name} is missing or damaged; it is left out."
                )),
            ),
        }
    }
    let em = units_per_em(&info);
    let mut letters: Vec<DrawnLetter> = Vec::new();
    for (name, glif) in &glyphs {
        let mut path = BezPath::new();
        if assemble(&glyphs, glif, Affine::IDENTITY, 0, &mut path).is_none() {
            tell(
                &mut notes,
                Note::Glyph(format!(
                    "The glyph {name} is made of too many or of missing glyphs; it is left out."
                )),
            );
            continue;
        }
        if glif.open {
            tell(&mut notes, Note::Open(name.clone()));
        }
        letters.push(DrawnLetter {
            name: Some(name.clone()),
            characters: glif.characters.clone(),
            advance: glif.advance * em.scale,
            outline: Outline::from_path(&(Affine::scale(em.scale) * path)),
        });
    }
    let key = |l: &DrawnLetter| {
        (
            l.characters.first().copied().unwrap_or(char::MAX),
            l.name.clone(),
        )
    };
    letters.sort_by_key(key);
    if letters.iter().all(|l| l.outline.is_empty()) {
        return Err(DrawingError::NoInk);
    }
    Ok(Ufo {
        drawn: Drawn {
            units_per_em: em.units,
            names: names(&info),
            declared: declared(&info, em.scale),
            letters,
        },
        notes,
    })
}

fn tell(notes: &mut Vec<Note>, note: Note) {
    if notes.len() < MAX_NOTES {
        notes.push(note);
    }
}

/// The folder of the default layer, `glyphs` by the specification.
fn default_layer(layers: &Value) -> String {
    let folders = match layers {
        Value::Array(all) => all.iter().filter_map(|layer| match layer {
            Value::Array(pair) => pair.get(1).and_then(Value::text),
            _ => None,
        }),
        _ => return "glyphs".into(),
    };
    let mut folders = folders.filter(|f| !f.contains(['/', '\\']) && !f.starts_with('.'));
    let first = folders.clone().next();
    folders
        .find(|f| *f == "glyphs")
        .or(first)
        .unwrap_or("glyphs")
        .to_owned()
}

struct Em {
    units: u16,
    /// What coordinates are multiplied by: 1 unless the UFO's units per em are
    /// no whole number that a font may have.
    scale: f64,
}

fn units_per_em(info: &Value) -> Em {
    let units = info
        .get("unitsPerEm")
        .and_then(Value::number)
        .unwrap_or(1000.0);
    let whole = units.round().clamp(16.0, 16384.0);
    if units <= 0.0 {
        return Em {
            units: 1000,
            scale: 1.0,
        };
    }
    Em {
        units: whole as u16,
        scale: whole / units,
    }
}

fn names(info: &Value) -> Names {
    let text = |key: &str| info.get(key).and_then(Value::text).map(str::to_owned);
    let version = info
        .get("versionMajor")
        .and_then(Value::number)
        .map(|major| {
            let minor = info
                .get("versionMinor")
                .and_then(Value::number)
                .unwrap_or(0.0);
            format!("Version {major}.{minor:03}")
        });
    Names {
        family: text("familyName"),
        style: text("styleName"),
        version: text("openTypeNameVersion").or(version),
        designer: text("openTypeNameDesigner"),
        manufacturer: text("openTypeNameManufacturer"),
        copyright: text("copyright"),
        licence: text("openTypeNameLicense"),
        licence_url: text("openTypeNameLicenseURL"),
    }
}

fn declared(info: &Value, scale: f64) -> Declared {
    let number = |key: &str| info.get(key).and_then(Value::number);
    let length = |key: &str| number(key).map(|n| n * scale);
    let angle = number("italicAngle").unwrap_or(0.0);
    Declared {
        x_height: length("xHeight"),
        cap_height: length("capHeight"),
        typo_ascender: length("openTypeOS2TypoAscender").or(length("ascender")),
        typo_descender: length("openTypeOS2TypoDescender").or(length("descender")),
        ascender: length("openTypeHheaAscender")
            .or(length("ascender"))
            .unwrap_or(0.0),
        descender: length("openTypeHheaDescender")
            .or(length("descender"))
            .unwrap_or(0.0),
        line_gap: length("openTypeHheaLineGap").unwrap_or(0.0),
        weight_class: number("openTypeOS2WeightClass")
            .filter(|w| (1.0..=1000.0).contains(w))
            .map(|w| w as u16),
        slant: if angle.abs() < 60.0 { -angle } else { 0.0 },
        monospaced: false,
    }
}

/// Adds a glyph's own contours and those of its components; `None` where one is
/// missing, or they are too many or too deep.
fn assemble(
    glyphs: &BTreeMap<String, Glif>,
    glif: &Glif,
    map: Affine,
    depth: usize,
    into: &mut BezPath,
) -> Option<()> {
    if depth > MAX_DEPTH || into.elements().len() > GlyphError::MAX_SEGMENTS {
        return None;
    }
    into.extend(map * glif.path.clone());
    for component in &glif.components {
        let base = glyphs.get(&component.base)?;
        assemble(glyphs, base, map * component.map, depth + 1, into)?;
    }
    (into.elements().len() <= GlyphError::MAX_SEGMENTS).then_some(())
}
