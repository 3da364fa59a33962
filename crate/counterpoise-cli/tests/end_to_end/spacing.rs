//! A font's spacing read, told, and written for programs.

use crate::room::Room;
use counterpoise_samples::{clean, planted, truetype};
use serde_json::Value;

fn room() -> Room {
    let room = Room::new();
    room.put("old.ttf", &truetype(&planted().unwrap().0).unwrap());
    room.put("new.ttf", &truetype(&clean()).unwrap());
    room
}

fn document(room: &Room, line: &[&str]) -> Value {
    let ran = room.run(line);
    assert_eq!(ran.code, 0, "{}", ran.err);
    serde_json::from_str(&ran.out).unwrap()
}

#[test]
fn the_tight_pair_is_told_first_and_settled_in_the_mended_face() {
    let room = room();
    let ran = room.run(&["spacing", "old.ttf"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(
        ran.out.starts_with("To is kerned by \u{2212}134"),
        "{}",
        ran.out
    );
    let mended = document(&room, &["spacing", "new.ttf", "--json"]);
    let findings = mended["spacing"]["findings"].as_array().unwrap();
    let of_to = |f: &&Value| f["pairs"][0] == serde_json::json!(["T", "o"]);
    assert!(!findings.iter().any(|f| of_to(&f)), "{findings:#?}");
}

#[test]
fn the_document_is_what_its_committed_schema_promises() {
    let room = room();
    let committed = include_str!("../../schema/spacing-1.json");
    let ran = room.run(&["schema", "spacing"]);
    assert!(
        ran.out == committed,
        "write the schema anew: cargo run -p counterpoise-cli -- schema spacing \
         --output crate/counterpoise-cli/schema/spacing-1.json"
    );
    let schema: Value = serde_json::from_str(committed).unwrap();
    let validator = jsonschema::validator_for(&schema).unwrap();
    let mut sound = document(
        &room,
        &["spacing", "old.ttf", "--json", "--letters", "HOTono"],
    );
    assert!(validator.is_valid(&sound));
    sound["suggestion"]["tolerance"] = Value::Null;
    assert!(!validator.is_valid(&sound));
}

#[test]
fn features_are_written_whole_and_a_wrong_file_gets_a_sentence() {
    let room = room();
    let ran = room.run(&["spacing", "old.ttf", "--features", "--tolerance", "20"]);
    assert_eq!(ran.code, 0, "{}", ran.err);
    assert!(
        ran.out.contains("feature kern {") && ran.out.contains("} kern;"),
        "{}",
        ran.out
    );
    room.put("none.ttf", b"hello");
    let ran = room.run(&["spacing", "none.ttf"]);
    assert_eq!(ran.code, 1);
    assert!(
        ran.err.contains("none.ttf") && ran.out.is_empty(),
        "{}",
        ran.err
    );
}
