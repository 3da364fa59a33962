//! What the lab says of a letter that stands out.

use super::cause::Cause;

/// What the matter is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Matter {
    /// Something in how the letter is shaped or stands.
    Shape(Cause),
    /// It has more points than its shape needs.
    Points,
}

/// A letter that stands out, and by how much. Lengths in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Finding {
    /// The letter.
    pub letter: char,
    /// What is the matter.
    pub cause: Matter,
    /// The figure that tells it best.
    pub value: f64,
    /// What the other letters make one expect of it.
    pub expected: f64,
    /// How far letters of this font commonly lie from what is expected.
    pub spread: f64,
    /// How far off it is, in spreads.
    pub spreads: f64,
    /// How many letters of a sound alphabet would show as much.
    pub by_chance: f64,
    /// The letters that say most of what it should be.
    pub beside: String,
}

impl Finding {
    /// Measured less expected.
    pub fn difference(&self) -> f64 {
        self.value - self.expected
    }

    /// The figures that would sit with the others: within a spread of what is
    /// expected.
    pub fn would_sit(&self) -> (f64, f64) {
        (self.expected - self.spread, self.expected + self.spread)
    }

    /// The finding in a sentence for the artist.
    pub fn sentence(&self) -> String {
        let Self { letter, .. } = self;
        let by = units(self.difference().abs());
        let more = self.difference() > 0.0;
        let beside = listed(&self.beside);
        let value = number(self.value);
        let (low, high) = self.would_sit();
        let sit = if number(low) == number(high) {
            format!("{} would sit with them", number(low))
        } else {
            format!("{} to {} would sit with them", number(low), number(high))
        };
        let Matter::Shape(cause) = self.cause else {
            return format!(
                "{letter} is drawn with {value} points where the other letters' economy would \
                 take about {}: fewer, better placed, would draw the same shape.",
                number(self.expected)
            );
        };
        const THICK: [&str; 2] = ["thicker", "thinner"];
        const MUCH: [&str; 2] = ["more", "less"];
        let (head, words, tail) = match cause {
            Cause::Width => (format!("{letter} is"), ["wider", "narrower"], ""),
            Cause::Strokes => (format!("The strokes of {letter} are"), THICK, ""),
            Cause::Uprights => (format!("The upright strokes of {letter} are"), THICK, ""),
            Cause::Levels => (format!("The level strokes of {letter} are"), THICK, ""),
            Cause::Overshoot => (format!("{letter} passes its lines by"), MUCH, ""),
            Cause::Left => (format!("{letter} has"), MUCH, " white before it"),
            Cause::Right => (format!("{letter} has"), MUCH, " white after it"),
            Cause::Pair => (format!("The last stem of {letter} is"), THICK, ""),
            Cause::Raised => (format!("{letter} stands"), ["higher", "lower"], ""),
        };
        let word = if more { words[0] } else { words[1] };
        let than = match cause {
            Cause::Pair => format!("its first and {beside}"),
            _ => beside,
        };
        let one = cause != Cause::Pair && self.beside.chars().count() == 1;
        let suggest = if one { "suggests" } else { "suggest" };
        let said = format!("{head} about {by} {word}{tail} than {than} {suggest}");
        match cause {
            Cause::Width => format!("{said}: {value} wide; {sit}."),
            // Where on the line it stands is told by the difference alone.
            Cause::Raised => format!("{said}."),
            _ => format!("{said}: {value}; {sit}."),
        }
    }
}

fn number(v: f64) -> String {
    // Nought is not minus nought.
    format!("{:.0}", v.round() + 0.0).replace('-', "\u{2212}")
}

fn units(v: f64) -> String {
    match v.round() {
        1.0 => "1 unit".into(),
        v => format!("{v:.0} units"),
    }
}

/// "B, P and K".
fn listed(letters: &str) -> String {
    let all: Vec<String> = letters.chars().map(String::from).collect();
    match all.as_slice() {
        [] => "its fellows".into(),
        [one] => one.clone(),
        [head @ .., last] => format!("{} and {last}", head.join(", ")),
    }
}
