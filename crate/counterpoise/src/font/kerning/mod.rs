//! Kerning as the file has it: pair adjustments of GPOS and, in a font whose
//! GPOS has none for the script, the legacy kern table. Font units.
//!
//! The parser gives GPOS too, but a pair at a time, without saying which
//! lookups it could not read, and it reads device tables, which nobody here
//! asks for, with sums that a hostile file can make overflow. So the tables are
//! walked here, over plain bytes, with a budget.
//!
//! What applies is as a shaper has it (OpenType specification, GPOS chapter):
//!
//! - of the script's features the one named `kern`, in the script's default
//!   language unless another is asked for; a font without the script is read as
//!   its `DFLT` script;
//! - every lookup of the feature, in the order of the font's list of lookups,
//!   each adding to the others;
//! - of each lookup the first subtable that covers the pair, even if it moves
//!   nothing; of format 1, if the pair itself stands in it;
//! - no pair of a glyph that the lookup is told to pass over.
//!
//! Not read, and told by a note: lookups that depend on more than the pair
//! (contextual ones), and values that depend on the size in pixels or on the
//! place in a variable font's design space (device and variation tables: a
//! variable font is kerned as its default instance).

mod classes;
mod gpos;
mod legacy;
#[cfg(test)]
mod tests;

use super::{Font, GlyphId};
use classes::{ClassMap, Coverage, glyph_classes};
use std::fmt;
use std::ops::Range;
use ttf_parser::{RawFace, Tag};

/// A tag of the OpenType specification: of a script, a language or a feature.
pub type LayoutTag = [u8; 4];

/// The script that unaccented Latin letters are of.
pub const LATIN: LayoutTag = *b"latn";

/// Pairs, cells of class tables and entries of classes that a font may have in
/// all. The most elaborate text faces have some hundred thousand. A hostile
/// file can point to the same bytes from thousands of places; above this the
/// rest is left out, with a note.
const MOST_ENTRIES: usize = 2_000_000;

/// Which table the kerning comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum KerningSource {
    /// Pair adjustments of GPOS.
    Gpos,
    /// The legacy kern table.
    KernTable,
}

/// Something about a font's kerning that its owner should know.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum KerningNote {
    /// A GPOS table is there, but its lists cannot be read.
    BrokenGpos,
    /// A kern table is there, but cannot be read.
    BrokenKernTable,
    /// A lookup, or this one of its subtables, cannot be read.
    BrokenSubtable {
        /// The lookup, in the font's list.
        lookup: u16,
        /// The subtable, in the lookup.
        subtable: u16,
    },
    /// The feature names a lookup that the font does not have.
    MissingLookup(u16),
    /// A lookup of the feature depends on more than the pair.
    Contextual(u16),
    /// A lookup of the feature is of another type than kerning is made of.
    OtherType {
        /// The lookup, in the font's list.
        lookup: u16,
        /// Its type (OpenType specification, GPOS chapter).
        kind: u16,
    },
    /// A subtable of the kern table is of a format other than 0, or for
    /// vertical text.
    OtherKernSubtable(u16),
    /// The font has both; only GPOS is used, as in every shaper.
    KernTableUnused,
    /// There is more kerning than the lab takes in; the rest is left out.
    TooMuch,
}

impl fmt::Display for KerningNote {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::BrokenGpos => f.write_str(
                "The font's GPOS table is damaged, so no kerning can be read from it. \
                 Ask for the font to be generated again.",
            ),
            Self::BrokenKernTable => f.write_str(
                "The font's kern table is damaged, so no kerning can be read from it. \
                 Ask for the font to be generated again.",
            ),
            Self::BrokenSubtable { lookup, subtable } => write!(
                f,
                "Part {subtable} of kerning lookup {lookup} is damaged and is left out. \
                 Ask for the font to be generated again.",
            ),
            Self::MissingLookup(lookup) => write!(
                f,
                "The kern feature names lookup {lookup}, which the font does not have.",
            ),
            Self::Contextual(lookup) => write!(
                f,
                "Kerning lookup {lookup} depends on more letters than the pair: text on the \
                 stage heeds it, the list of pairs does not.",
            ),
            Self::OtherType { lookup, kind } => write!(
                f,
                "Lookup {lookup} of the kern feature is of type {kind}, which moves no pairs; \
                 it is left out of the list of pairs.",
            ),
            Self::OtherKernSubtable(number) => write!(
                f,
                "Part {number} of the kern table is of a kind that is not read; it is left out.",
            ),
            Self::KernTableUnused => f.write_str(
                "The font has a kern table beside GPOS kerning; programs use the GPOS kerning \
                 alone, and so does the lab.",
            ),
            Self::TooMuch => f.write_str(
                "The font holds more kerning than the lab takes in; the rest is left out.",
            ),
        }
    }
}

