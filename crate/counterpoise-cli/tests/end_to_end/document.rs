//! The document that `--json` writes, and its schema.

use crate::room::{Room, characters, collection, sample, square, squares};
use counterpoise::font::Font;
use counterpoise::judge::Alphabet;
use counterpoise::measure::QUANTITIES;
use counterpoise::report::{Choice, Document, FontEntry};
use counterpoise_checks::forge;
use counterpoise_samples as samples;
use kurbo::Shape;
use serde_json::Value;

const BASIC: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789";

fn committed_schema() -> Value {
    serde_json::from_str(include_str!("../../schema/measures-2.json")).unwrap()
}

/// Fails on anything that the committed schema does not allow.
fn validate(document: &Value) {
    let validator = jsonschema::validator_for(&committed_schema()).unwrap();
    let errors: Vec<String> = validator
        .iter_errors(document)
        .take(5)
        .map(|e| format!("{}: {e}", e.instance_path()))
        .collect();
    assert!(errors.is_empty(), "{errors:#?}");
}

#[test]
fn the_committed_schema_is_what_the_types_say() {
    let ran = Room::new().run(&["schema"]);
    assert_eq!(ran.code, 0, "{ran:?}");
    assert!(
        ran.out == include_str!("../../schema/measures-2.json"),
        "the types have changed. If no field went away or changed its meaning, write the \
         schema anew:\ncargo run -p counterpoise-cli -- schema \
         --output crate/counterpoise-cli/schema/measures-2.json\n\
         Else raise SCHEMA_VERSION first: see crate/counterpoise-cli/README.md."
    );
}

#[test]
fn the_schema_refuses_what_is_no_such_document() {
    let room = Room::with_sample();
    let (sound, _) = room.measure(&["sample.ttf", "--letters", "H"]);
    let validator = jsonschema::validator_for(&committed_schema()).unwrap();
    assert!(validator.is_valid(&sound));
    for (pointer, wrong) in [
        ("/schema/version", Value::from(1)),
        ("/schema/name", Value::from("another")),
        ("/quantities/0/unit", Value::from("furlongs")),
        ("/fonts/0/file", Value::Null),
        ("/fonts/0/letters/0/advance", Value::Null),
        ("/fonts/0/letters/0/figures/weight", Value::Null),
        ("/fonts/0/letters/0/strokes/0/median", Value::from("80")),
        ("/fonts/0/figures/capitals/weight/median", Value::Null),
    ] {
        let mut document = sound.clone();
        *document.pointer_mut(pointer).expect(pointer) = wrong;
        assert!(!validator.is_valid(&document), "{pointer}");
    }
}

#[test]
fn every_kind_of_entry_is_as_the_schema_says() {
    let room = Room::with_sample();
    let face = samples::clean();
    room.put("sample.otf", &samples::postscript(&face).unwrap());
    room.put("note.txt", b"no font");
    let tables = forge::tables(&[square(), square(), forge::composite(&[2])]);
    room.put("hostile.ttf", &forge::font(&tables));
    let (document, ran) = room.measure(&[
        "sample.ttf",
        "sample.otf",
        "note.txt",
        "hostile.ttf",
        "--all",
    ]);
    assert_eq!(ran.code, 1, "{}", ran.err);
    let kinds: Vec<_> = (0..4)
        .map(|i| {
            let entry = &document["fonts"][i];
            let letters = entry["letters"].as_array().unwrap();
            (
                entry["font"]["outlines"].as_str().unwrap_or("none"),
                letters.iter().any(|l| l["trouble"].is_string()),
            )
        })
        .collect();
    assert_eq!(
        kinds,
        [
            ("TrueType", false),
            ("CFF", false),
            ("none", false),
            ("TrueType", true)
        ]
    );
    validate(&document);
}

#[test]
fn the_basic_alphabet_with_every_figure_of_the_registry() {
    let room = Room::with_sample();
    let (document, ran) = room.measure(&["sample.ttf"]);
    assert_eq!((ran.code, ran.err.as_str()), (0, ""));
    assert_eq!(document["schema"]["name"], "counterpoise-measures");
    assert_eq!(document["program"]["version"], env!("CARGO_PKG_VERSION"));
    let listed: Vec<_> = document["quantities"]
        .as_array()
        .unwrap()
        .iter()
        .map(|q| q["id"].as_str().unwrap())
        .collect();
    let registry: Vec<_> = QUANTITIES.iter().map(|q| q.id).collect();
    assert_eq!(listed, registry);

    let entry = &document["fonts"][0];
    assert_eq!(entry["file"], "sample.ttf");
    assert_eq!(characters(entry), BASIC);
    for letter in entry["letters"].as_array().unwrap() {
        let figures = letter["figures"].as_object().unwrap();
        assert!(figures.keys().all(|id| registry.contains(&id.as_str())));
        assert!(figures.contains_key("weight"), "{letter}");
        assert!(letter["trouble"].is_null(), "{letter}");
    }
}

/// Against the drawing that the font was made from, read by geometry not ours.
#[test]
fn the_ink_is_where_the_sample_was_drawn() {
    let room = Room::with_sample();
    let (document, _) = room.measure(&["sample.ttf"]);
    let face = samples::clean();
    let letters = document["fonts"][0]["letters"].as_array().unwrap();
    assert_eq!(letters.len(), BASIC.len());
    for letter in letters {
        let name = letter["name"].as_str().unwrap();
        let drawn = face.letter(name).unwrap();
        let bounds = drawn.path.bounding_box();
        for (id, value) in [
            ("advance", drawn.advance),
            ("inkWidth", bounds.width()),
            ("inkHeight", bounds.height()),
            ("leftBearing", bounds.x0),
            ("rightBearing", drawn.advance - bounds.x1),
        ] {
            let measured = letter["figures"][id].as_f64().unwrap();
            // The font's points are whole units.
            assert!(
                (measured - value).abs() <= 1.0,
                "{name} {id}: {measured}, drawn {value}"
            );
        }
    }
}

