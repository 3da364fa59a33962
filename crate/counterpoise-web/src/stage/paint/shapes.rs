//! Paths in font units, made once for each glyph.

use super::turn::Turn;
use super::{Picture, refit};
use crate::stage::command::Within;
use counterpoise::report::{LetterReport, Point, Thickness};
use kurbo::Vec2;
use std::collections::HashMap;
use std::collections::hash_map::Entry;
use wasm_bindgen::JsValue;
use web_sys::Path2d;

/// Half the length of the bar at each end of a thickness mark, as a share of the em.
const TICK: f64 = 0.008;

/// The paths of one glyph.
#[derive(Debug)]
pub(super) struct Shape {
    /// Its outline.
    pub(super) outline: Path2d,
    /// The strokes' middle lines; made when first shown.
    pub(super) axes: Option<Path2d>,
    /// The marks of the strokes' thickness; made with them.
    pub(super) marks: Option<Path2d>,
}

/// The paths of every glyph shown so far.
#[derive(Debug, Default)]
pub(super) struct Shapes {
    glyphs: HashMap<u16, Shape>,
    /// `None` of a glyph without ink.
    refits: HashMap<(u16, Within), Option<Path2d>>,
}

impl Shapes {
    /// Makes what a picture needs and is not there yet.
    pub(super) fn learn(&mut self, picture: &Picture<'_>) -> Result<(), JsValue> {
        let strokes = picture.setting.layers.strokes && picture.setting.blur == 0.0;
        let reading = !picture.setting.reading.is_empty();
        let all = 0..picture.standings.len();
        // The reading rows show letters that the view does not.
        let needed: Vec<usize> = if reading {
            all.collect()
        } else {
            picture.seen.clone()
        };
        for i in needed {
            let s = &picture.standings[i];
            let (Some(glyph), Some(sort)) = (s.item.glyph, &s.sort) else {
                continue;
            };
            if sort.outline.is_empty() {
                continue;
            }
            let shape = match self.glyphs.entry(glyph) {
                Entry::Occupied(known) => known.into_mut(),
                Entry::Vacant(new) => {
                    let path = sort.outline.to_bez_path().to_svg();
                    new.insert(Shape {
                        outline: Path2d::new_with_path_string(&path)?,
                        axes: None,
                        marks: None,
                    })
                }
            };
            if strokes
                && shape.axes.is_none()
                && let Some(report) = picture.sorts.measured(glyph)
            {
                shape.axes = Some(axes(&report)?);
                shape.marks = Some(marks(&report, TICK * picture.sorts.units_per_em())?);
            }
        }
        Ok(())
    }

    /// The paths of a glyph; `None` for one without ink.
    pub(super) fn get(&self, glyph: Option<u16>) -> Option<&Shape> {
        self.glyphs.get(&glyph?)
    }

    /// Whether refits are still to be made for a picture.
    pub(super) fn lack_refits(&self, picture: &Picture<'_>) -> bool {
        refit_glyphs(picture).any(|glyph| !self.refits.contains_key(&glyph))
    }

    /// Makes the refits that a picture needs, as far as this turn goes.
    pub(super) fn learn_refits(
        &mut self,
        picture: &Picture<'_>,
        turn: Turn,
    ) -> Result<(), JsValue> {
        for glyph in refit_glyphs(picture) {
            if let Entry::Vacant(new) = self.refits.entry(glyph) {
                if turn.is_over() {
                    break;
                }
                let redrawn = picture.sorts.redraw(glyph.0, glyph.1);
                let path = redrawn.map(|r| Path2d::new_with_path_string(&r.path.to_svg()));
                new.insert(path.transpose()?);
            }
        }
        Ok(())
    }

    /// The refit of a glyph, if it has been made.
    pub(super) fn refit(&self, glyph: u16, within: Within) -> Option<&Path2d> {
        self.refits.get(&(glyph, within))?.as_ref()
    }
}

/// The glyphs whose refit a picture shows.
fn refit_glyphs(picture: &Picture<'_>) -> impl Iterator<Item = (u16, Within)> {
    let (shown, within) = (refit::is_shown(picture), picture.setting.refit_within);
    let glyphs = picture.letters().filter_map(|s| s.item.glyph);
    glyphs
        .filter(move |_| shown)
        .map(move |glyph| (glyph, within))
}

fn axes(report: &LetterReport) -> Result<Path2d, JsValue> {
    let path = Path2d::new()?;
    for stroke in &report.strokes {
        polyline(&path, &stroke.axis);
    }
    Ok(path)
}

fn marks(report: &LetterReport, tick: f64) -> Result<Path2d, JsValue> {
    let path = Path2d::new()?;
    for mark in report.strokes.iter().flat_map(|s| &s.marks) {
        bar(&path, mark, tick);
    }
    Ok(path)
}

/// A line from edge to edge with a short bar across each end.
fn bar(path: &Path2d, mark: &Thickness, tick: f64) {
    let (a, b) = (mark.from, mark.to);
    polyline(path, &[a, b]);
    let way = Vec2::new(b[0] - a[0], b[1] - a[1]);
    let length = way.hypot();
    if length <= 0.0 {
        return;
    }
    let across = way.turn_90() * (tick / length);
    for [x, y] in [a, b] {
        let ends = [[x - across.x, y - across.y], [x + across.x, y + across.y]];
        polyline(path, &ends);
    }
}

fn polyline(path: &Path2d, points: &[Point]) {
    for (i, p) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(p[0], p[1]);
        } else {
            path.line_to(p[0], p[1]);
        }
    }
}
