//! What fontTools says of a font, computed by `reference/figures.py` and read here.

use crate::client::ClientError;
use crate::fetch::sha256;
use crate::{place, python};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;
use std::fmt;
use std::fs;
use std::path::Path;

/// Why there are no figures.
#[derive(Debug)]
pub enum FiguresError {
    /// The script could not be run.
    Client(ClientError),
    /// What it printed is not what it should print.
    Answer(String),
}

impl fmt::Display for FiguresError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Client(e) => write!(f, "the reference figures cannot be computed: {e}"),
            Self::Answer(said) => write!(f, "the reference figures cannot be read: {said}"),
        }
    }
}

impl std::error::Error for FiguresError {}

impl From<ClientError> for FiguresError {
    fn from(e: ClientError) -> Self {
        Self::Client(e)
    }
}

/// One glyph's figures; lengths in font units, `None` where it has no ink.
#[derive(Debug, Clone, Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct Glyph {
    /// Advance width.
    pub advance: f64,
    /// White before the ink.
    pub left_bearing: Option<f64>,
    /// White after the ink.
    pub right_bearing: Option<f64>,
    /// Left, foot, right and top of the ink.
    pub bounds: Option<[f64; 4]>,
    /// Area by Green's theorem, anticlockwise positive, overlaps counted twice.
    pub signed_area: f64,
    /// Area that the fill covers, overlaps counted once.
    pub filled_area: f64,
}

/// Every glyph of a font.
#[derive(Debug, Clone, Deserialize)]
pub struct Glyphs {
    /// In the font's order.
    pub glyphs: Vec<Glyph>,
}

/// One stem as rays find it.
#[derive(Debug, Clone, Copy, Deserialize)]
pub struct Stem {
    /// Median thickness, perpendicular.
    pub median: f64,
    /// Median thickness along the level rays.
    pub level: f64,
    /// Distance between the quartiles of the thickness.
    pub spread: f64,
    /// Lean from the vertical, degrees, right positive.
    pub lean: f64,
    /// Distance between the quartiles of the lean, degrees.
    pub turn: f64,
    /// Where the stem stands.
    pub x: f64,
}

impl Stem {
    /// Whether the stem is straight: its edges keep their distance and direction.
    /// A stem that swells or bends has no one thickness to hold another measure
    /// to within half a unit.
    pub fn is_straight(&self) -> bool {
        self.spread <= 0.5 && self.turn <= 0.5
    }
}

/// Values of the CFF private dictionary.
#[derive(Debug, Clone, Deserialize)]
#[allow(non_snake_case, reason = "the names of the CFF specification")]
pub struct Private {
    /// The dominant upright stem.
    pub StdVW: Option<f64>,
    /// The dominant level stem.
    pub StdHW: Option<f64>,
}

/// What a font declares.
#[derive(Debug, Clone, Deserialize)]
#[serde(rename_all = "camelCase")]
pub struct Declared {
    /// Units per em.
    pub units_per_em: f64,
    /// Number of glyphs.
    pub glyph_count: u32,
    /// OS/2 sxHeight.
    pub x_height: Option<f64>,
    /// OS/2 sCapHeight.
    pub cap_height: Option<f64>,
    /// post.italicAngle, left of the vertical positive.
    pub italic_angle: Option<f64>,
    /// CFF's private values, those that hold for H.
    pub private: Option<Private>,
}

/// The stem letters of a font.
#[derive(Debug, Clone, Deserialize)]
pub struct Stems {
    /// What the font declares.
    pub declared: Declared,
    /// The stems of H, I, l and n from left to right; `None` where rays find none.
    pub stems: BTreeMap<char, Option<Vec<Stem>>>,
    /// Thickness of H's bar.
    pub crossbar: Option<f64>,
    /// Thickness of O and o at their left and right extremes.
    pub rounds: BTreeMap<char, Option<[f64; 2]>>,
}

/// Figures of every glyph of the font at `path`.
///
/// # Errors
/// If the script fails.
pub fn glyphs(path: &Path) -> Result<Glyphs, FiguresError> {
    ask("glyphs", path)
}

/// Figures of the stem letters of the font at `path`.
///
/// # Errors
/// If the script fails.
pub fn stems(path: &Path) -> Result<Stems, FiguresError> {
    ask("stems", path)
}

/// Runs the script, or reads what it said when font and scripts were the same:
/// some thousand glyphs take fontTools ten seconds.
fn ask<T: DeserializeOwned>(question: &str, path: &Path) -> Result<T, FiguresError> {
    python::set_up()?;
    let kept = place::target().join("reference-figures").join(format!(
        "{question}-{}.json",
        fingerprint(path).map_err(ClientError::from)?
    ));
    if let Some(answer) = fs::read(&kept)
        .ok()
        .and_then(|text| serde_json::from_slice(&text).ok())
    {
        return Ok(answer);
    }
    let text = python::script("figures.py", &[question, &path.to_string_lossy()])?;
    let answers: Vec<serde_json::Value> =
        serde_json::from_slice(&text).map_err(|e| FiguresError::Answer(e.to_string()))?;
    let answer = answers
        .into_iter()
        .next()
        .ok_or_else(|| FiguresError::Answer("it is empty".into()))?;
    if let Some(folder) = kept.parent() {
        fs::create_dir_all(folder).map_err(ClientError::from)?;
    }
    fs::write(&kept, answer.to_string()).map_err(ClientError::from)?;
    serde_json::from_value(answer).map_err(|e| FiguresError::Answer(e.to_string()))
}

/// Changes with the font, the scripts and their libraries.
fn fingerprint(path: &Path) -> std::io::Result<String> {
    let mut all = fs::read(path)?;
    let mut scripts: Vec<_> = fs::read_dir(place::reference())?
        .filter_map(|entry| entry.ok().map(|e| e.path()))
        .filter(|p| p.extension().is_some_and(|e| e == "py" || e == "txt"))
        .collect();
    scripts.sort();
    for script in scripts {
        all.extend(fs::read(script)?);
    }
    Ok(sha256(&all))
}
