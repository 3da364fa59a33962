//! How far a letter stands from its fellows.

/// What is held against the other letters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Measure {
    /// Thickness of the main stroke.
    Weight,
    /// Ink width.
    Width,
    /// Ink height.
    Height,
}

impl Measure {
    /// Every measure, in the order shown.
    pub const ALL: [Self; 3] = [Self::Weight, Self::Width, Self::Height];
}

/// How far a letter stands from the median of its class. Lengths in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Deviation {
    /// What was measured.
    pub measure: Measure,
    /// This letter's figure.
    pub value: f64,
    /// The median of its fellows.
    pub expected: f64,
    /// How far fellows commonly lie from that median: 1.4826 times the median
    /// absolute deviation, which is the standard deviation if they scatter
    /// normally.
    pub spread: f64,
    /// The fellows.
    pub class: String,
}

impl Deviation {
    /// The difference as a share of what was expected; 0 where that is 0.
    pub fn share(&self) -> f64 {
        if self.expected == 0.0 {
            0.0
        } else {
            (self.value - self.expected) / self.expected
        }
    }
}
