//! Letters that have another form in a part of a font's room of variation, as a
//! dollar sign that loses its bar where it grows heavy (OpenType, "FeatureVariations
//! table"; the features `rvrn` and `rclt`, which no one turns on or off).
//!
//! At a position the features are what they are there, and need no axes to be
//! told apart by. What `rvrn` and `rclt` put in a letter's place is what the
//! character leads to: the lab shows glyphs without shaping them first.

use crate::characters;
use crate::sfnt::{Tables, Tag};
use read_fonts::tables::gpos::Gpos;
use read_fonts::tables::gsub::{Gsub, SingleSubst, SubstitutionSubtables};
use read_fonts::tables::layout::{FeatureList, FeatureVariations};
use read_fonts::types::{F2Dot14, GlyphId};
use read_fonts::{FontData, FontRead};
use std::collections::{BTreeMap, BTreeSet};

/// In the order in which shapers turn to them.
const FORMS: [Tag; 2] = [*b"rvrn", *b"rclt"];

/// Parts of the room that are looked through for letters to be named.
const MOST_PARTS: u32 = 256;

/// Letters that a sentence names.
const MOST_NAMED: usize = 8;

/// A feature, the lookups that it runs, and whether the position had a say in it.
#[derive(Debug, Clone)]
struct Feature {
    tag: Tag,
    lookups: Vec<u16>,
    varied: bool,
}

/// The features of a table in a part of the room; outside of all parts if that
/// is `None`.
fn features(
    list: &FeatureList<'_>,
    variations: &FeatureVariations<'_>,
    part: Option<u32>,
) -> Option<Vec<Feature>> {
    let lookups = |f: read_fonts::tables::layout::Feature<'_>| {
        f.lookup_list_indices().iter().map(|i| i.get()).collect()
    };
    let mut all: Vec<Feature> = list
        .feature_records()
        .iter()
        .map(|record| Feature {
            tag: record.feature_tag().into_bytes(),
            lookups: record
                .feature(list.offset_data())
                .map(lookups)
                .unwrap_or_default(),
            varied: false,
        })
        .collect();
    let Some(part) = part else { return Some(all) };
    let record = variations.feature_variation_records().get(part as usize)?;
    let table = record
        .feature_table_substitution(variations.offset_data())?
        .ok()?;
    for one in table.substitutions() {
        let feature = all.get_mut(usize::from(one.feature_index()));
        let (Some(feature), Ok(other)) = (feature, one.alternate_feature(table.offset_data()))
        else {
            continue;
        };
        feature.lookups = lookups(other);
        feature.varied = true;
    }
    Some(all)
}

/// What is put in a letter's place: lookups one after the other, each with its parts.
struct Forms<'a>(Vec<Vec<SingleSubst<'a>>>);

impl<'a> Forms<'a> {
    /// Takes out of the features what changes single letters by the position alone.
    fn take(gsub: &Gsub<'a>, features: &mut [Feature]) -> Self {
        let Ok(list) = gsub.lookup_list() else {
            return Self(Vec::new());
        };
        let single = |index: u16| match list
            .lookups()
            .get(usize::from(index))
            .ok()?
            .subtables()
            .ok()?
        {
            SubstitutionSubtables::Single(parts) => Some(parts.iter().flatten().collect()),
            _ => None,
        };
        let mut all = Vec::new();
        for tag in FORMS {
            let own = |f: &&mut Feature| f.tag == tag && (f.varied || tag == FORMS[0]);
            let mut taken: BTreeMap<u16, Vec<SingleSubst<'a>>> = BTreeMap::new();
            for feature in features.iter_mut().filter(own) {
                feature.lookups.retain(|&index| {
                    let known = taken.contains_key(&index);
                    let parts = if known { None } else { single(index) };
                    if let Some(parts) = parts {
                        taken.insert(index, parts);
                        return false;
                    }
                    !known
                });
            }
            all.extend(taken.into_values());
        }
        Self(all)
    }

    /// The glyph in the place of this one.
    fn of(&self, glyph: u16) -> u16 {
        self.0.iter().fold(glyph, |glyph, lookup| {
            let other = lookup.iter().find_map(|part| substitute(part, glyph));
            other.unwrap_or(glyph)
        })
    }
}

fn substitute(part: &SingleSubst<'_>, glyph: u16) -> Option<u16> {
    let covered = |c: Result<read_fonts::tables::layout::CoverageTable<'_>, _>| {
        c.ok()?.get(GlyphId::from(u32::from(glyph)))
    };
    match part {
        SingleSubst::Format1(t) => {
            covered(t.coverage())?;
            Some(glyph.wrapping_add_signed(t.delta_glyph_id()))
        }
        SingleSubst::Format2(t) => {
            let at = covered(t.coverage())? as usize;
            Some(t.substitute_glyph_ids().get(at)?.get().to_u16())
        }
        _ => None,
    }
}

/// Brings the features to a position, from -1 to 1 on each axis after avar.
pub(super) fn vary(tables: &mut Tables<'_>, coordinates: &[F2Dot14]) {
    if let Some((table, map)) = substitutions(tables, coordinates) {
        tables.put(*b"GSUB", table);
        if !map.is_empty() {
            tables.put(*b"cmap", characters::write(&map));
        }
    }
    if let Some(table) = placings(tables, coordinates) {
        tables.put(*b"GPOS", table);
    }
}

