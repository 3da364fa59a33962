//! Words of the trade with their pictures, on their way over the boundary.

use super::Point;
use crate::lesson::Class;
use crate::lesson::words::{Mark, Picture, WORDS, Word};
use kurbo::{Affine, Rect, Shape};
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;

/// What is marked on a picture.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(tag = "kind", rename_all = "camelCase")]
pub enum WordMark {
    /// A level line across.
    Rule {
        /// Its height.
        y: f64,
    },
    /// A distance.
    Span {
        /// From here.
        from: Point,
        /// To there.
        to: Point,
    },
    /// A line.
    Line {
        /// From here.
        from: Point,
        /// To there.
        to: Point,
    },
    /// A place.
    Dot {
        /// Where.
        at: Point,
    },
    /// A piece of ink or of white.
    Area {
        /// SVG path data.
        path: String,
    },
}

/// A picture of a word. Font units, y up.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct WordPicture {
    /// The letters' outlines, in their places: SVG path data.
    pub paths: Vec<String>,
    /// Whether they are drawn as outlines.
    pub hollow: bool,
    /// What is marked.
    pub marks: Vec<WordMark>,
    /// What it all takes: left, foot, right, top.
    pub bounds: [f64; 4],
}

/// A word of the trade.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct WordReport {
    /// Its name in links.
    pub id: String,
    /// The word.
    pub term: String,
    /// Other forms in which the page has it.
    pub also: Vec<String>,
    /// What it means.
    pub meaning: String,
    /// Its picture; `null` where the open font has no letter that shows it.
    pub picture: Option<WordPicture>,
}

impl WordReport {
    /// Every word, drawn from a font.
    pub fn all(class: &Class) -> Vec<Self> {
        WORDS.iter().map(|word| Self::of(word, class)).collect()
    }

    fn of(word: &Word, class: &Class) -> Self {
        Self {
            id: word.id.to_owned(),
            term: word.term.to_owned(),
            also: word.also.iter().map(|&form| form.to_owned()).collect(),
            meaning: word.meaning.to_owned(),
            picture: word.picture(class).and_then(|p| WordPicture::of(&p)),
        }
    }
}

impl WordPicture {
    fn of(picture: &Picture) -> Option<Self> {
        let placed: Vec<_> = picture
            .letters
            .iter()
            .map(|(x, outline)| outline.transformed(Affine::translate((*x, 0.0))))
            .collect();
        let inks = placed.iter().filter_map(|o| o.bounds());
        let ink = inks.reduce(|a, b| a.union(b))?;
        let marked = picture.marks.iter().map(|m| extent(m, ink));
        let all = marked.fold(ink, |a, b| a.union(b));
        Some(Self {
            paths: placed.iter().map(|o| o.to_bez_path().to_svg()).collect(),
            hollow: picture.hollow,
            marks: picture.marks.iter().map(WordMark::from).collect(),
            bounds: [all.x0, all.y0, all.x1, all.y1],
        })
    }
}

fn extent(mark: &Mark, ink: Rect) -> Rect {
    match mark {
        Mark::Rule(y) => Rect::new(ink.x0, *y, ink.x1, *y),
        Mark::Span(a, b) | Mark::Line(a, b) => Rect::from_points(*a, *b),
        Mark::Dot(p) => Rect::from_points(*p, *p),
        Mark::Area(path) => path.bounding_box(),
    }
}

impl From<&Mark> for WordMark {
    fn from(mark: &Mark) -> Self {
        match mark {
            Mark::Rule(y) => Self::Rule { y: *y },
            Mark::Span(a, b) => Self::Span {
                from: [a.x, a.y],
                to: [b.x, b.y],
            },
            Mark::Line(a, b) => Self::Line {
                from: [a.x, a.y],
                to: [b.x, b.y],
            },
            Mark::Dot(p) => Self::Dot { at: [p.x, p.y] },
            Mark::Area(path) => Self::Area {
                path: path.to_svg(),
            },
        }
    }
}
