//! The lessons, their letters, and how far their sliders go.

/// A lesson's line holds no more characters than this: what one screen shows.
pub const MOST_CHARACTERS: usize = 12;

/// A lesson.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Lesson {
    /// Round and pointed letters pass the line.
    Overshoot,
    /// Bars are thinner than stems.
    Bars,
    /// The thick of a round beside a straight stem.
    Rounds,
    /// Strokes thin where they join.
    Joins,
    /// The upper half is smaller than the lower.
    Halves,
    /// Letters of many strokes.
    Many,
    /// The middle that is not the middle.
    Middle,
    /// Why side bearings differ by side.
    Bearings,
    /// Why kerning comes last.
    Kerning,
    /// Few points well placed against many.
    Points,
}

/// From where to where a lesson's slider goes: what is taken out, as a share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span {
    /// -1 where it can be doubled, else 0.
    pub least: f64,
    /// 1: all of it.
    pub most: f64,
}

impl Span {
    /// Keeps a number within; what is no number leaves the letter as drawn.
    pub fn clamp(self, out: f64) -> f64 {
        if out.is_finite() {
            out.clamp(self.least, self.most)
        } else {
            0.0
        }
    }
}

impl Lesson {
    /// Every lesson, in the order in which they are taught.
    pub const ALL: [Self; 10] = [
        Self::Overshoot,
        Self::Bars,
        Self::Rounds,
        Self::Joins,
        Self::Halves,
        Self::Many,
        Self::Middle,
        Self::Bearings,
        Self::Kerning,
        Self::Points,
    ];

    /// The letters that it changes; any other stands beside them as it is drawn.
    pub fn letters(self) -> &'static str {
        match self {
            Self::Overshoot => "ACGJMNOQSUVWXYZabcdeghmnopqrstuvwxyz",
            Self::Bars => "EFHLTefzt",
            // Letters whose uprights are curves alone: a stem in the letter itself
            // would be changed with them.
            Self::Rounds => "COQceo",
            Self::Joins => "hnmrubdpqa",
            Self::Halves => "BEHSaes38",
            Self::Middle => "HEBe",
            Self::Many => "MWmw&",
            Self::Bearings | Self::Kerning => "",
            Self::Points => "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789&",
        }
    }

    /// The line that shows it best, where no other is asked for.
    pub fn text(self) -> &'static str {
        match self {
            Self::Overshoot => "HOAn",
            Self::Bars => "HET",
            Self::Rounds => "IOlo",
            Self::Joins => "nhu",
            Self::Halves => "BES",
            Self::Many => "HWMn",
            Self::Middle => "HEe",
            Self::Bearings => "HOLAVE",
            Self::Kerning => "AVATAR",
            Self::Points => "Sae",
        }
    }

    /// How far the slider goes.
    pub fn span(self) -> Span {
        let least = match self {
            // Fewer points than were drawn, or a join thinner than it is, are other
            // lessons.
            Self::Joins | Self::Points => 0.0,
            _ => -1.0,
        };
        Span { least, most: 1.0 }
    }

    /// Whether it is about the letters' places and not their outlines.
    pub fn is_of_line(self) -> bool {
        matches!(self, Self::Bearings | Self::Kerning)
    }
}
