//! How a letter is drawn, told: points against points needed, and flaws in words.

use super::{Point, build::point};
use crate::measure::drawing;
#[cfg(feature = "schema")]
use schemars::JsonSchema;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// How a letter's outline is drawn.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Drawing {
    /// Points as drawn, on and off the curve, implied ones among them.
    pub drawn: u32,
    /// What a refit needs that passes within half a thousandth of the em.
    pub within_half: Need,
    /// What a refit needs that passes within two thousandths of the em.
    pub within_two: Need,
    /// What is worth a look, each at its place.
    pub flaws: Vec<Flaw>,
    /// Flaws beyond the first few hundred, which are counted only.
    pub flaws_left_out: u32,
    /// Flaws that were not looked for, since the outline is too large.
    pub not_looked_for: Vec<FlawKind>,
}

/// The points that a refit needs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Need {
    /// On and off the curve, in the outline's own kind of curve.
    pub points: u32,
    /// Whether the whole outline was refit; where it was not, the rest counts
    /// as it is drawn.
    pub complete: bool,
}

/// A place in an outline that is worth a look.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub struct Flaw {
    /// What it is.
    pub kind: FlawKind,
    /// Its name in plain words.
    pub name: &'static str,
    /// Where.
    pub at: Point,
    /// How large; what is measured is said in the sentence.
    pub size: f64,
    /// Which contour, in the outline's order, from 0.
    pub contour: u32,
    /// On whose word it counts.
    pub basis: FlawBasis,
    /// What it is and where, in a sentence.
    pub sentence: String,
}

/// On whose word something counts as a flaw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum FlawBasis {
    /// A font format asks for it.
    Format,
    /// The trade does so.
    Practice,
}

/// What is wrong with a drawing, or seems so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[cfg_attr(feature = "schema", derive(JsonSchema))]
#[serde(rename_all = "camelCase")]
pub enum FlawKind {
    /// A curve has its extreme between its points.
    NoPointAtExtreme,
    /// A joint that seems meant to be smooth turns a little.
    Kink,
    /// Two points in nearly one place.
    DoublePoint,
    /// A segment too short to be seen.
    Stub,
    /// A point on a straight line that it does not bend.
    IdlePoint,
    /// A handle reaches past the line of the curve's other handle.
    LongHandle,
    /// One curve bends both ways, by much one way and by little the other.
    Wobble,
    /// A line is nearly level.
    NearlyLevel,
    /// A line is nearly upright.
    NearlyUpright,
    /// A contour ends close to where it began and is closed by a stub.
    LooseEnd,
    /// A contour that encloses nothing.
    NothingInside,
    /// A contour runs the wrong way round for its place.
    WrongWay,
    /// Two contours overlap.
    Overlap,
    /// A contour crosses itself.
    SelfCrossing,
}

impl From<drawing::FlawKind> for FlawKind {
    fn from(kind: drawing::FlawKind) -> Self {
        use drawing::FlawKind as Kind;
        match kind {
            Kind::NoPointAtExtreme => Self::NoPointAtExtreme,
            Kind::Kink => Self::Kink,
            Kind::DoublePoint => Self::DoublePoint,
            Kind::Stub => Self::Stub,
            Kind::IdlePoint => Self::IdlePoint,
            Kind::LongHandle => Self::LongHandle,
            Kind::Wobble => Self::Wobble,
            Kind::NearlyLevel => Self::NearlyLevel,
            Kind::NearlyUpright => Self::NearlyUpright,
            Kind::LooseEnd => Self::LooseEnd,
            Kind::NothingInside => Self::NothingInside,
            Kind::WrongWay => Self::WrongWay,
            Kind::Overlap => Self::Overlap,
            Kind::SelfCrossing => Self::SelfCrossing,
        }
    }
}

impl From<drawing::Basis> for FlawBasis {
    fn from(basis: drawing::Basis) -> Self {
        match basis {
            drawing::Basis::Format => Self::Format,
            drawing::Basis::Practice => Self::Practice,
        }
    }
}

