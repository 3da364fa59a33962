//! The pair that our own sample face kerns too tight is found, first of all, and
//! its clean twin does not name it.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

use counterpoise::font::Font;
use counterpoise::measure::Context;
use counterpoise::report::{KernFindingReport, KernMatter, SpacingReport, SpacingSurvey};
use counterpoise_samples::{Face, clean, planted, truetype};

fn report(face: &Face) -> SpacingReport {
    let font = Font::open(truetype(face).unwrap()).unwrap();
    let context = Context::of(&font);
    let letters = ('A'..='Z').chain('a'..='z');
    let mut survey = SpacingSurvey::new(&font, &context, letters);
    while survey.step(&font, 5) {}
    survey.report().unwrap()
}

#[test]
fn the_tight_pair_is_found_first() {
    let faulty = report(&planted().unwrap().0);
    let first = &faulty.findings[0];
    assert_eq!(first.pairs, [["T".to_owned(), "o".to_owned()]]);
    assert_eq!(first.matter, KernMatter::TooFar);
    // The pairs like it are kerned by 78.
    assert!((first.asked + 78.0).abs() < 4.0, "{}", first.sentence);
    let clean = report(&clean());
    let named = |f: &KernFindingReport| f.pairs.contains(&["T".to_owned(), "o".to_owned()]);
    assert!(!clean.findings.iter().any(named));
}
