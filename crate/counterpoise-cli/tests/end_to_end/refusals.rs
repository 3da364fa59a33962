//! What cannot be read costs itself, and nothing else.

use crate::room::{Room, characters, files, square, squares};
use counterpoise_checks::forge;

#[test]
fn each_bad_file_has_its_code_and_sentence_and_the_rest_is_measured() {
    let room = Room::new();
    let whole = squares();
    let bad: [(&str, &[u8], &str); 7] = [
        ("empty.ttf", b"", "empty"),
        ("text.ttf", b"Dear all,\nhere it is.\n", "not-a-font"),
        (
            "picture.ttf",
            b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR",
            "not-a-font",
        ),
        ("junk.ttf", b"\x01\x02\x03\x04\x05", "unknown"),
        ("cut.ttf", &whole[..whole.len() / 2], "truncated"),
        ("stub.ttf", b"\0\x01\0\0", "truncated"),
        ("packed.woff", b"wOFF\0\x01\0\0", "packed"),
    ];
    let mut asked = vec!["first.ttf", "--letters", "AB"];
    room.put("first.ttf", &whole);
    for (name, bytes, _) in bad {
        room.put(name, bytes);
        asked.push(name);
    }
    room.put("last.ttf", &whole);
    asked.extend(["nowhere.ttf", "last.ttf"]);

    let (document, ran) = room.measure(&asked);
    assert_eq!(ran.code, 1);
    let fonts = document["fonts"].as_array().unwrap();
    assert_eq!(fonts.len(), bad.len() + 3);
    for entry in [&fonts[0], &fonts[fonts.len() - 1]] {
        assert_eq!(characters(entry), "AB");
        assert_eq!(entry["errors"].as_array().unwrap().len(), 0);
        assert_eq!(entry["letters"][0]["figures"]["inkArea"], 280_000.0);
    }
    let mut codes: Vec<(&str, &str)> = bad.iter().map(|&(name, _, code)| (name, code)).collect();
    codes.push(("nowhere.ttf", "not-found"));
    let lines: Vec<&str> = ran.err.lines().collect();
    assert_eq!(lines.len(), codes.len(), "{}", ran.err);
    for ((entry, (name, code)), line) in fonts[1..].iter().zip(codes).zip(lines) {
        assert_eq!(entry["file"], name);
        assert_eq!(entry["errors"][0]["code"], code, "{name}");
        assert!(entry["font"].is_null() && entry["letters"].as_array().unwrap().is_empty());
        let sentence = entry["errors"][0]["sentence"].as_str().unwrap();
        assert_eq!(line, format!("{name}: {sentence}"));
        assert!(sentence.ends_with('.'));
    }
}

#[test]
fn a_hostile_glyph_costs_that_glyph() {
    let room = Room::new();
    let zigzag = |n: i16| -> Vec<(i16, i16)> {
        (0..n)
            .map(|i| (i, if i % 2 == 0 { 0 } else { 700 }))
            .collect()
    };
    let glyphs = [
        square(),
        square(),
        // B draws itself, C claims points that are not there, D has too many.
        forge::composite(&[2]),
        forge::words(&[1, 0, 0, 600, 700, 5000, 0]),
        forge::polygons(&[zigzag(i16::MAX), zigzag(i16::MAX)]),
        // E is large, but can be measured; F has no ink; G is sound.
        forge::polygons(&[zigzag(10_000)]),
        forge::polygons(&[]),
        square(),
    ];
    room.put("hostile.ttf", &forge::font(&forge::tables(&glyphs)));
    let (document, ran) = room.measure(&["hostile.ttf", "--letters", "ABCDEFG"]);
    assert_eq!(ran.code, 1);
    assert_eq!(
        ran.err,
        "hostile.ttf: 3 letters could not be measured: B C D.\n"
    );
    let letters = document["fonts"][0]["letters"].as_array().unwrap();
    let troubled: Vec<bool> = letters.iter().map(|l| l["trouble"].is_string()).collect();
    assert_eq!(troubled, [false, true, true, true, false, false, false]);
    for sound in [&letters[0], &letters[6]] {
        assert_eq!(sound["figures"]["inkArea"], 280_000.0);
    }
    for letter in letters.iter().filter(|l| l["trouble"].is_string()) {
        assert_eq!(letter["figures"].as_object().unwrap().len(), 0);
        assert_eq!(letter["strokes"].as_array().unwrap().len(), 0);
    }
}

#[test]
fn many_troubles_are_one_line() {
    let room = Room::new();
    let mut glyphs = vec![square()];
    glyphs.extend((1..=9).map(|i| forge::composite(&[i])));
    room.put("loops.ttf", &forge::font(&forge::tables(&glyphs)));
    let ran = room.run(&["measure", "loops.ttf", "--all"]);
    assert_eq!(ran.code, 1);
    assert_eq!(
        ran.err,
        "loops.ttf: 9 letters could not be measured: A B C D E and 4 more.\n"
    );
}

#[test]
fn wrong_arguments_measure_nothing() {
    let room = Room::with_sample();
    for arguments in [
        &[][..],
        &["weigh", "sample.ttf"],
        &["measure"],
        &["measure", "sample.ttf", "--frob"],
        &["measure", "sample.ttf", "--letters", "a", "--all"],
        &["measure", "sample.ttf", "--face", "none"],
        &["measure", "sample.ttf", "--pretty"],
        &["measure", "sample.ttf", "--output"],
        &["schema", "sample.ttf"],
    ] {
        let ran = room.run(arguments);
        assert_eq!((ran.code, ran.out.as_str()), (2, ""), "{arguments:?}");
        assert!(ran.err.ends_with("See `counterpoise --help`.\n"), "{ran:?}");
    }
    assert_eq!(room.names(), ["sample.ttf"]);
}

#[test]
fn help_is_no_error() {
    let room = Room::new();
    for (arguments, said) in [
        (&["--help"][..], "Usage:\n  counterpoise measure PATH..."),
        (&["-h"], "counterpoise schema"),
        (&["measure", "--help"], "Exit codes:"),
        (&["measure", "x", "-h", "--frob"], "--letters TEXT"),
        (&["schema", "--help"], "JSON Schema"),
        (
            &["--version"],
            concat!("counterpoise ", env!("CARGO_PKG_VERSION")),
        ),
    ] {
        let ran = room.run(arguments);
        assert_eq!((ran.code, ran.err.as_str()), (0, ""), "{arguments:?}");
        assert!(ran.out.contains(said), "{ran:?}");
        assert!(ran.out.lines().all(|l| l.len() <= 80), "{arguments:?}");
    }
}

#[test]
fn nothing_in_a_name_reaches_the_terminal_as_a_command() {
    let room = Room::new();
    let name = "clear\x1b[2J.ttf";
    room.put(name, b"text");
    let (document, ran) = room.measure(&[name]);
    assert!(!ran.err.contains('\x1b'), "{:?}", ran.err);
    // The document has the name as it is: JSON escapes it.
    assert_eq!(files(&document), [name]);
    assert!(!ran.out.contains('\x1b'));
}
