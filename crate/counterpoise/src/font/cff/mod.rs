//! CFF and CFF2 as they lie in the file, as far as charstrings reach.
//!
//! The parser keeps these to itself. What is read here must be what it reads: the
//! same charstrings and subroutines, found the same way.

mod accent;
mod dict;
mod font_dict;
mod index;

pub(super) use index::Index;

use super::bytes::{u8_at, u16_at, u32_at};
use super::face::Face;
use accent::Charset;
use font_dict::FontDicts;
use std::ops::Range;
use ttf_parser::Tag;

/// Operators of the top dictionary.
mod operator {
    pub(super) const CHARSET: u16 = 15;
    pub(super) const CHARSTRINGS: u16 = 17;
    pub(super) const PRIVATE: u16 = 18;
    pub(super) const LOCAL_SUBROUTINES: u16 = 19;
    pub(super) const VARIATION_STORE: u16 = 24;
    pub(super) const ROS: u16 = 1230;
    pub(super) const FONT_DICTS: u16 = 1236;
    pub(super) const FONT_DICT_SELECT: u16 = 1237;
}

/// A font's charstrings and what they refer to.
#[derive(Debug, Clone, Copy)]
pub(super) struct Cff<'a> {
    /// The whole table; charstrings and subroutines are places in it.
    pub(super) table: &'a [u8],
    charstrings: Index<'a>,
    /// Subroutines that every charstring may call.
    pub(super) global: Index<'a>,
    locals: Locals<'a>,
    kind: Kind<'a>,
}

#[derive(Debug, Clone, Copy)]
enum Locals<'a> {
    /// The same for every glyph.
    Shared(Index<'a>),
    /// Each glyph has those of its font dictionary.
    ByGlyph(FontDicts<'a>),
}

#[derive(Debug, Clone, Copy)]
enum Kind<'a> {
    One(Charset<'a>),
    // The variation store.
    Two(&'a [u8]),
}

impl<'a> Cff<'a> {
    /// The table of a face whose outlines are CFF or CFF2.
    pub(super) fn of(face: &Face<'a>) -> Option<Self> {
        let raw = face.raw_face();
        if face.tables().cff.is_some() {
            Self::one(raw.table(Tag::from_bytes(b"CFF "))?)
        } else {
            Self::two(raw.table(Tag::from_bytes(b"CFF2"))?)
        }
    }

    /// Reads a CFF table.
    pub(super) fn one(table: &'a [u8]) -> Option<Self> {
        let header = usize::from(u8_at(table, 2)?).max(4);
        let (_names, at) = Index::read(table, header, 2)?;
        let (tops, at) = Index::read(table, at, 2)?;
        let (_strings, at) = Index::read(table, at, 2)?;
        let (global, _) = Index::read(table, at, 2)?;

        let (mut charset, mut charstrings, mut private) = (None, None, None);
        let (mut dicts, mut select, mut is_cid) = (None, None, false);
        for entry in dict::entries(table.get(tops.place(0)?)?)? {
            match entry.operator {
                operator::CHARSET => charset = entry.offset(),
                operator::CHARSTRINGS => charstrings = entry.offset(),
                operator::PRIVATE => private = entry.range(),
                operator::ROS => is_cid = true,
                operator::FONT_DICTS => dicts = entry.offset(),
                operator::FONT_DICT_SELECT => select = entry.offset(),
                _ => {}
            }
        }
        let locals = if is_cid {
            Locals::ByGlyph(FontDicts::read(table, dicts?, select?)?)
        } else {
            Locals::Shared(match private {
                Some(at) => font_dict::last_subroutines(table, at)?,
                None => Index::default(),
            })
        };
        Some(Self {
            table,
            charstrings: Index::read(table, charstrings?, 2)?.0,
            global,
            locals,
            kind: Kind::One(Charset::read(table, charset)?),
        })
    }

    /// Reads a CFF2 table.
    pub(super) fn two(table: &'a [u8]) -> Option<Self> {
        let header = usize::from(u8_at(table, 2)?).max(5);
        let top_end = header.checked_add(u16_at(table, 3)?.into())?;
        let (global, _) = Index::read(table, top_end, 4)?;

        let (mut charstrings, mut dicts, mut store) = (None, None, None);
        for entry in dict::entries(table.get(header..top_end)?)? {
            match entry.operator {
                operator::CHARSTRINGS => charstrings = entry.offset(),
                operator::FONT_DICTS => dicts = entry.offset(),
                operator::VARIATION_STORE => store = entry.offset(),
                _ => {}
            }
        }
        let locals = match dicts {
            Some(at) => font_dict::first_subroutines(table, at)?,
            None => Index::default(),
        };
        let store = match store {
            // Two bytes of length come first.
            Some(at) => table.get(at.checked_add(2)?..)?,
            None => &[],
        };
        Some(Self {
            table,
            charstrings: Index::read(table, charstrings?, 4)?.0,
            global,
            locals: Locals::Shared(locals),
            kind: Kind::Two(store),
        })
    }

    /// Whether this is CFF2.
    pub(super) fn is_two(&self) -> bool {
        matches!(self.kind, Kind::Two(_))
    }

    /// A glyph's charstring.
    pub(super) fn charstring(&self, glyph: usize) -> Option<Range<usize>> {
        self.charstrings.place(glyph)
    }

    /// Subroutines that a glyph's charstring may call beside the global ones.
    pub(super) fn local(&self, glyph: u16) -> Option<Index<'a>> {
        match &self.locals {
            Locals::Shared(index) => Some(*index),
            Locals::ByGlyph(dicts) => dicts.subroutines(glyph, self.charstrings.len()),
        }
    }

    /// The glyph that an accented letter's base or accent is drawn as.
    pub(super) fn encoded(&self, code: u8) -> Option<usize> {
        match &self.kind {
            Kind::One(charset) => charset.glyph(code, self.charstrings.len()),
            Kind::Two(_) => None,
        }
    }

    /// How many deltas each blended value has under a variation data subtable.
    pub(super) fn regions(&self, subtable: u16) -> Option<u16> {
        let Kind::Two(store) = self.kind else {
            return None;
        };
        if subtable >= u16_at(store, 6)? {
            return None;
        }
        let at = u32_at(store, 8 + 4 * usize::from(subtable))?;
        u16_at(store, usize::try_from(at).ok()?.checked_add(4)?)
    }
}
