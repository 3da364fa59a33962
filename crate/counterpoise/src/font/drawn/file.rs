//! Drawn letters as a file of our own, so that whatever opens, keeps or sends a
//! font's bytes does the same with them.
//!
//! The file begins with [`MAGIC`]. Numbers stand with their least byte first:
//! units per em (2 bytes), what is declared of their heights (6 × 8) and their
//! weight (2, 0 if nothing), the eight names, the font file that the letters
//! stand in (4 bytes of length, then the file; of length 0 for loose letters),
//! then the number of letters (4) and each of them: its name, its characters
//! (2, then 4 each), its advance (8), and its outline, which is a number of
//! steps (4), each a letter of SVG path data, `M L Q C Z`, and its points
//! (8 + 8 each). A text is its length (4) and its bytes in UTF-8.

use super::{Drawn, DrawnLetter};
use crate::font::{Declared, FontError, Names};
use crate::outline::Outline;
use kurbo::{BezPath, PathEl, Point};
use std::ops::Range;

/// What such a file begins with; the last byte is the version.
pub(in crate::font) const MAGIC: &[u8] = b"cpd\x01";

/// What a file holds.
#[derive(Debug)]
pub(in crate::font) struct Held<'a> {
    /// The font file that the letters stand in; empty for loose ones.
    pub(in crate::font) base: &'a [u8],
    /// Where that lies among the bytes.
    pub(in crate::font) file: Range<usize>,
    /// The letters, and what is known of them if they are loose.
    pub(in crate::font) drawn: Drawn,
}

/// Writes letters that stand in a font file, or, if that is empty, by themselves;
/// tells too where the font file lies in what was written.
pub(in crate::font) fn write<'a>(
    base: &[u8],
    units_per_em: u16,
    declared: &Declared,
    names: &Names,
    letters: impl ExactSizeIterator<Item = &'a DrawnLetter>,
) -> (Vec<u8>, Range<usize>) {
    let mut out = Vec::with_capacity(base.len() + 4096);
    out.extend(MAGIC);
    out.extend(units_per_em.to_le_bytes());
    for value in heights(declared) {
        out.extend(value.unwrap_or(f64::NAN).to_le_bytes());
    }
    out.extend(declared.weight_class.unwrap_or(0).to_le_bytes());
    for name in each(names) {
        text(&mut out, name.as_deref().unwrap_or(""));
    }
    length(&mut out, base.len());
    let file = out.len()..out.len() + base.len();
    out.extend(base);
    length(&mut out, letters.len());
    for letter in letters {
        text(&mut out, letter.name.as_deref().unwrap_or(""));
        let characters = letter.characters.get(..MOST_CHARACTERS);
        let characters = characters.unwrap_or(&letter.characters);
        out.extend((characters.len() as u16).to_le_bytes());
        for &c in characters {
            out.extend(u32::from(c).to_le_bytes());
        }
        out.extend(letter.advance.to_le_bytes());
        outline(&mut out, &letter.outline.to_bez_path());
    }
    (out, file)
}

/// Characters that lead to one letter. More than any font has for one glyph.
const MOST_CHARACTERS: usize = 4096;

fn heights(d: &Declared) -> [Option<f64>; 6] {
    [
        d.x_height,
        d.cap_height,
        d.typo_ascender,
        d.typo_descender,
        Some(d.slant),
        Some(f64::from(u8::from(d.monospaced))),
    ]
}

fn each(n: &Names) -> [&Option<String>; 8] {
    [
        &n.family,
        &n.style,
        &n.version,
        &n.designer,
        &n.manufacturer,
        &n.copyright,
        &n.licence,
        &n.licence_url,
    ]
}

fn length(out: &mut Vec<u8>, n: usize) {
    // Files of 4 GB are not opened in the first place.
    out.extend(u32::try_from(n).unwrap_or(u32::MAX).to_le_bytes());
}

fn text(out: &mut Vec<u8>, text: &str) {
    length(out, text.len());
    out.extend(text.as_bytes());
}

fn outline(out: &mut Vec<u8>, path: &BezPath) {
    length(out, path.elements().len());
    let mut step = |kind: u8, points: &[Point]| {
        out.push(kind);
        for p in points {
            out.extend(p.x.to_le_bytes());
            out.extend(p.y.to_le_bytes());
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(p) => step(b'M', &[p]),
            PathEl::LineTo(p) => step(b'L', &[p]),
            PathEl::QuadTo(a, p) => step(b'Q', &[a, p]),
            PathEl::CurveTo(a, b, p) => step(b'C', &[a, b, p]),
            PathEl::ClosePath => step(b'Z', &[]),
        }
    }
}

