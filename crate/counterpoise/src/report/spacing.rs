//! Spacing and kerning as the page and scripts read them. Lengths are font units.

use crate::font::{Kerning, KerningSource, PairOrigin, PairSource, Reader};
use crate::kerning::{self, KernSuggestion};
use crate::spacing::{self, Spacing};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// What a letter's side is like.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum SideKind {
    /// Upright, as both of H.
    Straight,
    /// Bowed outward, as both of O.
    Round,
    /// Leaning, as both of V.
    Diagonal,
    /// With a gap that lets white in, as the right of L.
    Open,
    /// In several pieces that reach out unequally, as the right of B.
    Stepped,
}

/// One side of a letter.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct SpacingSide {
    /// What it is like.
    pub kind: SideKind,
    /// Its side bearing.
    pub bearing: f64,
    /// What the handbook sets it to from the control letters; `null` where the
    /// book leaves it to the eye.
    pub handbook: Option<f64>,
    /// What well-spaced families set it to whose control letters are this
    /// font's; of a control letter, its own.
    pub controls: Option<f64>,
    /// What the font's other sides imply.
    pub implied: Option<f64>,
    /// How far such a side commonly strays from what is implied.
    pub spread: Option<f64>,
    /// Bearing less what is implied.
    pub deviation: Option<f64>,
}

/// A letter's sides.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct SpacingLetter {
    /// The character.
    pub character: String,
    /// Its glyph.
    pub glyph: u16,
    /// Advance width.
    pub advance: f64,
    /// The side that meets the letter before.
    pub left: SpacingSide,
    /// The side that meets the letter after.
    pub right: SpacingSide,
}

/// One rule of a font's kerning: of a single pair, or of two classes.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct KernRule {
    /// The lookup, in the font's list; of a kern table its part.
    pub lookup: u16,
    /// The subtable, in the lookup.
    pub subtable: u16,
    /// Class of the first letter and of the second; `null` of a single pair.
    pub classes: Option<[u16; 2]>,
    /// Of the letters that were read, those it takes as first of a kerned pair.
    pub firsts: String,
    /// Those it takes as second.
    pub seconds: String,
}

/// A kerned pair.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct KernPair {
    /// The two characters.
    pub pair: [String; 2],
    /// How much further apart than by their bearings: negative is nearer.
    pub apart: i32,
    /// The rules that say so, in the order applied: places in
    /// [`KerningReport::rules`].
    pub rules: Vec<u32>,
}

/// Which table the kerning comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum KernSource {
    /// Pair adjustments of GPOS.
    Gpos,
    /// The legacy kern table.
    KernTable,
}

/// A font's kerning.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct KerningReport {
    /// Which table it comes from; `null` of a font without kerning.
    pub source: Option<KernSource>,
    /// The pairs of the characters asked for that are kerned.
    pub pairs: Vec<KernPair>,
    /// The rules that these come from.
    pub rules: Vec<KernRule>,
    /// What to know of it, in sentences.
    pub notes: Vec<String>,
}

impl From<spacing::SideKind> for SideKind {
    fn from(kind: spacing::SideKind) -> Self {
        use spacing::SideKind as Of;
        match kind {
            Of::Straight => Self::Straight,
            Of::Round => Self::Round,
            Of::Diagonal => Self::Diagonal,
            Of::Open => Self::Open,
            Of::Stepped => Self::Stepped,
        }
    }
}

impl From<&spacing::Spaced> for SpacingLetter {
    fn from(letter: &spacing::Spaced) -> Self {
        let side = |side: usize| {
            let (is, e) = (letter.side(side), letter.expected[side]);
            SpacingSide {
                kind: is.kind.into(),
                bearing: is.bearing,
                handbook: e.handbook,
                controls: e.controls,
                implied: e.implied,
                spread: e.spread,
                deviation: e.implied.map(|i| is.bearing - i),
            }
        };
        Self {
            character: letter.character.into(),
            glyph: letter.glyph.0,
            advance: letter.sides.advance,
            left: side(0),
            right: side(1),
        }
    }
}

impl KerningReport {
    /// The font's kerning among the letters that `spacing` holds.
    pub fn of(kerning: &Kerning, spacing: &Spacing) -> Self {
        let (mut pairs, mut rules) = (Vec::new(), Rules::default());
        for a in &spacing.letters {
            for b in &spacing.letters {
                let apart = kerning.value(a.glyph, b.glyph).apart();
                if apart != 0 {
                    let sources = kerning.sources(a.glyph, b.glyph);
                    let pair = [a.character, b.character];
                    pairs.push(KernPair {
                        pair: pair.map(String::from),
                        apart,
                        rules: sources.iter().map(|s| rules.place(s, pair)).collect(),
                    });
                }
            }
        }
        Self {
            source: kerning.source().map(|s| match s {
                KerningSource::Gpos => KernSource::Gpos,
                KerningSource::KernTable => KernSource::KernTable,
            }),
            pairs,
            rules: rules.all,
            notes: kerning.notes().iter().map(ToString::to_string).collect(),
        }
    }
}

/// The rules met with, each once.
#[derive(Default)]
struct Rules {
    all: Vec<KernRule>,
    places: BTreeMap<RuleKey, u32>,
}

/// Lookup, subtable, classes or else the single pair.
type RuleKey = (u16, u16, Option<[u16; 2]>, Option<[char; 2]>);

