//! Glyphs of the UFO specification, versions 2 and 3: a single `.glif`, and a
//! zipped UFO folder.

mod archive;
mod folder;
mod glif;
mod plist;
mod xml;

pub use glif::{Component, Glif};

use crate::{DrawingError, Note};
use counterpoise::font::{Drawn, DrawnLetter};

/// The letters of a zipped UFO.
#[derive(Debug, Clone, PartialEq)]
pub struct Ufo {
    /// The letters, in order of their first character, then of their names.
    pub drawn: Drawn,
    /// What could not be read.
    pub notes: Vec<Note>,
}

/// Reads a zipped UFO folder.
///
/// # Errors
/// If it is no zip file, holds no UFO, or one that is damaged. A damaged glyph
/// costs that glyph.
pub fn read(bytes: Vec<u8>) -> Result<Ufo, DrawingError> {
    folder::read(&mut archive::Archive::open(bytes)?)
}

/// Reads a single glyph file as a letter. Components are other files, so one
/// that has any comes without them, with a note.
///
/// # Errors
/// If it is no glyph file.
pub fn read_glif(text: &str) -> Result<(DrawnLetter, Vec<Note>), DrawingError> {
    let glif = glif::parse(text)?;
    let mut notes = Vec::new();
    if !glif.components.is_empty() {
        notes.push(Note::Glyph(format!(
            "The glyph {} is made of other glyphs, which this file does not hold; drop the whole \
             UFO to see them.",
            glif.name
        )));
    }
    if glif.open {
        notes.push(Note::Open(glif.name.clone()));
    }
    let letter = DrawnLetter {
        name: Some(glif.name),
        characters: glif.characters,
        advance: glif.advance,
        outline: counterpoise::outline::Outline::from_path(&glif.path),
    };
    Ok((letter, notes))
}

#[cfg(test)]
mod tests;
