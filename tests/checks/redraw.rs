//! Previews of a change: as wide, as thick, as high as asked, the strokes kept,
//! and the outline as sound as it was.

use crate::{Fonts, face, open};
use counterpoise::font::Font;
use counterpoise::measure::drawing::{DrawingContext, FlawKind, drawing};
use counterpoise::measure::strokes::{Stroke, StrokeKind};
use counterpoise::measure::{Context, Letter, main_weight};
use counterpoise::outline::{Outline, Ray};
use counterpoise::redraw::{Change, SMOOTH, Sketch, Which, sketch};
use counterpoise_checks::manifest::Face;
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// A sans and a slab in cubic curves, a sans in quadratic ones, a serif of high
/// contrast.
const FACES: [&str; 4] = ["sourcesans", "roboto-slab", "dejavu", "ebgaramond"];

const LETTERS: &str = "HnOSMa";

/// Letters made thicker. Not M: its stems and diagonals share its width, and where
/// all its strokes are asked to be a twelfth thicker, its stems come out a tenth.
const THICKENED: &str = "HnOSa";

/// How much wider the letters are made, and how near that must come.
const WIDER: f64 = 0.08;
const WIDTH: f64 = 0.005;

/// Stems keep their thickness within this share, the sides of rounds within that:
/// near a join a side's own curve gives way a little.
const STEM: f64 = 0.01;
const SIDE: f64 = 0.015;

/// A stroke is one that reaches over this share of its letter's height: shorter
/// ones are serifs and terminals.
const LONG: f64 = 0.3;

/// A stroke that leans by less than this (the tangent of 10 degrees) is upright;
/// beyond, it is a diagonal.
const VERTICAL: f64 = 0.176;

/// Diagonals keep theirs within this share, where they have two straight edges.
const DIAGONAL: f64 = 0.02;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = Vec::new();
    for id in FACES {
        let face = face(id)?;
        for (name, run) in [
            ("wider with the stems kept", wider as fn(&Face) -> _),
            ("narrower with the stems kept", narrower),
            ("thicker at the same size", thicker),
            ("reaching further", further),
        ] {
            all.push(fonts.check(
                format!("redraw::{name}::{id}"),
                vec![face.clone()],
                move |faces| faces.iter().try_for_each(run),
            ));
        }
    }
    Ok(all)
}

struct Opened {
    font: Font,
    context: Context,
}

impl Opened {
    fn of(face: &Face) -> Result<Self, Failed> {
        let font = open(face)?;
        let context = Context::of(&font);
        Ok(Self { font, context })
    }

    fn letter(&self, c: char) -> Result<(Outline, f64), Failed> {
        let reader = self.font.reader();
        let glyph = reader.glyph(c).ok_or_else(|| format!("no {c}"))?;
        Ok((
            reader.outline(glyph).map_err(|e| e.to_string())?,
            reader.advance(glyph),
        ))
    }

    fn tried(&self, c: char, change: Change) -> Result<(Outline, Sketch), Failed> {
        let (outline, advance) = self.letter(c)?;
        let tried =
            sketch(&outline, advance, &self.context, change).map_err(|e| format!("{c}: {e}"))?;
        self.sound(c, &outline, &tried.outline)?;
        Ok((outline, tried))
    }

    /// No joint that was smooth turns, and nothing crosses itself anew.
    fn sound(&self, c: char, drawn: &Outline, moved: &Outline) -> Result<(), Failed> {
        if drawn.contours() != moved.contours() {
            return Err(format!("{c}: other points than it was drawn with").into());
        }
        for contour in drawn.contours() {
            let (old, new) = (
                &drawn.segments()[contour.clone()],
                &moved.segments()[contour.clone()],
            );
            for i in 0..old.len() {
                let before = (i + old.len() - 1) % old.len();
                let turn = |s: &[counterpoise::outline::Segment]| {
                    let (a, b) = (s[before].tangent(1.0), s[i].tangent(0.0));
                    a.cross(b).atan2(a.dot(b)).abs()
                };
                let (was, is) = (turn(old), turn(new));
                // Two lines meet at a corner, however blunt.
                let lines = old[before].is_line() && old[i].is_line();
                // What was smooth may turn no more than it did, and a degree.
                if !lines && was < SMOOTH && is > was + 1f64.to_radians() {
                    let at = new[i].start();
                    return Err(format!(
                        "{c}: a joint at {at:?} turns by {:.2} degrees, {:.2} before",
                        is.to_degrees(),
                        was.to_degrees()
                    )
                    .into());
                }
            }
        }
        let context = DrawingContext {
            units_per_em: self.context.units_per_em,
            format: self.context.format,
        };
        let count = |outline: &Outline, kind: FlawKind| {
            let flaws = drawing(outline, &context).flaws;
            flaws.iter().filter(|f| f.kind == kind).count()
        };
        for kind in [FlawKind::SelfCrossing, FlawKind::Overlap, FlawKind::Kink] {
            let (was, is) = (count(drawn, kind), count(moved, kind));
            if is > was {
                return Err(format!("{c}: {is} of `{}`, {was} before", kind.name()).into());
            }
        }
        Ok(())
    }
}

