//! Letters out of a scan, for the page.

use crate::boundary::{give, refuse};
use crate::named::named;
use counterpoise::font::loose::{Guides, place};
use counterpoise::outline::Outline;
use counterpoise_scan::decode::{Decoded, decode};
use counterpoise_scan::letters::{Scan, ScanLetter, read};
use counterpoise_scan::strokes::{LEAST_PIXELS, Run};
use counterpoise_scan::trace::beside;
use counterpoise_scan::{ScanError, straighten};
use kurbo::{Affine, BezPath};
use serde::Serialize;
#[cfg(feature = "typescript")]
use ts_rs::TS;
use wasm_bindgen::prelude::*;

/// How a stroke of a scan runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub enum ScanRun {
    /// Upright.
    Upright,
    /// Level.
    Level,
    /// Neither, or turning.
    Other,
}

/// A stroke of a scanned letter. Pixels of the straightened picture, y down.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct ScanStroke {
    /// How it runs.
    pub run: ScanRun,
    /// Its median thickness.
    pub thickness: f64,
    /// Where it is thickest.
    pub greatest: f64,
    /// Its length.
    pub length: f64,
    /// Across the ink in its middle, from edge to edge.
    pub across: [[f64; 2]; 2],
}

/// A scanned letter. Pixels of the straightened picture, y down.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct ScanLetterReport {
    /// Left, top, right and foot of its ink.
    pub bounds: [f64; 4],
    /// Its strokes, longest first.
    pub strokes: Vec<ScanStroke>,
}

/// A scan as it was read. Pixels of the straightened picture, y down.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[cfg_attr(feature = "typescript", derive(TS), ts(export))]
#[serde(rename_all = "camelCase")]
pub struct ScanReport {
    /// Columns.
    pub width: u32,
    /// Rows.
    pub height: u32,
    /// Own pixels of the file that one of these is, a side.
    pub reduced: u32,
    /// By how much it was turned back, degrees, clockwise positive.
    pub skew: f64,
    /// Where the baseline seems to be.
    pub baseline: f64,
    /// Where the letters seem to reach up to.
    pub top: f64,
    /// Its letters, from left to right.
    pub letters: Vec<ScanLetterReport>,
    /// Things to know, each a sentence.
    pub notes: Vec<String>,
}

fn throw(e: ScanError) -> JsValue {
    refuse(e.code(), &e)
}

/// A picture, opened and read.
#[wasm_bindgen]
#[derive(Debug)]
pub struct ScanSheet {
    decoded: Decoded,
    scan: Scan,
}

#[wasm_bindgen]
impl ScanSheet {
    /// Opens a PNG or JPEG file and reads its ink, its skew estimated.
    ///
    /// # Errors
    /// `{ code, sentence }` if it is none, too large, or without ink.
    #[wasm_bindgen(constructor)]
    pub fn open(bytes: &[u8]) -> Result<ScanSheet, JsValue> {
        let decoded = decode(bytes).map_err(throw)?;
        let scan = read(&decoded.grey, None).map_err(throw)?;
        Ok(Self { decoded, scan })
    }

    /// Reads it anew, straightened so that two points (pixels of the picture as
    /// it is straightened now, y down) lie level.
    ///
    /// # Errors
    /// `{ code, sentence }` if the ink is lost.
    pub fn straighten(&mut self, ax: f64, ay: f64, bx: f64, by: f64) -> Result<(), JsValue> {
        let more = straighten::by_points([ax, ay], [bx, by]).unwrap_or(0.0);
        let angle = Some(self.scan.skew + more);
        self.scan = read(&self.decoded.grey, angle).map_err(throw)?;
        Ok(())
    }

