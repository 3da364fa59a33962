//! The optical rules in the sample, whose habits are its recipe's own.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

use counterpoise::font::Font;
use counterpoise::judge::{Alphabet, Rule, Ruling, Stance, Table, rulings};
use counterpoise::report::RulesReport;
use counterpoise_samples::{Face, clean, planted, truetype};

fn ruled(face: &Face) -> Vec<Ruling> {
    let font = Font::open(truetype(face).unwrap()).unwrap();
    rulings(&Alphabet::of(&font), &Table::shipped().unwrap())
}

fn of(all: &[Ruling], rule: Rule) -> &Ruling {
    all.iter().find(|r| r.rule == rule).unwrap()
}

#[test]
fn the_sample_keeps_the_rules_that_its_recipe_keeps() {
    let all = ruled(&clean());
    let round = of(&all, Rule::RoundPastFlat);
    assert_eq!(round.stance, Stance::Keeps);
    assert!((0.005..0.03).contains(&round.habit.unwrap()), "{round:?}");
    let bars = of(&all, Rule::BarsThinner);
    assert_eq!(bars.stance, Stance::Keeps, "{bars:?}");
    for ruling in &all {
        let [low, middle, high] = ruling.usual;
        assert!(low <= middle && middle <= high, "{ruling:?}");
    }
}

#[test]
fn a_round_without_its_overshoot_breaks_the_habit() {
    let (face, faults) = planted().unwrap();
    let fault = faults.iter().find(|f| f.measure == "overshoot").unwrap();
    let broken = |face: &Face| -> String {
        let all = ruled(face);
        let breaks = &of(&all, Rule::RoundPastFlat).breaks;
        breaks.iter().map(|b| b.0).collect()
    };
    assert!(broken(&face).contains(fault.letter), "{}", broken(&face));
    assert!(!broken(&clean()).contains(fault.letter));
}

#[test]
fn a_rule_is_told_with_its_source_and_in_a_sentence() {
    let font = Font::open(truetype(&clean()).unwrap()).unwrap();
    let alphabet = Alphabet::of(&font);
    let report = RulesReport::of(&alphabet, Table::shipped().as_ref());
    assert_eq!(report.rules.len(), Rule::ALL.len());
    for rule in &report.rules {
        assert!(!rule.source.is_empty() && rule.sentence.ends_with('.'));
        println!("{} {}", rule.saying, rule.sentence);
    }
    assert!(RulesReport::of(&alphabet, None).rules.is_empty());
}
