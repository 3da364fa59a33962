//! Embedding rights: OS/2 fsType (OpenType specification, OS/2 chapter).

use super::face::Face;
use ttf_parser::Tag;

/// How far a font may be embedded in a document.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum EmbeddingLevel {
    /// Bits 1 to 3 clear.
    Installable,
    /// Bit 1: no embedding.
    Restricted,
    /// Bit 2: to view and print.
    PreviewAndPrint,
    /// Bit 3: to edit with.
    Editable,
}

/// The embedding rights of a font.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Embedding {
    /// fsType as it stands in the file.
    pub bits: u16,
    /// The widest right that the bits grant.
    pub level: EmbeddingLevel,
    /// Bit 8: a document must embed the whole font.
    pub no_subsetting: bool,
    /// Bit 9: only bitmaps may be embedded.
    pub bitmap_only: bool,
}

impl Embedding {
    /// Reads OS/2 fsType, which stands at byte 8 in every version of the table.
    pub(super) fn read(face: &Face<'_>) -> Option<Self> {
        let os2 = face.raw_face().table(Tag::from_bytes(b"OS/2"))?;
        let &[hi, lo] = os2.get(8..10)? else {
            return None;
        };
        Some(Self::from_bits(u16::from_be_bytes([hi, lo])))
    }

    /// Reads the bits. Where several levels are set, as old versions of the
    /// table allowed, the least restrictive holds.
    pub fn from_bits(bits: u16) -> Self {
        let level = if bits & 0x0008 != 0 {
            EmbeddingLevel::Editable
        } else if bits & 0x0004 != 0 {
            EmbeddingLevel::PreviewAndPrint
        } else if bits & 0x0002 != 0 {
            EmbeddingLevel::Restricted
        } else {
            EmbeddingLevel::Installable
        };
        Self {
            bits,
            level,
            no_subsetting: bits & 0x0100 != 0,
            bitmap_only: bits & 0x0200 != 0,
        }
    }

    /// The rights in a plain sentence.
    pub fn sentence(self) -> String {
        let mut s = String::from(match self.level {
            EmbeddingLevel::Installable => "May be embedded in documents and installed from them.",
            EmbeddingLevel::Restricted => {
                "Must not be embedded or passed on without its owner's leave."
            }
            EmbeddingLevel::PreviewAndPrint => {
                "May be embedded in documents to view and print them."
            }
            EmbeddingLevel::Editable => {
                "May be embedded in documents to view, print and edit them."
            }
        });
        if self.no_subsetting {
            s.push_str(" Only as a whole, not in part.");
        }
        if self.bitmap_only {
            s.push_str(" Only as bitmaps, not as outlines.");
        }
        s
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn least_restrictive_level_holds() {
        assert_eq!(Embedding::from_bits(0).level, EmbeddingLevel::Installable);
        assert_eq!(Embedding::from_bits(2).level, EmbeddingLevel::Restricted);
        assert_eq!(
            Embedding::from_bits(6).level,
            EmbeddingLevel::PreviewAndPrint
        );
        assert_eq!(Embedding::from_bits(0xE).level, EmbeddingLevel::Editable);
    }

    #[test]
    fn modifiers_are_read_beside_the_level() {
        let e = Embedding::from_bits(0x0304);
        assert!(e.no_subsetting && e.bitmap_only);
        assert_eq!(
            e.sentence(),
            "May be embedded in documents to view and print them. \
             Only as a whole, not in part. Only as bitmaps, not as outlines."
        );
    }
}