    /// What was read: a `ScanReport`.
    ///
    /// # Errors
    /// If the engine refuses to make the object.
    #[wasm_bindgen(unchecked_return_type = "ScanReport")]
    pub fn report(&self) -> Result<JsValue, JsValue> {
        let grey = &self.scan.levelled.grey;
        let down = |y: f64| grey.height as f64 - y;
        let letters: Vec<ScanLetterReport> = self
            .scan
            .letters
            .iter()
            .filter_map(|l| letter(l, grey.height as f64))
            .collect();
        let thin = |l: &ScanLetterReport| l.strokes.iter().any(|s| s.thickness < LEAST_PIXELS);
        let mut notes = Vec::new();
        if self.decoded.reduced > 1 {
            notes.push(format!(
                "The picture is large: it is read at 1 in {} of its size.",
                self.decoded.reduced
            ));
        }
        if letters.iter().any(thin) {
            notes.push(format!(
                "Some strokes are under {LEAST_PIXELS:.0} pixels thick, and told within a \
                 twentieth at best. Scan at more dots an inch to know them better."
            ));
        }
        give(&ScanReport {
            width: grey.width as u32,
            height: grey.height as u32,
            reduced: self.decoded.reduced,
            skew: self.scan.skew,
            baseline: down(self.scan.guides.baseline),
            top: down(self.scan.guides.height),
            letters,
            notes,
        })
    }

    /// The straightened, levelled picture, a byte a pixel, row after row.
    pub fn picture(&self) -> Vec<u8> {
        self.scan.levelled.grey.pixels.clone()
    }

    /// The letters' edges in font units, the guides (pixels, y down) being
    /// `capHeight` of them apart: a list of `LooseLetter`, named by the characters
    /// of `names` in order, those without one left out.
    ///
    /// # Errors
    /// `{ code, sentence }` if the guides lie in one place.
    #[wasm_bindgen(unchecked_return_type = "LooseLetter[]")]
    pub fn place(
        &self,
        names: &str,
        baseline: f64,
        top: f64,
        cap_height: f64,
    ) -> Result<JsValue, JsValue> {
        let up = |y: f64| self.scan.levelled.grey.height as f64 - y;
        let guides = Guides {
            baseline: up(baseline),
            height: up(top),
        };
        let outlines: Vec<Outline> = self
            .scan
            .letters
            .iter()
            .map(|l| l.outline.clone())
            .collect();
        let placed =
            place(&outlines, guides, cap_height).ok_or_else(|| throw(ScanError::NoHeight))?;
        give(&named(placed, names))
    }

    /// How far the ink's edge lies outside an outline traced over it. `path` is SVG
    /// path data in font units, y up; `pixelsPerUnit`, `x` and `y` lead from there
    /// to the straightened picture: where the origin stands, y down. Gives x, y and
    /// distance of each place in turn, font units; a distance that is not a number
    /// means that no edge is near.
    pub fn beside(
        &self,
        path: &str,
        pixels_per_unit: f64,
        x: f64,
        y: f64,
        step: f64,
        reach: f64,
    ) -> Vec<f64> {
        let Ok(path) = BezPath::from_svg(path) else {
            return Vec::new();
        };
        let map = Affine::translate((x, y))
            * Affine::scale_non_uniform(pixels_per_unit, -pixels_per_unit);
        beside(
            &self.scan.levelled,
            &Outline::from_path(&path),
            map,
            step,
            reach,
        )
        .iter()
        .flat_map(|b| [b.at.x, b.at.y, b.distance.unwrap_or(f64::NAN)])
        .collect()
    }
}

fn letter(letter: &ScanLetter, height: f64) -> Option<ScanLetterReport> {
    let b = letter.outline.bounds()?;
    Some(ScanLetterReport {
        bounds: [b.x0, height - b.y1, b.x1, height - b.y0],
        strokes: letter
            .strokes
            .iter()
            .map(|s| ScanStroke {
                run: match s.run {
                    Run::Upright => ScanRun::Upright,
                    Run::Level => ScanRun::Level,
                    Run::Other => ScanRun::Other,
                },
                thickness: s.thickness,
                greatest: s.greatest,
                length: s.length,
                across: s.across.map(|p| [p.x, p.y]),
            })
            .collect(),
    })
}
