//! `counterpoise`: the lab's measures over files and folders.
//!
//! | file | question it answers |
//! |---|---|
//! | [`arguments`], [`help`] | what was asked for? |
//! | [`walk`] | which files are meant? |
//! | [`open`] | what font is in this file? |
//! | [`run`] | each font, each letter, in order, whatever fails on the way |
//! | [`parallel`] | the same work on all processors |
//! | [`json`], [`table`], [`words`] | how is it written? |
//! | [`compare`] | what changed between two revisions? |
//! | [`spacing`] | what spacing stands out, and what is suggested? |
//! | [`output`], [`progress`] | where to? |
//!
//! The document itself is the library's: [`counterpoise::report::Document`].

mod arguments;
mod compare;
mod guard;
mod help;
mod json;
mod open;
mod output;
mod parallel;
mod progress;
mod run;
mod spacing;
mod table;
mod walk;
mod words;

use arguments::{Command, Measure, Shape};
use output::NotWritten;
use run::Run;
use std::fmt::Display;
use std::io::{self, Write};
use std::path::Path;
use std::process::ExitCode;

/// All was measured.
const DONE: u8 = 0;
/// Something could not be read; the rest was measured.
const INCOMPLETE: u8 = 1;
/// The arguments cannot be followed; nothing was done.
const WRONG_ARGUMENTS: u8 = 2;
/// What was measured could not be written.
const NOT_WRITTEN: u8 = 3;

fn main() -> ExitCode {
    let code = match arguments::read(lexopt::Parser::from_env()) {
        Ok(Command::Tell(text)) => {
            written(output::write(None, |out| out.write_all(text.as_bytes())))
        }
        Ok(Command::Schema { of, output }) => written(output::write(output.as_deref(), |out| {
            json::write_schema(of, out)
        })),
        Ok(Command::Spacing(asked)) => spacing(&asked),
        Ok(Command::Measure(asked)) => measure(&asked),
        Ok(Command::Compare(asked)) => compare(&asked),
        Err(e) => {
            say(&format!("{e}\n{}", help::POINTER));
            WRONG_ARGUMENTS
        }
    };
    ExitCode::from(code)
}

fn measure(asked: &Measure) -> u8 {
    let found: Vec<_> = asked.paths.iter().flat_map(|p| walk::fonts(p)).collect();
    let fonts: Vec<&Path> = found.iter().map(|f| f.path()).collect();
    if would_be_lost(
        asked.output.as_deref(),
        &fonts,
        "one of the fonts to measure",
    ) {
        return WRONG_ARGUMENTS;
    }
    let run = Run::new(asked, found);
    let result = output::write(asked.output.as_deref(), |out| match asked.shape {
        Shape::Table => table::write(&run, out),
        Shape::Json { pretty } => json::write(&run, pretty, out),
    });
    run.progress().clear();
    match written(result) {
        DONE if run.is_incomplete() => INCOMPLETE,
        code => code,
    }
}

fn compare(asked: &arguments::Compare) -> u8 {
    let output = asked.output.as_deref();
    if would_be_lost(
        output,
        &[&asked.old, &asked.new],
        "one of the fonts to compare",
    ) {
        return WRONG_ARGUMENTS;
    }
    read_and_written(compare::compare(asked), output, |report, out| {
        compare::write(report, asked.shape, out)
    })
}

fn spacing(asked: &arguments::Spacing) -> u8 {
    let output = asked.output.as_deref();
    if would_be_lost(output, &[&asked.path], "the font to read") {
        return WRONG_ARGUMENTS;
    }
    read_and_written(spacing::read(asked), output, |document, out| {
        spacing::write(document, asked.form, out)
    })
}

/// Writes what was read of a font, or says why it could not be.
fn read_and_written<T>(
    read: Result<T, String>,
    output: Option<&Path>,
    write: impl FnOnce(&T, &mut dyn Write) -> io::Result<()>,
) -> u8 {
    match read {
        Ok(read) => written(output::write(output, |out| write(&read, out))),
        Err(sentence) => {
            say(&words::plain(&sentence));
            INCOMPLETE
        }
    }
}

/// Whether writing would put an end to a font that is to be read: says so then.
fn would_be_lost(output: Option<&Path>, fonts: &[&Path], what: &str) -> bool {
    let Some(output) = output.filter(|o| fonts.iter().any(|f| is_same_file(f, o))) else {
        return false;
    };
    say(&format!(
        "{} is {what}, and would be lost. Name another file to write to.",
        output.display()
    ));
    true
}

fn is_same_file(a: &Path, b: &Path) -> bool {
    match (a.canonicalize(), b.canonicalize()) {
        (Ok(a), Ok(b)) => a == b,
        _ => false,
    }
}

fn written(result: Result<(), NotWritten>) -> u8 {
    match result {
        Ok(()) => DONE,
        // Whoever read has seen enough.
        Err(e) if e.is_broken_pipe() => DONE,
        Err(e) => {
            say(&e);
            NOT_WRITTEN
        }
    }
}

/// Says something to the person at the terminal.
fn say(what: &dyn Display) {
    // Nobody is left to be told that this cannot be said.
    let _ = writeln!(io::stderr(), "{what}");
}
