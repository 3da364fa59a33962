//! Glyph files and zipped folders with known letters, and hostile ones.

use super::*;
use std::io::{Cursor, Write};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

const BOX: &str = "<contour><point x='50' y='0' type='line'/><point x='150.5' y='0' type='line'/>\
    <point x='150.5' y='700' type='line'/><point x='50' y='700' type='line'/></contour>";

fn glif(name: &str, hex: &str, inside: &str) -> String {
    format!(
        "<?xml version='1.0' encoding='UTF-8'?><glyph name='{name}' format='2'>\
         <advance width='200'/><unicode hex='{hex}'/><outline>{inside}</outline></glyph>"
    )
}

fn plist(inside: &str) -> String {
    format!(
        "<?xml version='1.0' encoding='UTF-8'?><!DOCTYPE plist PUBLIC \
         '-//Apple//DTD PLIST 1.0//EN' 'http://www.apple.com/DTDs/PropertyList-1.0.dtd'>\
         <plist version='1.0'>{inside}</plist>"
    )
}

fn zipped(files: &[(&str, String)]) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, text) in files {
        zip.start_file(*name, SimpleFileOptions::default()).unwrap();
        zip.write_all(text.as_bytes()).unwrap();
    }
    zip.finish().unwrap().into_inner()
}

fn ufo(info: &str, glyphs: &[(&str, String)]) -> Vec<u8> {
    let listed: String = glyphs
        .iter()
        .map(|(name, _)| format!("<key>{name}</key><string>{name}_.glif</string>"))
        .collect();
    let mut files = vec![
        (
            "A.ufo/metainfo.plist".to_owned(),
            plist(
                "<dict><key>creator</key><string>x</string><key>formatVersion</key><integer>3</integer></dict>",
            ),
        ),
        (
            "A.ufo/fontinfo.plist".to_owned(),
            plist(&format!("<dict>{info}</dict>")),
        ),
        (
            "A.ufo/layercontents.plist".to_owned(),
            plist(
                "<array><array><string>public.default</string><string>glyphs</string></array></array>",
            ),
        ),
        (
            "A.ufo/glyphs/contents.plist".to_owned(),
            plist(&format!("<dict>{listed}</dict>")),
        ),
    ];
    for (name, text) in glyphs {
        files.push((format!("A.ufo/glyphs/{name}_.glif"), text.clone()));
    }
    let files: Vec<(&str, String)> = files.iter().map(|(n, t)| (n.as_str(), t.clone())).collect();
    zipped(&files)
}

#[test]
fn a_folder_is_a_font_with_its_components() {
    let dot = "<component base='I' xScale='0.5' yScale='0.1' yOffset='800'/>";
    let bytes = ufo(
        "<key>familyName</key><string>Tried</string><key>unitsPerEm</key><integer>2048</integer>\
         <key>capHeight</key><real>1400.5</real><key>italicAngle</key><integer>-9</integer>",
        &[
            ("I", glif("I", "0049", BOX)),
            ("Idot", glif("Idot", "0130", &format!("{BOX}{dot}"))),
            ("lost", glif("lost", "0051", "<component base='none'/>")),
            ("bad", "<glyph".to_owned()),
        ],
    );
    let ufo = read(bytes).unwrap();
    assert_eq!(ufo.drawn.units_per_em, 2048);
    assert_eq!(ufo.drawn.names.family.as_deref(), Some("Tried"));
    assert_eq!(ufo.drawn.declared.cap_height, Some(1400.5));
    assert_eq!(ufo.drawn.declared.slant, 9.0);
    let letters = &ufo.drawn.letters;
    assert_eq!(letters.len(), 2);
    assert_eq!(letters[0].outline.bounds().unwrap().x1, 150.5);
    assert_eq!(letters[1].characters, ['\u{130}']);
    assert_eq!(letters[1].outline.bounds().unwrap().y1, 870.0);
    assert_eq!(ufo.notes.len(), 2, "{:?}", ufo.notes);
}

