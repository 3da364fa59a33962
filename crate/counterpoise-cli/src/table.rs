//! The measures as a table for people.

use crate::run::{Line, Run};
use crate::words::{name, pad, plain};
use counterpoise::report::{FontEntry, FontReport, GuideKind};
use std::io::{self, Write};

/// A column of the table.
struct Column {
    /// The quantity's id in the registry.
    id: &'static str,
    heading: &'static str,
    decimals: usize,
    /// Whether a median over a whole case says something: that of heights, with
    /// and without ascender, does not.
    median: bool,
}

const fn column(id: &'static str, heading: &'static str, decimals: usize, median: bool) -> Column {
    Column {
        id,
        heading,
        decimals,
        median,
    }
}

const COLUMNS: [Column; 8] = [
    column("weight", "weight", 1, true),
    column("inkWidth", "width", 1, true),
    column("inkHeight", "height", 1, false),
    column("contrast", "contrast", 2, true),
    column("topOvershoot", "over top", 1, false),
    column("footOvershoot", "over foot", 1, false),
    column("leftBearing", "left", 1, true),
    column("rightBearing", "right", 1, true),
];

const LEGEND: &str = "\
Font units; the contrast is thick over thin. Over top, over foot: how far the
letter passes the line of the flat ones. Left, right: side bearings. A dash: the
letter has no such figure. `median` is of the font's own letters of that case.";

/// What stands where there is no figure.
const NONE: &str = "–";

/// Columns are at least this wide, and two wider than their heading.
const CELLS: usize = 8;

/// Room for a character, and for the longest of the medians' labels.
const CHARACTER: usize = 10;

/// Room for most glyphs' names.
const NAME: usize = 20;

/// Writes one table for each font of a run.
///
/// # Errors
/// If `out` cannot be written to.
pub(crate) fn write(run: &Run, out: &mut dyn Write) -> io::Result<()> {
    let mut tables = 0;
    run.each(|entry| {
        // A file that could not be opened is told of on standard error.
        let Some(font) = &entry.font else {
            return Ok(());
        };
        tables += 1;
        table(font, &entry, out)?;
        writeln!(out)
    })?;
    if tables > 0 {
        writeln!(out, "{LEGEND}")?;
    }
    Ok(())
}

fn table(font: &FontReport, entry: &FontEntry<Line<'_>>, out: &mut dyn Write) -> io::Result<()> {
    heading(font, &entry.file, out)?;
    let first = if entry.letters.has_nameless() {
        NAME
    } else {
        CHARACTER
    };
    let headings: Vec<String> = COLUMNS.iter().map(|c| cell(c.heading, c.heading)).collect();
    writeln!(out, "{}{}", pad("letter", first), headings.concat())?;
    entry.letters.each(|letter| {
        let name = pad(&name(letter), first);
        match &letter.trouble {
            Some(sentence) => writeln!(out, "{name}  {}", plain(sentence)),
            None => row(&name, |c| letter.figures.get(c.id).copied(), out),
        }
    })?;
    for (label, figures) in [
        ("median A–Z", &entry.figures.capitals),
        ("median a–z", &entry.figures.lower_case),
        ("median 0–9", &entry.figures.numerals),
    ] {
        if !figures.is_empty() {
            let median = |c: &Column| Some(figures.get(c.id).filter(|_| c.median)?.median);
            row(&pad(label, first), median, out)?;
        }
    }
    Ok(())
}

fn heading(font: &FontReport, file: &str, out: &mut dyn Write) -> io::Result<()> {
    let (family, style) = (plain(&font.family), plain(&font.style));
    writeln!(
        out,
        "{} ({})",
        format!("{family} {style}").trim(),
        plain(file)
    )?;
    write!(out, "{} units per em", font.units_per_em)?;
    for guide in &font.guides {
        let name = match guide.kind {
            GuideKind::XHeight => "x-height",
            GuideKind::CapHeight => "cap height",
            GuideKind::Ascender => "ascender",
            GuideKind::Descender => "descender",
            GuideKind::Baseline => continue,
        };
        if let Some(drawn) = guide.drawn {
            write!(out, ", {name} {}", number(drawn, 1))?;
        }
    }
    writeln!(out, ", slant {} degrees", number(font.slant, 1))
}

fn row(name: &str, figure: impl Fn(&Column) -> Option<f64>, out: &mut dyn Write) -> io::Result<()> {
    let cells = COLUMNS.iter().map(|c| {
        let figure = figure(c).map_or_else(|| NONE.to_owned(), |f| number(f, c.decimals));
        cell(c.heading, &figure)
    });
    writeln!(out, "{name}{}", cells.collect::<String>())
}

fn cell(heading: &str, text: &str) -> String {
    let cells = CELLS.max(heading.len() + 2);
    format!("{text:>cells$}")
}

/// A figure rounded, never `-0.0`.
fn number(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    match text.strip_prefix('-') {
        Some(rest) if rest.chars().all(|c| c == '0' || c == '.') => rest.to_owned(),
        _ => text,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use counterpoise::measure::QUANTITIES;

    #[test]
    fn every_column_is_of_a_quantity_that_there_is() {
        for Column { id, .. } in COLUMNS {
            assert!(QUANTITIES.iter().any(|q| q.id == id), "{id}");
        }
    }

    #[test]
    fn nought_has_no_sign() {
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(-0.06, 1), "-0.1");
        assert_eq!(number(-0.0, 2), "0.00");
        assert_eq!(number(1234.56, 1), "1234.6");
    }

    #[test]
    fn figures_stand_below_their_headings() {
        for Column { heading, .. } in COLUMNS {
            assert_eq!(cell(heading, "-1.5").len(), cell(heading, heading).len());
        }
    }
}