/// What a pair's two glyphs are moved by, font units.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct PairValue {
    /// Added to the first glyph's advance.
    pub first_advance: i16,
    /// How far the first glyph itself is moved right.
    pub first_shift: i16,
    /// Added to the second glyph's advance.
    pub second_advance: i16,
    /// How far the second glyph itself is moved right.
    pub second_shift: i16,
}

impl PairValue {
    /// How much further apart the two letters stand.
    pub fn apart(self) -> i32 {
        i32::from(self.first_advance) - i32::from(self.first_shift) + i32::from(self.second_shift)
    }

    /// How much longer the pair is.
    pub fn advance(self) -> i32 {
        i32::from(self.first_advance) + i32::from(self.second_advance)
    }

    /// Whether it moves nothing.
    pub fn is_nought(self) -> bool {
        self == Self::default()
    }
}

/// Where in the font a pair's value stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum PairOrigin {
    /// In a list of single pairs.
    Single,
    /// In a table of classes.
    Classes {
        /// Class of the first glyph; 0 is that of all covered glyphs without another.
        first: u16,
        /// Class of the second; 0 is that of all glyphs without another.
        second: u16,
    },
}

/// What one subtable does to a pair.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct PairSource {
    /// The lookup, in the font's list; of a kern table its subtable.
    pub lookup: u16,
    /// The subtable, in the lookup.
    pub subtable: u16,
    /// Where in it.
    pub origin: PairOrigin,
    /// By how much.
    pub value: PairValue,
}

/// Counts of a subtable, to account for all that a font holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SubtableTally {
    /// The lookup, in the font's list; of a kern table its subtable.
    pub lookup: u16,
    /// The subtable, in the lookup.
    pub subtable: u16,
    /// Whether it is a table of classes.
    pub of_classes: bool,
    /// Pairs, or cells of the table of classes, that move something.
    pub entries: usize,
    /// Sum of what they add to the advance of the first glyph.
    pub sum: i64,
}

/// A font's kerning for one script.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Kerning {
    source: Option<KerningSource>,
    lookups: Vec<Lookup>,
    notes: Vec<KerningNote>,
}

#[derive(Debug, Clone, PartialEq)]
struct Lookup {
    /// In the font's list.
    index: u16,
    subtables: Vec<(u16, Subtable)>,
    /// Glyphs that the lookup passes over.
    passed_over: Coverage,
}

#[derive(Debug, Clone, PartialEq)]
enum Subtable {
    Pairs(Pairs),
    Classes(ClassTable),
}

/// Single pairs, in order of the first glyph and then of the second.
#[derive(Debug, Clone, PartialEq, Default)]
struct Pairs {
    /// Each first glyph with its records; not in the font's order of coverage.
    firsts: Vec<(u16, Range<usize>)>,
    records: Vec<(u16, PairValue)>,
}

#[derive(Debug, Clone, PartialEq)]
struct ClassTable {
    coverage: Coverage,
    first: ClassMap,
    second: ClassMap,
    first_count: u16,
    second_count: u16,
    /// Row by row; empty where no cell moves anything.
    values: Vec<PairValue>,
}

impl Font {
    /// The font's kerning for a script and, if it has rules of its own, a language.
    pub fn kerning(&self, script: LayoutTag, language: Option<LayoutTag>) -> Kerning {
        let Ok(raw) = RawFace::parse(self.file(), self.face_index()) else {
            return Kerning::default();
        };
        let table = |tag: &[u8; 4]| raw.table(Tag::from_bytes(tag));
        let mut notes = Vec::new();
        let mut budget = MOST_ENTRIES;
        if let Some(data) = table(b"GPOS") {
            let classes = table(b"GDEF").and_then(glyph_classes).unwrap_or_default();
            match gpos::read(data, script, language, &classes, &mut budget, &mut notes) {
                Some(lookups) => {
                    if table(b"kern").is_some() {
                        notes.push(KerningNote::KernTableUnused);
                    }
                    return Kerning {
                        source: Some(KerningSource::Gpos),
                        lookups,
                        notes,
                    };
                }
                None => notes.retain(|n| *n == KerningNote::BrokenGpos),
            }
        }
        let lookups = table(b"kern")
            .map(|data| legacy::read(data, &mut budget, &mut notes))
            .unwrap_or_default();
        Kerning {
            source: (!lookups.is_empty()).then_some(KerningSource::KernTable),
            lookups,
            notes,
        }
    }
}