/// Every upright stroke, read off the outlines level by level: how thick it was,
/// and is. A stroke is known again by its height and by how many stretches of ink
/// lie before it; where the two outlines are cut into unlike many, as where a
/// diagonal meets the stem, that height says nothing.
fn uprights(drawn: &Outline, sketch: &Sketch, lean: f64, kind: StrokeKind) -> Vec<(f64, f64)> {
    let mut scratch = Vec::new();
    let mut spans = |outline: &Outline, y: f64| {
        let mut all = Vec::new();
        outline.spans(&Ray::level(y), &mut scratch, &mut all);
        all
    };
    let strokes = sketch.before.strokes.iter();
    let long = |s: &&Stroke| s.length >= LONG * drawn.bounds().map_or(0.0, |b| b.height());
    strokes
        .filter(|s| s.kind == kind)
        .filter(long)
        .flat_map(|s| s.marks.iter())
        .filter(|m| {
            let v = m.to - m.from;
            (v.y + v.x * lean).abs() <= VERTICAL * v.x.abs()
        })
        .filter_map(|m| {
            let at = m.centre();
            let (was, is) = (spans(drawn, at.y), spans(&sketch.outline, at.y));
            let i = was
                .iter()
                .position(|s| s.from.s <= at.x && at.x <= s.to.s)?;
            (was.len() == is.len()).then(|| (was[i].length(), is[i].length()))
        })
        .collect()
}

fn kind(letter: &Letter, kind: StrokeKind) -> Vec<f64> {
    let mut all: Vec<&Stroke> = letter.strokes.iter().filter(|s| s.kind == kind).collect();
    all.sort_by(|a, b| a.marks[0].centre().x.total_cmp(&b.marks[0].centre().x));
    all.iter().map(|s| s.median).collect()
}

fn wider(face: &Face) -> Result<(), Failed> {
    resized(face, WIDER)
}

fn narrower(face: &Face) -> Result<(), Failed> {
    resized(face, -WIDER)
}

fn resized(face: &Face, by: f64) -> Result<(), Failed> {
    let opened = Opened::of(face)?;
    let lean = opened.context.slant.to_radians().tan();
    for c in LETTERS.chars() {
        let (outline, _) = opened.letter(c)?;
        let width = outline.bounds().map_or(0.0, |b| b.width());
        let (_, tried) = opened.tried(c, Change::Width(width * (1.0 + by)))?;
        let now = tried.outline.bounds().map_or(0.0, |b| b.width());
        let off = now / width - 1.0 - by;
        if off.abs() > WIDTH {
            return Err(format!("{c}: {:.2}% wider", 100.0 * (now / width - 1.0)).into());
        }
        let stems = uprights(&outline, &tried, lean, StrokeKind::Stem);
        let sides = uprights(&outline, &tried, lean, StrokeKind::Curve);
        if stems.is_empty() && sides.is_empty() {
            return Err(format!("{c}: no upright stroke was read").into());
        }
        let worst = |all: &[(f64, f64)]| {
            let off = all.iter().map(|(was, is)| (is / was - 1.0).abs());
            off.fold(0.0, f64::max)
        };
        if worst(&stems) > STEM || worst(&sides) > SIDE {
            return Err(format!("{c}: stems {stems:.2?}, sides {sides:.2?}").into());
        }
        let diagonals = (
            kind(&tried.before, StrokeKind::Diagonal),
            kind(&tried.after, StrokeKind::Diagonal),
        );
        if c == 'M' && diagonals.0.len() == diagonals.1.len() {
            for (was, is) in diagonals.0.iter().zip(&diagonals.1) {
                if (is / was - 1.0).abs() > DIAGONAL {
                    return Err(format!("{c}: a diagonal of {was:.2} became {is:.2}").into());
                }
            }
        }
        println!(
            "{} {c}: {:.2}% wider, {} stems within {:.2}%, {} sides within {:.2}%, diagonals {:.1?} {:.1?}",
            face.id,
            100.0 * (now / width - 1.0),
            stems.len(),
            100.0 * worst(&stems),
            sides.len(),
            100.0 * worst(&sides),
            diagonals.0,
            diagonals.1,
        );
    }
    Ok(())
}

