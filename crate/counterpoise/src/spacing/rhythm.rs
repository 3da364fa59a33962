//! How even the white of a line of text is, and where it breaks.
//!
//! The optical distances of a line's neighbours are held against their own
//! median: capitals against capitals, lower case against lower case and so on,
//! since each case has a distance of its own, or against the whole line where it
//! has too few of the kind. Unevenness is how far they commonly lie from it, as a
//! share of the line's median (a coefficient of variation, made robust: 1.4826
//! times the median absolute deviation): 0 is perfectly even. A pair breaks the
//! line if it lies further from its median than is common in the line and than an
//! eye notices.

use super::white::Whites;
use crate::measure::{MAD_TO_SD, median};
use std::ops::Range;

/// So many spreads off its line's median, a pair breaks the line: one of a
/// hundred would by chance.
const BREAKS: f64 = 2.6;

/// No line is so even that a pair breaks it by less than this share of the cap
/// height: a hundredth of the height is at the limit of what is seen in text.
const NOTICED: f64 = 0.015;

/// Fewer pairs than this have no rhythm to break, and those of a kind no middle.
const LEAST_PAIRS: usize = 4;

/// A pair of a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Which letter of the line is the first of the pair.
    pub at: usize,
    /// Its optical distance, font units.
    pub distance: f64,
    /// How much too wide it is for its kind of pair in the line, font units; too
    /// tight if negative.
    pub off: f64,
    /// Whether it breaks the line.
    pub breaks: bool,
}

/// How even a line is.
#[derive(Debug, Clone, PartialEq)]
pub struct Rhythm {
    /// The middle distance, font units.
    pub middle: f64,
    /// How far distances commonly lie from it, as a share of it; `None` of a line
    /// of too few pairs.
    pub unevenness: Option<f64>,
    /// Every pair that faces at some level, in order.
    pub places: Vec<Place>,
}

/// Reads a line: letters by their places in `whites`, `None` for what parts words
/// or has no ink, and for each letter how much further apart than by its bearings
/// the next one is set.
pub fn rhythm(line: &[(Option<usize>, f64)], whites: &Whites, height: f64) -> Rhythm {
    let (mut places, mut kinds) = (Vec::new(), Vec::new());
    let pairs = line.windows(2).enumerate().filter_map(|(at, two)| {
        let [(Some(a), apart), (Some(b), _)] = *two else {
            return None;
        };
        Some((at, whites.pair(a, b, apart)?.distance, whites.bands(a, b)?))
    });
    for (at, distance, kind) in pairs {
        kinds.push(kind);
        places.push(Place {
            at,
            distance,
            off: 0.0,
            breaks: false,
        });
    }
    let middle = median(&mut places.iter().map(|p| p.distance).collect::<Vec<_>>());
    let of_kind = |kind: &[Range<usize>; 2]| {
        let like = places.iter().zip(&kinds).filter(|(_, k)| *k == kind);
        let mut like: Vec<f64> = like.map(|(p, _)| p.distance).collect();
        if like.len() < LEAST_PAIRS {
            middle
        } else {
            median(&mut like)
        }
    };
    let middles: Vec<f64> = kinds.iter().map(of_kind).collect();
    for (place, middle) in places.iter_mut().zip(middles) {
        place.off = place.distance - middle;
    }
    let mut off: Vec<f64> = places.iter().map(|p| p.off.abs()).collect();
    let spread = MAD_TO_SD * median(&mut off);
    let limit = (BREAKS * spread).max(NOTICED * height);
    let enough = places.len() >= LEAST_PAIRS;
    for place in &mut places {
        place.breaks = enough && place.off.abs() > limit;
    }
    Rhythm {
        middle,
        unevenness: (enough && middle > 0.0).then(|| spread / middle),
        places,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::outline::Outline;
    use crate::spacing::{Grid, sides};
    use kurbo::{Rect, Shape};

    const GRID: Grid = Grid {
        height: 700.0,
        x_height: 500.0,
        lean: 0.0,
    };

    fn bars() -> Whites {
        let bar = Outline::from_path(&Rect::new(50.0, 0.0, 130.0, 700.0).to_path(0.1));
        let bar = sides(&bar, 180.0, Some('I'), &GRID).unwrap();
        Whites::of([&bar], &GRID)
    }

    #[test]
    fn bars_set_evenly_are_even_and_one_set_wide_breaks_the_line() {
        let whites = bars();
        let even = rhythm(&[(Some(0), 0.0); 8], &whites, 700.0);
        assert!((even.middle - 100.0).abs() < 1e-3, "{}", even.middle);
        assert_eq!((even.places.len(), even.unevenness), (7, Some(0.0)));
        assert!(even.places.iter().all(|p| !p.breaks));
        let mut line = [(Some(0), 0.0); 8];
        line[3].1 = 40.0;
        let broken = rhythm(&line, &whites, 700.0);
        let out: Vec<_> = broken.places.iter().filter(|p| p.breaks).collect();
        assert_eq!(out.len(), 1);
        assert!(out[0].at == 3 && (out[0].off - 40.0).abs() < 1e-3);
    }

    #[test]
    fn capitals_and_lower_case_have_each_a_middle_of_their_own() {
        let bar = |c, height, bearing| {
            let rect = Rect::new(bearing, 0.0, bearing + 80.0, height);
            let outline = Outline::from_path(&rect.to_path(0.1));
            sides(&outline, 80.0 + 2.0 * bearing, Some(c), &GRID).unwrap()
        };
        let (capital, lower) = (bar('I', 700.0, 60.0), bar('i', 500.0, 40.0));
        let whites = Whites::of([&capital, &lower], &GRID);
        let mut line = [[(Some(0), 0.0); 8], [(Some(1), 0.0); 8]].concat();
        line.insert(8, (None, 0.0));
        let breaks = |line: &[_]| -> Vec<usize> {
            let read = rhythm(line, &whites, 700.0);
            let broken = read.places.iter().filter(|p| p.breaks);
            broken.map(|p| p.at).collect()
        };
        assert!(breaks(&line).is_empty());
        line[12].1 = 40.0;
        assert_eq!(breaks(&line), [12]);
    }

    #[test]
    fn spaces_part_the_line_and_few_pairs_have_no_rhythm() {
        let whites = bars();
        let line = [
            (Some(0), 0.0),
            (None, 0.0),
            (Some(0), 0.0),
            (Some(0), 60.0),
            (Some(0), 0.0),
        ];
        let read = rhythm(&line, &whites, 700.0);
        assert_eq!(read.places.iter().map(|p| p.at).collect::<Vec<_>>(), [2, 3]);
        assert_eq!(read.unevenness, None);
        assert!(rhythm(&[], &whites, 700.0).places.is_empty());
    }
}
