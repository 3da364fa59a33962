//! Whether figures agree, and which ones agree least.

use std::fmt;

/// How many disagreements are written out; the rest are counted.
const SHOWN: usize = 12;

/// Holds our figures against a reference's.
#[derive(Debug, Default)]
pub struct Comparison {
    compared: usize,
    worst: f64,
    differences: Vec<String>,
}

impl Comparison {
    /// Two figures must lie within `tolerance` of each other; where the
    /// reference has none, ours must have none.
    pub fn near(
        &mut self,
        what: impl fmt::Display,
        ours: Option<f64>,
        theirs: Option<f64>,
        tolerance: f64,
    ) {
        self.compared += 1;
        match (ours, theirs) {
            (None, None) => {}
            (Some(a), Some(b)) => {
                let off = (a - b).abs();
                // Written so that a figure that is no number never agrees.
                if off <= tolerance {
                    self.worst = self.worst.max(off);
                } else {
                    self.differences
                        .push(format!("{what}: ours {a}, reference {b}"));
                }
            }
            _ => self
                .differences
                .push(format!("{what}: ours {ours:?}, reference {theirs:?}")),
        }
    }

    /// Two texts or counts must be the same.
    pub fn same<T: PartialEq + fmt::Debug>(&mut self, what: impl fmt::Display, ours: T, theirs: T) {
        self.compared += 1;
        if ours != theirs {
            self.differences
                .push(format!("{what}: ours {ours:?}, reference {theirs:?}"));
        }
    }

    /// Something did not come about that should have.
    pub fn fail(&mut self, what: impl fmt::Display) {
        self.compared += 1;
        self.differences.push(what.to_string());
    }

    /// How many figures were compared.
    pub fn compared(&self) -> usize {
        self.compared
    }

    /// The greatest difference among the figures that agree.
    pub fn worst(&self) -> f64 {
        self.worst
    }

    /// The verdict.
    ///
    /// # Errors
    /// If any figure disagrees, or if nothing was compared at all: a check that
    /// looked at nothing has not passed.
    pub fn verdict(&self) -> Result<(), Disagreement> {
        if self.compared > 0 && self.differences.is_empty() {
            return Ok(());
        }
        Err(Disagreement {
            compared: self.compared,
            differences: self.differences.clone(),
        })
    }
}

/// The figures that disagree.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Disagreement {
    compared: usize,
    differences: Vec<String>,
}

impl fmt::Display for Disagreement {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.compared == 0 {
            return f.write_str("nothing was compared");
        }
        writeln!(
            f,
            "{} of {} figures disagree:",
            self.differences.len(),
            self.compared
        )?;
        for difference in self.differences.iter().take(SHOWN) {
            writeln!(f, "  {difference}")?;
        }
        if self.differences.len() > SHOWN {
            writeln!(f, "  and {} more", self.differences.len() - SHOWN)?;
        }
        Ok(())
    }
}

impl std::error::Error for Disagreement {}

#[cfg(test)]
mod tests {
    use super::*;

    fn agrees(ours: Option<f64>, theirs: Option<f64>) -> bool {
        let mut c = Comparison::default();
        c.near("a figure", ours, theirs, 0.01);
        c.verdict().is_ok()
    }

    #[test]
    fn a_figure_within_the_tolerance_agrees() {
        assert!(agrees(Some(100.0), Some(100.0)));
        assert!(agrees(Some(100.009), Some(100.0)));
        assert!(agrees(None, None));
    }

    #[test]
    fn a_figure_past_the_tolerance_disagrees_either_way() {
        assert!(!agrees(Some(100.011), Some(100.0)));
        assert!(!agrees(Some(99.989), Some(100.0)));
    }

    #[test]
    fn a_figure_that_is_missing_or_no_number_disagrees() {
        assert!(!agrees(None, Some(0.0)));
        assert!(!agrees(Some(0.0), None));
        assert!(!agrees(Some(f64::NAN), Some(0.0)));
        assert!(!agrees(Some(f64::NAN), Some(f64::NAN)));
    }

    #[test]
    fn comparing_nothing_is_no_pass() {
        assert!(Comparison::default().verdict().is_err());
    }

    #[test]
    fn one_disagreement_among_many_fails_and_is_named() {
        let mut c = Comparison::default();
        for i in 0..100 {
            c.near(
                format!("figure {i}"),
                Some(f64::from(i)),
                Some(f64::from(i)),
                0.0,
            );
        }
        c.same("count", 3, 4);
        let said = c.verdict().unwrap_err().to_string();
        assert!(
            said.contains("1 of 101") && said.contains("count: ours 3, reference 4"),
            "{said}"
        );
    }
}
