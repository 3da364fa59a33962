//! `cargo lab`: the lab, built, served and open in a browser.

use crate::serve::Door;
use crate::workshop::Workshop;
use crate::{node, place};
use anyhow::{Context, Result};
use lexopt::{Arg, Parser, ValueExt};
use std::process::{Command, ExitCode, Stdio};

const PORT: u16 = 5870;

/// What the person asked for.
pub(crate) struct Options {
    open: bool,
    port: u16,
}

impl Options {
    /// Reads `--no-open` and `--port N`.
    pub(crate) fn read(arguments: &mut Parser) -> Result<Self> {
        let mut options = Self {
            open: true,
            port: PORT,
        };
        while let Some(argument) = arguments.next()? {
            match argument {
                Arg::Long("no-open") => options.open = false,
                Arg::Long("port") => {
                    let value = arguments.value()?.string()?;
                    options.port =
                        value
                            .parse()
                            .ok()
                            .filter(|port| *port > 0)
                            .with_context(|| {
                                format!("`{value}` is no port. A port is a number from 1 to 65535.")
                            })?;
                }
                other => return Err(other.unexpected().into()),
            }
        }
        Ok(options)
    }
}

/// Builds and serves the page until the person ends it.
pub(crate) fn run(options: &Options) -> Result<ExitCode> {
    // What can be told at once is told before the long build.
    node::check()?;
    let door = Door::at(options.port)?;
    Workshop::default().page()?;
    let address = door.address();
    println!("\nThe lab is open at {address}  (Ctrl-C closes it)");
    if options.open {
        open(&address);
    }
    door.serve(&place::dist())?;
    Ok(ExitCode::SUCCESS)
}

/// Opens the address where there is a desktop; elsewhere the printed address must do.
fn open(address: &str) {
    let mut command = if cfg!(windows) {
        let mut command = Command::new("cmd");
        command.args(["/c", "start", ""]);
        command
    } else if cfg!(target_os = "macos") {
        Command::new("open")
    } else if ["DISPLAY", "WAYLAND_DISPLAY"]
        .iter()
        .any(|name| std::env::var_os(name).is_some_and(|value| !value.is_empty()))
    {
        Command::new("xdg-open")
    } else {
        return;
    };
    let started = command
        .arg(address)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn();
    if started.is_err() {
        println!("No browser could be opened from here: open the address by hand.");
    }
}
