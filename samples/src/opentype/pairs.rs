//! Kerned pairs as pair adjustment of the GPOS table.

use write_fonts::tables::gpos::{
    Gpos, PairPos, PairSet, PairValueRecord, PositionLookup, ValueRecord,
};
use write_fonts::tables::layout::{
    CoverageTable, Feature, FeatureList, FeatureRecord, LangSys, Lookup, LookupFlag, LookupList,
    Script, ScriptList, ScriptRecord,
};
use write_fonts::types::{GlyphId16, Tag};

use crate::error::Error;
use crate::face::{Face, Kern};

pub(super) fn gpos(face: &Face) -> Result<Gpos, Error> {
    let id = |name: &str| {
        face.letters
            .iter()
            .position(|l| l.name == name)
            .and_then(|i| u16::try_from(i).ok())
            .map(GlyphId16::new)
            .ok_or_else(|| Error::NoLetter(name.into()))
    };
    let mut pairs = face
        .kerning
        .iter()
        .map(|&Kern { left, right, by }| Ok((id(left)?, id(right)?, by)))
        .collect::<Result<Vec<_>, Error>>()?;
    pairs.sort_unstable();
    let mut firsts: Vec<GlyphId16> = pairs.iter().map(|p| p.0).collect();
    firsts.dedup();
    let sets = firsts
        .iter()
        .map(|first| {
            PairSet::new(
                pairs
                    .iter()
                    .filter(|p| p.0 == *first)
                    .map(|&(_, second, by)| {
                        PairValueRecord::new(
                            second,
                            ValueRecord::new().with_x_advance(by),
                            ValueRecord::new(),
                        )
                    })
                    .collect(),
            )
        })
        .collect();
    let lookup = Lookup::new(
        LookupFlag::empty(),
        vec![PairPos::format_1(CoverageTable::from_iter(firsts), sets)],
    );
    let language = || LangSys::new(vec![0]);
    let script =
        |tag: &[u8; 4]| ScriptRecord::new(Tag::new(tag), Script::new(Some(language()), Vec::new()));
    Ok(Gpos::new(
        ScriptList::new(vec![script(b"DFLT"), script(b"latn")]),
        FeatureList::new(vec![FeatureRecord::new(
            Tag::new(b"kern"),
            Feature::new(None, vec![0]),
        )]),
        LookupList::new(vec![PositionLookup::Pair(lookup)]),
    ))
}
