//! The registry: every figure that the lab takes of a letter, by name.
//!
//! Whatever lists figures (the page's table, exported files, the judgement of
//! letters) reads them from here, so a new measure is one file beside this one
//! and one entry below.

use super::darkness::Darkness;
use super::drawing::Need;
use super::{Context, End, Letter, contrast, main_weight, sides, stress};

/// What a figure is counted in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Unit {
    /// Font units.
    Units,
    /// Square font units.
    SquareUnits,
    /// A share of something named in the definition: 1 is all of it.
    Share,
    /// Degrees.
    Degrees,
    /// How many.
    Count,
}

/// A letter with what its figures are read against.
#[derive(Debug, Clone, Copy)]
pub struct Subject<'a> {
    /// Its measures.
    pub letter: &'a Letter,
    /// The character it stands for, if it is known.
    pub character: Option<char>,
    /// Its font.
    pub context: &'a Context,
}

/// A figure that can be taken of a letter.
#[derive(Debug, Clone, Copy)]
pub struct Quantity {
    /// Its name in files: never changes.
    pub id: &'static str,
    /// Its name on screen.
    pub name: &'static str,
    /// What it is counted in.
    pub unit: Unit,
    /// What it is, in a sentence.
    pub definition: &'static str,
    /// The figure; `None` where a letter has no such thing.
    pub of: fn(&Subject<'_>) -> Option<f64>,
}

/// Every figure, in the order shown.
pub const QUANTITIES: &[Quantity] = &[
    Quantity {
        id: "advance",
        name: "advance width",
        unit: Unit::Units,
        definition: "From the letter's origin to the next letter's.",
        of: |s| Some(s.letter.advance),
    },
    Quantity {
        id: "leftBearing",
        name: "left side bearing",
        unit: Unit::Units,
        definition: "White from the origin to the ink.",
        of: |s| s.letter.left_bearing(),
    },
    Quantity {
        id: "rightBearing",
        name: "right side bearing",
        unit: Unit::Units,
        definition: "White from the ink to the next letter's origin.",
        of: |s| s.letter.right_bearing(),
    },
    Quantity {
        id: "inkWidth",
        name: "ink width",
        unit: Unit::Units,
        definition: "From the leftmost ink to the rightmost.",
        of: |s| s.letter.bounds.map(|b| b.width()),
    },
    Quantity {
        id: "bodyWidth",
        name: "width between outer stems",
        unit: Unit::Units,
        definition: "From the outer edge of the first upright stroke to that of the last, serifs left out, set upright by the font's slant.",
        of: |s| Some(sides(&s.letter.strokes, s.context.slant)?.body),
    },
    Quantity {
        id: "counterWidth",
        name: "counter width",
        unit: Unit::Units,
        definition: "White between the first upright stroke and the last.",
        of: |s| sides(&s.letter.strokes, s.context.slant)?.counter,
    },
    Quantity {
        id: "widthToStraight",
        name: "width beside H or n",
        unit: Unit::Share,
        definition: "Ink width as a share of that of H for capitals and figures, of n for lower case.",
        of: |s| width_beside(s, s.context.widths.h, s.context.widths.n),
    },
    Quantity {
        id: "widthToRound",
        name: "width beside O or o",
        unit: Unit::Share,
        definition: "Ink width as a share of that of O for capitals and figures, of o for lower case.",
        of: |s| width_beside(s, s.context.widths.cap_o, s.context.widths.o),
    },
    Quantity {
        id: "inkHeight",
        name: "ink height",
        unit: Unit::Units,
        definition: "From the lowest ink to the highest.",
        of: |s| s.letter.bounds.map(|b| b.height()),
    },
    Quantity {
        id: "topOvershoot",
        name: "overshoot at the top",
        unit: Unit::Units,
        definition: "How far the top passes the line of the flat letters; negative where it falls short.",
        of: |s| {
            s.context
                .overshoot(s.character?, End::Top, s.letter.top.as_ref()?)
        },
    },
    Quantity {
        id: "footOvershoot",
        name: "overshoot at the foot",
        unit: Unit::Units,
        definition: "How far the foot passes the line of the flat letters; negative where it falls short.",
        of: |s| {
            s.context
                .overshoot(s.character?, End::Foot, s.letter.foot.as_ref()?)
        },
    },
    Quantity {
        id: "topOvershootShare",
        name: "overshoot at the top, share of height",
        unit: Unit::Share,
        definition: "Overshoot at the top as a share of the height of the line it passes.",
        of: |s| overshoot_share(s, End::Top),
    },
    Quantity {
        id: "footOvershootShare",
        name: "overshoot at the foot, share of height",
        unit: Unit::Share,
        definition: "Overshoot at the foot as a share of the height of the line that the top belongs to.",
        of: |s| overshoot_share(s, End::Foot),
    },
    Quantity {
        id: "weight",
        name: "weight",
        unit: Unit::Units,
        definition: "Thickness of the main strokes: of the long ones, bars aside, the thick ones' mean by length.",
        of: |s| main_weight(&s.letter.strokes),
    },
    Quantity {
        id: "contrast",
        name: "contrast",
        unit: Unit::Share,
        definition: "Thickest over thinnest of the long strokes: 1 for a letter of one thickness.",
        of: |s| contrast(&s.letter.strokes),
    },
    Quantity {
        id: "stress",
        name: "stress",
        unit: Unit::Degrees,
        definition: "Lean of a round letter's thin places from the upright, the top one leaning left positive.",
        of: |s| stress(&s.letter.strokes),
    },
    Quantity {
        id: "thinnestJoin",
        name: "thinnest join",
        unit: Unit::Units,
        definition: "Least thickness where a curve springs from another stroke.",
        of: |s| {
            let joins = s.letter.strokes.iter().flat_map(|s| &s.joins);
            joins.map(|j| j.value).reduce(f64::min)
        },
    },
    Quantity {
        id: "inkArea",
        name: "ink",
        unit: Unit::SquareUnits,
        definition: "Area of the ink, overlaps counted once.",
        of: |s| Some(s.letter.area),
    },
    Quantity {
        id: "darkness",
        name: "darkness",
        unit: Unit::Share,
        definition: "Ink between baseline and x-height (lower case) or cap height (capitals and figures), as a share of that band over the advance width.",
        of: |s| darkness(s)?.of_body,
    },
    Quantity {
        id: "boxDarkness",
        name: "darkness of its box",
        unit: Unit::Share,
        definition: "Ink as a share of the letter's own box: spacing has no part in it.",
        of: |s| s.letter.lower_darkness.of_box,
    },
    Quantity {
        id: "points",
        name: "points",
        unit: Unit::Count,
        definition: "Points on and off the curve, implied ones counted.",
        of: |s| Some(s.letter.drawing.as_ref()?.points.total() as f64),
    },
    Quantity {
        id: "pointsNeeded",
        name: "points needed within half a unit",
        unit: Unit::Count,
        definition: "The fewest points, in the outline's own kind of curve, of a refit that keeps within half a thousandth of the em.",
        of: |s| Some(needed(&s.letter.drawing.as_ref()?.within_half)),
    },
    Quantity {
        id: "pointsNeededWithinTwo",
        name: "points needed within two units",
        unit: Unit::Count,
        definition: "The same of a refit that keeps within two thousandths of the em.",
        of: |s| Some(needed(&s.letter.drawing.as_ref()?.within_two)),
    },
    Quantity {
        id: "flaws",
        name: "flaws of drawing",
        unit: Unit::Count,
        definition: "Places in the outline that are worth a look: kinks, stubs, missing extremes, contours that overlap or run the wrong way.",
        of: |s| {
            let drawing = s.letter.drawing.as_ref()?;
            Some((drawing.flaws.len() + drawing.flaws_left_out) as f64)
        },
    },
];

/// A letter's darkness in the band of its case; `None` of other signs.
fn darkness<'a>(s: &Subject<'a>) -> Option<&'a Darkness> {
    let c = s.character?;
    if c.is_lowercase() {
        Some(&s.letter.lower_darkness)
    } else if c.is_uppercase() || c.is_ascii_digit() {
        Some(&s.letter.capital_darkness)
    } else {
        None
    }
}

