//! `cargo lab-test`: every check, one after another, then a table.

use crate::count::{self, Tally};
use crate::workshop::Workshop;
use crate::{advisories, browser, budget, node, place, run, tidy, types};
use anyhow::{Context, Result, bail};
use lexopt::{Arg, Parser, ValueExt};
use std::fs;
use std::process::{Command, ExitCode};
use std::time::{Duration, Instant};

/// A run that takes longer hangs: the longest takes half of it on two cores.
const LIMIT: Duration = Duration::from_secs(30 * 60);

type Check = fn(&Workshop) -> Result<Tally>;

/// The quick ones first, so that a slip is told soon.
const STEPS: [(&str, Check); 16] = [
    ("tidy", |_| one(tidy::check())),
    ("fmt", |_| one(format())),
    ("clippy", |_| one(clippy())),
    ("docs", |_| one(docs())),
    ("advisories", |_| advisories::check()),
    ("rust", |_| rust()),
    ("types", |shop| one(shop.types())),
    ("wasm", |shop| one(shop.wasm())),
    ("packages", |shop| one(shop.packages())),
    ("page-types", |shop| one(page_types(shop))),
    ("page-units", page_units),
    ("page", |shop| one(shop.page())),
    ("size", |shop| one(budget::check(shop))),
    ("browser", |shop| browser::test(shop, LIMIT)),
    ("firefox", |shop| browser::test_in_firefox(shop, LIMIT)),
    ("webkit", |shop| browser::test_in_webkit(shop, LIMIT)),
];

/// Reads `--only STEP`.
pub(crate) fn read_only(arguments: &mut Parser) -> Result<Option<String>> {
    let mut only = None;
    while let Some(argument) = arguments.next()? {
        match argument {
            Arg::Long("only") => only = Some(arguments.value()?.string()?),
            other => return Err(other.unexpected().into()),
        }
    }
    Ok(only)
}

/// Runs all steps, or one, to the end whatever fails on the way.
pub(crate) fn run(only: Option<&str>) -> Result<ExitCode> {
    let chosen: Vec<_> = STEPS
        .iter()
        .filter(|(name, _)| only.is_none_or(|only| only == *name))
        .collect();
    if chosen.is_empty() {
        bail!(
            "There is no step `{}`. The steps are: {}.",
            only.unwrap_or_default(),
            STEPS.map(|(name, _)| name).join(", ")
        );
    }

    let shop = Workshop::default();
    let mut table = Vec::new();
    let mut total = Tally::default();
    for (name, check) in chosen {
        println!("\n== {name}");
        let start = Instant::now();
        let tally = Tally::of(check(&shop));
        total += tally;
        table.push((name, tally, start.elapsed()));
    }

    println!(
        "\n{:<12}{:>8}{:>8}{:>9}{:>9}",
        "step", "passed", "failed", "skipped", "seconds"
    );
    for (name, tally, time) in table {
        println!(
            "{name:<12}{:>8}{:>8}{:>9}{:>9.1}",
            tally.passed,
            tally.failed,
            tally.skipped,
            time.as_secs_f64()
        );
    }
    println!("\n{} passed, {} failed", total.passed, total.failed);
    Ok(if total.failed == 0 {
        ExitCode::SUCCESS
    } else {
        ExitCode::FAILURE
    })
}

fn one(result: Result<()>) -> Result<Tally> {
    result.map(|()| Tally::DONE)
}

fn format() -> Result<()> {
    need_component("rustfmt", "fmt")?;
    run::run(run::cargo(&place::root()).args(["fmt", "--all", "--check"]))
}

/// The fuzz targets are a workspace of their own, which nothing else builds.
fn clippy() -> Result<()> {
    need_component("clippy", "clippy")?;
    let fuzz = place::root().join("tests").join("fuzz");
    for folder in [place::root(), fuzz] {
        let mut command = run::cargo(&folder);
        command.args(["clippy", "--workspace", "--all-targets"]);
        command.arg("--target-dir").arg(place::target());
        run::run(command.args(["--", "--deny", "warnings"]))?;
    }
    Ok(())
}

/// A minimal Rust lacks them; rustup brings them.
fn need_component(component: &str, command: &str) -> Result<()> {
    let there = || run::ask(run::cargo(&place::root()).args([command, "--version"])).is_some();
    if there() {
        return Ok(());
    }
    let mut add = Command::new("rustup");
    add.args(["component", "add", component]);
    if !(run::run_within(&mut add, Duration::from_secs(90)) && there()) {
        bail!("`cargo {command}` is missing. Run `rustup component add {component}`.");
    }
    Ok(())
}

fn docs() -> Result<()> {
    run::run(
        run::cargo(&place::root())
            .args(["doc", "--workspace", "--no-deps"])
            .env("RUSTDOCFLAGS", "--deny warnings"),
    )
}

/// The page's types are written on the way: a build of their own would take
/// minutes.
fn rust() -> Result<Tally> {
    let types = types::Begun::now()?;
    let mut command = run::cargo(&place::root());
    command.args(["test", "--workspace", "--no-fail-fast"]);
    command.args(["--features", types::FEATURES]);
    let ran = run::watch(&mut command, LIMIT)?;
    if ran.success {
        types.take()?;
    }
    Ok(count::cargo_test(&ran.lines).of_run(ran.success))
}

/// TypeScript's strict check, which needs the generated halves.
fn page_types(shop: &Workshop) -> Result<()> {
    shop.packages()?;
    shop.types()?;
    shop.wasm()?;
    run::run(node::npm(&place::www()).args(["run", "--silent", "check"]))
}

fn page_units(shop: &Workshop) -> Result<Tally> {
    shop.packages()?;
    shop.types()?;
    shop.wasm()?;
    let report = place::target().join("page-units.json");
    // An old report must not stand in for one that was not written.
    let _ = fs::remove_file(&report);
    let mut command = node::npm(&place::www());
    command
        .args(["test", "--silent", "--"])
        .args(["--reporter=default", "--reporter=json"])
        .arg(format!("--outputFile={}", report.display()));
    let ran = run::watch(&mut command, LIMIT)?;
    let report = fs::read_to_string(&report).context("the page's tests left no report")?;
    let tally = count::vitest(&report).context("the page's tests left no count")?;
    Ok(tally.of_run(ran.success))
}