impl Kerning {
    /// Where it comes from; `None` of a font without kerning for the script.
    pub fn source(&self) -> Option<KerningSource> {
        self.source
    }

    /// What its owner should know.
    pub fn notes(&self) -> &[KerningNote] {
        &self.notes
    }

    /// What a pair is moved by, all lookups added.
    pub fn value(&self, first: GlyphId, second: GlyphId) -> PairValue {
        let mut sum = PairValue::default();
        for source in self.hits(first, second) {
            let v = source.value;
            sum.first_advance = sum.first_advance.saturating_add(v.first_advance);
            sum.first_shift = sum.first_shift.saturating_add(v.first_shift);
            sum.second_advance = sum.second_advance.saturating_add(v.second_advance);
            sum.second_shift = sum.second_shift.saturating_add(v.second_shift);
        }
        sum
    }

    /// The subtables that move a pair, in the order applied.
    pub fn sources(&self, first: GlyphId, second: GlyphId) -> Vec<PairSource> {
        self.hits(first, second)
            .filter(|s| !s.value.is_nought())
            .collect()
    }

    fn hits(&self, first: GlyphId, second: GlyphId) -> impl Iterator<Item = PairSource> {
        let passed = move |lookup: &&Lookup| {
            lookup.passed_over.has(first.0) || lookup.passed_over.has(second.0)
        };
        self.lookups
            .iter()
            .filter(move |l| !passed(l))
            .filter_map(move |lookup| {
                lookup.subtables.iter().find_map(|(number, subtable)| {
                    let (origin, value) = subtable.get(first.0, second.0)?;
                    Some(PairSource {
                        lookup: lookup.index,
                        subtable: *number,
                        origin,
                        value,
                    })
                })
            })
    }

    /// The glyphs of the class that a source names first, and of that it names
    /// second; of class 0, which takes in all that have no other, those covered,
    /// and none. Empty of single pairs.
    pub fn members(&self, source: &PairSource) -> (Vec<GlyphId>, Vec<GlyphId>) {
        let subtable = self
            .lookups
            .iter()
            .filter(|l| l.index == source.lookup)
            .flat_map(|l| &l.subtables)
            .find(|(number, _)| *number == source.subtable);
        match (subtable, source.origin) {
            (Some((_, Subtable::Classes(t))), PairOrigin::Classes { first, second }) => {
                let covered = t.coverage.glyphs().filter(|&g| t.first.of(g) == first);
                (
                    covered.map(GlyphId).collect(),
                    t.second.members(second).map(GlyphId).collect(),
                )
            }
            _ => (Vec::new(), Vec::new()),
        }
    }

    /// What each subtable holds.
    pub fn tallies(&self) -> Vec<SubtableTally> {
        let mut all = Vec::new();
        for lookup in &self.lookups {
            for (number, subtable) in &lookup.subtables {
                let values: Vec<PairValue> = match subtable {
                    Subtable::Pairs(pairs) => pairs
                        .firsts
                        .iter()
                        .flat_map(|(_, r)| &pairs.records[r.clone()])
                        .map(|r| r.1)
                        .collect(),
                    Subtable::Classes(table) => table.values.clone(),
                };
                let moving = values.iter().filter(|v| !v.is_nought());
                all.push(SubtableTally {
                    lookup: lookup.index,
                    subtable: *number,
                    of_classes: matches!(subtable, Subtable::Classes(_)),
                    entries: moving.clone().count(),
                    sum: moving.map(|v| i64::from(v.first_advance)).sum(),
                });
            }
        }
        all
    }
}

impl Subtable {
    /// What it says of a pair; `None` leaves the pair to the next subtable.
    fn get(&self, first: u16, second: u16) -> Option<(PairOrigin, PairValue)> {
        match self {
            Self::Pairs(pairs) => {
                let at = pairs.firsts.binary_search_by_key(&first, |f| f.0).ok()?;
                let records = &pairs.records[pairs.firsts[at].1.clone()];
                let at = records.binary_search_by_key(&second, |r| r.0).ok()?;
                Some((PairOrigin::Single, records[at].1))
            }
            Self::Classes(table) => {
                if !table.coverage.has(first) {
                    return None;
                }
                let (row, column) = (table.first.of(first), table.second.of(second));
                if row >= table.first_count || column >= table.second_count {
                    return None;
                }
                let at = usize::from(row) * usize::from(table.second_count) + usize::from(column);
                let origin = PairOrigin::Classes {
                    first: row,
                    second: column,
                };
                Some((origin, table.values.get(at).copied().unwrap_or_default()))
            }
        }
    }
}
