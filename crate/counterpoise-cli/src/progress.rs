//! How far the work is, on one line that is written over and over: on a terminal
//! alone, and not where the result itself appears.

use std::cell::Cell;
use std::io::{self, IsTerminal, Write};
use std::time::{Duration, Instant};

/// Told more often than this, it flickers.
const PAUSE: Duration = Duration::from_millis(100);

/// Back to the start of the line, and wipe it (ECMA-48: erase in line).
const WIPE: &str = "\r\x1b[K";

/// The line.
#[derive(Debug)]
pub(crate) struct Progress {
    wanted: bool,
    told: Cell<Option<Instant>>,
}

impl Progress {
    /// A line on standard error, if that is a terminal and `elsewhere` is true of
    /// the result.
    pub(crate) fn new(elsewhere: bool) -> Self {
        Self {
            wanted: elsewhere && io::stderr().is_terminal(),
            told: Cell::new(None),
        }
    }

    /// Tells how far the work is, unless that was told a moment ago. Short enough
    /// for a narrow terminal: a line that wraps could not be written over.
    pub(crate) fn tell(&self, line: &dyn Fn() -> String) {
        if self.wanted && self.told.get().is_none_or(|t| t.elapsed() >= PAUSE) {
            self.told.set(Some(Instant::now()));
            let _ = write!(io::stderr(), "{WIPE}{}", line());
        }
    }

    /// Wipes the line, for something else to be said in its place.
    pub(crate) fn clear(&self) {
        if self.told.take().is_some() {
            let _ = write!(io::stderr(), "{WIPE}");
        }
    }
}
