//! Two revisions compared.

use crate::room::Room;
use counterpoise_samples::{clean, planted, truetype};

fn room() -> Room {
    let room = Room::new();
    room.put("old.ttf", &truetype(&planted().unwrap().0).unwrap());
    room.put("new.ttf", &truetype(&clean()).unwrap());
    room
}

#[test]
fn the_letters_with_planted_faults_are_told_and_none_else() {
    let ran = room().run(&["compare", "old.ttf", "new.ttf", "--json"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    let report: serde_json::Value = serde_json::from_str(&ran.out).unwrap();
    let changed = report["changed"].as_array().unwrap();
    let mut letters: Vec<&str> = changed
        .iter()
        .map(|c| c["new"]["character"].as_str().unwrap())
        .collect();
    letters.sort_unstable();
    assert_eq!(letters, ["C", "E", "R", "d", "g", "h", "m"]);
    let of = |letter: &str| {
        let found = changed.iter().find(|c| c["new"]["character"] == letter);
        found.unwrap()
    };
    // h has its white before it back, d its place on the baseline: 12 units lower.
    assert_eq!(of("h")["kind"], "spacing");
    assert!((of("d")["greatest"].as_f64().unwrap() - 12.0).abs() < 1.0);
    assert!(!of("R")["came"].as_array().unwrap().is_empty());
    let settled = report["findings"].as_array().unwrap();
    let settled: Vec<&str> = settled
        .iter()
        .filter(|f| f["fate"] == "settled")
        .map(|f| f["old"]["letter"].as_str().unwrap())
        .collect();
    for letter in ["R", "C", "d"] {
        assert!(settled.contains(&letter), "{letter} is not in {settled:?}");
    }
}

#[test]
fn told_in_sentences_and_a_bad_file_too() {
    let room = room();
    let ran = room.run(&["compare", "old.ttf", "new.ttf"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(
        ran.out.starts_with("7 letters changed, 0 came, 0 went, "),
        "{}",
        ran.out
    );
    assert!(ran.out.contains("\n  R: moved by up to "), "{}", ran.out);
    assert!(ran.out.contains("\nsettled: "), "{}", ran.out);
    let same = room.run(&["compare", "new.ttf", "new.ttf"]);
    assert!(same.out.starts_with("0 letters changed, "), "{}", same.out);
    room.put("note.txt", b"Dear foundry,");
    let bad = room.run(&["compare", "old.ttf", "note.txt"]);
    assert_eq!((bad.code, bad.out.as_str()), (1, ""));
    assert!(
        bad.err.contains("note.txt: ") && bad.err.trim_end().ends_with('.'),
        "{}",
        bad.err
    );
}
