//! The table for people.

use crate::room::{Room, square, squares};
use counterpoise_checks::forge;

#[test]
fn the_table_has_the_documents_figures() {
    let room = Room::with_sample();
    let (document, _) = room.measure(&["sample.ttf"]);
    let ran = room.run(&["measure", "sample.ttf"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    let lines: Vec<&str> = ran.out.lines().collect();
    let headings = lines.iter().position(|l| l.starts_with("letter ")).unwrap();
    let letters = document["fonts"][0]["letters"].as_array().unwrap();
    for (letter, line) in letters.iter().zip(&lines[headings + 1..]) {
        let cells: Vec<&str> = line.split_whitespace().collect();
        assert_eq!(cells[0], letter["character"]);
        assert_eq!(cells.len(), 9, "{line}");
        for (cell, (id, step)) in cells[1..].iter().zip([
            ("weight", 0.1),
            ("inkWidth", 0.1),
            ("inkHeight", 0.1),
            ("contrast", 0.01),
            ("topOvershoot", 0.1),
            ("footOvershoot", 0.1),
            ("leftBearing", 0.1),
            ("rightBearing", 0.1),
        ]) {
            match letter["figures"][id].as_f64() {
                Some(figure) => {
                    let shown: f64 = cell.parse().unwrap();
                    assert!((shown - figure).abs() <= 0.5 * step + 1e-9, "{id}: {line}");
                }
                None => assert_eq!(*cell, "–", "{id}: {line}"),
            }
        }
    }
    let median = lines.iter().find(|l| l.starts_with("median A–Z")).unwrap();
    let weight: f64 = median.split_whitespace().nth(2).unwrap().parse().unwrap();
    let sum = &document["fonts"][0]["figures"]["capitals"]["weight"]["median"];
    assert!((weight - sum.as_f64().unwrap()).abs() <= 0.05 + 1e-9);
}

#[test]
fn one_table_a_font_and_one_legend() {
    let room = Room::new();
    room.put("a.ttf", &squares());
    room.put("b.ttf", &squares());
    room.put("c.ttf", b"text");
    let ran = room.run(&["measure", ".", "--letters", "A"]);
    assert_eq!(ran.code, 1);
    assert_eq!(ran.out.matches("\nletter  ").count(), 2);
    assert_eq!(ran.out.matches("Font units; ").count(), 1);
    assert!(ran.err.starts_with("./c.ttf: "), "{}", ran.err);
    let nothing = room.run(&["measure", "c.ttf"]);
    assert_eq!((nothing.code, nothing.out.as_str()), (1, ""));
}

#[test]
fn a_letter_in_trouble_says_so_in_its_row() {
    let room = Room::new();
    let tables = forge::tables(&[square(), square(), forge::composite(&[2])]);
    room.put("hostile.ttf", &forge::font(&tables));
    let ran = room.run(&["measure", "hostile.ttf", "--all"]);
    let row = ran.out.lines().find(|l| l.starts_with("B ")).unwrap();
    assert!(row.ends_with("cannot be read."), "{row}");
    // A glyph that nothing leads to goes by its number.
    assert!(ran.out.contains("\nglyph 0 "), "{}", ran.out);
}