/// Reads such a file. What it claims to hold must be in it: nothing is set
/// aside for it before.
///
/// # Errors
/// [`FontError::Truncated`] if it ends too early, [`FontError::BrokenTable`] if
/// it holds something else than it says.
pub(in crate::font) fn read(data: &[u8]) -> Result<Held<'_>, FontError> {
    let mut from = Bytes(data);
    from.take(MAGIC.len())?;
    let units_per_em = from.u16()?;
    let mut height = || from.f64().map(|v| Some(v).filter(|v| v.is_finite()));
    let [
        x_height,
        cap_height,
        typo_ascender,
        typo_descender,
        slant,
        fixed,
    ] = [
        height()?,
        height()?,
        height()?,
        height()?,
        height()?,
        height()?,
    ];
    let declared = Declared {
        x_height,
        cap_height,
        typo_ascender,
        typo_descender,
        slant: slant.unwrap_or(0.0),
        monospaced: fixed == Some(1.0),
        weight_class: Some(from.u16()?).filter(|&w| w > 0),
        ..Declared::default()
    };
    let mut name = || from.text().map(|t| Some(t).filter(|t| !t.is_empty()));
    let names = Names {
        family: name()?,
        style: name()?,
        version: name()?,
        designer: name()?,
        manufacturer: name()?,
        copyright: name()?,
        licence: name()?,
        licence_url: name()?,
    };
    let length = from.length()?;
    let at = data.len() - from.0.len();
    let base = from.take(length)?;
    if base.starts_with(MAGIC) {
        // Ours never does: a drawing upon a drawing is written as one.
        return Err(FontError::BrokenTable("drawn letters"));
    }
    let count = from.length()?.min(usize::from(u16::MAX));
    let letters = (0..count).map(|_| from.letter());
    let letters = letters.collect::<Result<_, _>>()?;
    let drawn = Drawn {
        units_per_em,
        names,
        declared,
        letters,
    };
    let file = at..at + length;
    Ok(Held { base, file, drawn })
}

/// What is left to read.
struct Bytes<'a>(&'a [u8]);

impl<'a> Bytes<'a> {
    fn take(&mut self, n: usize) -> Result<&'a [u8], FontError> {
        let (head, rest) = self.0.split_at_checked(n).ok_or(FontError::Truncated)?;
        self.0 = rest;
        Ok(head)
    }

    fn array<const N: usize>(&mut self) -> Result<[u8; N], FontError> {
        let bytes = self.take(N)?;
        bytes.try_into().map_err(|_| FontError::Truncated)
    }

    fn u16(&mut self) -> Result<u16, FontError> {
        self.array().map(u16::from_le_bytes)
    }

    fn u32(&mut self) -> Result<u32, FontError> {
        self.array().map(u32::from_le_bytes)
    }

    fn length(&mut self) -> Result<usize, FontError> {
        // An address space of 16 bits would not hold the module.
        self.u32().map(|n| n as usize)
    }

    fn f64(&mut self) -> Result<f64, FontError> {
        self.array().map(f64::from_le_bytes)
    }

    fn text(&mut self) -> Result<String, FontError> {
        let n = self.length()?;
        Ok(String::from_utf8_lossy(self.take(n)?).into_owned())
    }

    fn point(&mut self) -> Result<Point, FontError> {
        Ok(Point::new(self.f64()?, self.f64()?))
    }

    fn letter(&mut self) -> Result<DrawnLetter, FontError> {
        let name = Some(self.text()?).filter(|n| !n.is_empty());
        let count = self.u16()?;
        let characters = (0..count).map(|_| self.u32().map(char::from_u32));
        let characters: Result<Vec<Option<char>>, _> = characters.collect();
        Ok(DrawnLetter {
            name,
            characters: characters?.into_iter().flatten().collect(),
            advance: Some(self.f64()?).filter(|a| a.is_finite()).unwrap_or(0.0),
            outline: Outline::from_path(&self.path()?),
        })
    }

    fn path(&mut self) -> Result<BezPath, FontError> {
        let mut path = BezPath::new();
        for step in 0..self.length()? {
            let element = match self.take(1)? {
                b"M" => PathEl::MoveTo(self.point()?),
                // A path that does not begin with a move has nowhere to begin.
                _ if step == 0 => return Err(FontError::BrokenTable("drawn letters")),
                b"L" => PathEl::LineTo(self.point()?),
                b"Q" => PathEl::QuadTo(self.point()?, self.point()?),
                b"C" => PathEl::CurveTo(self.point()?, self.point()?, self.point()?),
                b"Z" => PathEl::ClosePath,
                _ => return Err(FontError::BrokenTable("drawn letters")),
            };
            path.push(element);
        }
        Ok(path)
    }
}
