//! Stems against what the faces declare: CFF's StdVW and StdHW.
//!
//! StdVW is the dominant width of a face's upright stems, StdHW of its level
//! ones (Adobe Technical Note 5176, Private DICT). Most makers give the stem of
//! the capitals or of the lower case, so a face agrees if either does. Who is
//! wrong where they differ is told by the reference scan, which measures the
//! same outlines without our code.

use crate::figures::{self, FiguresError, Stems};
use crate::manifest::{self, Use};
use crate::stems;
use counterpoise::font::{Font, Reader};
use counterpoise::measure::strokes::{Stroke, StrokeKind};
use counterpoise::measure::{self, Context};
use std::error::Error;
use std::fmt;

mod table;

pub use table::{summary, table};

/// A stem agrees with the declared width within this share of it, or within
/// [`UNITS`], whichever is more.
pub const SHARE: f64 = 0.02;

/// See [`SHARE`]; font units.
pub const UNITS: f64 = 2.0;

/// The share of upright faces that must agree.
pub const BAR: f64 = 0.85;

/// The fewest upright faces that make a panel.
pub const FEWEST: usize = 60;

/// Level strokes shorter than this share of the letter's width are serifs.
const LONG: f64 = 0.25;

/// A face is slanted if its stems lean more than this, degrees.
const SLANTED: f64 = 2.0;

/// Our figure and the scan's are the same within this, font units.
const SAME: f64 = 0.5;

/// Why a face's stems and its StdVW differ.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Reason {
    /// Its stems swell, bend or are not there.
    NoStraightStems,
    /// It is the thickness of the round letters' sides.
    Rounds,
    /// It fits neither stems nor rounds: carried over from another face, or never set.
    Stale,
    /// Our stems are not the scan's: ours to mend.
    Ours,
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::NoStraightStems => "no straight stems",
            Self::Rounds => "declares the rounds' sides",
            Self::Stale => "stale: fits neither stems nor rounds",
            Self::Ours => "ours to mend",
        })
    }
}

/// What was measured and declared of one face. Font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// The face's name in the checks.
    pub id: String,
    /// Its package.
    pub package: String,
    /// Whether its stems lean.
    pub slanted: bool,
    /// The declared upright stem.
    pub std_vw: f64,
    /// The declared level stem.
    pub std_hw: Option<f64>,
    /// Our stem of H and I.
    pub capital: Option<f64>,
    /// Our stem of l and n.
    pub lower: Option<f64>,
    /// Our bar of H.
    pub bar: Option<f64>,
    /// The scan's stem of H and I.
    pub scan_capital: Option<f64>,
    /// The scan's stem of l and n.
    pub scan_lower: Option<f64>,
    /// Why StdVW and stems differ; `None` if they agree.
    pub miss: Option<Reason>,
}

impl Row {
    /// Whether H's bar agrees with StdHW; `None` if either is missing.
    pub fn bar_agrees(&self) -> Option<bool> {
        Some(agrees(self.bar?, self.std_hw.filter(|&w| w > 0.0)?))
    }
}

/// Whether a thickness agrees with a declared one.
pub fn agrees(measured: f64, declared: f64) -> bool {
    (measured - declared).abs() <= UNITS.max(SHARE * declared)
}

/// The share of these rows whose stems agree with StdVW.
pub fn share<'a>(rows: impl Iterator<Item = &'a Row> + Clone) -> f64 {
    let all = rows.clone().count().max(1);
    rows.filter(|r| r.miss.is_none()).count() as f64 / all as f64
}

/// Measures every face of the panel.
///
/// # Errors
/// If a font cannot be read or the reference scan cannot be run.
pub fn rows() -> Result<Vec<Row>, Box<dyn Error + Send + Sync>> {
    let faces = manifest::faces_for(Use::Panel)?;
    let paths: Vec<_> = faces.iter().map(|(_, face)| face.path()).collect();
    let scans: Vec<Stems> = figures::stems_of(&paths).map_err(Box::<FiguresError>::new)?;
    let mut rows = Vec::new();
    for ((package, face), scan) in faces.into_iter().zip(scans) {
        let font = Font::open(std::fs::read(face.path())?)?;
        // A face of initials or of keys has no lower case to measure.
        let reader = font.reader();
        if "HIln".chars().any(|c| reader.glyph(c).is_none()) {
            continue;
        }
        if let Some(row) = row(&face.id, &package.name, &font, &scan) {
            rows.push(row);
        }
    }
    Ok(rows)
}

