//! What is on the line, and what is chosen.

use super::*;

#[test]
fn a_font_brings_letters_with_it() {
    let mut s = Stage::default();
    assert_eq!(s.run(Command::Fit), Err(Refuse::NoFont));
    s.set_sorts(testing::sorts());
    assert_eq!(s.state().text, "HO");
    assert_eq!(s.state().undo, None);
}

#[test]
fn another_font_keeps_the_text() {
    let mut s = stage("HIn");
    choose(&mut s, &[1]);
    s.run(Command::Mirror).unwrap();
    s.set_sorts(testing::sorts());
    let state = s.state();
    assert_eq!(state.text, "HIn");
    assert!(state.items[1].mirrored);
    assert_eq!((state.undo, state.redo), (None, None));
}

#[test]
fn what_the_font_lacks_leaves_a_named_gap() {
    let s = stage("HßI");
    let state = s.state();
    assert_eq!(state.missing, ["ß"]);
    assert_eq!(state.items[1].glyph, None);
    assert_eq!(state.items[1].label, "ß");
    assert_eq!(x(&s, 2), 600.0 + 500.0);
    assert_eq!(state.status, "The font has no ß.");
}

#[test]
fn line_ends_and_joiners_do_not_stand_on_the_line() {
    assert_eq!(stage("H\n\u{200D}I\t\u{FEFF}").state().text, "HI");
}

#[test]
fn glyphs_without_a_character_can_be_added() {
    let mut s = stage("H");
    let letters = vec![Choice::Glyph(4), Choice::Text("In".to_owned())];
    s.run(Command::Insert {
        letters,
        after: None,
    })
    .unwrap();
    let state = s.state();
    assert_eq!(state.text, "H\u{FFFC}In");
    assert_eq!(state.items[1].label, "ring");
    let chosen: Vec<bool> = state.items.iter().map(|i| i.selected).collect();
    assert_eq!(chosen, [false, true, true, true]);
    // The text field gives the sign back: the glyph stays.
    s.run(Command::SetText {
        text: "H\u{FFFC}I".to_owned(),
    })
    .unwrap();
    assert_eq!(s.state().items[1].glyph, Some(4));
}

#[test]
fn a_glyph_that_is_not_there_is_refused_and_nothing_is_added() {
    let mut s = stage("H");
    let before = work(&s);
    let letters = vec![Choice::Text("I".to_owned()), Choice::Glyph(999)];
    let refused = s.run(Command::Insert {
        letters,
        after: None,
    });
    assert_eq!(refused, Err(Refuse::NoSuchGlyph(999)));
    assert_eq!(work(&s), before);
}

#[test]
fn typing_is_undone_word_by_word() {
    let mut s = stage("");
    for end in 1..=5 {
        let text = "HI On"[..end].to_owned();
        s.run(Command::SetText { text }).unwrap();
    }
    for text in ["HI ", "HI", ""] {
        s.run(Command::Undo).unwrap();
        assert_eq!(s.state().text, text);
    }
}

#[test]
fn doubling_and_taking_off() {
    let mut s = stage("HOn");
    choose(&mut s, &[0, 2]);
    s.run(Command::Duplicate).unwrap();
    let state = s.state();
    assert_eq!(state.text, "HHOnn");
    let chosen: Vec<ItemId> = state
        .items
        .iter()
        .filter(|i| i.selected)
        .map(|i| i.id)
        .collect();
    assert_eq!(chosen, [3, 4]);
    s.run(Command::Remove).unwrap();
    assert_eq!(s.state().text, "HOn");
    assert_eq!(s.run(Command::Remove), Err(Refuse::NothingChosen));
}

#[test]
fn tab_goes_round_the_line() {
    let mut s = stage("HOI");
    let chosen = |s: &Stage| s.chosen.clone();
    let next = |backwards, extend| Command::SelectNext { backwards, extend };
    for (command, want) in [
        (next(false, false), vec![0]),
        (next(true, false), vec![2]),
        (next(false, true), vec![2, 0]),
        (next(false, true), vec![2, 0, 1]),
        (Command::Cancel, vec![]),
    ] {
        s.run(command).unwrap();
        assert_eq!(chosen(&s), want);
    }
}

#[test]
fn a_line_of_too_many_letters_is_refused() {
    let mut s = stage("HO");
    let text = "H".repeat(scene::MOST_LETTERS + 1);
    let refused = s.run(Command::SetText { text });
    assert_eq!(refused, Err(Refuse::TooManyLetters(scene::MOST_LETTERS)));
    let text = "H".repeat(scene::MOST_LETTERS);
    s.run(Command::SetText { text }).unwrap();
    s.run(Command::SelectAll).unwrap();
    let refused = s.run(Command::Duplicate);
    assert_eq!(refused, Err(Refuse::TooManyLetters(scene::MOST_LETTERS)));
}
