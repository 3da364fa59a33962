//! What may be the matter with a letter: each cause moves several traits at
//! once, in proportions of its own, and is told from the others by them.

use super::traits::Trait;

/// One thing that may be the matter.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Cause {
    /// The letter is wide or narrow, its strokes being as they should.
    Width,
    /// Its strokes are thick or thin.
    Strokes,
    /// Its upright strokes alone are.
    Uprights,
    /// Its level strokes alone are.
    Levels,
    /// It passes its lines by too much or too little.
    Overshoot,
    /// White on its left.
    Left,
    /// White on its right.
    Right,
    /// Its stems are not a pair.
    Pair,
    /// It stands high or low on the line.
    Raised,
}

impl Cause {
    /// Every cause.
    pub const ALL: [Self; 9] = [
        Self::Width,
        Self::Strokes,
        Self::Uprights,
        Self::Levels,
        Self::Overshoot,
        Self::Left,
        Self::Right,
        Self::Pair,
        Self::Raised,
    ];

    /// How far the cause moves a trait, for one unit of it, where that is known
    /// without trying: the unit is the cap height, outward positive. `None` of
    /// causes whose effect depends on the letter's shape and is learned.
    pub fn known_effect(self, of: Trait) -> Option<f64> {
        let top = matches!(of, Trait::TopFlat | Trait::TopRound | Trait::TopPointed);
        let foot = matches!(of, Trait::FootFlat | Trait::FootRound | Trait::FootPointed);
        let yes = |is: bool| if is { 1.0 } else { 0.0 };
        match self {
            Self::Overshoot => Some(yes(top || foot)),
            Self::Raised => Some(yes(top) - yes(foot)),
            Self::Left => Some(yes(of == Trait::Left)),
            Self::Right => Some(yes(of == Trait::Right)),
            Self::Width | Self::Strokes | Self::Uprights | Self::Levels | Self::Pair => None,
        }
    }

    /// Whether its size is a ratio (its natural logarithm), not a length.
    pub fn is_ratio(self) -> bool {
        self.known_effect(Trait::Width).is_none()
    }

    /// Less than this is never seen. Ratios: 2.5%, what is just noticed in a
    /// length (Weber's fraction, 2% to 3%: textbook value, from memory). Shares
    /// of the cap height: 0.4% of a height, the smallest overshoot that open
    /// faces commonly draw, and 0.8% of a white (common practice, no source).
    pub fn least_seen(self) -> f64 {
        match self {
            Self::Overshoot | Self::Raised => 0.004,
            Self::Left | Self::Right => 0.008,
            _ => 0.025,
        }
    }
}
