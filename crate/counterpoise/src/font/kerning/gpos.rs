//! The GPOS table, as far as pairs need it (OpenType specification, GPOS chapter).

use super::classes::{ClassMap, Coverage, spend};
use super::{ClassTable, KerningNote, LayoutTag, Lookup, PairValue, Pairs, Subtable};
use crate::font::bytes::{i16_at, u16_at, u32_at};
use crate::order::by_number;

const KERN: LayoutTag = *b"kern";

/// Scripts that stand in for one that the font lacks, in a shaper's order.
const STAND_INS: [LayoutTag; 3] = [*b"DFLT", *b"dflt", *b"latn"];

/// Types of lookups.
const PAIR: u16 = 2;
const CONTEXT: u16 = 7;
const CHAINED_CONTEXT: u16 = 8;
const EXTENSION: u16 = 9;

/// Flags of lookups: which glyphs are passed over.
const PASS_BASES: u16 = 0x0002;
const PASS_LIGATURES: u16 = 0x0004;
const PASS_MARKS: u16 = 0x0008;

/// Subtables of all lookups together: no font comes near it, and a hostile one
/// may name the same few bytes from every place.
const MOST_SUBTABLES: usize = 4096;

/// The kern feature's lookups; `None` if the script has no such feature, or the
/// table cannot be read, which a note then tells.
pub(super) fn read(
    data: &[u8],
    script: LayoutTag,
    language: Option<LayoutTag>,
    glyph_classes: &ClassMap,
    budget: &mut usize,
    notes: &mut Vec<KerningNote>,
) -> Option<Vec<Lookup>> {
    let Some(lists) = Lists::of(data) else {
        notes.push(KerningNote::BrokenGpos);
        return None;
    };
    let indices = lists.kern_lookups(script, language)?;
    let mut subtables_left = MOST_SUBTABLES;
    let mut lookups = Vec::new();
    for index in indices {
        let Some(lookup) = offset_at(lists.lookups, 2 + 2 * usize::from(index))
            .filter(|_| u16_at(lists.lookups, 0).is_some_and(|count| index < count))
        else {
            notes.push(KerningNote::MissingLookup(index));
            continue;
        };
        lookups.extend(read_lookup(
            index,
            lookup,
            glyph_classes,
            (budget, &mut subtables_left),
            notes,
        ));
    }
    Some(lookups)
}

/// The three lists that the table consists of.
struct Lists<'a> {
    scripts: &'a [u8],
    features: &'a [u8],
    lookups: &'a [u8],
}

impl<'a> Lists<'a> {
    fn of(data: &'a [u8]) -> Option<Self> {
        if u16_at(data, 0)? != 1 {
            return None;
        }
        let list = |at| {
            let list = offset_at(data, at)?;
            // A list begins with its length.
            u16_at(list, 0).map(|_| list)
        };
        Some(Self {
            scripts: list(4)?,
            features: list(6)?,
            lookups: list(8)?,
        })
    }

    /// Indices of the lookups of the script's kern feature, in order, each once.
    fn kern_lookups(&self, script: LayoutTag, language: Option<LayoutTag>) -> Option<Vec<u16>> {
        let wanted = std::iter::once(script).chain(STAND_INS);
        let script = wanted
            .filter_map(|tag| tagged(self.scripts, 0, tag))
            .next()?;
        let own = language.and_then(|tag| tagged(script, 2, tag));
        let system = own.or_else(|| offset_at(script, 0))?;
        let required = u16_at(system, 2)?;
        let count = usize::from(u16_at(system, 4)?);
        let named = (0..count).filter_map(|i| u16_at(system, 6 + 2 * i));
        let mut indices: Vec<u16> = Vec::new();
        let mut found = false;
        for feature in std::iter::once(required).chain(named) {
            let Some(table) = self.kern_feature(feature) else {
                continue;
            };
            found = true;
            let count = usize::from(u16_at(table, 2).unwrap_or(0));
            indices.extend((0..count).map_while(|i| u16_at(table, 4 + 2 * i)));
        }
        by_number(&mut indices, |&index| f64::from(index));
        indices.dedup();
        found.then_some(indices)
    }

    /// A feature's table, if it is the kern feature's.
    fn kern_feature(&self, index: u16) -> Option<&'a [u8]> {
        (index < u16_at(self.features, 0)?).then_some(())?;
        let record = 2 + 6 * usize::from(index);
        (self.features.get(record..record + 4)? == KERN).then_some(())?;
        offset_at(self.features, record + 4)
    }
}

/// What a record of a list of tagged records points to. The list's length
/// stands at `at`.
fn tagged(data: &[u8], at: usize, tag: LayoutTag) -> Option<&[u8]> {
    let count = usize::from(u16_at(data, at)?);
    (0..count)
        .map(|i| at + 2 + 6 * i)
        .find(|&record| data.get(record..record + 4).is_some_and(|t| t == tag))
        .and_then(|record| offset_at(data, record + 4))
}

/// What an offset points to; nothing for an offset of nought.
fn offset_at(data: &[u8], at: usize) -> Option<&[u8]> {
    match u16_at(data, at)? {
        0 => None,
        offset => data.get(usize::from(offset)..),
    }
}