fn row(id: &str, package: &str, font: &Font, scan: &Stems) -> Option<Row> {
    let private = scan.declared.private.as_ref()?;
    let std_vw = private.StdVW.filter(|&w| w > 0.0)?;
    let (context, reader) = (Context::of(font), font.reader());
    let mut row = Row {
        id: id.into(),
        package: package.into(),
        slanted: lean(scan).is_some_and(|l| l.abs() > SLANTED),
        std_vw,
        std_hw: private.StdHW,
        capital: stem(&reader, &context, "HI"),
        lower: stem(&reader, &context, "ln"),
        bar: bar(&reader, &context),
        scan_capital: scanned(scan, "HI"),
        scan_lower: scanned(scan, "ln"),
        miss: None,
    };
    row.miss = reason(&row, scan, font, &context);
    Some(row)
}

fn reason(row: &Row, scan: &Stems, font: &Font, context: &Context) -> Option<Reason> {
    let fits = |v: Option<f64>| v.is_some_and(|v| agrees(v, row.std_vw));
    if fits(row.capital) || fits(row.lower) {
        return None;
    }
    let reader = font.reader();
    let mut straight = false;
    for (&c, found) in &scan.stems {
        let letter = reader
            .glyph(c)
            .and_then(|g| measure::letter(&reader, g, context).ok());
        for stem in found.iter().flatten().filter(|s| s.is_straight()) {
            straight = true;
            let ours = letter.as_ref().and_then(|l| stems::beside(l, stem));
            if !ours.is_some_and(|s| (s.median - stem.median).abs() <= SAME) {
                return Some(Reason::Ours);
            }
        }
    }
    let mut rounds = scan.rounds.values().flatten().flatten();
    if rounds.any(|&side| agrees(side, row.std_vw)) {
        return Some(Reason::Rounds);
    }
    Some(if straight {
        Reason::Stale
    } else {
        Reason::NoStraightStems
    })
}

/// Our median stem over some letters.
fn stem(reader: &Reader<'_>, context: &Context, letters: &str) -> Option<f64> {
    let mut found = Vec::new();
    for c in letters.chars() {
        let letter = measure::letter(reader, reader.glyph(c)?, context).ok()?;
        found.extend(stems::long_stems(&letter).map(|s| s.median));
    }
    median(found)
}

/// Our bar of H.
fn bar(reader: &Reader<'_>, context: &Context) -> Option<f64> {
    let letter = measure::letter(reader, reader.glyph('H')?, context).ok()?;
    let (width, height) = letter.bounds.map(|b| (b.width(), b.height()))?;
    // Serifs are level too: the bar is the one in the middle of the height.
    let middle = |s: &&Stroke| {
        let y = s.axis.iter().map(|p| p.y).sum::<f64>() / s.axis.len().max(1) as f64;
        (0.25 * height..0.75 * height).contains(&y)
    };
    let bars = letter.strokes.iter().filter(|s| s.kind == StrokeKind::Bar);
    median(
        bars.filter(|s| s.length >= LONG * width)
            .filter(middle)
            .map(|s| s.median)
            .collect(),
    )
}

fn scanned(scan: &Stems, letters: &str) -> Option<f64> {
    let stems = letters
        .chars()
        .filter_map(|c| scan.stems.get(&c))
        .flatten()
        .flatten();
    median(stems.map(|s| s.median).collect())
}

fn lean(scan: &Stems) -> Option<f64> {
    median(
        scan.stems
            .values()
            .flatten()
            .flatten()
            .map(|s| s.lean)
            .collect(),
    )
}

fn median(mut values: Vec<f64>) -> Option<f64> {
    values.sort_unstable_by(f64::total_cmp);
    let n = values.len();
    let upper = *values.get(n / 2)?;
    Some(if n % 2 == 1 {
        upper
    } else {
        0.5 * (upper + values[n / 2 - 1])
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_stem_agrees_within_two_units_or_two_hundredths() {
        assert!(agrees(52.0, 50.0) && !agrees(52.1, 50.0));
        assert!(agrees(204.0, 200.0) && !agrees(204.1, 200.0));
        assert!(!agrees(f64::NAN, 50.0));
    }

    #[test]
    fn the_median_of_none_is_none() {
        assert_eq!(median(Vec::new()), None);
        assert_eq!(median(vec![3.0, 1.0]), Some(2.0));
    }
}
