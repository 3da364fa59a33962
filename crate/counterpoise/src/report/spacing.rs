//! Spacing and kerning as the page and scripts read them. Lengths are font units.

use super::Point;
use crate::font::{GlyphId, Kerning, KerningSource, PairOrigin, PairSource, Reader};
use crate::kerning::{self, KernSuggestion};
use crate::spacing::{self, Spacing};
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
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

/// The white between two letters.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct PairWhite {
    /// The two characters.
    pub pair: [String; 2],
    /// How much further apart than their bearings say the font sets them.
    pub kern: f64,
    /// Between the foremost ink of the two, kerned.
    pub gap: f64,
    /// Mean of the white over the levels, limited in depth.
    pub mean: f64,
    /// Its area, square units.
    pub area: f64,
    /// What the eye is taken to compare from pair to pair.
    pub distance: f64,
    /// The least white at any level; `null` where the two face each other nowhere.
    pub least: Option<f64>,
    /// The outline of the white, from the first letter's origin.
    pub polygon: Vec<Point>,
}

/// A pair of a line of text, as rhythm hears it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct RhythmPlace {
    /// Which character of the line is the first of the pair, from 0.
    pub at: u32,
    /// Its optical distance.
    pub distance: f64,
    /// How much too wide it is for the line; too tight if negative.
    pub off: f64,
    /// Whether it breaks the line.
    pub breaks: bool,
}

/// How even a line of text is.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct RhythmReport {
    /// The middle optical distance.
    pub middle: f64,
    /// How far distances commonly lie from it, as a share of it; `null` of a line
    /// of too few pairs.
    pub unevenness: Option<f64>,
    /// Every pair of letters.
    pub places: Vec<RhythmPlace>,
}

/// Where a pair's kerning stands in the font.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct KernOrigin {
    /// The lookup, in the font's list; of a kern table its part.
    pub lookup: u16,
    /// The subtable, in the lookup.
    pub subtable: u16,
    /// Class of the first letter and of the second; `null` of a single pair.
    pub classes: Option<[u16; 2]>,
    /// Glyphs of the first class, by name or number; empty of a single pair.
    pub first_members: Vec<String>,
    /// Glyphs of the second class; empty of class 0, which is all the others.
    pub second_members: Vec<String>,
    /// How much further apart this one sets the pair.
    pub apart: i32,
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

impl PairWhite {
    /// The white between two characters as the font kerns them; `None` of
    /// characters that were not read.
    pub fn of(spacing: &Spacing, kerning: &Kerning, first: char, second: char) -> Option<Self> {
        let (a, b) = (spacing.place(first)?, spacing.place(second)?);
        let (left, right) = (&spacing.letters[a], &spacing.letters[b]);
        let kern = f64::from(kerning.value(left.glyph, right.glyph).apart());
        Self::set(spacing, a, b, kern)
    }

    /// The same, set so much further apart than their bearings say.
    pub fn set(spacing: &Spacing, first: usize, second: usize, kern: f64) -> Option<Self> {
        let white = spacing.whites.pair(first, second, kern)?;
        let (left, right) = (spacing.letters.get(first)?, spacing.letters.get(second)?);
        let polygon = spacing
            .whites
            .polygon(first, second, left.sides.advance, kern);
        Some(Self {
            pair: [left.character.into(), right.character.into()],
            kern,
            gap: white.gap,
            mean: white.mean,
            area: white.area,
            distance: white.distance,
            least: white.least,
            polygon: polygon.into_iter().map(|p| [p.x, p.y]).collect(),
        })
    }
}

impl RhythmReport {
    /// Reads a line of text as the font kerns it. Characters that `spacing` does
    /// not hold part the line, as a space does.
    pub fn of(spacing: &Spacing, kerning: &Kerning, text: &str) -> Self {
        let places: Vec<Option<usize>> = text.chars().map(|c| spacing.place(c)).collect();
        let next = places.iter().skip(1).chain([&None]);
        let line: Vec<(Option<usize>, f64)> = places
            .iter()
            .zip(next)
            .map(|(&a, &b)| {
                let kern = a.zip(b).map(|(a, b)| {
                    let (a, b) = (spacing.letters[a].glyph, spacing.letters[b].glyph);
                    f64::from(kerning.value(a, b).apart())
                });
                (a, kern.unwrap_or(0.0))
            })
            .collect();
        let rhythm = spacing::rhythm(&line, &spacing.whites, spacing.grid.height);
        Self {
            middle: rhythm.middle,
            unevenness: rhythm.unevenness,
            places: rhythm
                .places
                .iter()
                .map(|p| RhythmPlace {
                    at: p.at as u32,
                    distance: p.distance,
                    off: p.off,
                    breaks: p.breaks,
                })
                .collect(),
        }
    }
}

impl KernOrigin {
    /// Where a pair's kerning stands, in the order applied.
    pub fn of(
        kerning: &Kerning,
        reader: &Reader<'_>,
        first: GlyphId,
        second: GlyphId,
    ) -> Vec<Self> {
        let told = |source: &PairSource| {
            let (first, second) = kerning.members(source);
            let names = |glyphs: Vec<GlyphId>| glyphs.iter().map(|&g| named(reader, g)).collect();
            Self {
                lookup: source.lookup,
                subtable: source.subtable,
                classes: match source.origin {
                    PairOrigin::Single => None,
                    PairOrigin::Classes { first, second } => Some([first, second]),
                },
                first_members: names(first),
                second_members: names(second),
                apart: source.value.apart(),
            }
        };
        kerning.sources(first, second).iter().map(told).collect()
    }
}

/// A glyph's name; its number, where the font names none.
pub(super) fn named(reader: &Reader<'_>, glyph: GlyphId) -> String {
    reader
        .glyph_name(glyph)
        .map_or_else(|| format!("glyph {}", glyph.0), str::to_owned)
}

impl KerningReport {
    /// The font's kerning among the letters that `spacing` holds.
    pub fn of(kerning: &Kerning, spacing: &Spacing) -> Self {
        let mut pairs = Vec::new();
        for a in &spacing.letters {
            for b in &spacing.letters {
                let apart = kerning.value(a.glyph, b.glyph).apart();
                if apart != 0 {
                    pairs.push(KernPair {
                        pair: [a.character.into(), b.character.into()],
                        apart,
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
            notes: kerning.notes().iter().map(ToString::to_string).collect(),
        }
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
    /// The kerns, each between two classes, in place of the font's own.
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
                .collect(),
            asked: s.asked as u32,
            left: s.left as u32,
            feature_file,
            unnamed: unnamed.0.iter().collect(),
        }
    }
}
