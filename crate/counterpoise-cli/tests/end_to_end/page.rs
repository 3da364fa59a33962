//! The page beside the program, `README.md`, against the program.

use crate::room::Room;
use serde_json::Value;

const PAGE: &str = include_str!("../../README.md");

/// Every field of the document, wherever the schema has it.
fn fields(schema: &Value, found: &mut Vec<String>) {
    match schema {
        Value::Object(map) => {
            for (key, value) in map {
                if let ("properties", Value::Object(properties)) = (key.as_str(), value) {
                    found.extend(properties.keys().cloned());
                }
                fields(value, found);
            }
        }
        Value::Array(all) => all.iter().for_each(|s| fields(s, found)),
        _ => {}
    }
}

#[test]
fn the_page_tells_of_every_field() {
    let schema = Room::new().run(&["schema"]).out;
    let mut all = Vec::new();
    fields(&serde_json::from_str(&schema).unwrap(), &mut all);
    all.sort();
    all.dedup();
    assert!(all.len() > 50, "{all:?}");
    let missing: Vec<_> = all
        .iter()
        .filter(|field| !PAGE.contains(&format!("`{field}`")))
        .collect();
    assert!(missing.is_empty(), "not in README.md: {missing:?}");
}

#[test]
fn the_page_tells_of_every_option() {
    let help = Room::new().run(&["measure", "--help"]).out;
    let options = help
        .split(|c: char| !(c.is_ascii_alphanumeric() || c == '-'))
        .filter(|word| word.starts_with("--") && word.len() > 2);
    let mut looked = 0;
    for option in options.filter(|o| *o != "--help") {
        assert!(PAGE.contains(&format!("`{option}")), "{option}");
        looked += 1;
    }
    assert!(looked >= 6);
}
