//! Bytes to letters: what a font file holds and what it says of itself.
//!
//! This room alone knows the parser ([`ttf_parser`]). Everything else sees
//! [`Font`], [`Outline`] and plain numbers, so that the parser can be replaced
//! in a day.
//!
//! A damaged glyph costs that glyph, never the font: only a file that is no
//! font at all, or one whose letters cannot be found, is an error.

mod budget;
mod bytes;
mod cff;
mod characters;
mod container;
mod drawn;
mod error;
mod face;
mod features;
mod glyf;
mod glyph_names;
mod kerning;
mod licence;
mod loca;
pub mod loose;
mod metrics;
mod names;
mod outlines;
mod pen;

pub use container::Container;
pub use drawn::{Drawn, DrawnLetter};
pub use error::{FontError, GlyphError};
pub use features::Feature;
pub use kerning::{
    Kerning, KerningNote, KerningSource, LATIN, LayoutTag, PairOrigin, PairSource, PairValue,
    SubtableTally,
};
pub use licence::{Embedding, EmbeddingLevel};
pub use metrics::Declared;
pub use names::Names;

use crate::outline::Outline;
use characters::Characters;
use drawn::{Held, Letters};
use face::Face;
use glyph_names::GlyphNames;
use outlines::Outlines;
use std::ops::Range;
use std::sync::OnceLock;

/// Index of a glyph in its font.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct GlyphId(pub u16);

/// What the outlines are made of.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum OutlineFormat {
    /// Quadratic curves, the glyf table.
    TrueType,
    /// Cubic curves, the CFF table.
    Cff,
    /// Cubic curves, the CFF2 table.
    Cff2,
    /// Curves of any kind, drawn outside a font file: no format's rules hold.
    Drawn,
}

impl OutlineFormat {
    /// The format's own name.
    pub fn name(self) -> &'static str {
        match self {
            Self::TrueType => "TrueType",
            Self::Cff => "CFF",
            Self::Cff2 => "CFF2",
            Self::Drawn => "drawn",
        }
    }
}

/// An opened font: its bytes, and what was read from them once; or loose
/// drawings that stand together as one ([`Font::drawn`]); or a file with some of
/// its letters drawn anew ([`Font::with`]).
#[derive(Debug, Clone)]
pub struct Font {
    data: Vec<u8>,
    /// Where the font file lies in them; nowhere for loose drawings.
    file: Range<usize>,
    /// Letters drawn outside the file.
    letters: Letters,
    face_index: u32,
    face_count: u32,
    format: OutlineFormat,
    units_per_em: u16,
    glyph_count: u16,
    names: Names,
    declared: Declared,
    embedding: Option<Embedding>,
    /// Found when the first name is asked for.
    glyph_names: OnceLock<GlyphNames>,
}

impl Font {
    /// Opens the first face of a font file.
    ///
    /// # Errors
    /// A [`FontError`] whose text tells the person who dropped the file what is
    /// wrong with it and what to do.
    pub fn open(data: Vec<u8>) -> Result<Self, FontError> {
        Self::open_face(data, 0)
    }

    /// Opens one face of a collection; other files have a single face, 0.
    ///
    /// # Errors
    /// As [`Font::open`]; also if the file has no such face.
    pub fn open_face(mut data: Vec<u8>, face_index: u32) -> Result<Self, FontError> {
        let container = Container::sniff(&data)?;
        if container == Container::Drawn {
            return Self::open_drawn(data, face_index);
        }
        let face_count = container.face_count(&data)?;
        if face_index >= face_count {
            return Err(FontError::NoSuchFace {
                asked: face_index,
                faces: face_count,
            });
        }
        // Of a file that is not of the kind, nothing is changed.
        let _ = loca::shorten(&mut data, face_index);
        error::check_before_parser(&data, face_index)?;
        let face =
            Face::parse(&data, face_index).map_err(|e| error::from_parser(e, &data, face_index))?;
        let tables = face.tables();
        let format = if tables.glyf.is_some() {
            OutlineFormat::TrueType
        } else if tables.cff.is_some() {
            OutlineFormat::Cff
        } else if tables.cff2.is_some() {
            OutlineFormat::Cff2
        } else {
            return Err(error::no_outlines(&face));
        };
        let names = Names::read(&face);
        let declared = Declared::read(&face);
        let embedding = Embedding::read(&face);
        let (units_per_em, glyph_count) = (face.units_per_em(), face.number_of_glyphs());
        Ok(Self {
            face_index,
            face_count,
            format,
            units_per_em,
            glyph_count,
            names,
            declared,
            embedding,
            glyph_names: OnceLock::new(),
            letters: Letters::default(),
            file: 0..data.len(),
            data,
        })
    }