#[test]
fn every_kind_of_curve_is_read() {
    let text = glif(
        "o",
        "006F",
        "<contour><point x='0' y='0' type='curve'/><point x='0' y='10'/><point x='10' y='20'/>\
         <point x='20' y='20' type='curve'/><point x='40' y='20'/><point x='40' y='0'/>\
         <point x='20' y='-10' type='qcurve'/><point x='10' y='-10'/><point x='0' y='-5'/></contour>\
         <contour><point x='0' y='0'/><point x='10' y='0'/><point x='10' y='10'/><point x='0' y='10'/></contour>",
    );
    let (letter, notes) = read_glif(&text).unwrap();
    assert!(notes.is_empty());
    let kinds: Vec<usize> = letter
        .outline
        .segments()
        .iter()
        .map(|s| match s.path_seg() {
            kurbo::PathSeg::Line(_) => 1,
            kurbo::PathSeg::Quad(_) => 2,
            kurbo::PathSeg::Cubic(_) => 3,
        })
        .collect();
    assert_eq!(kinds, [3, 2, 2, 3, 2, 2, 2, 2]);
}

#[test]
fn open_contours_and_lone_components_are_told() {
    let text = glif(
        "a",
        "0061",
        "<contour><point x='0' y='0' type='move'/><point x='9' y='0' type='line'/>\
        <point x='9' y='9' type='line'/></contour><component base='b'/>",
    );
    let (letter, notes) = read_glif(&text).unwrap();
    assert_eq!(letter.outline.segments().len(), 3);
    assert_eq!(notes.len(), 2, "{notes:?}");
}

#[track_caller]
fn refused<T: std::fmt::Debug>(result: Result<T, DrawingError>, code: &str) {
    let e = result.unwrap_err();
    assert_eq!(e.code(), code, "{e}");
    assert!(e.to_string().ends_with('.'), "{e}");
}

#[test]
fn hostile_files_get_a_sentence() {
    refused(read(Vec::new()), "empty");
    refused(read(b"PK\x03\x04 but no zip".to_vec()), "not-zip");
    refused(read(zipped(&[("a.txt", "hello".into())])), "no-ufo");
    refused(
        read(zipped(&[("metainfo.plist", "no".into())])),
        "broken-ufo",
    );
    let one = plist("<dict><key>formatVersion</key><integer>1</integer></dict>");
    refused(read(zipped(&[("metainfo.plist", one)])), "ufo-version");
    let sound = ufo("", &[("I", glif("I", "0049", BOX))]);
    refused(read(sound[..sound.len() / 2].to_vec()), "not-zip");
    // A million zeros pack into next to nothing.
    let bomb = " ".repeat(DrawingError::MAX_UNPACKED as usize + 1);
    let bomb = zipped(&[("metainfo.plist", bomb)]);
    assert!(bomb.len() < 1 << 20);
    refused(read(bomb), "unpacked");
    // Each glyph is ten of the next.
    let ten = |of: &str| format!("<component base='{of}'/>").repeat(10);
    let glyphs: Vec<(String, String)> = (0..9)
        .map(|i| {
            (
                format!("g{i}"),
                glif(&format!("g{i}"), "0041", &ten(&format!("g{}", i + 1))),
            )
        })
        .chain([("g9".to_owned(), glif("g9", "0042", BOX))])
        .collect();
    let glyphs: Vec<(&str, String)> = glyphs
        .iter()
        .map(|(n, t)| (n.as_str(), t.clone()))
        .collect();
    let made = read(ufo("", &glyphs)).unwrap();
    assert!(made.drawn.letters.len() < 10 && !made.notes.is_empty());
    let circle = ufo(
        "",
        &[
            ("a", glif("a", "0061", "<component base='a'/>")),
            ("I", glif("I", "0049", BOX)),
        ],
    );
    assert_eq!(read(circle).unwrap().drawn.letters.len(), 1);
    refused(read_glif("<svg/>"), "broken-glyph");
    refused(
        read_glif("<!DOCTYPE g [<!ENTITY a 'b'>]><glyph/>"),
        "entities",
    );
    refused(read_glif(&"<a>".repeat(100_000)), "too-deep");
    refused(
        read_glif(&glif(
            "a",
            "0061",
            "<contour><point x='1'/><point x='NaN' y='2'/></contour>",
        )),
        "broken-glyph",
    );
}
