//! What fontTools says of a font, computed by `reference/figures.py` and read here.

use crate::client::ClientError;
use crate::fetch::sha256;
use crate::{place, python};
use serde::Deserialize;
use serde::de::DeserializeOwned;
use std::collections::BTreeMap;
use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

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
    one(ask("glyphs", &[path.to_owned()])?)
}

/// Figures of the stem letters of the font at `path`.
///
/// # Errors
/// If the script fails.
pub fn stems(path: &Path) -> Result<Stems, FiguresError> {
    one(stems_of(&[path.to_owned()])?)
}

/// Figures of the stem letters of many fonts, in their order.
///
/// # Errors
/// If the script fails.
pub fn stems_of(paths: &[PathBuf]) -> Result<Vec<Stems>, FiguresError> {
    ask("stems", paths)
}

fn one<T>(answers: Vec<T>) -> Result<T, FiguresError> {
    let first = answers.into_iter().next();
    first.ok_or_else(|| FiguresError::Answer("it is empty".into()))
}

/// Runs the script over those fonts of which it has not yet said anything since
/// font or scripts last changed: some thousand glyphs take fontTools ten seconds.
fn ask<T: DeserializeOwned>(question: &str, paths: &[PathBuf]) -> Result<Vec<T>, FiguresError> {
    python::set_up()?;
    let folder = place::target().join("reference-figures");
    fs::create_dir_all(&folder).map_err(ClientError::from)?;
    let mut kept = Vec::new();
    for path in paths {
        let name = format!(
            "{question}-{}.json",
            fingerprint(path).map_err(ClientError::from)?
        );
        kept.push(folder.join(name));
    }
    let fresh: Vec<usize> = (0..paths.len()).filter(|&i| !kept[i].exists()).collect();
    if !fresh.is_empty() {
        let names: Vec<String> = fresh
            .iter()
            .map(|&i| paths[i].to_string_lossy().into())
            .collect();
        let mut arguments = vec![question];
        arguments.extend(names.iter().map(String::as_str));
        let text = python::script("figures.py", &arguments)?;
        let answers: Vec<serde_json::Value> = read(&text)?;
        if answers.len() != fresh.len() {
            return Err(FiguresError::Answer(format!("{} answers", answers.len())));
        }
        for (&i, answer) in fresh.iter().zip(answers) {
            // Written beside and renamed: a check that runs at the same time
            // must not read half an answer.
            let part = kept[i].with_extension(format!("{}.part", std::process::id()));
            fs::write(&part, answer.to_string())
                .and_then(|()| fs::rename(&part, &kept[i]))
                .map_err(ClientError::from)?;
        }
    }
    kept.iter()
        .map(|file| read(&fs::read(file).map_err(ClientError::from)?))
        .collect()
}

fn read<T: DeserializeOwned>(text: &[u8]) -> Result<T, FiguresError> {
    serde_json::from_slice(text).map_err(|e| FiguresError::Answer(e.to_string()))
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
