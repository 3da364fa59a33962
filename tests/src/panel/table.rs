//! The panel as a table in words that a reader of the repository can check.

use super::{BAR, Reason, Row, share};
use std::collections::BTreeMap;
use std::fmt::Write;

/// The panel's result in one line.
pub fn summary(rows: &[Row]) -> String {
    let upright = rows.iter().filter(|r| !r.slanted);
    let slanted = rows.iter().filter(|r| r.slanted);
    format!(
        "Upright faces: {} ({}). Slanted faces: {} ({}).",
        count(upright.clone()),
        percent(share(upright)),
        count(slanted.clone()),
        percent(share(slanted)),
    )
}

fn count<'a>(rows: impl Iterator<Item = &'a Row> + Clone) -> String {
    let agree = rows.clone().filter(|r| r.miss.is_none()).count();
    format!("{agree} of {} agree with StdVW", rows.count())
}

fn percent(share: f64) -> String {
    format!("{:.1}%", 100.0 * share)
}

/// The whole table, as Markdown.
pub fn table(rows: &[Row]) -> String {
    let mut text = String::from(INTRODUCTION);
    let _ = writeln!(
        text,
        "\n{}\nThe bar, for the upright ones: {}.\n",
        summary(rows),
        percent(BAR)
    );
    bars(&mut text, rows);
    packages(&mut text, rows);
    for (slanted, title) in [(false, "Upright"), (true, "Slanted")] {
        misses(&mut text, rows, slanted, title);
    }
    all(&mut text, rows);
    text
}

const INTRODUCTION: &str = "\
# Stems against StdVW and StdHW

Written by `cargo run -p counterpoise-checks --bin stem-panel`; do not edit.

Every CFF face of the listed packages (`fonts.toml`) that declares StdVW and has H, I, l
and n. Capital is the median stem of H and I, lower of l and n, bar is H's; all as the
library measures them, perpendicular to the stroke, in font units. A face agrees if
capital or lower lies within 2% or 2 units of StdVW.

The bar holds for upright faces. A slanted stem has no upright edge to hint, and what
slanted faces declare is more often the sides of their rounds than any stem, whether
taken level or perpendicular; they are listed beside, not left out. On every miss the
reference scan has measured the same stems without the library's code: where the two
differ, the miss is called ours to mend.
";

fn bars(text: &mut String, rows: &[Row]) {
    for (slanted, which) in [(false, "upright"), (true, "slanted")] {
        let judged: Vec<bool> = rows
            .iter()
            .filter(|r| r.slanted == slanted)
            .filter_map(Row::bar_agrees)
            .collect();
        let agree = judged.iter().filter(|&&a| a).count();
        let _ = writeln!(
            text,
            "StdHW and the bar of H, {which}: {agree} of {} agree.",
            judged.len()
        );
    }
}

fn packages(text: &mut String, rows: &[Row]) {
    let mut by_package: BTreeMap<&str, [usize; 4]> = BTreeMap::new();
    for row in rows {
        let counts = by_package.entry(&row.package).or_default();
        let first = if row.slanted { 2 } else { 0 };
        counts[first] += usize::from(row.miss.is_none());
        counts[first + 1] += 1;
    }
    text.push_str("\n## By package\n\nFaces of one family are not independent of each other.\n\n");
    text.push_str("| package | upright | slanted |\n|---|---|---|\n");
    let of = |agree, all| {
        if all == 0 {
            "none".to_owned()
        } else {
            format!("{agree} of {all}")
        }
    };
    for (package, [a, b, c, d]) in &by_package {
        let _ = writeln!(text, "| {package} | {} | {} |", of(*a, *b), of(*c, *d));
    }
    let shares: Vec<f64> = by_package
        .values()
        .filter(|c| c[1] > 0)
        .map(|c| c[0] as f64 / c[1] as f64)
        .collect();
    let mean = shares.iter().sum::<f64>() / shares.len().max(1) as f64;
    let _ = writeln!(
        text,
        "\nEach package counted once, the upright share is {}.",
        percent(mean)
    );
}

fn misses(text: &mut String, rows: &[Row], slanted: bool, title: &str) {
    let missed: Vec<&Row> = rows
        .iter()
        .filter(|r| r.slanted == slanted && r.miss.is_some())
        .collect();
    let _ = writeln!(text, "\n## {title} faces that do not agree\n");
    for reason in [
        Reason::Ours,
        Reason::NoStraightStems,
        Reason::Rounds,
        Reason::Stale,
    ] {
        let n = missed.iter().filter(|r| r.miss == Some(reason)).count();
        let _ = writeln!(text, "- {reason}: {n}");
    }
    text.push_str("\n| face | StdVW | capital | lower | scan, capital | scan, lower | reason |\n|---|---|---|---|---|---|---|\n");
    for row in missed {
        let reason = row.miss.map(|m| m.to_string()).unwrap_or_default();
        let _ = writeln!(
            text,
            "| {} | {} | {} | {} | {} | {} | {reason} |",
            row.id,
            row.std_vw,
            figure(row.capital),
            figure(row.lower),
            figure(row.scan_capital),
            figure(row.scan_lower),
        );
    }
}

fn all(text: &mut String, rows: &[Row]) {
    text.push_str("\n## All faces\n\n| face | StdVW | capital | lower | StdHW | bar |\n|---|---|---|---|---|---|\n");
    for row in rows {
        let _ = writeln!(
            text,
            "| {} | {} | {} | {} | {} | {} |",
            row.id,
            row.std_vw,
            figure(row.capital),
            figure(row.lower),
            row.std_hw.map_or_else(|| "none".into(), |w| w.to_string()),
            figure(row.bar),
        );
    }
}

fn figure(value: Option<f64>) -> String {
    value.map_or_else(|| "none".into(), |v| format!("{v:.1}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(id: &str, slanted: bool, miss: Option<Reason>) -> Row {
        Row {
            id: id.into(),
            package: "fonts-one".into(),
            slanted,
            std_vw: 80.0,
            std_hw: Some(40.0),
            capital: Some(80.0),
            lower: None,
            bar: Some(50.0),
            scan_capital: Some(80.0),
            scan_lower: None,
            miss,
        }
    }

    #[test]
    fn a_miss_lowers_its_own_share_and_is_listed() {
        let rows = [
            row("a", false, None),
            row("b", false, Some(Reason::Stale)),
            row("c", true, None),
        ];
        assert!(
            summary(&rows).starts_with(
                "Upright faces: 1 of 2 agree with StdVW (50.0%). Slanted faces: 1 of 1"
            )
        );
        assert!(table(&rows).contains("| b | 80 | 80.0 | none | 80.0 | none | stale"));
    }
}
