//! Charstrings, which may call subroutines that call others in turn.
//!
//! A rehearsal: operators are followed as the parser follows them, but nothing is
//! drawn. Only what decides the course is kept: the operands, since an operand says
//! which subroutine is called; the number of hints, since it says how long a mask
//! is; whether the width was given, since it says what the other operands mean.
//!
//! Where the parser would stop at an error the rehearsal may go on: then it asks
//! for more than will be done, never for less.

mod number;
mod operands;

use super::Refusal;
use crate::font::cff::{Cff, Index};
use operands::Operands;
use std::ops::Range;

/// How deep calls may be nested (Adobe Technical Note 5177, Appendix B).
const MAX_DEPTH: u8 = 10;

/// The most bytes that a glyph may have its charstrings come to, each counted as
/// often as it is called. A curve takes at most 31 (six operands of five bytes and
/// an operator), so that this allows as many curves as a glyph may have; it is
/// read through in some milliseconds.
const MAX_BYTES: usize = 31 * crate::font::GlyphError::MAX_SEGMENTS;

/// The operand stack of CFF and that of CFF2 (same appendix; CFF2 charstring
/// format, Appendix B).
const OPERANDS_ONE: usize = 48;
const OPERANDS_TWO: usize = 513;

/// The most deltas of a blended value that the parser takes.
const MAX_REGIONS: u16 = 64;

/// Walks a glyph's charstring and those that it calls.
pub(in crate::font) fn rehearse(cff: &Cff<'_>, glyph: u16) -> Result<(), Refusal> {
    if cff.is_two() {
        Rehearsal::<OPERANDS_TWO>::new(cff, glyph)?.whole()
    } else {
        Rehearsal::<OPERANDS_ONE>::new(cff, glyph)?.whole()
    }
}

struct Rehearsal<'a, const N: usize> {
    cff: &'a Cff<'a>,
    glyph: u16,
    // Found at the first call, since few glyphs of some fonts make any.
    local: Option<Index<'a>>,
    operands: Operands<N>,
    bytes_left: usize,
    regions: usize,
    hints: usize,
    has_width: bool,
    is_accented: bool,
    has_ended: bool,
}

impl<'a, const N: usize> Rehearsal<'a, N> {
    fn new(cff: &'a Cff<'a>, glyph: u16) -> Result<Self, Refusal> {
        Ok(Self {
            cff,
            glyph,
            local: None,
            operands: Operands::new(),
            bytes_left: MAX_BYTES,
            regions: if cff.is_two() { regions(cff, 0)? } else { 0 },
            hints: 0,
            has_width: cff.is_two(),
            is_accented: false,
            has_ended: false,
        })
    }

    fn whole(&mut self) -> Result<(), Refusal> {
        let code = self.cff.charstring(self.glyph.into());
        self.run(code.ok_or(Refusal::Broken)?, 0)
    }

    fn run(&mut self, code: Range<usize>, depth: u8) -> Result<(), Refusal> {
        if depth > MAX_DEPTH {
            return Err(Refusal::Broken);
        }
        // A call costs something even if what it calls is empty.
        self.bytes_left = self
            .bytes_left
            .checked_sub(code.len() + 1)
            .ok_or(Refusal::TooLarge)?;
        let table = self.cff.table.get(..code.end).ok_or(Refusal::Broken)?;
        let mut at = code.start;
        loop {
            at = self.operands.push_all(table, at)?;
            let Some(&op) = table.get(at) else {
                return Ok(());
            };
            at += 1;
            match op {
                // Stem hints, and masks, which hold a bit for each.
                1 | 3 | 18..=20 | 23 => {
                    self.hints += self.operands.len() / 2;
                    self.has_width |= self.operands.len() % 2 == 1;
                    self.operands.clear();
                    if matches!(op, 19 | 20) {
                        at += self.hints.div_ceil(8);
                    }
                }
                // Moves: an operand more than they need is the width.
                4 | 22 => self.after_move(1),
                21 => self.after_move(2),
                // Lines and curves take all operands.
                5..=8 | 24..=27 | 30 | 31 => self.operands.clear(),
                12 => match table.get(at) {
                    Some(34..=37) => {
                        self.operands.clear();
                        at += 1;
                    }
                    _ => return Err(Refusal::Broken),
                },
                10 | 29 => {
                    self.call(op == 10, depth)?;
                    if self.has_ended && !self.is_accented {
                        return at_end(&code, at);
                    }
                }
                11 if !self.cff.is_two() => return Ok(()),
                14 if !self.cff.is_two() => {
                    self.end(depth)?;
                    return at_end(&code, at);
                }
                15 if self.cff.is_two() => {
                    let subtable = self.number()?;
                    self.regions = regions(self.cff, subtable)?;
                    self.operands.clear();
                }
                16 if self.cff.is_two() => {
                    let values: u16 = self.number()?;
                    self.operands.blend(values.into(), self.regions)?;
                }
                _ => return Err(Refusal::Broken),
            }
        }
    }

    fn after_move(&mut self, needed: usize) {
        self.has_width |= self.operands.len() == needed + 1;
        self.operands.clear();
    }

    /// The last operand, as a whole number.
    fn number<T: TryFrom<i32>>(&mut self) -> Result<T, Refusal> {
        let at = self.operands.pop()?;
        let number = number::whole(self.cff.table, at).ok_or(Refusal::Broken)?;
        T::try_from(number).map_err(|_| Refusal::Broken)
    }

    fn call(&mut self, is_local: bool, depth: u8) -> Result<(), Refusal> {
        let index = match self.local {
            _ if !is_local => self.cff.global,
            Some(index) => index,
            None => {
                let index = self.cff.local(self.glyph).ok_or(Refusal::Broken)?;
                *self.local.insert(index)
            }
        };
        let number: i32 = self.number()?;
        let code = usize::try_from(number.saturating_add(bias(&index)))
            .ok()
            .and_then(|i| index.place(i));
        self.run(code.ok_or(Refusal::Broken)?, depth + 1)
    }

    /// `endchar`, which may draw two other glyphs first: a base and its accent.
    fn end(&mut self, depth: u8) -> Result<(), Refusal> {
        let count = self.operands.len();
        if count == 4 || (count == 5 && !self.has_width) {
            let accent = self.number()?;
            let base = self.number()?;
            self.operands.pop()?;
            self.operands.pop()?;
            if !self.has_width && self.operands.pop().is_ok() {
                self.has_width = true;
            }
            self.is_accented = true;
            for code in [base, accent] {
                let glyph = self.cff.encoded(code).ok_or(Refusal::Broken)?;
                let charstring = self.cff.charstring(glyph).ok_or(Refusal::Broken)?;
                self.run(charstring, depth + 1)?;
            }
        } else if count == 1 && !self.has_width {
            self.operands.pop()?;
            self.has_width = true;
        }
        self.has_ended = true;
        Ok(())
    }
}

/// Nothing may follow the end of a glyph.
fn at_end(code: &Range<usize>, at: usize) -> Result<(), Refusal> {
    if at < code.end {
        return Err(Refusal::Broken);
    }
    Ok(())
}

fn regions(cff: &Cff<'_>, subtable: u16) -> Result<usize, Refusal> {
    cff.regions(subtable)
        .filter(|&n| n <= MAX_REGIONS)
        .map(usize::from)
        .ok_or(Refusal::Broken)
}

/// Subroutines are counted from here (Adobe Technical Note 5176, chapter 16).
fn bias(index: &Index<'_>) -> i32 {
    match index.len() {
        0..1240 => 107,
        1240..33_900 => 1131,
        _ => 32_768,
    }
}

#[cfg(test)]
mod tests;
