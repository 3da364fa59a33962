//! Lessons on their way over the boundary: letters with a compensation taken out.

use super::{GuideKind, Point};
use crate::lesson::{
    self, Class, Drawn, FigureUnit, Lesson as Of, LineMatter, MOST_CHARACTERS, Measured, Nothing,
    PairTally, Placed, place, take_out,
};
use crate::outline::Outline;
use crate::redraw::Unable;
use kurbo::Rect;
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

macro_rules! lessons {
    ($($(#[doc = $doc:literal])* $name:ident = $id:literal),* $(,)?) => {
        /// A lesson.
        #[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Serialize)]
        #[cfg_attr(feature = "typescript", derive(TS), ts(export))]
        #[serde(rename_all = "camelCase")]
        pub enum LessonName { $($(#[doc = $doc])* $name),* }

        impl LessonName {
            /// Every lesson, in the order in which they are taught.
            pub const ALL: &[Self] = &[$(Self::$name),*];

            /// By its name in links and files.
            pub fn named(name: &str) -> Option<Self> {
                match name { $($id => Some(Self::$name),)* _ => None }
            }

            /// As the library knows it.
            pub fn lesson(self) -> Of {
                match self { $(Self::$name => Of::$name),* }
            }
        }
    };
}

lessons! {
    /// Round and pointed letters pass the line.
    Overshoot = "overshoot",
    /// Bars are thinner than stems.
    Bars = "bars",
    /// The thick of a round beside a straight stem.
    Rounds = "rounds",
    /// Strokes thin where they join.
    Joins = "joins",
    /// The upper half is smaller than the lower.
    Halves = "halves",
    /// Letters of many strokes.
    Many = "many",
    /// The middle that is not the middle.
    Middle = "middle",
    /// Why side bearings differ by side.
    Bearings = "bearings",
    /// Why kerning comes last.
    Kerning = "kerning",
    /// Few points well placed against many.
    Points = "points",
}

/// What a lesson's figure is told in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum LessonUnit {
    /// Font units.
    Units,
    /// Per cent.
    Percent,
    /// Things counted.
    Count,
}

/// One figure, as drawn and as shown.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LessonFigure {
    /// What it is.
    pub name: String,
    /// In what.
    pub unit: LessonUnit,
    /// As drawn.
    pub drawn: f64,
    /// As shown.
    pub shown: f64,
}

/// A line of the alphabet across the picture.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LessonGuide {
    /// Which line.
    pub kind: GuideKind,
    /// Its height.
    pub y: f64,
}

/// What a letter shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum LessonState {
    /// The compensation is taken out of it.
    Changed,
    /// The lesson is not about such letters: it stands beside them.
    Beside,
    /// This font draws it without the compensation.
    Without,
    /// It could not be computed.
    Unable,
}

/// One letter of a lesson.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LessonLetter {
    /// The character.
    pub character: char,
    /// Where its origin stands on the line as drawn, and as shown.
    pub x: [f64; 2],
    /// Its outline as drawn: SVG path data, font units, y up.
    pub drawn: String,
    /// As shown.
    pub shown: String,
    /// What it shows.
    pub state: LessonState,
    /// Why it shows nothing.
    pub trouble: Option<String>,
    /// Its figures.
    pub figures: Vec<LessonFigure>,
    /// Where they were taken as drawn: from one edge to the other.
    pub was: Vec<[Point; 2]>,
    /// Where they were taken as shown.
    pub is: Vec<[Point; 2]>,
    /// Points on the outline as drawn, and as shown, in the lesson about points.
    pub points: [Vec<Point>; 2],
}

/// Pairs of the alphabet that are kerned, or would have to be.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LessonPairs {
    /// Pairs that were looked at.
    pub pairs: usize,
    /// Those that the font kerns.
    pub kerned: usize,
    /// Those that would have to be kerned if all side bearings were equal.
    pub otherwise: usize,
}

/// A lesson on the open font.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct LessonReport {
    /// Which.
    pub lesson: LessonName,
    /// The line that shows it best.
    pub usual: String,
    /// How far its slider goes.
    pub span: [f64; 2],
    /// How much is taken out: 0 nothing, 1 all, -1 doubled.
    pub out: f64,
    /// Units per em.
    pub units_per_em: f64,
    /// The alphabet's lines that these letters stand on or reach to.
    pub guides: Vec<LessonGuide>,
    /// The letters of the line that the font has.
    pub letters: Vec<LessonLetter>,
    /// Characters that the font lacks.
    pub missing: String,
    /// How long the line is as drawn, and as shown.
    pub length: [f64; 2],
    /// What the ink of both takes: left, foot, right, top.
    pub bounds: [f64; 4],
    /// The alphabet's pairs, in the lesson about kerning.
    pub pairs: Option<LessonPairs>,
}

impl From<PairTally> for LessonPairs {
    fn from(t: PairTally) -> Self {
        Self {
            pairs: t.pairs,
            kerned: t.kerned,
            otherwise: t.otherwise,
        }
    }
}