/// GSUB at a position, and the map of characters; empty where that stays as it is.
fn substitutions(
    tables: &Tables<'_>,
    coordinates: &[F2Dot14],
) -> Option<(Vec<u8>, BTreeMap<u32, u16>)> {
    let bytes = tables.get(b"GSUB")?;
    let gsub = Gsub::read(FontData::new(bytes)).ok()?;
    let variations = gsub.feature_variations()?.ok()?;
    let part = variations.index_for_coords(coordinates);
    let mut all = features(&gsub.feature_list().ok()?, &variations, part)?;
    let (forms, glyphs) = (Forms::take(&gsub, &mut all), tables.glyph_count());
    let mut changed = false;
    let mut map = characters::all(tables);
    for glyph in map.values_mut() {
        let other = forms.of(*glyph);
        if other != *glyph && other < glyphs {
            (*glyph, changed) = (other, true);
        }
    }
    if !changed {
        map.clear();
    }
    Some((settled(bytes, &all), map))
}

/// GPOS at a position.
fn placings(tables: &Tables<'_>, coordinates: &[F2Dot14]) -> Option<Vec<u8>> {
    let bytes = tables.get(b"GPOS")?;
    let gpos = Gpos::read(FontData::new(bytes)).ok()?;
    let variations = gpos.feature_variations()?.ok()?;
    let part = variations.index_for_coords(coordinates);
    let all = features(&gpos.feature_list().ok()?, &variations, part)?;
    Some(settled(bytes, &all))
}

/// A table of layout without variations: a head of version 1.0, the features
/// anew, and all that was there behind them, where every offset still counts
/// from its own table. Names of stylistic sets, which the lab does not tell, go.
fn settled(table: &[u8], features: &[Feature]) -> Vec<u8> {
    const HEAD: usize = 10;
    const RECORD: usize = 6;
    let mut list = (features.len() as u16).to_be_bytes().to_vec();
    let mut tails = Vec::new();
    let mut fits = true;
    for feature in features {
        let at = u16::try_from(2 + RECORD * features.len() + tails.len());
        fits &= at.is_ok();
        list.extend(feature.tag);
        list.extend(at.unwrap_or(0).to_be_bytes());
        tails.extend([0, 0]);
        tails.extend((feature.lookups.len() as u16).to_be_bytes());
        tails.extend(feature.lookups.iter().flat_map(|i| i.to_be_bytes()));
    }
    list.extend(tails);
    let moved = |at: usize| {
        let before = u16::from_be_bytes([*table.get(at)?, *table.get(at + 1)?]);
        let after = usize::from(before) + list.len();
        (before != 0).then(|| u16::try_from(after).ok())?
    };
    let (Some(scripts), Some(lookups), true) = (moved(4), moved(8), fits) else {
        // No room for it: the features are those outside of all parts.
        let mut table = table.to_vec();
        table[2..4].fill(0);
        return table;
    };
    let mut whole = Vec::with_capacity(table.len() + list.len());
    for word in [1, 0, scripts, HEAD as u16, lookups] {
        whole.extend(word.to_be_bytes());
    }
    whole.extend(list);
    whole.extend(&table[HEAD..]);
    whole
}

/// Characters that have another form in some part of the room.
fn changing(tables: &Tables<'_>) -> Option<BTreeSet<u32>> {
    let gsub = Gsub::read(FontData::new(tables.get(b"GSUB")?)).ok()?;
    let variations = gsub.feature_variations()?.ok()?;
    let list = gsub.feature_list().ok()?;
    let map = characters::all(tables);
    let mut changing = BTreeSet::new();
    let plain = Forms::take(&gsub, &mut features(&list, &variations, None)?);
    for part in 0..variations.feature_variation_record_count().min(MOST_PARTS) {
        let Some(mut all) = features(&list, &variations, Some(part)) else {
            continue;
        };
        let forms = Forms::take(&gsub, &mut all);
        let other = |&(_, &glyph): &(&u32, &u16)| forms.of(glyph) != plain.of(glyph);
        changing.extend(map.iter().filter(other).map(|(&code, _)| code));
    }
    Some(changing)
}