fn needed(need: &Need) -> f64 {
    need.quadratic.unwrap_or(need.cubic) as f64
}

/// Ink width as a share of a reference letter's of the same case.
fn width_beside(s: &Subject<'_>, capital: Option<f64>, lower: Option<f64>) -> Option<f64> {
    let reference = if s.character?.is_lowercase() {
        lower?
    } else {
        capital?
    };
    Some(s.letter.bounds?.width() / reference)
}

fn overshoot_share(s: &Subject<'_>, end: End) -> Option<f64> {
    let c = s.character?;
    let extremity = match end {
        End::Top => s.letter.top,
        End::Foot => s.letter.foot,
    };
    let overshoot = s.context.overshoot(c, end, &extremity?)?;
    let height = s.context.drawn(super::GuideKind::of(c, End::Top)?)?;
    (height > 0.0).then(|| overshoot / height)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_id_is_its_own() {
        let mut ids: Vec<_> = QUANTITIES.iter().map(|q| q.id).collect();
        ids.sort_unstable();
        ids.dedup();
        assert_eq!(ids.len(), QUANTITIES.len());
    }

    #[test]
    fn a_letter_without_ink_has_no_figures_of_ink() {
        let context = Context {
            units_per_em: 1000.0,
            slant: 0.0,
            guides: Vec::new(),
            figures: super::super::FigureLines::default(),
            widths: super::super::ReferenceWidths::default(),
            format: None,
        };
        let letter = super::super::of_outline(&Default::default(), 250.0, &context);
        let subject = Subject {
            letter: &letter,
            character: Some(' '),
            context: &context,
        };
        let given: Vec<_> = QUANTITIES
            .iter()
            .filter_map(|q| (q.of)(&subject).map(|v| (q.id, v)))
            .collect();
        assert_eq!(given, [("advance", 250.0), ("inkArea", 0.0)]);
    }
}
