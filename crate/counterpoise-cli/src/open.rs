//! From a file to a font whose alphabet is measured.

use crate::arguments::Letters;
use crate::{guard, walk};
use counterpoise::font::{Container, Font, FontError};
use counterpoise::judge::Alphabet;
use counterpoise::report::{Chosen, FileError};
use counterpoise_formats::{FontFile, FormatError};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;

/// The largest collections known to us are a quarter of this. Without a limit a
/// path to a device would fill the memory.
const MOST_BYTES: u64 = 512 << 20;

/// A font, and which of its letters to measure.
#[derive(Debug)]
pub(crate) struct Opened {
    pub(crate) font: Font,
    pub(crate) alphabet: Alphabet,
    pub(crate) chosen: Chosen,
}

/// Opens one face of a font file.
///
/// # Errors
/// If it cannot be read or is no font.
pub(crate) fn open(path: &Path, face: u32, letters: &Letters) -> Result<Opened, FileError> {
    let data = read(path).map_err(|e| walk::unreadable(&e))?;
    if data.len() as u64 > MOST_BYTES {
        return Err(FileError {
            code: "too-large",
            sentence: format!(
                "This file is larger than {} MiB, which no font is. Name a font file.",
                MOST_BYTES >> 20
            ),
        });
    }
    guard::call(|| {
        let (data, face) = plain(data, face)?;
        let font = Font::open_face(data, face).map_err(|e| FileError::from(&e))?;
        Ok(Opened {
            alphabet: Alphabet::of(&font),
            chosen: Chosen::of(&font, letters.choice()),
            font,
        })
    })
    .unwrap_or_else(|| {
        Err(FileError {
            code: "fault",
            sentence: format!("This font could not be measured. {}", guard::FAULT),
        })
    })
}

/// A file as the lab looks at it: a web font unpacked, a font that varies stood
/// still where it was drawn, the face that is asked for alone; any other file as
/// it is.
fn plain(data: Vec<u8>, face: u32) -> Result<(Vec<u8>, u32), FileError> {
    let packed = matches!(Container::sniff(&data), Err(FontError::Packed));
    match plain_face(data.clone(), face as usize, packed) {
        Ok(None) => Ok((data, face)),
        Ok(Some(plain)) => Ok((plain, 0)),
        Err(e) if packed => Err(FileError {
            code: e.code(),
            sentence: e.to_string(),
        }),
        // It may still open, or the lab has the better sentence.
        Err(_) => Ok((data, face)),
    }
}

fn plain_face(data: Vec<u8>, face: usize, packed: bool) -> Result<Option<Vec<u8>>, FormatError> {
    let file = FontFile::open(data)?;
    let varies = !file.face(face)?.axes.is_empty();
    // No values are the axes' own.
    let position: Option<&[f64]> = varies.then_some(&[]);
    if !varies && !packed {
        return Ok(None);
    }
    file.plain(face, position, None).map(Some)
}

fn read(path: &Path) -> io::Result<Vec<u8>> {
    let file = File::open(path)?;
    let mut data = Vec::new();
    file.take(MOST_BYTES + 1).read_to_end(&mut data)?;
    Ok(data)
}
