//! `cargo lab-trial`: tries the judgement on faults planted in open families
//! that it has never seen. `cargo lab-trial fit` fits the model anew first;
//! `cargo lab-trial tune` tries a choice on a fifth of the families to be fitted,
//! fitted without them, so that no choice is made on those of the trial.
//!
//! | file | question it answers |
//! |---|---|
//! | `families` | which open families, and which bytes exactly? |
//! | `corpus` | how do they get here, and what do they measure? |
//! | `fault`, `warp`, `embolden` | what is done to a letter? |
//! | `fit` | how do letters relate? |
//! | `learn` | what does the model leave unsaid, and how does each cause show? |
//! | `middle` | what is the middle of many values? |
//! | `limit` | how far do good designs themselves differ? |
//! | `trial`, `plain` | how often is a fault found, and would a plain rule have? |
//! | `report` | where is it written? |
#![expect(
    clippy::print_stderr,
    reason = "a command-line tool speaks to a terminal"
)]

mod corpus;
mod families;
mod fault;
mod fit;
mod learn;
mod limit;
mod middle;
mod plain;
mod report;
mod spacing;
mod spacing_fit;
mod spacing_report;
mod specimen;
mod trial;

use anyhow::{Context, Result, bail};
use counterpoise::judge::{read_table, write_table};
use families::{Part, lot};
use specimen::Specimen;
use std::fs;
use std::path::Path;
use trial::Trial;

/// Factors of build, strokes and heights: with fewer, faults are found less
/// well; with more, no better. Told on families of the fitted part, fitted
/// without them.
const FACTORS: [usize; 3] = [44, 50, 16];

/// Rounds of fitting.
const ROUNDS: usize = 15;

/// What faults do to letters is learned on every so many families.
const EVERY: u32 = 5;

fn main() -> Result<()> {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    let file = here.join("../counterpoise/src/judge/table/learned.bin");
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    match arguments.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        [] => {}
        ["fit"] => {
            eprintln!("measuring the families to fit");
            let faces = corpus::measure(Part::Fit, |f| lot(&f.name).is_multiple_of(EVERY))?;
            eprintln!("fitting {} faces", faces.len());
            let table = learn::learn(&faces.iter().collect::<Vec<_>>(), FACTORS, ROUNDS);
            fs::write(&file, write_table(&table))?;
            eprintln!("wrote the table: {} bytes", fs::metadata(file)?.len());
            return Ok(());
        }
        ["spacing"] => return spacing::run(here),
        ["spacing", "fit"] => return spacing_fit::run(here),
        ["tune"] => {
            eprintln!("measuring the families to fit");
            let faces = corpus::measure(Part::Fit, |f| {
                lot(&f.name).is_multiple_of(EVERY) || held_back(&f.name)
            })?;
            let (held, fitted): (Vec<Specimen>, Vec<Specimen>) =
                faces.into_iter().partition(|f| held_back(&f.family));
            eprintln!("fitting {} faces, trying {}", fitted.len(), held.len());
            let table = learn::learn(&fitted.iter().collect::<Vec<_>>(), FACTORS, ROUNDS);
            tell(&trial::run(&table, &held));
            return Ok(());
        }
        _ => {
            bail!("cargo lab-trial takes no argument, or `fit`, `tune`, `spacing` or `spacing fit`")
        }
    }
    let table = read_table(&fs::read(&file)?).context("learned.bin is no table; fit anew")?;
    eprintln!("measuring the families for trial, faults planted");
    let faces = corpus::measure(Part::Trial, |_| true)?;
    eprintln!("trying {} faces", faces.len());
    let trial = trial::run(&table, &faces);
    report::write(&trial, here)?;
    tell(&trial);
    Ok(())
}

/// Whether a family of the fitted part is held back while a choice is tried.
fn held_back(family: &str) -> bool {
    lot(family) % EVERY == 3
}

fn tell(trial: &Trial) {
    for o in trial.faults.iter().chain(&trial.figures) {
        eprintln!(
            "{:30} {:>5.2}  AUC {:.3}  recall {:.3}  first three {:.3}  plain {:.3}",
            o.fault, o.size, o.auc, o.recall, o.top3, o.plain_auc
        );
    }
}
