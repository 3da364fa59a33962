//! Private dictionaries and font dictionaries: where local subroutines are.

use super::index::Index;
use super::{dict, operator};
use crate::font::bytes::{u8_at, u16_at};
use std::ops::Range;

/// The most font dictionaries that a CFF2 table may have. Each may point to the same
/// long private dictionary, and all are read when the font is opened.
const MAX_DICTS: usize = 1024;

/// The font dictionaries of a CID-keyed font, and which glyph has which.
#[derive(Debug, Clone, Copy)]
pub(super) struct FontDicts<'a> {
    table: &'a [u8],
    dicts: Index<'a>,
    select: &'a [u8],
}

impl<'a> FontDicts<'a> {
    pub(super) fn read(table: &'a [u8], dicts: usize, select: usize) -> Option<Self> {
        Some(Self {
            table,
            dicts: Index::read(table, dicts, 2)?.0,
            select: table.get(select..)?,
        })
    }

    /// The local subroutines of a glyph.
    pub(super) fn subroutines(&self, glyph: u16, glyph_count: usize) -> Option<Index<'a>> {
        let dict = self
            .dicts
            .place(self.selected(glyph, glyph_count)?.into())?;
        last_subroutines(self.table, private_range(self.table.get(dict)?)?)
    }

    fn selected(&self, glyph: u16, glyph_count: usize) -> Option<u8> {
        match u8_at(self.select, 0)? {
            0 if usize::from(glyph) < glyph_count => u8_at(self.select, 1 + usize::from(glyph)),
            // Ranges: the first glyph of each and its dictionary, then an end.
            3 => (0..usize::from(u16_at(self.select, 1)?)).find_map(|i| {
                let at = 3 + 3 * i;
                let (from, to) = (u16_at(self.select, at)?, u16_at(self.select, at + 3)?);
                (from..to)
                    .contains(&glyph)
                    .then(|| u8_at(self.select, at + 2))?
            }),
            _ => None,
        }
    }
}

/// CFF2: the local subroutines of the first font dictionary that has any. The
/// parser takes these for every glyph.
pub(super) fn first_subroutines<'a>(table: &'a [u8], dicts: usize) -> Option<Index<'a>> {
    let (dicts, _) = Index::read(table, dicts, 4)?;
    if dicts.len() > MAX_DICTS {
        return None;
    }
    for i in 0..dicts.len() {
        let dict = dicts.place(i).and_then(|at| table.get(at));
        let Some(range) = dict.and_then(private_range) else {
            continue;
        };
        let mut private = dict::entries(table.get(range.clone())?)?;
        let offset = private
            .find(|e| e.operator == operator::LOCAL_SUBROUTINES)
            .and_then(|e| e.offset());
        if let Some(at) = offset {
            return Some(Index::read(table, range.start.checked_add(at)?, 4)?.0);
        }
    }
    Some(Index::default())
}

/// CFF: the local subroutines of a private dictionary, none if it names none; the
/// last entry counts.
pub(super) fn last_subroutines<'a>(table: &'a [u8], private: Range<usize>) -> Option<Index<'a>> {
    let entry = dict::entries(table.get(private.clone())?)?
        .filter(|e| e.operator == operator::LOCAL_SUBROUTINES)
        .last();
    match entry {
        Some(entry) => Some(Index::read(table, private.start.checked_add(entry.offset()?)?, 2)?.0),
        None => Some(Index::default()),
    }
}

fn private_range(font_dict: &[u8]) -> Option<Range<usize>> {
    dict::entries(font_dict)?
        .find(|e| e.operator == operator::PRIVATE)?
        .range()
}
