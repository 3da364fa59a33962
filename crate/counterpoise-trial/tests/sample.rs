//! The sample's planted faults, as its own list has them, are found.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

use counterpoise::font::Font;
use counterpoise::judge::{Alphabet, Cause, Drawn, Finding, Judgement, Matter, Meant, Table};
use counterpoise_samples::{Face, clean, planted, truetype};

fn judged(face: &Face) -> Judgement {
    let font = Font::open(truetype(face).unwrap()).unwrap();
    let (alphabet, meant) = (Alphabet::of(&font), Meant::nothing());
    Judgement::of(&alphabet, &Table::shipped().unwrap(), &meant)
        .with_points(&Drawn::of(&font, &alphabet), &meant)
}

/// What the list's words for a fault are among the causes.
fn causes(measure: &str) -> &'static [Matter] {
    const OF: [(&str, &[Matter]); 7] = [
        ("width", &[Matter::Shape(Cause::Width)]),
        (
            "weight",
            &[
                Matter::Shape(Cause::Strokes),
                Matter::Shape(Cause::Uprights),
            ],
        ),
        (
            "stem",
            &[
                Matter::Shape(Cause::Strokes),
                Matter::Shape(Cause::Uprights),
            ],
        ),
        ("overshoot", &[Matter::Shape(Cause::Overshoot)]),
        ("baseline", &[Matter::Shape(Cause::Raised)]),
        ("leftBearing", &[Matter::Shape(Cause::Left)]),
        ("points", &[Matter::Points]),
    ];
    OF.iter().find(|(m, _)| *m == measure).map_or(&[], |o| o.1)
}

#[test]
fn every_fault_of_a_letter_is_found_and_its_size_told() {
    let (face, faults) = planted().unwrap();
    let judgement = judged(&face);
    // Spacing of pairs is not judged yet.
    for fault in faults.iter().filter(|f| f.measure != "kerning") {
        let found: Vec<&Finding> = judgement
            .findings
            .iter()
            .filter(|f| fault.letter.starts_with(f.letter))
            .filter(|f| causes(fault.measure).contains(&f.cause))
            .collect();
        let [found] = found[..] else {
            panic!("{}: {found:?}", fault.letter);
        };
        let (planted, told) = (fault.planted - fault.clean, found.difference());
        assert!(
            (0.5..=1.5).contains(&(told / planted)),
            "{}: {told:.1} told of {planted:.1}",
            fault.letter
        );
    }
}

#[test]
fn most_faults_come_before_anything_sound() {
    let (face, faults) = planted().unwrap();
    let judgement = judged(&face);
    let faulty = |f: &Finding| faults.iter().any(|p| p.letter.starts_with(f.letter));
    let first: Vec<char> = judgement
        .findings
        .iter()
        .take(4)
        .map(|f| f.letter)
        .collect();
    assert!(
        judgement.findings.iter().take(4).all(faulty),
        "{first:?} come first"
    );
}

#[test]
fn at_one_false_alarm_its_faults_are_listed_and_nothing_else() {
    let (face, faults) = planted().unwrap();
    let mut planted: Vec<char> = faults
        .iter()
        .filter(|f| f.measure != "kerning")
        .filter_map(|f| f.letter.chars().next())
        .collect();
    let judgement = judged(&face);
    let mut listed: Vec<char> = judgement.at(1.0).map(|f| f.letter).collect();
    planted.sort_unstable();
    listed.sort_unstable();
    assert_eq!(listed, planted);
}

#[test]
fn the_sample_without_faults_is_left_in_peace() {
    let judgement = judged(&clean());
    let named: Vec<String> = judgement.at(1.0).map(Finding::sentence).collect();
    assert!(named.len() <= 2, "{named:#?}");
}

#[test]
fn what_is_meant_so_is_told_apart_and_the_rest_is_still_found() {
    let (face, _) = planted().unwrap();
    let font = Font::open(truetype(&face).unwrap()).unwrap();
    let (alphabet, table) = (Alphabet::of(&font), Table::shipped().unwrap());
    let judged = |meant: &Meant| Judgement::of(&alphabet, &table, meant);
    let before = judged(&Meant::nothing());
    let first = &before.findings[0];
    let of_first = |f: &&Finding| f.letter == first.letter;
    let key = |f: &Finding| (f.letter, f.cause);
    // By cause.
    let meant: Meant = [(first.letter, Some(first.cause))].into_iter().collect();
    let after = judged(&meant);
    assert!(after.findings.iter().all(|f| key(f) != key(first)));
    assert_eq!(
        after.meant.iter().map(key).collect::<Vec<_>>(),
        [key(first)]
    );
    // The whole letter.
    let meant: Meant = [(first.letter, None)].into_iter().collect();
    let after = judged(&meant);
    assert_eq!(after.findings.iter().find(of_first), None);
    assert!(after.meant.iter().any(|f| key(f) == key(first)));
    // The next fault is another letter's, and no less plain for it.
    let next = before.findings.iter().find(|f| !of_first(f)).unwrap();
    assert!(after.findings.iter().take(3).any(|f| key(f) == key(next)));
}