    /// Opens what [`Font::data`] gives once a letter has been drawn.
    fn open_drawn(data: Vec<u8>, face_index: u32) -> Result<Self, FontError> {
        let Held { base, file, drawn } = drawn::read(&data)?;
        let mut font = if base.is_empty() {
            Self::loose(drawn)?
        } else {
            let mut font = Self::open_face(base.to_vec(), face_index)?;
            font.redraw(drawn.letters);
            font
        };
        (font.data, font.file) = (data, file);
        Ok(font)
    }

    /// Loose drawings as a font of their own. Glyphs are counted in the order
    /// of the letters, from 0.
    ///
    /// # Errors
    /// If there is no letter or their units per em are none.
    pub fn drawn(drawn: Drawn) -> Result<Self, FontError> {
        Ok(Self::loose(drawn)?.written(&[]))
    }

    /// Loose drawings, their bytes not yet written.
    fn loose(drawn: Drawn) -> Result<Self, FontError> {
        drawn.check()?;
        let letters = Letters::new(drawn.letters);
        Ok(Self {
            face_index: 0,
            face_count: 1,
            format: OutlineFormat::Drawn,
            units_per_em: drawn.units_per_em,
            glyph_count: letters.count(),
            names: drawn.names,
            declared: drawn.declared,
            embedding: None,
            glyph_names: OnceLock::new(),
            letters,
            file: 0..0,
            data: Vec::new(),
        })
    }

    /// The same font with some letters drawn anew, in its own units per em.
    /// Each takes the glyph that its first character or its name leads to; one
    /// that the font lacks comes behind the others. What the file declares, and
    /// its bytes, stay.
    pub fn with(&self, letters: Vec<DrawnLetter>) -> Self {
        let mut font = self.clone();
        font.redraw(letters);
        font.written(self.file())
    }

    fn redraw(&mut self, letters: Vec<DrawnLetter>) {
        for letter in letters {
            let reader = self.reader();
            let named = || {
                let name = letter.name.as_deref()?;
                (0..self.glyph_count)
                    .map(GlyphId)
                    .find(|&id| reader.glyph_name(id) == Some(name))
            };
            let first = letter.characters.first();
            let glyph = first.and_then(|&c| reader.glyph(c)).or_else(named);
            match glyph {
                Some(glyph) => self.letters.redraw(glyph, letter),
                None if self.glyph_count < u16::MAX => {
                    self.letters.redraw(GlyphId(self.glyph_count), letter);
                    self.glyph_count += 1;
                }
                None => {}
            }
        }
    }

    /// The font with its bytes written, upon a font file or upon none.
    fn written(mut self, file: &[u8]) -> Self {
        let (units, letters) = (self.units_per_em, self.letters.all());
        (self.data, self.file) = drawn::write(file, units, &self.declared, &self.names, letters);
        self
    }

