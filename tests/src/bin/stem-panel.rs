//! Measures the panel and writes its table, `reference/stem-panel.md`.

#![allow(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command speaks to its terminal"
)]

use counterpoise_checks::{fetch, panel, place};
use std::error::Error;
use std::process::ExitCode;

fn main() -> ExitCode {
    match write() {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(e) => {
            eprintln!("The table was not written: {e}");
            ExitCode::FAILURE
        }
    }
}

fn write() -> Result<String, Box<dyn Error + Send + Sync>> {
    // A table over part of the faces would look like the whole.
    if let Some(font) = fetch::fetch_all()?.into_iter().next() {
        return Err(font.into());
    }
    let rows = panel::rows()?;
    std::fs::write(
        place::reference().join("stem-panel.md"),
        panel::table(&rows),
    )?;
    Ok(panel::summary(&rows))
}