impl From<&drawing::Flaw> for Flaw {
    fn from(flaw: &drawing::Flaw) -> Self {
        Self {
            kind: flaw.kind.into(),
            name: flaw.kind.name(),
            at: point(flaw.at),
            size: flaw.size,
            contour: count(flaw.contour),
            basis: flaw.kind.basis().into(),
            sentence: sentence(flaw),
        }
    }
}

impl From<&drawing::Drawing> for Drawing {
    fn from(d: &drawing::Drawing) -> Self {
        let need = |need: &drawing::Need| Need {
            points: count(need.quadratic.unwrap_or(need.cubic)),
            complete: need.is_complete,
        };
        Self {
            drawn: count(d.points.total()),
            within_half: need(&d.within_half),
            within_two: need(&d.within_two),
            flaws: d.flaws.iter().map(Flaw::from).collect(),
            flaws_left_out: count(d.flaws_left_out),
            not_looked_for: d.not_looked_for.iter().map(|&k| k.into()).collect(),
        }
    }
}

fn count(n: usize) -> u32 {
    u32::try_from(n).unwrap_or(u32::MAX)
}

/// What a flaw is, how large and where, for the one who will mend it.
fn sentence(flaw: &drawing::Flaw) -> String {
    use drawing::FlawKind as Kind;
    let size = units(flaw.size);
    let what = match flaw.kind {
        Kind::NoPointAtExtreme => {
            format!("The curve passes its points by {size} without one at its extreme")
        }
        Kind::Kink => format!("A kink: the handles miss one line by {size}"),
        Kind::DoublePoint => format!("Two points {size} apart"),
        Kind::Stub => format!("A stub {size} long"),
        Kind::IdlePoint => {
            format!("A point on a straight line, which would move by {size} without it")
        }
        Kind::LongHandle => format!("A handle reaches {size} past the line of the other"),
        Kind::Wobble => format!("The curve bends back by {size}"),
        Kind::NearlyLevel => format!("A line {size} off level"),
        Kind::NearlyUpright => format!("A line {size} off upright"),
        Kind::LooseEnd => format!("The contour ends {size} from where it began"),
        Kind::NothingInside => format!("A contour {size} long that encloses nothing"),
        Kind::WrongWay => format!("A contour {size} across runs the wrong way round"),
        Kind::Overlap => format!("Two contours overlap by {size}"),
        Kind::SelfCrossing => format!("The contour crosses itself, in a loop {size} across"),
    };
    let at = |v: f64| format!("{:.0}", v + 0.0).replace('-', "\u{2212}");
    format!(
        "{what}, at {}, {}.",
        at(flaw.at.x.round()),
        at(flaw.at.y.round())
    )
}

/// A length with its unit, to a tenth.
fn units(length: f64) -> String {
    let tenths = (10.0 * length).round() / 10.0;
    if tenths == 1.0 {
        "1 unit".to_owned()
    } else if tenths == 0.0 {
        "less than a tenth of a unit".to_owned()
    } else {
        format!("{tenths} units")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn flaw(kind: drawing::FlawKind, at: (f64, f64), size: f64) -> Flaw {
        Flaw::from(&drawing::Flaw {
            kind,
            at: at.into(),
            size,
            contour: 0,
        })
    }

    #[test]
    fn a_flaw_is_told_with_its_size_and_place() {
        let kink = flaw(drawing::FlawKind::Kink, (312.4, -80.2), 2.34);
        assert_eq!(
            kink.sentence,
            "A kink: the handles miss one line by 2.3 units, at 312, \u{2212}80."
        );
        let stub = flaw(drawing::FlawKind::Stub, (-0.2, 1.0), 1.0);
        assert_eq!(stub.sentence, "A stub 1 unit long, at 0, 1.");
    }

    #[test]
    fn every_kind_has_a_sentence_of_its_own() {
        let told: std::collections::HashSet<String> = drawing::FlawKind::ALL
            .iter()
            .map(|&kind| flaw(kind, (0.0, 0.0), 3.0).sentence)
            .collect();
        assert_eq!(told.len(), drawing::FlawKind::ALL.len());
        assert!(told.iter().all(|s| s.contains("3 units")), "{told:?}");
    }
}