impl LessonReport {
    /// Gives a lesson on a line of text; on its usual line if that is empty.
    pub fn of(class: &Class, name: LessonName, text: &str, out: f64) -> Self {
        let lesson = name.lesson();
        let out = lesson.span().clamp(out);
        let text = if text.trim().is_empty() {
            lesson.text()
        } else {
            text
        };
        let mut missing = String::new();
        let mut letters: Vec<Drawn> = Vec::new();
        for c in text
            .chars()
            .filter(|c| !c.is_whitespace())
            .take(MOST_CHARACTERS)
        {
            match class.drawn(c) {
                Some(drawn) => letters.push(drawn),
                None => missing.push(c),
            }
        }
        let matter = LineMatter::of(lesson);
        let (was, was_length) = place(&letters, class, matter, 0.0);
        let (is, is_length) = place(&letters, class, matter, out);
        let placed = was.iter().zip(&is);
        let mut ink: Option<Rect> = None;
        let letters_shown = letters
            .iter()
            .zip(placed)
            .map(|(drawn, places)| letter(lesson, class, drawn, places, out, &mut ink))
            .collect();
        Self {
            lesson: name,
            usual: lesson.text().to_owned(),
            span: [lesson.span().least, lesson.span().most],
            out,
            units_per_em: class.context().units_per_em,
            guides: guides(class, &letters),
            letters: letters_shown,
            missing,
            length: [was_length, is_length],
            bounds: ink.map_or([0.0; 4], |b| [b.x0, b.y0, b.x1, b.y1]),
            pairs: (lesson == Of::Kerning).then(|| PairTally::of(class).into()),
        }
    }
}

/// The lines that some letters stand on or reach to, from the lowest up.
fn guides(class: &Class, letters: &[Drawn]) -> Vec<LessonGuide> {
    use crate::measure::{End, GuideKind as Kind};
    let near = |kind| {
        letters.iter().any(|d| {
            [End::Top, End::Foot]
                .iter()
                .any(|&end| Kind::of(d.character, end) == Some(kind))
        })
    };
    let all = class.context().guides.iter();
    all.filter(|g| near(g.kind))
        .filter_map(|g| {
            Some(LessonGuide {
                kind: g.kind.into(),
                y: g.drawn?,
            })
        })
        .collect()
}

fn letter(
    lesson: Of,
    class: &Class,
    drawn: &Drawn,
    (was, is): (&Placed, &Placed),
    out: f64,
    ink: &mut Option<Rect>,
) -> LessonLetter {
    let mut takes = |o: &Outline, x: f64| {
        if let Some(b) = o.bounds() {
            let b = b + kurbo::Vec2::new(x, 0.0);
            *ink = Some(ink.map_or(b, |all| all.union(b)));
        }
    };
    takes(&drawn.outline, was.x);
    takes(&drawn.outline, is.x);
    let path = |o: &Outline| o.to_bez_path().to_svg();
    let own = path(&drawn.outline);
    let mut letter = LessonLetter {
        character: drawn.character,
        x: [was.x, is.x],
        shown: own.clone(),
        drawn: own,
        state: LessonState::Beside,
        trouble: None,
        figures: Vec::new(),
        was: Vec::new(),
        is: Vec::new(),
        points: [Vec::new(), Vec::new()],
    };
    if lesson.is_of_line() {
        letter.state = LessonState::Changed;
        letter.figures = on_the_line(lesson, was, is);
        return letter;
    }
    match take_out(lesson, drawn, class, out) {
        Ok(done) => {
            letter.state = LessonState::Changed;
            takes(&done.outline, is.x);
            letter.shown = path(&done.outline);
            letter.figures = done.figures.iter().map(LessonFigure::from).collect();
            let measured = |all: &[Measured]| -> Vec<[Point; 2]> {
                let ends = all.iter();
                ends.map(|(a, b)| [[a.x, a.y], [b.x, b.y]]).collect()
            };
            letter.was = measured(&done.was);
            letter.is = measured(&done.is);
            if lesson == Of::Points {
                letter.points = [joints(&drawn.outline), joints(&done.outline)];
            }
        }
        Err(Nothing::Beside) => {}
        Err(Nothing::Without) => letter.state = LessonState::Without,
        Err(Nothing::Unable(unable)) => {
            letter.state = LessonState::Unable;
            letter.trouble = Some(trouble(unable).to_owned());
        }
    }
    letter
}

/// Why a letter could not be computed, to whoever takes the lesson.
fn trouble(unable: Unable) -> &'static str {
    match unable {
        Unable::NoStrokes => {
            "The lab cannot read such strokes in this letter, so it stands as it is drawn."
        }
        _ => "This letter would lose its shape on the way, so it stands as it is drawn.",
    }
}

fn joints(outline: &Outline) -> Vec<Point> {
    let all = outline.segments().iter().map(|s| s.start());
    all.map(|p| [p.x, p.y]).collect()
}

fn on_the_line(lesson: Of, was: &Placed, is: &Placed) -> Vec<LessonFigure> {
    let figure = |name: &str, drawn, shown| LessonFigure {
        name: name.to_owned(),
        unit: LessonUnit::Units,
        drawn,
        shown,
    };
    if lesson == Of::Kerning {
        return vec![figure("kern before it", was.kern, is.kern)];
    }
    vec![
        figure("left side bearing", was.left, is.left),
        figure("right side bearing", was.right, is.right),
    ]
}

impl From<&lesson::Figure> for LessonFigure {
    fn from(f: &lesson::Figure) -> Self {
        Self {
            name: f.name.to_owned(),
            unit: match f.unit {
                FigureUnit::Units => LessonUnit::Units,
                FigureUnit::Percent => LessonUnit::Percent,
                FigureUnit::Count => LessonUnit::Count,
            },
            drawn: f.drawn,
            shown: f.shown,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_in_links_are_those_on_the_boundary() {
        assert_eq!(LessonName::ALL.len(), Of::ALL.len());
        for (name, of) in LessonName::ALL.iter().zip(Of::ALL) {
            assert_eq!(name.lesson(), of);
            let id = format!("{name:?}").to_lowercase();
            assert_eq!(LessonName::named(&id), Some(*name));
        }
        assert_eq!(LessonName::named("<b>"), None);
    }
}
