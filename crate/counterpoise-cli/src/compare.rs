//! Two revisions of a font, held against each other.

use crate::arguments::{Compare, Letters, Shape};
use crate::open::{self, Opened};
use crate::words::plain;
use counterpoise::judge::{Meant, Table};
use counterpoise::report::{
    ChangeKind, CompareReport, FatedFinding, FindingFate, GlyphEntry, JudgedBy, LetterChange,
    Revision,
};
use std::io::{self, Write};
use std::path::Path;

/// At this strictness a sound alphabet has one letter named by mistake.
const FALSE_ALARMS: f64 = 1.0;

/// Letters named on one line.
const NAMED: usize = 40;

/// Holds the two files against each other.
///
/// # Errors
/// A sentence of the first that cannot be opened.
pub(crate) fn compare(asked: &Compare) -> Result<CompareReport, String> {
    let (old, new) = (
        opened(&asked.old, asked.face)?,
        opened(&asked.new, asked.face)?,
    );
    let table = Table::shipped();
    let meant = Meant::nothing();
    let judged_by = table.as_ref().map(|table| JudgedBy {
        table,
        false_alarms: FALSE_ALARMS,
        meant: &meant,
    });
    Ok(CompareReport::of(revision(&old), revision(&new), judged_by))
}

fn opened(path: &Path, face: u32) -> Result<Opened, String> {
    open::open(path, face, &Letters::Basic)
        .map_err(|e| format!("{}: {}", path.display(), e.sentence))
}

fn revision(opened: &Opened) -> Revision<'_> {
    Revision {
        font: &opened.font,
        alphabet: &opened.alphabet,
    }
}

/// Writes what changed.
///
/// # Errors
/// If `out` cannot be written to.
pub(crate) fn write(report: &CompareReport, shape: Shape, out: &mut dyn Write) -> io::Result<()> {
    match shape {
        Shape::Table => told(report, out),
        Shape::Json { pretty } => {
            if pretty {
                serde_json::to_writer_pretty(&mut *out, report)?;
            } else {
                serde_json::to_writer(&mut *out, report)?;
            }
            writeln!(out)
        }
    }
}

fn told(report: &CompareReport, out: &mut dyn Write) -> io::Result<()> {
    let of = |kind| report.changed.iter().filter(move |c| c.kind == kind);
    writeln!(
        out,
        "{} letters changed, {} came, {} went, {} are the same.",
        report.changed.len(),
        report.added.len(),
        report.gone.len(),
        report.same
    )?;
    for change in of(ChangeKind::Shape) {
        writeln!(out, "  {}", moved(change))?;
    }
    for (kind, said) in [
        (ChangeKind::Spacing, "Spacing alone"),
        (ChangeKind::Points, "Points alone"),
        (ChangeKind::Trouble, "Readable in one revision alone"),
    ] {
        row(out, said, of(kind).map(|c| &c.new))?;
    }
    row(out, "Came", report.added.iter())?;
    row(out, "Went", report.gone.iter())?;
    for finding in &report.findings {
        writeln!(out, "{}", fate(finding))?;
    }
    for note in &report.notes {
        writeln!(out, "{}", plain(note))?;
    }
    Ok(())
}

fn moved(change: &LetterChange) -> String {
    let by = match change.greatest {
        Some(units) => format!("moved by up to {units:.1} units"),
        None => "ink came or went".to_owned(),
    };
    let advance = change.figures.iter().find(|f| f.id == "advance");
    let advance = advance
        .and_then(|f| f.old.zip(f.new))
        .filter(|(a, b)| a != b);
    let advance = advance.map_or(String::new(), |(a, b)| {
        format!("; advance width {a:.0}, now {b:.0}")
    });
    format!("{}: {by}{advance}", name(&change.new))
}

fn row<'a>(
    out: &mut dyn Write,
    said: &str,
    entries: impl Iterator<Item = &'a GlyphEntry>,
) -> io::Result<()> {
    let names: Vec<String> = entries.map(name).collect();
    if names.is_empty() {
        return Ok(());
    }
    let more = names.len().saturating_sub(NAMED);
    let shown = names[..names.len() - more].join(" ");
    if more > 0 {
        writeln!(out, "{said}: {shown} and {more} more")
    } else {
        writeln!(out, "{said}: {shown}")
    }
}

fn name(entry: &GlyphEntry) -> String {
    let visible = |c: &&String| !c.chars().any(|c| c.is_control() || c.is_whitespace());
    match (entry.character.as_ref().filter(visible), &entry.name) {
        (Some(c), _) => plain(c),
        (None, Some(name)) => plain(name),
        (None, None) => format!("glyph {}", entry.glyph),
    }
}

fn fate(finding: &FatedFinding) -> String {
    let word = match finding.fate {
        FindingFate::Settled => "settled",
        FindingFate::Better => "better",
        FindingFate::Same => "the same",
        FindingFate::Worse => "worse",
        FindingFate::New => "new",
    };
    // A settled finding is told as it was; the others as they are.
    let told = match finding.fate {
        FindingFate::Settled => finding.old.as_ref().or(finding.new.as_ref()),
        _ => finding.new.as_ref().or(finding.old.as_ref()),
    };
    format!("{word}: {}", told.map_or("", |f| f.sentence.as_str()))
}