/// A sentence that names them, letters first; `None` if there are none.
pub(crate) fn note(tables: &Tables<'_>) -> Option<String> {
    let mut all: Vec<char> = changing(tables)?
        .into_iter()
        .filter_map(char::from_u32)
        .collect();
    all.sort_by_key(|c| (!c.is_ascii_alphabetic(), !c.is_ascii_graphic(), *c));
    let more = all.len().saturating_sub(MOST_NAMED);
    let mut named: Vec<String> = all.iter().take(MOST_NAMED).map(char::to_string).collect();
    if more > 0 {
        named.push(format!("{more} more"));
    }
    let last = named.pop()?;
    let names = if named.is_empty() {
        last
    } else {
        format!("{} and {last}", named.join(", "))
    };
    Some(format!(
        "In parts of its range this font draws these characters in another form: {names}."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::font::Font;

    const HALF: f32 = 0.5;

    /// A substitution table in which a feature puts one glyph in another's place
    /// from the middle of the first axis on, and does nothing before.
    fn table(tag: Tag, from: u16, to: u16) -> Vec<u8> {
        let half = F2Dot14::from_f32(HALF).to_bits().cast_unsigned();
        let one = F2Dot14::ONE.to_bits().cast_unsigned();
        let [a, b, c, d] = tag;
        let tag = [u16::from_be_bytes([a, b]), u16::from_be_bytes([c, d])];
        let parts: [&[u16]; 9] = [
            // The head: where scripts, features, lookups and variations are.
            &[1, 1, 14, 16, 28, 0, 52],
            // No scripts.
            &[0],
            // One feature, without lookups.
            &[1, tag[0], tag[1], 8, 0, 0],
            // One lookup of single letters, its part, and the letter that it covers.
            &[1, 4, 1, 0, 1, 8],
            &[1, 6, to.wrapping_sub(from)],
            &[1, 1, from],
            // One part of the room, where it is, and what the feature is there.
            &[1, 0, 0, 1, 0, 16, 0, 30],
            &[1, 0, 6, 1, 0, half, one],
            &[1, 0, 1, 0, 0, 12, 0, 1, 0],
        ];
        parts
            .concat()
            .iter()
            .flat_map(|w| w.to_be_bytes())
            .collect()
    }

    /// Our sample with a feature that draws H as O, brought to a place; and
    /// whether it draws it so there.
    fn drawn(sample: &[u8], tag: Tag, at: f32) -> (bool, Tables<'_>) {
        let mut tables = Tables::read(sample, 0).unwrap();
        let glyph = |tables: &Tables<'_>, c| characters::all(tables)[&u32::from(c)];
        let (h, o) = (glyph(&tables, 'H'), glyph(&tables, 'O'));
        tables.put(*b"GSUB", table(tag, h, o));
        vary(&mut tables, &[F2Dot14::from_f32(at)]);
        assert_eq!(glyph(&tables, 'O'), o);
        (glyph(&tables, 'H') == o, tables)
    }

    #[test]
    fn a_letter_has_another_form_in_its_part_of_the_room_alone() {
        let sample = crate::tests::sample();
        for tag in FORMS {
            for (at, other) in [
                (-1.0, false),
                (0.0, false),
                (0.49, false),
                (HALF, true),
                (1.0, true),
            ] {
                let (as_o, tables) = drawn(&sample, tag, at);
                assert_eq!(as_o, other, "{at}");
                let gsub = tables.get(b"GSUB").unwrap();
                let gsub = Gsub::read(FontData::new(gsub)).unwrap();
                assert!(gsub.feature_variations().is_none(), "{at}");
                // What has been done is not done again by a shaper.
                let list = gsub.feature_list().unwrap();
                let record = list.feature_records()[0];
                let feature = record.feature(list.offset_data()).unwrap();
                assert_eq!(record.feature_tag().into_bytes(), tag);
                assert!(feature.lookup_list_indices().is_empty(), "{at}");
                assert_eq!(gsub.lookup_list().unwrap().lookups().len(), 1);
                assert!(Font::open(tables.write()).is_ok());
            }
        }
    }

    #[test]
    fn a_feature_that_is_turned_on_by_hand_stays_one() {
        let sample = crate::tests::sample();
        let (as_o, tables) = drawn(&sample, *b"ss01", 1.0);
        assert!(!as_o);
        let gsub = Gsub::read(FontData::new(tables.get(b"GSUB").unwrap())).unwrap();
        let list = gsub.feature_list().unwrap();
        let feature = list.feature_records()[0]
            .feature(list.offset_data())
            .unwrap();
        assert_eq!(feature.lookup_list_indices().len(), 1);
    }

    #[test]
    fn letters_that_change_are_named() {
        let sample = crate::tests::sample();
        let mut tables = Tables::read(&sample, 0).unwrap();
        assert_eq!(note(&tables), None);
        let map = characters::all(&tables);
        let [h, o] = ['H', 'O'].map(|c| map[&u32::from(c)]);
        tables.put(*b"GSUB", table(*b"rvrn", h, o));
        assert!(note(&tables).unwrap().ends_with("in another form: H."));
    }

    #[test]
    fn a_cut_or_spoiled_table_costs_no_more_than_itself() {
        let sample = crate::tests::sample();
        let whole = table(*b"rvrn", 3, 4);
        for end in 0..whole.len() {
            let mut tables = Tables::read(&sample, 0).unwrap();
            tables.put(*b"GSUB", whole[..end].to_vec());
            vary(&mut tables, &[F2Dot14::ONE]);
            note(&tables);
        }
        for at in 0..whole.len() {
            let mut spoiled = whole.clone();
            spoiled[at] = 0xFF;
            let mut tables = Tables::read(&sample, 0).unwrap();
            tables.put(*b"GSUB", spoiled);
            vary(&mut tables, &[F2Dot14::ONE]);
            note(&tables);
        }
    }
}
