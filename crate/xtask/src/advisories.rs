//! What may come in from outside: licences, sources and known advisories.
//!
//! The lists of advisories are kept by others and change from day to day. Where
//! they cannot be reached, or the tool that reads them is not here, that is said
//! and counted as skipped: it is neither a pass nor a fault of the project.

use crate::count::Tally;
use crate::{node, place, run};
use anyhow::Result;
use serde_json::Value;
use std::path::Path;
use std::process::Command;

/// Asks `cargo deny` of the crates and `npm audit` of the packages.
pub(crate) fn check() -> Result<Tally> {
    let mut tally = crates();
    for folder in [place::www(), place::browser_tests()] {
        tally += packages(&folder);
    }
    Ok(tally)
}

fn crates() -> Tally {
    if run::ask(deny().arg("--version")).is_none() {
        println!(
            "cargo-deny is not here: licences, sources and advisories of the crates are not read."
        );
        return skipped(2);
    }
    let mut tally = ran(deny().args(["check", "bans", "licenses", "sources"]));
    if run::ask(deny().arg("fetch")).is_none() {
        println!("The database of advisories (RustSec) cannot be reached: it is not read.");
        tally += skipped(1);
    } else {
        tally += ran(deny().args(["check", "advisories"]));
    }
    tally
}

fn deny() -> Command {
    let mut command = run::cargo(&place::root());
    command.args(["deny", "--config", ".cargo/deny.toml"]);
    command
}

fn ran(command: &mut Command) -> Tally {
    Tally::of(run::run(command).map(|()| Tally::DONE))
}

fn packages(folder: &Path) -> Tally {
    // It answers with a report whether or not there is anything in it.
    let said = node::npm(folder).args(["audit", "--json"]).output();
    let report = said.map(|said| String::from_utf8_lossy(&said.stdout).into_owned());
    match vulnerabilities(&report.unwrap_or_default()) {
        Some(0) => Tally::DONE,
        Some(found) => {
            println!("npm audit names {found} in {}.", folder.display());
            Tally::default().of_run(false)
        }
        None => {
            println!(
                "The registry does not answer npm audit: the packages' advisories are not read."
            );
            skipped(1)
        }
    }
}

/// How many an audit's report counts; `None` if it is none.
fn vulnerabilities(report: &str) -> Option<u64> {
    let report: Value = serde_json::from_str(report).ok()?;
    report
        .pointer("/metadata/vulnerabilities/total")
        .and_then(Value::as_u64)
}

fn skipped(count: u64) -> Tally {
    Tally {
        skipped: count,
        ..Tally::default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // The two forms of npm 11's answer, cut to what is read of them.
    #[test]
    fn a_report_is_told_from_a_refusal() {
        let report = |total: u64| {
            format!(
                r#"{{"auditReportVersion":2,"metadata":{{"vulnerabilities":{{"high":{total},"total":{total}}}}}}}"#
            )
        };
        assert_eq!(vulnerabilities(&report(0)), Some(0));
        assert_eq!(vulnerabilities(&report(3)), Some(3));
        assert_eq!(
            vulnerabilities(r#"{"message":"405 Method Not Allowed","statusCode":405}"#),
            None
        );
        assert_eq!(vulnerabilities(""), None);
    }
}
