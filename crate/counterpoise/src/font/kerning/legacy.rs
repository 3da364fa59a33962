//! The kern table, format 0 (OpenType specification, kern chapter; and the
//! older header of the same table, whose version is 1.0).

use super::classes::{Coverage, spend};
use super::{KerningNote, Lookup, PairValue, Pairs, Subtable};
use crate::font::bytes::{i16_at, u8_at, u16_at, u32_at};
use crate::order::by_number;

/// Subtables that are looked at: no font has more than a handful.
const MOST_SUBTABLES: u32 = 64;

/// Pairs of level text, each subtable a lookup that adds to the others.
pub(super) fn read(data: &[u8], budget: &mut usize, notes: &mut Vec<KerningNote>) -> Vec<Lookup> {
    let mut lookups = Vec::new();
    let read = match u16_at(data, 0) {
        Some(0) => newer(data, budget, notes, &mut lookups),
        Some(1) => older(data, budget, notes, &mut lookups),
        _ => None,
    };
    if read.is_none() {
        notes.push(if *budget == 0 {
            KerningNote::TooMuch
        } else {
            KerningNote::BrokenKernTable
        });
    }
    lookups
}

fn newer(
    data: &[u8],
    budget: &mut usize,
    notes: &mut Vec<KerningNote>,
    lookups: &mut Vec<Lookup>,
) -> Option<()> {
    const HEADER: usize = 6;
    const LEVEL: u8 = 0x01;
    const ACROSS: u8 = 0x04;
    let count = u16_at(data, 2)?;
    let mut at = 4;
    for number in 0..u32::from(count).min(MOST_SUBTABLES) as u16 {
        let length = usize::from(u16_at(data, at + 2)?);
        let (format, coverage) = (u8_at(data, at + 4)?, u8_at(data, at + 5)?);
        // A single subtable may be longer than its length can say.
        let body = match count {
            1 => data.get(at + HEADER..)?,
            _ => data.get(at + HEADER..at.checked_add(length)?)?,
        };
        if format == 0 && coverage & LEVEL != 0 && coverage & ACROSS == 0 {
            lookups.push(lookup(number, pairs(body, budget)?));
        } else {
            notes.push(KerningNote::OtherKernSubtable(number));
        }
        at = at.checked_add(length.max(HEADER))?;
    }
    Some(())
}

fn older(
    data: &[u8],
    budget: &mut usize,
    notes: &mut Vec<KerningNote>,
    lookups: &mut Vec<Lookup>,
) -> Option<()> {
    const HEADER: usize = 8;
    const UPRIGHT_OR_ACROSS: u8 = 0x80 | 0x40;
    let count = u32_at(data, 4)?;
    let mut at = 8;
    for number in 0..count.min(MOST_SUBTABLES) as u16 {
        let length = u32_at(data, at)? as usize;
        let (coverage, format) = (u8_at(data, at + 4)?, u8_at(data, at + 5)?);
        let body = data.get(at + HEADER..at.checked_add(length)?)?;
        if format == 0 && coverage & UPRIGHT_OR_ACROSS == 0 {
            lookups.push(lookup(number, pairs(body, budget)?));
        } else {
            notes.push(KerningNote::OtherKernSubtable(number));
        }
        at = at.checked_add(length.max(HEADER))?;
    }
    Some(())
}

fn lookup(number: u16, pairs: Pairs) -> Lookup {
    Lookup {
        index: number,
        subtables: vec![(0, Subtable::Pairs(pairs))],
        passed_over: Coverage::default(),
    }
}

fn pairs(body: &[u8], budget: &mut usize) -> Option<Pairs> {
    const FIRST: usize = 8;
    const SIZE: usize = 6;
    let count = usize::from(u16_at(body, 0)?);
    spend(budget, count)?;
    let mut all = Vec::with_capacity(count);
    for i in 0..count {
        let at = FIRST + SIZE * i;
        let value = PairValue {
            first_advance: i16_at(body, at + 4)?,
            ..PairValue::default()
        };
        all.push((u16_at(body, at)?, u16_at(body, at + 2)?, value));
    }
    by_number(&mut all, |p| {
        f64::from((u32::from(p.0) << 16) | u32::from(p.1))
    });
    let mut pairs = Pairs::default();
    for (i, (first, second, value)) in all.into_iter().enumerate() {
        pairs.records.push((second, value));
        match pairs.firsts.last_mut() {
            Some(last) if last.0 == first => last.1.end = i + 1,
            _ => pairs.firsts.push((first, i..i + 1)),
        }
    }
    Some(pairs)
}
