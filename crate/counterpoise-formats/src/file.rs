//! A file as it was dropped, and the plain fonts that are made of it.

use crate::report::{FaceName, FaceReport, FileReport, Packing};
use crate::sfnt::{Tables, u32_at};
use crate::still::cff2;
use crate::{FormatError, characters, face, names, still, unpack};

/// The most faces that a collection may claim; the largest in use hold a few dozen.
const MOST_FACES: usize = 1024;

/// Where a collection counts its faces, and where it lists them.
const COUNT: usize = 8;
const LIST: usize = 12;

/// An unpacked file.
#[derive(Debug, Clone)]
pub struct FontFile {
    packing: Packing,
    data: Vec<u8>,
    /// Where each face's table directory begins.
    faces: Vec<usize>,
}

impl FontFile {
    /// Unpacks a file and finds its faces.
    ///
    /// # Errors
    /// If it cannot be unpacked, or its faces cannot be found.
    pub fn open(file: Vec<u8>) -> Result<Self, FormatError> {
        let packing = unpack::packing(&file);
        let data = match packing {
            Packing::None => file,
            _ => unpack::unpack(&file)?.into_owned(),
        };
        let faces = match data.get(..4) {
            Some(b"ttcf") => {
                let count = u32_at(&data, COUNT).ok_or(FormatError::Truncated)? as usize;
                if count == 0 {
                    return Err(FormatError::NoSuchFace);
                }
                (0..count.min(MOST_FACES))
                    .map(|i| u32_at(&data, LIST + 4 * i).map(|o| o as usize))
                    .collect::<Option<_>>()
                    .ok_or(FormatError::Directory)?
            }
            _ => vec![0],
        };
        Ok(Self {
            packing,
            data,
            faces,
        })
    }

    fn tables(&self, face: usize) -> Result<Tables<'_>, FormatError> {
        let at = self.faces.get(face).ok_or(FormatError::NoSuchFace)?;
        Tables::read(&self.data, *at)
    }

    /// How the file is packed, and its faces by their names.
    pub fn report(&self) -> FileReport {
        let name = |i: usize| {
            let (family, style) = self
                .tables(i)
                .map(|tables| names::family_and_style(&tables))
                .unwrap_or_default();
            FaceName { family, style }
        };
        FileReport {
            packing: self.packing,
            faces: (0..self.faces.len()).map(name).collect(),
        }
    }

    /// What is unusual about a face.
    ///
    /// # Errors
    /// If there is no such face, or its table directory cannot be read.
    pub fn face(&self, face: usize) -> Result<FaceReport, FormatError> {
        Ok(face::report(&self.tables(face)?))
    }

    /// A face as a plain font file of its own, with a character map that all
    /// readers know. One that varies stands at the position, a value for each
    /// axis in their order, and says the style; without a position it is left
    /// to vary.
    ///
    /// # Errors
    /// If there is no such face, or it cannot be brought to the position.
    pub fn plain(
        &self,
        face: usize,
        position: Option<&[f64]>,
        style: Option<&str>,
    ) -> Result<Vec<u8>, FormatError> {
        let mut tables = self.tables(face)?;
        if let Some(map) = characters::unicode(&tables) {
            tables.put(*b"cmap", map);
        }
        if let Some(position) = position {
            still::still(&mut tables, position, style)?;
        } else if let Some(table) = tables.get(b"CFF2").filter(|t| cff2::lacks_store(t))
            && let Some(table) = cff2::with_store(table)
        {
            tables.put(*b"CFF2", table);
        }
        Ok(tables.write())
    }
}
