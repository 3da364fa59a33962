//! The handbook's side bearings: set from four control letters, H, O, n and o,
//! as the font has them (W. Tracy, *Letters of Credit*, 1986, "Character
//! spacing", pp. 71-80; class by class as second hand reports give the table).
//! Font units.
//!
//! The book gives its classes in words. The shares that stand for them here are
//! common practice, no source. A few letters it leaves to the eye (S, a, f, g,
//! s, t, z): for those there is no handbook bearing.

/// Of the straight control's bearing: "slightly less" and "slightly more".
const SLIGHTLY: f64 = 0.1;

/// "About half".
const HALF: f64 = 0.5;

/// "The least": almost nothing.
const LEAST: f64 = 0.07;

/// What a side is set as.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum As {
    /// The straight control's left side: H or n.
    Straight,
    /// The straight control's right side, under an arch: n.
    Arched,
    /// Slightly less than straight.
    Less,
    /// Slightly more than straight.
    More,
    /// About half of straight.
    Half,
    /// Almost nothing.
    Least,
    /// The round control's same side: O or o.
    Round,
    /// Slightly less than round.
    LessRound,
}

use As::{Arched, Half, Least, Less, LessRound, More, Round, Straight};

/// Left and right side of each letter.
const TABLE: [(char, As, As); 45] = [
    ('A', Least, Least),
    ('B', Straight, Half),
    ('C', Round, Half),
    ('D', Straight, Round),
    ('E', Straight, Half),
    ('F', Straight, Half),
    ('G', Round, Less),
    ('H', Straight, Straight),
    ('I', Straight, Straight),
    ('J', Least, Straight),
    ('K', Straight, Least),
    ('L', Straight, Least),
    ('M', Less, Straight),
    ('N', Less, Less),
    ('O', Round, Round),
    ('P', Straight, Round),
    ('Q', Round, Round),
    ('R', Straight, Least),
    ('T', Least, Least),
    ('U', Straight, Less),
    ('V', Least, Least),
    ('W', Least, Least),
    ('X', Least, Least),
    ('Y', Least, Least),
    ('Z', Half, Half),
    ('b', More, Round),
    ('c', Round, LessRound),
    ('d', Round, Straight),
    ('e', Round, LessRound),
    ('h', More, Arched),
    ('i', More, Straight),
    ('j', Straight, Straight),
    ('k', More, Least),
    ('l', More, Straight),
    ('m', Straight, Arched),
    ('n', Straight, Arched),
    ('o', Round, Round),
    ('p', More, Round),
    ('q', Round, Straight),
    ('r', Straight, Least),
    ('u', Arched, Arched),
    ('v', Least, Least),
    ('w', Least, Least),
    ('x', Least, Least),
    ('y', Least, Least),
];

/// Bearings of the control letters of one case: H and O, or n and o.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Controls {
    /// Left and right of the straight control, H or n.
    pub straight: [f64; 2],
    /// Left and right of the round control, O or o.
    pub round: [f64; 2],
}

/// The handbook's left and right bearing of a letter; `None` of one that the
/// book leaves to the eye, or does not name.
pub fn handbook(c: char, controls: &Controls) -> Option<[f64; 2]> {
    let &(_, left, right) = TABLE.iter().find(|(letter, ..)| *letter == c)?;
    let straight = controls.straight[0];
    let set = |kind: As, side: usize| match kind {
        Straight if c.is_uppercase() => controls.straight[side],
        Straight => straight,
        Arched => controls.straight[1],
        Less => (1.0 - SLIGHTLY) * straight,
        More => (1.0 + SLIGHTLY) * straight,
        Half => HALF * straight,
        Least => LEAST * straight,
        Round => controls.round[side],
        LessRound => (1.0 - SLIGHTLY) * controls.round[side],
    };
    Some([set(left, 0), set(right, 1)])
}

#[cfg(test)]
mod tests {
    use super::*;

    const OF: Controls = Controls {
        straight: [80.0, 70.0],
        round: [40.0, 42.0],
    };

    #[test]
    fn the_controls_are_themselves() {
        assert_eq!(handbook('H', &OF), Some([80.0, 70.0]));
        assert_eq!(handbook('o', &OF), Some([40.0, 42.0]));
        assert_eq!(handbook('n', &OF), Some([80.0, 70.0]));
    }

    #[test]
    fn letters_are_set_as_the_book_has_them() {
        assert_eq!(handbook('D', &OF), Some([80.0, 42.0]));
        assert_eq!(handbook('Z', &OF), Some([40.0, 40.0]));
        assert_eq!(handbook('u', &OF), Some([70.0, 70.0]));
        assert_eq!(handbook('q', &OF), Some([40.0, 80.0]));
        assert!(handbook('A', &OF).unwrap()[0] < 10.0);
    }

    #[test]
    fn what_the_book_leaves_to_the_eye_has_none() {
        assert!("Safgstz1&".chars().all(|c| handbook(c, &OF).is_none()));
    }
}