#[test]
fn what_is_streamed_is_the_librarys_own_document() {
    let room = Room::with_sample();
    let font = Font::open(sample()).unwrap();
    let alphabet = Alphabet::of(&font);
    for (arguments, choice) in [
        (&["sample.ttf"][..], Choice::Basic),
        (&["sample.ttf", "--all"], Choice::Every),
        (
            &["sample.ttf", "--letters", "gaЖ"],
            Choice::Characters("gaЖ"),
        ),
    ] {
        let (streamed, _) = room.measure(arguments);
        let entry = FontEntry::measured("sample.ttf", &font, &alphabet, choice);
        let whole = serde_json::to_value(Document::of(vec![entry])).unwrap();
        assert!(streamed == whole, "{arguments:?}");
    }
}

#[test]
fn a_font_is_summed_up_over_its_alphabet_whatever_was_asked_for() {
    let room = Room::with_sample();
    let (all, _) = room.measure(&["sample.ttf"]);
    let (one, _) = room.measure(&["sample.ttf", "--letters", "&"]);
    let sums = &all["fonts"][0]["figures"];
    assert_eq!(sums, &one["fonts"][0]["figures"]);
    for (case, letters) in [
        ("capitals", 'A'..='Z'),
        ("lowerCase", 'a'..='z'),
        ("numerals", '0'..='9'),
    ] {
        let mut weights: Vec<f64> = all["fonts"][0]["letters"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|l| letters.contains(&l["character"].as_str().unwrap().chars().next().unwrap()))
            .map(|l| l["figures"]["weight"].as_f64().unwrap())
            .collect();
        weights.sort_by(f64::total_cmp);
        // Twenty-six or ten: the middle two.
        let half = weights.len() / 2;
        let median = (weights[half - 1] + weights[half]) / 2.0;
        let sum = &sums[case]["weight"];
        assert_eq!(sum["count"].as_u64(), Some(weights.len() as u64));
        assert_eq!(sum["least"].as_f64(), weights.first().copied());
        assert_eq!(sum["median"].as_f64(), Some(median));
        assert_eq!(sum["greatest"].as_f64(), weights.last().copied());
    }
}

#[test]
fn letters_come_once_and_in_the_order_asked_for() {
    let room = Room::with_sample();
    let (document, ran) = room.measure(&["sample.ttf", "--letters", "nHonЖH\u{301}"]);
    let entry = &document["fonts"][0];
    assert_eq!(characters(entry), "nHo");
    assert_eq!(entry["missing"], "Ж\u{301}");
    // That a font lacks a letter is a finding, no failure to read it.
    assert_eq!(ran.code, 0);
    assert_eq!(ran.err, "sample.ttf: The font has no Ж U+0301.\n");
}

#[test]
fn all_is_every_glyph_once() {
    let room = Room::with_sample();
    let (document, _) = room.measure(&["sample.ttf", "--all"]);
    let entry = &document["fonts"][0];
    let glyphs: Vec<u64> = entry["letters"]
        .as_array()
        .unwrap()
        .iter()
        .map(|l| l["glyph"].as_u64().unwrap())
        .collect();
    let count = samples::clean().letters.len() as u64;
    assert_eq!(entry["font"]["glyphCount"], count);
    assert_eq!(glyphs, (0..count).collect::<Vec<_>>());
    // The first has no character, and none is made up for it.
    assert_eq!(entry["letters"][0]["name"], ".notdef");
    assert!(entry["letters"][0]["character"].is_null());
}

#[test]
fn a_face_of_a_collection_is_counted_from_one() {
    let room = Room::new();
    let narrow = forge::polygons(&[vec![(100, 0), (100, 700), (200, 700), (200, 0)]]);
    let two = [
        forge::tables(&[square(), square(), square()]),
        forge::tables(&[square(), narrow.clone(), narrow]),
    ];
    room.put("two.ttc", &collection(&two));
    for (face, index, width) in [("1", 0, 400.0), ("2", 1, 100.0)] {
        let (document, ran) = room.measure(&["two.ttc", "--face", face, "--letters", "A"]);
        assert_eq!(ran.code, 0, "{}", ran.err);
        let entry = &document["fonts"][0];
        assert_eq!(entry["font"]["faceIndex"], index);
        assert_eq!(entry["font"]["faceCount"], 2);
        assert_eq!(entry["letters"][0]["figures"]["inkWidth"], width);
    }
    let (document, ran) = room.measure(&["two.ttc", "--face", "3"]);
    assert_eq!(ran.code, 1);
    assert_eq!(document["fonts"][0]["errors"][0]["code"], "no-such-face");
}

#[test]
fn the_same_fonts_give_the_same_bytes() {
    let room = Room::with_sample();
    room.put("squares.ttf", &squares());
    let first = room.run(&["measure", ".", "--all", "--json"]);
    let second = room.run(&["measure", ".", "--all", "--json"]);
    assert_eq!(first.code, 0, "{}", first.err);
    assert!(first.out.len() > 100_000);
    assert!(first.out == second.out);
    let pretty = room.run(&["measure", ".", "--all", "--json", "--pretty"]);
    let parsed = |text: &str| serde_json::from_str::<Value>(text).unwrap();
    assert!(parsed(&pretty.out) == parsed(&first.out));
    assert!(pretty.out.lines().count() > 1000 && first.out.lines().count() == 1);
}
