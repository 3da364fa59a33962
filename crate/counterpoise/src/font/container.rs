//! What kind of file is this? Told from its first bytes, before any parsing,
//! so that a wrong file gets a sentence that names what it is.

use super::FontError;
use super::bytes::u32_at;
use super::drawn::MAGIC;

/// A file's outer format.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Container {
    /// One OpenType font: `00 01 00 00`, `OTTO` or `true`.
    OpenType,
    /// A collection of fonts: `ttcf`.
    Collection,
    /// Letters drawn outside a font file, as this library writes them.
    Drawn,
}

/// The most faces that a collection may claim. The largest known to us hold a
/// few dozen; a damaged count must not be believed.
const MAX_FACES: u32 = 1024;

/// Where a collection has the number of its faces, and where it lists them, four
/// bytes each.
const COUNT: usize = 8;
const LIST: usize = 12;

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
            MAGIC => Ok(Self::Drawn),
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
    ///
    /// # Errors
    /// If a collection ends before its list of faces does.
    pub fn face_count(self, data: &[u8]) -> Result<u32, FontError> {
        match self {
            Self::OpenType | Self::Drawn => Ok(1),
            Self::Collection => {
                let claimed = u32_at(data, COUNT).ok_or(FontError::Truncated)?;
                let room = data.len().saturating_sub(LIST) / 4;
                if usize::try_from(claimed).is_ok_and(|n| n <= room) {
                    Ok(claimed.min(MAX_FACES))
                } else {
                    Err(FontError::BrokenTable("list of faces"))
                }
            }
        }
    }
}

/// Whether the first bytes read as text: no control characters but white space.
fn is_text(data: &[u8]) -> bool {
    let head = data.get(..256).unwrap_or(data);
    head.iter()
        .all(|&b| b >= 0x20 || b"\t\r\n\x0c".contains(&b))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn faces_must_fit_into_the_file() {
        let claims = |n: u32, bytes: usize| {
            let mut file = b"ttcf\0\x01\0\0".to_vec();
            file.extend(n.to_be_bytes());
            file.resize(bytes, 0);
            Container::Collection.face_count(&file)
        };
        let broken = Err(FontError::BrokenTable("list of faces"));
        assert_eq!(claims(2, 20), Ok(2));
        assert_eq!(claims(3, 20), broken);
        assert_eq!(claims(u32::MAX, 4096), broken);
        assert_eq!(claims(0, 12), Ok(0));
        assert_eq!(
            Container::Collection.face_count(b"ttcf"),
            Err(FontError::Truncated)
        );
    }
}