impl Rules {
    /// The place of a pair's rule, which takes the pair in.
    fn place(&mut self, source: &PairSource, pair: [char; 2]) -> u32 {
        let classes = match source.origin {
            PairOrigin::Classes { first, second } => Some([first, second]),
            PairOrigin::Single => None,
        };
        let single = classes.is_none().then_some(pair);
        let next = self.all.len() as u32;
        let key = (source.lookup, source.subtable, classes, single);
        let place = *self.places.entry(key).or_insert(next);
        if place == next {
            self.all.push(KernRule {
                lookup: source.lookup,
                subtable: source.subtable,
                classes,
                firsts: String::new(),
                seconds: String::new(),
            });
        }
        let rule = &mut self.all[place as usize];
        for (list, c) in [&mut rule.firsts, &mut rule.seconds].into_iter().zip(pair) {
            if !list.contains(c) {
                list.push(c);
            }
        }
        place
    }
}

/// What the matter is with some kerning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum KernMatter {
    /// Its white asks for a kern, and it has none.
    Missing,
    /// It is kerned one way and its white asks for the other.
    WrongWay,
    /// It is kerned further than its white asks for.
    TooFar,
    /// It is kerned, and its white asks for more.
    NotEnough,
    /// The letter is kerned alike with nearly all that follow it.
    RightBearing,
    /// The letter is kerned alike with nearly all that come before it.
    LeftBearing,
    /// On its right the letter does not look like the class that it is kerned in.
    FirstClass,
    /// On its left the letter does not look like the class that it is kerned in.
    SecondClass,
}

/// Kerning that stands out.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct KernFindingReport {
    /// What the matter is.
    pub matter: KernMatter,
    /// The pairs concerned, worst first; of one letter alone, that letter twice.
    pub pairs: Vec<[String; 2]>,
    /// The kern that the font has: of the worst pair, or in the middle.
    pub kern: f64,
    /// The kern that its white asks for; of a bearing, what to change it by; of a
    /// class, how far the letter's side lies from its fellows'.
    pub asked: f64,
    /// How far off it is, in what is common in the font.
    pub spreads: f64,
    /// The finding in a sentence for the artist.
    pub sentence: String,
}

/// A font's spacing and kerning.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct SpacingReport {
    /// The letters' sides, in the order asked for.
    pub letters: Vec<SpacingLetter>,
    /// The kerning among them.
    pub kerning: KerningReport,
    /// Kerning that stands out, worst first.
    pub findings: Vec<KernFindingReport>,
}

/// A bearing suggested anew.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct NewBearing {
    /// The character.
    pub character: String,
    /// Its glyph.
    pub glyph: u16,
    /// Whether it is the right bearing; else the left.
    pub right: bool,
    /// What it is.
    pub is: f64,
    /// What it might be.
    pub suggested: f64,
}

/// One kern between two classes of letters.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct SuggestedKern {
    /// The first letters that it serves.
    pub firsts: Vec<String>,
    /// The second letters.
    pub seconds: Vec<String>,
    /// How much further apart: negative is nearer.
    pub apart: i32,
}

/// Bearings first, then the fewest kerns for what is left.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct SuggestionReport {
    /// White is brought within this of the middle.
    pub tolerance: f64,
    /// Bearings to change before anything is kerned.
    pub bearings: Vec<NewBearing>,
    /// The kerns, each between two classes, in place of the font's own: the
    /// largest first, then exceptions, which go before what is said of their pair
    /// earlier.
    pub kerns: Vec<SuggestedKern>,
    /// Pairs that asked for more than the tolerance before any kern.
    pub asked: u32,
    /// Pairs still further off than the tolerance.
    pub left: u32,
    /// The kerns as an OpenType feature file, glyphs by their names in the font.
    pub feature_file: String,
    /// Letters left out of that file, since their glyphs have no fitting names.
    pub unnamed: String,
}

impl From<&kerning::KernFinding> for KernFindingReport {
    fn from(f: &kerning::KernFinding) -> Self {
        use kerning::KernMatter as Of;
        Self {
            matter: match f.matter {
                Of::Missing => KernMatter::Missing,
                Of::WrongWay => KernMatter::WrongWay,
                Of::TooFar => KernMatter::TooFar,
                Of::NotEnough => KernMatter::NotEnough,
                Of::RightBearing => KernMatter::RightBearing,
                Of::LeftBearing => KernMatter::LeftBearing,
                Of::FirstClass => KernMatter::FirstClass,
                Of::SecondClass => KernMatter::SecondClass,
            },
            pairs: f.pairs.iter().map(|p| p.map(String::from)).collect(),
            kern: f.kern,
            asked: f.asked,
            spreads: f.spreads,
            sentence: f.sentence(),
        }
    }
}

impl SuggestionReport {
    pub(super) fn of(s: &KernSuggestion, spacing: &Spacing, reader: &Reader<'_>) -> Self {
        let (feature_file, unnamed) = kerning::feature_file(s, spacing, reader);
        let letters = |class: &[usize]| {
            let character = |&at: &usize| spacing.letters[at].character.into();
            class.iter().map(character).collect()
        };
        Self {
            tolerance: s.tolerance,
            bearings: s
                .bearings
                .iter()
                .map(|b| NewBearing {
                    character: b.character.into(),
                    glyph: b.glyph.0,
                    right: b.side == 1,
                    is: b.is,
                    suggested: b.suggested,
                })
                .collect(),
            kerns: s
                .kerns
                .iter()
                .map(|k| SuggestedKern {
                    firsts: letters(&s.firsts[k.first]),
                    seconds: letters(&s.seconds[k.second]),
                    apart: k.apart,
                })
                .chain(s.exceptions.iter().map(|e| SuggestedKern {
                    firsts: letters(&e.firsts),
                    seconds: letters(&e.seconds),
                    apart: e.apart,
                }))
                .collect(),
            asked: s.asked as u32,
            left: s.left as u32,
            feature_file,
            unnamed: unnamed.0.iter().collect(),
        }
    }
}