fn thicker(face: &Face) -> Result<(), Failed> {
    let opened = Opened::of(face)?;
    let lean = opened.context.slant.to_radians().tan();
    for c in THICKENED.chars() {
        for by in [-0.08, 0.08] {
            let (outline, tried) = opened.tried(c, Change::Weight(by, Which::All))?;
            let weight = |letter: &Letter| main_weight(&letter.strokes).unwrap_or(0.0);
            // The spine of an S is its main stroke, and neither upright nor level;
            // of the others the uprights are.
            let (was, is) = if c == 'S' {
                (weight(&tried.before), weight(&tried.after))
            } else {
                let mut all = uprights(&outline, &tried, lean, StrokeKind::Stem);
                if all.is_empty() {
                    all = uprights(&outline, &tried, lean, StrokeKind::Curve);
                }
                if all.is_empty() {
                    return Err(format!("{c}: no upright stroke was read").into());
                }
                let sum = |of: fn(&(f64, f64)) -> f64| all.iter().map(of).sum::<f64>();
                (sum(|u| u.0), sum(|u| u.1))
            };
            let reached = is / was - 1.0;
            if (reached - by).abs() > 0.1 * by.abs() {
                return Err(format!("{c}: {:.2}% thicker", 100.0 * reached).into());
            }
            let (was, is) = (outline.bounds(), tried.outline.bounds());
            let size = |b: Option<kurbo::Rect>| b.map_or((0.0, 0.0), |b| (b.width(), b.height()));
            let ((w, h), (x, y)) = (size(was), size(is));
            if (w - x).abs() > 0.01 || (h - y).abs() > 0.01 {
                return Err(format!("{c}: {w:.2} by {h:.2} became {x:.2} by {y:.2}").into());
            }
            println!("{} {c}: {:.2}% thicker", face.id, 100.0 * reached);
        }
    }
    Ok(())
}

fn further(face: &Face) -> Result<(), Failed> {
    let opened = Opened::of(face)?;
    let by = 0.01 * opened.context.units_per_em;
    for c in "OS".chars() {
        let (outline, tried) = opened.tried(c, Change::Reach { top: by, foot: by })?;
        let (was, is) = (outline.bounds(), tried.outline.bounds());
        let (was, is) = was.zip(is).ok_or("no ink")?;
        if (is.y1 - was.y1 - by).abs() > 0.01 || (was.y0 - is.y0 - by).abs() > 0.01 {
            return Err(format!("{c}: {was:?} became {is:?}").into());
        }
        let level = |letter: &Letter| -> Vec<f64> {
            let marks = letter.strokes.iter().flat_map(|s| &s.marks);
            let mut all: Vec<(f64, f64)> = marks
                .filter(|m| m.runs_level(0.0))
                .map(|m| (m.centre().y, m.value))
                .collect();
            all.sort_by(|a, b| a.0.total_cmp(&b.0));
            all.iter().map(|m| m.1).collect()
        };
        let (was, is) = (level(&tried.before), level(&tried.after));
        let ends = |all: &[f64]| all.first().copied().zip(all.last().copied());
        let ((a, b), (x, y)) = ends(&was).zip(ends(&is)).ok_or("no level strokes")?;
        if (x / a - 1.0).abs() > STEM || (y / b - 1.0).abs() > STEM {
            return Err(format!("{c}: {was:.2?} became {is:.2?}").into());
        }
    }
    Ok(())
}