fn read_lookup(
    index: u16,
    data: &[u8],
    glyph_classes: &ClassMap,
    (budget, subtables_left): (&mut usize, &mut usize),
    notes: &mut Vec<KerningNote>,
) -> Option<Lookup> {
    let broken = |subtable| KerningNote::BrokenSubtable {
        lookup: index,
        subtable,
    };
    let (Some(kind), Some(flags), Some(count)) =
        (u16_at(data, 0), u16_at(data, 2), u16_at(data, 4))
    else {
        notes.push(broken(0));
        return None;
    };
    let mut lookup = Lookup {
        index,
        subtables: Vec::new(),
        passed_over: passed_over(flags, glyph_classes),
    };
    for number in 0..count {
        if spend(subtables_left, 1).is_none() {
            notes.push(KerningNote::TooMuch);
            break;
        }
        let place = offset_at(data, 6 + 2 * usize::from(number));
        let (kind, place) = match (kind, place) {
            (EXTENSION, Some(extension)) => (
                u16_at(extension, 2).unwrap_or(PAIR),
                u32_at(extension, 4).and_then(|offset| extension.get(offset as usize..)),
            ),
            _ => (kind, place),
        };
        match kind {
            PAIR => {}
            CONTEXT | CHAINED_CONTEXT => {
                notes.push(KerningNote::Contextual(index));
                return None;
            }
            _ => {
                notes.push(KerningNote::OtherType {
                    lookup: index,
                    kind,
                });
                return None;
            }
        }
        let before = *budget;
        let read = place.and_then(|subtable| match u16_at(subtable, 0)? {
            1 => pairs(subtable, budget).map(Subtable::Pairs),
            2 => classes(subtable, budget).map(Subtable::Classes),
            _ => None,
        });
        match read {
            Some(subtable) => lookup.subtables.push((number, subtable)),
            None => {
                // Work that led to nothing is work all the same, but a broken
                // subtable must not keep the sound ones after it from being read
                // before it has cost as much as a font may.
                notes.push(broken(number));
                if *budget == 0 || before == 0 {
                    notes.push(KerningNote::TooMuch);
                    break;
                }
            }
        }
    }
    Some(lookup)
}

fn passed_over(flags: u16, classes: &ClassMap) -> Coverage {
    let passes = |class: u16| match class {
        1 => flags & PASS_BASES != 0,
        2 => flags & PASS_LIGATURES != 0,
        3 => flags & PASS_MARKS != 0,
        _ => false,
    };
    if flags & (PASS_BASES | PASS_LIGATURES | PASS_MARKS) == 0 {
        return Coverage::default();
    }
    Coverage::of(classes.glyphs_where(passes))
}

/// How the values of a subtable are laid out.
#[derive(Clone, Copy)]
struct Layout {
    first: u16,
    second: u16,
}

impl Layout {
    fn size(self) -> usize {
        let bytes = |format: u16| 2 * (format & 0x00FF).count_ones() as usize;
        bytes(self.first) + bytes(self.second)
    }

    /// The values that begin at a place.
    fn read(self, data: &[u8], at: usize) -> Option<PairValue> {
        let (first_shift, first_advance, next) = one_value(data, at, self.first)?;
        let (second_shift, second_advance, _) = one_value(data, next, self.second)?;
        Some(PairValue {
            first_advance,
            first_shift,
            second_advance,
            second_shift,
        })
    }
}

/// Level placement and advance of a value record, and where it ends.
fn one_value(data: &[u8], at: usize, format: u16) -> Option<(i16, i16, usize)> {
    const SHIFT: u16 = 0x0001;
    const ADVANCE: u16 = 0x0004;
    let (mut shift, mut advance, mut at) = (0, 0, at);
    for bit in (0..8).map(|i| 1 << i).filter(|bit| format & bit != 0) {
        let value = i16_at(data, at)?;
        match bit {
            SHIFT => shift = value,
            ADVANCE => advance = value,
            // Up and down, and offsets of device tables.
            _ => {}
        }
        at += 2;
    }
    Some((shift, advance, at))
}

fn pairs(data: &[u8], budget: &mut usize) -> Option<Pairs> {
    let coverage = Coverage::read(offset_at(data, 2)?, budget)?;
    let layout = Layout {
        first: u16_at(data, 4)?,
        second: u16_at(data, 6)?,
    };
    let sets = usize::from(u16_at(data, 8)?);
    let size = 2 + layout.size();
    let mut pairs = Pairs::default();
    for (first, number) in coverage.glyphs().zip(0..sets) {
        // A set that is not there has no pairs.
        let Some(set) = offset_at(data, 10 + 2 * number) else {
            continue;
        };
        let count = usize::from(u16_at(set, 0)?);
        spend(budget, count)?;
        let from = pairs.records.len();
        for i in 0..count {
            let at = 2 + size * i;
            pairs
                .records
                .push((u16_at(set, at)?, layout.read(set, at + 2)?));
        }
        by_number(&mut pairs.records[from..], |r| f64::from(r.0));
        pairs.firsts.push((first, from..pairs.records.len()));
    }
    by_number(&mut pairs.firsts, |f| f64::from(f.0));
    pairs.firsts.dedup_by_key(|f| f.0);
    Some(pairs)
}

fn classes(data: &[u8], budget: &mut usize) -> Option<ClassTable> {
    let coverage = Coverage::read(offset_at(data, 2)?, budget)?;
    let layout = Layout {
        first: u16_at(data, 4)?,
        second: u16_at(data, 6)?,
    };
    let first = ClassMap::read(offset_at(data, 8)?, budget)?;
    let second = ClassMap::read(offset_at(data, 10)?, budget)?;
    let (first_count, second_count) = (u16_at(data, 12)?, u16_at(data, 14)?);
    let mut values = Vec::new();
    if layout.size() > 0 {
        let cells = usize::from(first_count) * usize::from(second_count);
        spend(budget, cells)?;
        for i in 0..cells {
            values.push(layout.read(data, 16 + layout.size() * i)?);
        }
    }
    Some(ClassTable {
        coverage,
        first,
        second,
        first_count,
        second_count,
        values,
    })
}
