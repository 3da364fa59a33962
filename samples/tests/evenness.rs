//! The clean face is even: what ought to be equal is.
//!
//! These are the face's own promises, read off the font file. They leave the
//! judgement of a trained eye aside; they only see to it that nothing in the
//! clean face is a fault by oversight.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

mod common;

use common::{files, outline_of, runs};
use kurbo::Shape;

fn stems(file: &[u8], letters: &str, y: f64, which: usize) -> Vec<f64> {
    letters
        .chars()
        .map(|code| runs(&outline_of(file, code), y)[which])
        .collect()
}

fn spread(values: &[f64]) -> f64 {
    let most = values.iter().copied().fold(f64::MIN, f64::max);
    let least = values.iter().copied().fold(f64::MAX, f64::min);
    most - least
}

#[test]
fn capital_stems_are_equal() {
    let [file, _] = files();
    // Below the middle, where no bowl, bar or arm runs into the stem; and above.
    for (letters, y) in [("BDEFHILPR", 216.3), ("BDEFHIKLPR", 466.3)] {
        let found = stems(&file, letters, y, 0);
        assert!(spread(&found) < 2.0, "{y}: {found:?}");
    }
}

/// The first stroke of a letter where it is thinnest between two heights.
fn waist(file: &[u8], code: char, heights: std::ops::Range<u32>) -> f64 {
    let path = outline_of(file, code);
    heights
        .map(|y| runs(&path, f64::from(y) + 0.3)[0])
        .fold(f64::MAX, f64::min)
}

#[test]
fn lower_case_stems_are_equal() {
    let [file, _] = files();
    let short = "hiklnr".chars().map(|code| waist(&file, code, 20..345));
    let tall = "bdhkl".chars().map(|code| waist(&file, code, 520..700));
    let found: Vec<f64> = short.collect();
    assert!(spread(&found) < 1.5, "{found:?}");
    let found: Vec<f64> = tall.collect();
    assert!(spread(&found) < 2.0, "{found:?}");
    // m has three stems to the em, and may be a little lighter.
    let [m, n] = ['m', 'n'].map(|code| waist(&file, code, 20..345));
    assert!((0.95..1.0).contains(&(m / n)), "{m} and {n}");
}

#[test]
fn descending_stems_mirror_ascending_ones() {
    let [file, _] = files();
    for (up, down) in [('d', 'p'), ('b', 'q')] {
        let (up, down) = (outline_of(&file, up), outline_of(&file, down));
        for y in [560.3, 640.3, 710.3] {
            let (a, b) = (runs(&up, y)[0], runs(&down, 500.0 - y)[0]);
            assert!((a - b).abs() < 1.0, "{a} and {b} at {y}");
        }
    }
}

#[test]
fn both_stems_of_a_letter_are_equal() {
    let [file, _] = files();
    for code in "HNUMnhu".chars() {
        let found = runs(&outline_of(&file, code), 250.3);
        let (first, last) = (found[0], found[found.len() - 1]);
        assert!((first - last).abs() < 2.0, "{code}: {first} and {last}");
    }
}

#[test]
fn rounds_pass_the_flats_by_the_same() {
    let [file, _] = files();
    let top = |code| outline_of(&file, code).bounding_box().y1;
    let foot = |code| outline_of(&file, code).bounding_box().y0;
    for code in "CGOQS0236890".chars() {
        assert_eq!(top(code), 711.0, "{code}");
    }
    for code in "CGOSJU035689".chars() {
        assert_eq!(foot(code), -11.0, "{code}");
    }
    for code in "aceosnmrpgq".chars() {
        assert_eq!(top(code), 510.0, "{code}");
    }
    for code in "aceosutbd".chars() {
        assert_eq!(foot(code), -10.0, "{code}");
    }
    for (code, apex) in [('A', 712.0), ('W', 706.0)] {
        assert_eq!(top(code), apex, "{code}");
    }
    for (code, vertex) in [('V', -12.0), ('W', -12.0), ('M', -6.0)] {
        assert_eq!(foot(code), vertex, "{code}");
    }
}

#[test]
fn flats_stand_on_one_line() {
    let [file, _] = files();
    for code in "BDEFHIKLMNPRTVXYZ1457".chars() {
        let top = outline_of(&file, code).bounding_box().y1;
        assert_eq!(top, 700.0, "{code}");
    }
    for code in "ABDEFHIKLNPRTXYZ1247hiklmnrxz".chars() {
        let foot = outline_of(&file, code).bounding_box().y0;
        assert_eq!(foot, 0.0, "{code}");
    }
    for code in "bdhkl".chars() {
        let top = outline_of(&file, code).bounding_box().y1;
        assert_eq!(top, 730.0, "{code}");
    }
    for code in "pq".chars() {
        let foot = outline_of(&file, code).bounding_box().y0;
        assert_eq!(foot, -230.0, "{code}");
    }
}

#[test]
fn letters_of_one_shape_are_as_wide_as_each_other() {
    let [file, _] = files();
    let width = |code| outline_of(&file, code).bounding_box().width();
    assert_eq!(width('n'), width('h'));
    assert_eq!(width('n'), width('u'));
    assert_eq!(width('b'), width('q'));
    assert_eq!(width('d'), width('p'));
    assert!((width('b') - width('p')).abs() <= 1.0);
    assert_eq!(width('6'), width('9'));
}

#[test]
fn a_round_is_a_little_heavier_than_a_stem_and_a_bar_lighter() {
    let [file, _] = files();
    for (round, stem, y) in [('O', 'I', 350.3), ('o', 'l', 250.3)] {
        let thickest = runs(&outline_of(&file, round), y)[0];
        let upright = outline_of(&file, stem);
        let heights = [0.15, 0.3, 0.45, 0.6, 0.75].map(|s| s * upright.bounding_box().y1 + 0.3);
        let mut along = heights.map(|h| runs(&upright, h)[0]);
        along.sort_by(f64::total_cmp);
        let share = thickest / along[2];
        assert!((1.02..1.09).contains(&share), "{round}: {share}");
    }
}
