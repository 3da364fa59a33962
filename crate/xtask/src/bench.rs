//! `cargo lab-bench`: times the lab, natively and in a browser, in one table.
//!
//! A benchmark is any program that prints lines of the form
//!
//! ```text
//! bench {"name":"stems, native","value":41.5,"unit":"us/glyph","of":"load","most":40}
//! ```
//!
//! `of` names another row of the same run, and the table then tells the ratio:
//! a figure alone says more of the computer than of the lab. `most` is the
//! greatest value that is allowed, or the greatest ratio where there is one.

use crate::workshop::Workshop;
use crate::{browser, place, run};
use anyhow::{Context, Result};
use serde::Deserialize;
use serde_json::Value;
use std::process::{Command, ExitCode};
use std::time::Duration;

const LIMIT: Duration = Duration::from_secs(30 * 60);
const MARK: &str = "bench {";

#[derive(Deserialize)]
struct Row {
    name: String,
    value: f64,
    unit: String,
    of: Option<String>,
    most: Option<f64>,
}

/// Runs every benchmark, and fails if one failed or a row is over what it may be.
pub(crate) fn run() -> Result<ExitCode> {
    let mut rows = Vec::new();
    let mut well = true;
    for mut command in commands()? {
        let ran = run::watch(&mut command, LIMIT)?;
        well &= ran.success;
        for line in ran.lines.iter().filter(|line| line.starts_with(MARK)) {
            let row = serde_json::from_str(line.trim_start_matches("bench "))
                .with_context(|| format!("not a benchmark's row: {line}"))?;
            rows.push(row);
        }
    }
    let (table, within) = table(&rows);
    println!("\n{table}");
    Ok(if well && within && !rows.is_empty() {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

fn commands() -> Result<Vec<Command>> {
    let mut commands = native()?;
    commands.push(browser::script(&Workshop::default(), "bench")?);
    Ok(commands)
}

/// One command for each `[[bench]]` of the workspace: a plain `cargo bench`
/// would run every unit test as well.
fn native() -> Result<Vec<Command>> {
    let mut metadata = run::cargo(&place::root());
    metadata.args(["metadata", "--no-deps", "--format-version", "1"]);
    let metadata = run::ask(&mut metadata).context("cargo could not list the workspace")?;
    let metadata: Value = serde_json::from_str(&metadata)?;
    let list = |value: &Value, name: &str| value[name].as_array().cloned().unwrap_or_default();
    let mut commands = Vec::new();
    for package in list(&metadata, "packages") {
        for target in list(&package, "targets") {
            let is_bench = list(&target, "kind").iter().any(|kind| kind == "bench");
            if let (true, Some(package), Some(bench)) =
                (is_bench, package["name"].as_str(), target["name"].as_str())
            {
                let mut command = run::cargo(&place::root());
                command.args(["bench", "--package", package, "--bench", bench]);
                commands.push(command);
            }
        }
    }
    Ok(commands)
}

/// The table, and whether every row is within what it may be.
fn table(rows: &[Row]) -> (String, bool) {
    let width = rows
        .iter()
        .map(|row| row.name.chars().count())
        .max()
        .unwrap_or(0)
        .max(4);
    let mut text = format!("{:<width$}{:>12}  unit", "name", "value");
    let mut within = true;
    for row in rows {
        text += &format!("\n{:<width$}{:>12.3}  {}", row.name, row.value, row.unit);
        let mut judged = row.value;
        if let Some(of) = &row.of {
            let base = rows.iter().find(|other| other.name == *of);
            judged = base.map_or(f64::NAN, |base| row.value / base.value);
            text += &format!(", {judged:.2} times `{of}`");
        }
        if let Some(most) = row.most {
            // Not `>`: a figure that is no number is not within anything.
            let fine = judged <= most;
            within &= fine;
            let word = if fine { "at most" } else { "OVER" };
            text += &format!(" ({word} {most})");
        }
    }
    (text, within)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(lines: &[&str]) -> Vec<Row> {
        lines
            .iter()
            .map(|line| serde_json::from_str(line).unwrap())
            .collect()
    }

    #[test]
    fn ratios_and_limits() {
        let base = r#"{"name":"load","value":2.0,"unit":"us"}"#;
        let (text, within) = table(&rows(&[
            base,
            r#"{"name":"stems","value":50,"unit":"us","of":"load","most":40}"#,
        ]));
        assert!(
            within && text.contains("25.00 times `load` (at most 40)"),
            "{text}"
        );
        let (text, within) = table(&rows(&[
            base,
            r#"{"name":"stems","value":90,"unit":"us","of":"load","most":40}"#,
        ]));
        assert!(!within && text.contains("(OVER 40)"), "{text}");
        let (_, within) = table(&rows(&[
            r#"{"name":"stems","value":1,"unit":"us","of":"not there","most":40}"#,
        ]));
        assert!(!within, "a ratio to nothing is not within a limit");
    }
}
