//! Builds, serves, tests and times the lab.
//!
//! | command | what it does |
//! |---|---|
//! | `cargo lab` | builds the page, serves it to this computer alone, opens it |
//! | `cargo lab-test` | runs every check |
//! | `cargo lab-bench` | times the lab |
//! | `cargo xtask types`, `wasm`, `page` | make one part of the build, and what it needs |
//! | `cargo xtask size`, `tidy` | one check alone |
//! | `cargo xtask pictures` | take the README's pictures anew |
//!
//! Each does its own set-up, and skips what is already made from the same
//! sources. Nothing here is shipped.
#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command-line tool speaks to a terminal"
)]

mod advisories;
mod bench;
mod bindings;
mod browser;
mod budget;
mod count;
mod debian;
mod engine;
mod lab;
mod node;
mod page;
mod place;
mod replace;
mod run;
mod sample;
mod serve;
mod stamp;
mod target;
mod test;
mod tidy;
mod types;
mod wasm;
mod workshop;

use anyhow::{Result, bail};
use lexopt::{Arg, Parser, ValueExt};
use std::process::ExitCode;
use workshop::Workshop;

const HELP: &str = "\
cargo lab [--no-open] [--port N]   build the page, serve it on this computer, open it
cargo lab-test [--only STEP]       run every check, or one step of them
cargo lab-bench                    time the lab
cargo xtask types|wasm|page        make one part of the build
cargo xtask size|tidy              one check alone
cargo xtask pictures               take the README's pictures anew";

fn main() -> ExitCode {
    match command(Parser::from_env()) {
        Ok(code) => code,
        Err(error) => {
            eprintln!("{error:#}");
            if error.is::<lexopt::Error>() {
                eprintln!("The commands are:\n{HELP}");
            }
            ExitCode::FAILURE
        }
    }
}

fn command(mut arguments: Parser) -> Result<ExitCode> {
    let name = match arguments.next()? {
        None | Some(Arg::Short('h') | Arg::Long("help")) => "help".into(),
        Some(Arg::Value(name)) => name.string()?,
        Some(other) => return Err(other.unexpected().into()),
    };
    match name.as_str() {
        "lab" => lab::run(&lab::Options::read(&mut arguments)?),
        "test" => test::run(test::read_only(&mut arguments)?.as_deref()),
        "bench" => no_more(&mut arguments).and_then(|()| bench::run()),
        "types" => make(&mut arguments, Workshop::types),
        "wasm" => make(&mut arguments, Workshop::wasm),
        "page" => make(&mut arguments, Workshop::page),
        "pictures" => make(&mut arguments, browser::pictures),
        "size" => make(&mut arguments, budget::check),
        "tidy" => make(&mut arguments, |_| tidy::check()),
        "help" => {
            println!("{HELP}");
            Ok(ExitCode::SUCCESS)
        }
        other => bail!("There is no command `{other}`. The commands are:\n{HELP}"),
    }
}

fn make(arguments: &mut Parser, what: impl FnOnce(&Workshop) -> Result<()>) -> Result<ExitCode> {
    no_more(arguments)?;
    what(&Workshop::default())?;
    Ok(ExitCode::SUCCESS)
}

fn no_more(arguments: &mut Parser) -> Result<()> {
    match arguments.next()? {
        None => Ok(()),
        Some(other) => Err(other.unexpected().into()),
    }
}
