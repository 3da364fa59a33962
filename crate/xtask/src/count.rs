//! Counts tests in what their runners say at the end.

use anyhow::Result;
use serde_json::Value;
use std::ops::AddAssign;

/// How many tests passed, failed and were skipped.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct Tally {
    pub(crate) passed: u64,
    pub(crate) failed: u64,
    pub(crate) skipped: u64,
}

impl Tally {
    /// A check that is one thing, done.
    pub(crate) const DONE: Self = Self {
        passed: 1,
        failed: 0,
        skipped: 0,
    };

    /// What a check came to; one that could not be done has failed, and says why.
    pub(crate) fn of(result: Result<Self>) -> Self {
        result.unwrap_or_else(|error| {
            println!("{error:#}");
            Self::default().of_run(false)
        })
    }

    /// A runner's count, made honest: one that ended badly without naming a
    /// failed test failed all the same (it did not compile, or crashed), and so
    /// did one that ran no test.
    pub(crate) fn of_run(mut self, success: bool) -> Self {
        if self.failed == 0 && (!success || self.passed == 0) {
            self.failed = 1;
        }
        self
    }
}

impl AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.passed += other.passed;
        self.failed += other.failed;
        self.skipped += other.skipped;
    }
}

/// Adds up the closing lines of `cargo test`, one for each test program.
pub(crate) fn cargo_test(lines: &[String]) -> Tally {
    let mut tally = Tally::default();
    for line in lines {
        let line = plain(line);
        let Some(counts) = line.strip_prefix("test result: ") else {
            continue;
        };
        for part in counts.split([';', '.']) {
            add(&mut tally, part.trim(), ["passed", "failed", "ignored"]);
        }
    }
    tally
}

fn add(tally: &mut Tally, part: &str, [passed, failed, skipped]: [&str; 3]) {
    let Some((number, word)) = part.split_once(' ') else {
        return;
    };
    let Ok(number) = number.parse::<u64>() else {
        return;
    };
    match word {
        w if w == passed => tally.passed += number,
        w if w == failed => tally.failed += number,
        w if w == skipped => tally.skipped += number,
        _ => {}
    }
}

/// Reads the closing lines of Node's test runner, in either of its two forms.
pub(crate) fn node_test(lines: &[String]) -> Tally {
    let mut tally = Tally::default();
    for line in lines {
        let line = plain(line);
        let Some(line) = line.strip_prefix("# ").or(line.strip_prefix("ℹ ")) else {
            continue;
        };
        let Some((word, number)) = line.split_once(' ') else {
            continue;
        };
        let Ok(number) = number.parse::<u64>() else {
            continue;
        };
        match word {
            "pass" => tally.passed += number,
            "fail" | "cancelled" => tally.failed += number,
            "skipped" | "todo" => tally.skipped += number,
            _ => {}
        }
    }
    tally
}

/// Reads the report that vitest writes as JSON.
pub(crate) fn vitest(report: &str) -> Option<Tally> {
    let report: Value = serde_json::from_str(report).ok()?;
    let number = |name: &str| report.get(name)?.as_u64();
    Some(Tally {
        passed: number("numPassedTests")?,
        failed: number("numFailedTests")?,
        skipped: number("numPendingTests")? + number("numTodoTests").unwrap_or(0),
    })
}

/// A line without the colours that it carries for terminals.
fn plain(line: &str) -> String {
    let mut text = String::with_capacity(line.len());
    let mut rest = line;
    while let Some((before, after)) = rest.split_once('\u{1b}') {
        text.push_str(before);
        rest = after.split_once('m').map_or("", |(_, rest)| rest);
    }
    text.push_str(rest);
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<String> {
        text.lines().map(str::to_owned).collect()
    }

    fn tally(passed: u64, failed: u64, skipped: u64) -> Tally {
        Tally {
            passed,
            failed,
            skipped,
        }
    }

    #[test]
    fn cargo_sums_over_programs() {
        let said = lines(
            "running 3 tests\n\
             test result: ok. 3 passed; 0 failed; 1 ignored; 0 measured; 0 filtered out; finished in 0.01s\n\
             test result: \u{1b}[31mFAILED\u{1b}[0m. 2 passed; 4 failed; 0 ignored; 0 measured; 9 filtered out\n\
             I said: 7 passed; 7 failed",
        );
        assert_eq!(cargo_test(&said), tally(5, 4, 1));
    }

    #[test]
    fn node_in_both_forms() {
        let flat =
            "# tests 4\n# suites 1\n# pass 2\n# fail 1\n# cancelled 1\n# skipped 1\n# todo 0";
        assert_eq!(node_test(&lines(flat)), tally(2, 2, 1));
        let drawn = flat
            .replace('#', "\u{1b}[34mℹ")
            .replace('\n', "\u{1b}[39m\n");
        assert_eq!(node_test(&lines(&drawn)), tally(2, 2, 1));
    }

    #[test]
    fn vitest_report() {
        let report = r#"{"numTotalTests":6,"numPassedTests":3,"numFailedTests":1,
            "numPendingTests":1,"numTodoTests":1}"#;
        assert_eq!(vitest(report), Some(tally(3, 1, 2)));
        assert_eq!(vitest("{}"), None);
    }

    #[test]
    fn a_bad_end_is_never_a_pass() {
        assert_eq!(tally(3, 0, 0).of_run(true), tally(3, 0, 0));
        assert_eq!(tally(3, 0, 0).of_run(false), tally(3, 1, 0), "crashed");
        assert_eq!(tally(3, 2, 0).of_run(false), tally(3, 2, 0));
        assert_eq!(tally(0, 0, 0).of_run(true), tally(0, 1, 0), "ran nothing");
    }
}
