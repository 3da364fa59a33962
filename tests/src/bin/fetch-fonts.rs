//! Fetches the open fonts that the checks measure; quick when all are here.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command speaks to its terminal"
)]

use counterpoise_checks::{fetch, manifest};
use std::process::ExitCode;

fn main() -> ExitCode {
    match fetch::fetch_all() {
        Ok(missing) => {
            let all = manifest::packages().map_or(0, |p| p.iter().map(|p| p.faces.len()).sum());
            println!(
                "{} of {all} fonts are in {}",
                all - missing.len(),
                fetch::folder().display()
            );
            for font in &missing {
                eprintln!("{font}");
            }
            if missing.is_empty() {
                ExitCode::SUCCESS
            } else {
                ExitCode::FAILURE
            }
        }
        Err(e) => {
            eprintln!("The fonts cannot be fetched: {e}");
            ExitCode::FAILURE
        }
    }
}
