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
        let one = cause != Cause::Pair && self.beside.chars().count() == 1;
        let suggest = if one { "suggests" } else { "suggest" };
        const THICK: [&str; 2] = ["thicker", "thinner"];
        const MUCH: [&str; 2] = ["more", "less"];
        let (head, words, tail) = match cause {
            Cause::Width => (format!("{letter} is"), ["wider", "narrower"], ""),
            Cause::Strokes => (format!("The strokes of {letter} are"), THICK, ""),
            Cause::Uprights => (format!("The upright strokes of {letter} are"), THICK, ""),
            Cause::Levels => (format!("The level strokes of {letter} are"), THICK, ""),
            Cause::Overshoot if low.round() < 0.0 || self.value.round() < 0.0 => {
                let far = if more { "farther" } else { "less far" };
                return format!(
                    "{letter} reaches about {by} {far} than {beside} {suggest}: {}; {} would sit with them.",
                    reach(self.value),
                    reaches(low, high)
                );
            }
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

/// How far a letter's end comes, told from its line: where some fall short,
/// a figure alone would need a sign.
fn reach(v: f64) -> String {
    match v.round() {
        0.0 => "to its lines".into(),
        v if v < 0.0 => format!("{} short of its lines", number(-v)),
        v => format!("{} past its lines", number(v)),
    }
}

/// As [`reach`], of the two ends of what would sit.
fn reaches(low: f64, high: f64) -> String {
    let (low, high) = (low.round(), high.round());
    if low == high {
        return reach(low);
    }
    if high <= 0.0 {
        return format!("{} to {} short of them", number(-high), number(-low));
    }
    if low >= 0.0 {
        return format!("{} to {} past them", number(low), number(high));
    }
    format!(
        "from {} short of them to {} past",
        number(-low),
        number(high)
    )
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

#[cfg(test)]
mod tests {
    use super::*;

    fn overshoot(value: f64, expected: f64) -> String {
        Finding {
            letter: 'R',
            cause: Matter::Shape(Cause::Overshoot),
            value,
            expected,
            spread: 2.0,
            spreads: 3.0,
            by_chance: 0.1,
            beside: "SU".to_owned(),
        }
        .sentence()
    }

    #[test]
    fn where_letters_fall_short_of_their_lines_no_sign_is_needed() {
        let told = [
            (
                30.0,
                12.0,
                "R passes its lines by about 18 units more than S and U suggest: 30; 10 to 14 would sit with them.",
            ),
            (
                0.0,
                -22.0,
                "R reaches about 22 units farther than S and U suggest: to its lines; 20 to 24 short of them would sit with them.",
            ),
            (
                -9.0,
                5.0,
                "R reaches about 14 units less far than S and U suggest: 9 short of its lines; 3 to 7 past them would sit with them.",
            ),
            (
                12.0,
                1.0,
                "R reaches about 11 units farther than S and U suggest: 12 past its lines; from 1 short of them to 3 past would sit with them.",
            ),
            (
                0.0,
                -2.0,
                "R reaches about 2 units farther than S and U suggest: to its lines; 0 to 4 short of them would sit with them.",
            ),
        ];
        for (value, expected, sentence) in told {
            assert_eq!(overshoot(value, expected), sentence);
        }
    }
}
