//! What kind of file is this? Told from its first bytes, before any parsing,
//! so that a wrong file gets a sentence that names what it is.

use super::FontError;

/// A file's outer format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Container {
    /// One OpenType font: `00 01 00 00`, `OTTO` or `true`.
    OpenType,
    /// A collection of fonts: `ttcf`.
    Collection,
}

/// The most faces that a collection may claim. The largest known to us hold a
/// few dozen; a damaged count must not be believed.
const MAX_FACES: u32 = 1024;

impl Container {
    /// Tells the format from the first bytes.
    ///
    /// # Errors
    /// If the bytes are no font, or one of a kind that the lab does not open.
    pub fn sniff(data: &[u8]) -> Result<Self, FontError> {
        if data.is_empty() {
            return Err(FontError::Empty);
        }
        let head = data.get(..4).unwrap_or(data);
        match head {
            [0, 1, 0, 0] | b"OTTO" | b"true" => Ok(Self::OpenType),
            b"ttcf" => Ok(Self::Collection),
            b"wOFF" | b"wOF2" => Err(FontError::Packed),
            b"typ1" | b"%!PS" | b"%!Fo" | [0x80, 1, ..] => Err(FontError::Type1),
            b"%PDF" => Err(FontError::NotAFont("a PDF document")),
            b"PK\x03\x04" => Err(FontError::NotAFont("a zip archive")),
            b"\x89PNG" => Err(FontError::NotAFont("a PNG picture")),
            [0xFF, 0xD8, 0xFF, _] => Err(FontError::NotAFont("a JPEG picture")),
            b"<svg" | b"<?xm" => Err(FontError::NotAFont("an SVG or XML file")),
            _ if is_text(data) => Err(FontError::NotAFont("a text file")),
            _ => Err(FontError::Unknown),
        }
    }

    /// How many faces the file claims to hold.
    pub fn face_count(self, data: &[u8]) -> u32 {
        match self {
            Self::OpenType => 1,
            Self::Collection => ttf_parser::fonts_in_collection(data)
                .unwrap_or(0)
                .min(MAX_FACES),
        }
    }
}

/// Whether the first bytes read as text: no control characters but white space.
fn is_text(data: &[u8]) -> bool {
    let head = data.get(..256).unwrap_or(data);
    head.iter()
        .all(|&b| b >= 0x20 || b"\t\r\n\x0c".contains(&b))
}
