//! A font's spacing: what stands out, and what is suggested.

use crate::arguments::{Form, Letters, Spacing};
use crate::open;
use crate::words::plain;
use counterpoise::report::SpacingDocument;
use std::io::{self, Write};
use unicode_normalization::char::decompose_canonical;

/// The letters read where none are named: the alphabet, and the signs that stand
/// next to it in any text. Figures stand in columns, which kerning would break
/// (common practice, no source).
const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz.,:;-!?";

/// Suggestions told at most; the document and the feature file hold all.
const MOST: usize = 40;

/// A tolerance where none is given, as a share of the em; the page's own.
const TOLERANCE: f64 = 0.01;

/// Reads a font's spacing.
///
/// # Errors
/// A sentence if it cannot be opened, or holds none of the letters.
pub(crate) fn read(asked: &Spacing) -> Result<SpacingDocument, String> {
    let path = asked.path.display();
    let opened = open::open(&asked.path, asked.face, &Letters::Basic)
        .map_err(|e| format!("{path}: {}", e.sentence))?;
    let letters = asked.letters.as_deref().unwrap_or(LETTERS);
    let em = f64::from(opened.font.units_per_em());
    let tolerance = asked.tolerance.unwrap_or(TOLERANCE * em);
    SpacingDocument::of(&opened.font, letters, tolerance, &bases(letters))
        .ok_or_else(|| format!("{path}: The spacing of this font could not be read."))
}

/// Of accented letters, which letter each is made of (Unicode's canonical
/// decomposition).
fn bases(letters: &str) -> Vec<(char, char)> {
    let base = |c| {
        let mut first = None;
        decompose_canonical(c, |part| first = first.or(Some(part)));
        Some((c, first.filter(|&first| first != c)?))
    };
    letters.chars().filter_map(base).collect()
}

/// Writes what was read.
///
/// # Errors
/// If `out` cannot be written to.
pub(crate) fn write(document: &SpacingDocument, form: Form, out: &mut dyn Write) -> io::Result<()> {
    match form {
        Form::Json { pretty: true } => serde_json::to_writer_pretty(&mut *out, document)?,
        Form::Json { pretty: false } => serde_json::to_writer(&mut *out, document)?,
        Form::Features => return out.write_all(document.suggestion.feature_file.as_bytes()),
        Form::Told => return told(document, out),
    }
    writeln!(out)
}

fn told(document: &SpacingDocument, out: &mut dyn Write) -> io::Result<()> {
    let SpacingDocument {
        spacing,
        suggestion,
        ..
    } = document;
    if spacing.findings.is_empty() {
        writeln!(out, "No kerning stands out.")?;
    }
    for finding in &spacing.findings {
        writeln!(out, "{}", plain(&finding.sentence))?;
    }
    for note in &spacing.kerning.notes {
        writeln!(out, "{}", plain(note))?;
    }
    writeln!(out)?;
    writeln!(
        out,
        "Suggested: {} bearings first, then {} kerns, to bring every pair within {:.0} units; {} of {} pairs are left.",
        suggestion.bearings.len(),
        suggestion.kerns.len(),
        suggestion.tolerance,
        suggestion.left,
        suggestion.asked,
    )?;
    for bearing in suggestion.bearings.iter().take(MOST) {
        let side = if bearing.right { "right" } else { "left" };
        writeln!(
            out,
            "  {} {side} bearing {:.0}, better {:.0}",
            plain(&bearing.character),
            // Nought is not minus nought.
            bearing.is.round() + 0.0,
            bearing.suggested.round() + 0.0
        )?;
    }
    for kern in suggestion.kerns.iter().take(MOST) {
        writeln!(
            out,
            "  {} before {}: {:+}",
            plain(&kern.firsts.concat()),
            plain(&kern.seconds.concat()),
            kern.apart
        )?;
    }
    let more = suggestion.kerns.len().saturating_sub(MOST);
    if more > 0 {
        writeln!(out, "  and {more} more: --features writes them all")?;
    }
    Ok(())
}
