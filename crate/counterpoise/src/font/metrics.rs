//! Heights and angles that the file declares, kept apart from what its letters show.

use super::face::Face;
use ttf_parser::Tag;

/// Declared metrics, font units; `None` where the file is silent.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Declared {
    /// OS/2 sxHeight, version 2 on.
    pub x_height: Option<f64>,
    /// OS/2 sCapHeight, version 2 on.
    pub cap_height: Option<f64>,
    /// OS/2 sTypoAscender.
    pub typo_ascender: Option<f64>,
    /// OS/2 sTypoDescender.
    pub typo_descender: Option<f64>,
    /// hhea ascender.
    pub ascender: f64,
    /// hhea descender, negative below the baseline.
    pub descender: f64,
    /// hhea lineGap.
    pub line_gap: f64,
    /// OS/2 usWeightClass, 1 to 1000.
    pub weight_class: Option<u16>,
    /// Lean of the uprights in degrees, leaning right positive: minus post.italicAngle.
    pub slant: f64,
    /// Whether post says that all advances are equal.
    pub monospaced: bool,
}

impl Declared {
    pub(super) fn read(face: &Face<'_>) -> Self {
        let os2 = face.tables().os2;
        let raw = face.raw_face();
        // ttf-parser applies variations to these and corrects an hhea of zeros;
        // what is declared is what stands in the file.
        let word = |tag: &[u8; 4], at: usize| {
            raw.table(Tag::from_bytes(tag))
                .and_then(|t| t.get(at..at + 2))
                .map(|b| f64::from(i16::from_be_bytes([b[0], b[1]])))
        };
        let angle = face
            .tables()
            .post
            .map_or(0.0, |p| f64::from(p.italic_angle));
        Self {
            x_height: os2.and_then(|t| t.x_height()).map(f64::from),
            cap_height: os2.and_then(|t| t.capital_height()).map(f64::from),
            typo_ascender: word(b"OS/2", 68),
            typo_descender: word(b"OS/2", 70),
            ascender: word(b"hhea", 4).unwrap_or(0.0),
            descender: word(b"hhea", 6).unwrap_or(0.0),
            line_gap: word(b"hhea", 8).unwrap_or(0.0),
            weight_class: os2.map(|t| t.weight().to_number()),
            slant: if angle.abs() < 60.0 { -angle } else { 0.0 },
            monospaced: face.is_monospaced(),
        }
    }
}