    /// A reader of glyphs. Cheap, but not free: take one for many glyphs.
    pub fn reader(&self) -> Reader<'_> {
        let face = match self.format {
            OutlineFormat::Drawn => None,
            _ => Face::parse(self.file(), self.face_index).ok(),
        };
        Reader {
            letters: &self.letters,
            outlines: face.as_ref().and_then(Outlines::of),
            face,
            glyph_count: self.glyph_count,
            glyph_names: &self.glyph_names,
        }
    }

    /// All that the font was opened from, and opens from again: the file's
    /// bytes, or, once a letter has been drawn, bytes of our own around them.
    pub fn data(&self) -> &[u8] {
        &self.data
    }

    /// The font file's bytes, without what was drawn anew; empty of loose drawings.
    pub fn file(&self) -> &[u8] {
        &self.data[self.file.clone()]
    }

    /// Which face of a collection this is.
    pub fn face_index(&self) -> u32 {
        self.face_index
    }

    /// How many faces the file holds.
    pub fn face_count(&self) -> u32 {
        self.face_count
    }

    /// What the outlines are made of.
    pub fn format(&self) -> OutlineFormat {
        self.format
    }

    /// Units per em, 16 to 16384 (OpenType, head chapter).
    pub fn units_per_em(&self) -> u16 {
        self.units_per_em
    }

    /// Number of glyphs.
    pub fn glyph_count(&self) -> u16 {
        self.glyph_count
    }

    /// Names, licence and authorship.
    pub fn names(&self) -> &Names {
        &self.names
    }

    /// Heights and angles that the file declares.
    pub fn declared(&self) -> &Declared {
        &self.declared
    }

    /// Embedding rights, if the file states them.
    pub fn embedding(&self) -> Option<Embedding> {
        self.embedding
    }
}

/// Reads glyphs of an opened font.
pub struct Reader<'a> {
    letters: &'a Letters,
    // `Font::open` has parsed these very bytes, so of a file this is `Some`;
    // should a parser ever change its mind, every glyph reads as missing.
    face: Option<Face<'a>>,
    outlines: Option<Outlines<'a>>,
    glyph_count: u16,
    glyph_names: &'a OnceLock<GlyphNames>,
}

impl Reader<'_> {
    /// The glyph that a character maps to.
    pub fn glyph(&self, c: char) -> Option<GlyphId> {
        if let Some(id) = self.letters.glyph(c) {
            return Some(id);
        }
        let id = self.face.as_ref()?.glyph_index(c)?;
        // Glyph 0 is .notdef: a map that leads there has no glyph for `c`.
        (id.0 != 0 && id.0 < self.glyph_count).then_some(GlyphId(id.0))
    }

    /// Every character of the font with its glyph, in order of code point,
    /// each character once.
    pub fn characters(&self) -> Vec<(char, GlyphId)> {
        let mut all = Characters::none();
        // Drawn letters first: where one was drawn anew, it is the one meant.
        for (c, id) in self.letters.characters() {
            all.keep(c, id);
        }
        if let Some(face) = &self.face {
            characters::each(face, |c, id| {
                if id.0 != 0 && id.0 < self.glyph_count {
                    all.keep(c, id);
                }
            });
        }
        all.list()
    }

    /// The glyph's name, if the font carries names.
    pub fn glyph_name(&self, glyph: GlyphId) -> Option<&str> {
        if let Some(name) = self.letters.get(glyph).and_then(|l| l.name.as_deref()) {
            return Some(name);
        }
        let face = self.face.as_ref()?;
        let names = self.glyph_names.get_or_init(|| GlyphNames::read(face));
        names.of(face, glyph.0).filter(|n| !n.is_empty())
    }

    /// Advance width in font units; 0 where the font gives none.
    pub fn advance(&self, glyph: GlyphId) -> f64 {
        if let Some(letter) = self.letters.get(glyph) {
            return letter.advance;
        }
        self.face
            .as_ref()
            .and_then(|f| f.glyph_hor_advance(ttf_parser::GlyphId(glyph.0)))
            .map_or(0.0, f64::from)
    }

    /// The glyph's outline; empty for a glyph without ink, such as the space.
    ///
    /// # Errors
    /// If the glyph is not in the font or its outline cannot be read.
    pub fn outline(&self, glyph: GlyphId) -> Result<Outline, GlyphError> {
        if let Some(letter) = self.letters.get(glyph) {
            return drawn::sound(&letter.outline, glyph);
        }
        let face = self.face.as_ref().ok_or(GlyphError::Missing(glyph))?;
        if glyph.0 >= self.glyph_count {
            return Err(GlyphError::Missing(glyph));
        }
        match &self.outlines {
            Some(outlines) => outlines.read(face, glyph),
            None => Err(GlyphError::Broken(glyph)),
        }
    }
}
