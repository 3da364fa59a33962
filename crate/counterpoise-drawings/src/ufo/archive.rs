//! A zip file, read within bounds.

use crate::DrawingError;
use std::io::{Cursor, Read};
use zip::ZipArchive;

/// The most files of a UFO: every glyph of the largest fonts, some layers over.
const MAX_FILES: usize = 200_000;

/// A zip file in memory.
pub(super) struct Archive {
    zip: ZipArchive<Cursor<Vec<u8>>>,
    /// The folder that holds `metainfo.plist`, with its slash.
    folder: String,
    /// How many bytes may still be unpacked.
    left: u64,
}

impl Archive {
    /// Opens a zip file that holds a UFO.
    pub(super) fn open(bytes: Vec<u8>) -> Result<Self, DrawingError> {
        if bytes.is_empty() {
            return Err(DrawingError::Empty);
        }
        let zip = ZipArchive::new(Cursor::new(bytes)).map_err(|_| DrawingError::NotZip)?;
        if zip.len() > MAX_FILES {
            return Err(DrawingError::Unpacked);
        }
        // The UFO nearest to the top: a folder of its own, or the zip file itself.
        // Some systems put a shadow of every file in a folder `__MACOSX`.
        let folder = zip
            .file_names()
            .flatten()
            .filter(|name| !name.starts_with("__MACOSX"))
            .filter_map(|name| Some(name.strip_suffix("metainfo.plist")?.to_owned()))
            .filter(|folder| folder.is_empty() || folder.ends_with('/'))
            .min_by_key(|folder| folder.matches('/').count())
            .ok_or(DrawingError::NoUfo)?;
        Ok(Self {
            zip,
            folder,
            left: DrawingError::MAX_UNPACKED,
        })
    }

    /// Whether a file is there.
    pub(super) fn has(&self, name: &str) -> bool {
        let path = format!("{}{name}", self.folder);
        self.zip.index_for_name(&path).is_some()
    }

    /// Unpacks a file of the UFO.
    pub(super) fn text(&mut self, name: &str) -> Result<String, DrawingError> {
        let broken = || DrawingError::BrokenUfo(name.to_owned());
        let path = format!("{}{name}", self.folder);
        let file = self.zip.by_name(&path).map_err(|_| broken())?;
        let mut text = String::new();
        // What the file says of its own size is not believed.
        let read = file
            .take(self.left + 1)
            .read_to_string(&mut text)
            .map_err(|_| broken())? as u64;
        if read > self.left {
            return Err(DrawingError::Unpacked);
        }
        self.left -= read;
        Ok(text)
    }
}
