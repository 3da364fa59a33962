//! What a font puts in place of its letters, feature by feature: alternates,
//! ligatures and other substitutions of the GSUB table (OpenType specification,
//! GSUB chapter).
//!
//! Counted is what the lookups that a feature names directly offer: glyphs with
//! another form, other forms in all, ligatures. Lookups that a contextual rule
//! calls are counted where they are named, not followed.

use super::Reader;
use std::collections::{BTreeMap, BTreeSet};
use ttf_parser::gsub::SubstitutionSubtable;
use ttf_parser::opentype_layout::{Coverage, LookupIndex};

/// Entries read of one font. A sound one has some thousands; a table whose
/// lists point into one another would claim billions, and the page would wait.
const MOST_ENTRIES: u32 = 200_000;

/// What one feature offers.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Feature {
    /// Its four letters ("liga", "ss01").
    pub tag: String,
    /// Ligatures that it makes.
    pub ligatures: u32,
    /// Other forms that it offers of single glyphs.
    pub alternates: u32,
    /// Rules that depend on the letters around.
    pub contextual: u32,
}

impl Reader<'_> {
    /// Every feature of the font that puts glyphs in place of others, by tag.
    pub fn features(&self) -> Vec<Feature> {
        let Some(table) = self.face.as_ref().and_then(|face| face.tables().gsub) else {
            return Vec::new();
        };
        let mut left = MOST_ENTRIES;
        // One feature stands once for each script and language that has it.
        let mut lookups: BTreeMap<String, BTreeSet<LookupIndex>> = BTreeMap::new();
        for feature in table.features {
            let own = lookups.entry(feature.tag.to_string()).or_default();
            let most = take(u32::from(feature.lookup_indices.len()), &mut left);
            own.extend(feature.lookup_indices.into_iter().take(most as usize));
        }
        let mut all = Vec::new();
        for (tag, indices) in lookups {
            let mut feature = Feature {
                tag,
                ..Feature::default()
            };
            for lookup in indices.into_iter().filter_map(|i| table.lookups.get(i)) {
                for at in 0..lookup.subtables.len() {
                    if take(1, &mut left) == 0 {
                        return all;
                    }
                    if let Some(subtable) = lookup.subtables.get(at) {
                        feature.add(&subtable, &mut left);
                    }
                }
            }
            all.push(feature);
        }
        all
    }
}

impl Feature {
    fn add(&mut self, subtable: &SubstitutionSubtable<'_>, left: &mut u32) {
        match subtable {
            SubstitutionSubtable::Single(one) => self.alternates += covered(one.coverage(), left),
            SubstitutionSubtable::Multiple(several) => {
                self.alternates += covered(several.coverage, left);
            }
            SubstitutionSubtable::Alternate(choice) => {
                for set in choice.alternate_sets {
                    if take(1, left) == 0 {
                        return;
                    }
                    self.alternates += take(u32::from(set.alternates.len()), left);
                }
            }
            SubstitutionSubtable::Ligature(ligature) => {
                for set in ligature.ligature_sets {
                    if take(1, left) == 0 {
                        return;
                    }
                    self.ligatures += take(u32::from(set.len()), left);
                }
            }
            SubstitutionSubtable::Context(_)
            | SubstitutionSubtable::ChainContext(_)
            | SubstitutionSubtable::ReverseChainSingle(_) => self.contextual += 1,
        }
    }
}

/// How many glyphs a coverage table lists.
fn covered(coverage: Coverage<'_>, left: &mut u32) -> u32 {
    match coverage {
        Coverage::Format1 { glyphs } => take(u32::from(glyphs.len()), left),
        Coverage::Format2 { records } => {
            let most = take(u32::from(records.len()), left);
            let spans = records.into_iter().take(most as usize);
            let glyphs = spans.map(|r| u32::from(r.end.0.saturating_sub(r.start.0)) + 1);
            // No coverage lists more glyphs than a font can have.
            glyphs.fold(0, u32::saturating_add).min(u32::from(u16::MAX))
        }
    }
}

/// As much of `count` as may still be read.
fn take(count: u32, left: &mut u32) -> u32 {
    let taken = count.min(*left);
    *left -= taken;
    taken
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_more_is_read_than_may_be() {
        let mut left = 5;
        assert_eq!(
            [take(3, &mut left), take(3, &mut left), take(1, &mut left)],
            [3, 2, 0]
        );
    }
}
