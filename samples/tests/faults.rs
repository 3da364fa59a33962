//! The faults are where the list says, as great as it says, and nowhere else.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

mod common;

use std::collections::BTreeSet;

use common::{files, index_of, outline, outline_of, runs};
use counterpoise_samples::{Fault, clean, planted};
use kurbo::{ParamCurve, Point, Shape};

fn fault(letter: &str) -> Fault {
    let (_, faults) = planted().unwrap();
    faults.into_iter().find(|f| f.letter == letter).unwrap()
}

#[test]
fn only_the_listed_letters_differ() {
    let (face, faults) = planted().unwrap();
    let before = clean();
    let [clean_file, planted_file] = files();
    let listed: BTreeSet<&str> = faults
        .iter()
        .filter(|f| f.measure != "kerning")
        .map(|f| f.letter)
        .collect();
    let mut changed = BTreeSet::new();
    assert_eq!(before.letters.len(), face.letters.len());
    for (id, (a, b)) in before.letters.iter().zip(&face.letters).enumerate() {
        assert_eq!((a.name, a.code), (b.name, b.code));
        let id = id as u16;
        let same = outline(&clean_file, id) == outline(&planted_file, id);
        if !same || a.advance != b.advance {
            changed.insert(a.name);
        }
    }
    assert_eq!(changed, listed);
}

#[test]
fn only_the_listed_pair_differs() {
    let (face, _) = planted().unwrap();
    let before = clean();
    assert_eq!(before.kerning.len(), face.kerning.len());
    let changed: Vec<_> = before
        .kerning
        .iter()
        .zip(&face.kerning)
        .filter(|(a, b)| a != b)
        .map(|(a, b)| (a.left, a.right, b.left, b.right))
        .collect();
    assert_eq!(changed, [("T", "o", "T", "o")]);
}

#[test]
fn the_list_is_short_and_every_fault_on_it_is_one() {
    let (_, faults) = planted().unwrap();
    assert!(faults.len() <= 8);
    for fault in &faults {
        assert_ne!(fault.clean, fault.planted, "{}", fault.letter);
        assert!(fault.sentence.ends_with('.'));
        let mark = fault.letter.chars().next().unwrap();
        assert!(fault.sentence.contains(mark), "{}", fault.sentence);
    }
}

#[test]
fn widths_heights_and_bearings_are_those_of_the_files() {
    let [before, after] = files();
    let bounds = |code| {
        (
            outline_of(&before, code).bounding_box(),
            outline_of(&after, code).bounding_box(),
        )
    };
    let (a, b) = bounds('R');
    assert_eq!(
        (fault("R").clean, fault("R").planted),
        (a.width(), b.width())
    );
    assert!((b.width() / a.width() - 0.86).abs() < 0.005);
    let (a, b) = bounds('C');
    assert_eq!(fault("C").clean, a.y1 - 700.0);
    assert_eq!((b.y0, b.y1), (0.0, 700.0));
    let (a, b) = bounds('h');
    assert_eq!((fault("h").clean, fault("h").planted), (a.x0, b.x0));
    let (a, b) = bounds('d');
    assert_eq!(fault("d").planted - fault("d").clean, b.y0 - a.y0);
}

#[test]
fn strokes_of_the_narrow_r_keep_their_thickness() {
    let [before, after] = files();
    let (a, b) = (outline_of(&before, 'R'), outline_of(&after, 'R'));
    for y in [60.3, 120.3, 180.3, 480.3] {
        let (a, b) = (runs(&a, y), runs(&b, y));
        assert_eq!(a.len(), b.len());
        assert!((a[0] - b[0]).abs() < 0.01, "stem at {y}");
        // The leg is a little steeper, so a level line runs a little shorter
        // through the same stroke.
        assert!((a[1] - b[1]).abs() < 0.05 * a[1], "bowl or leg at {y}");
    }
}

#[test]
fn stems_of_m_and_e_are_as_thick_as_listed() {
    let [before, after] = files();
    for (code, heights, least) in [
        ('m', [150.3, 200.3, 250.3], 1.08),
        ('E', [140.3, 210.3, 290.3], 1.075),
    ] {
        let first = |file| {
            let path = outline_of(file, code);
            heights.map(|y| runs(&path, y)[0])
        };
        let (a, b) = (first(&before), first(&after));
        let listed = fault(&code.to_string());
        for (a, b) in a.into_iter().zip(b) {
            assert!((a - listed.clean).abs() < 5.0, "{code}: {a}");
            assert!((b - listed.planted).abs() < 5.0, "{code}: {b}");
            assert!(b / a > least - 0.005, "{code}: {}", b / a);
        }
    }
}

#[test]
fn the_trace_keeps_the_shape_with_five_times_the_points() {
    let listed = fault("g");
    assert!((listed.planted / listed.clean - 5.0).abs() < 0.5);
    let [before, after] = files();
    let id = index_of(&clean(), "g");
    let points = |file| {
        let font = skrifa::FontRef::new(file).unwrap();
        let glyf = skrifa::raw::TableProvider::glyf(&font).unwrap();
        let loca = skrifa::raw::TableProvider::loca(&font, None).unwrap();
        match loca
            .get_glyf(skrifa::GlyphId::new(u32::from(id)), &glyf)
            .unwrap()
            .unwrap()
        {
            skrifa::raw::tables::glyf::Glyph::Simple(glyph) => glyph.num_points(),
            skrifa::raw::tables::glyf::Glyph::Composite(_) => 0,
        }
    };
    assert_eq!(points(&before) as f64, listed.clean);
    assert_eq!(points(&after) as f64, listed.planted);

    let (drawn, traced) = (outline(&before, id), outline(&after, id));
    let drawn: Vec<_> = drawn.segments().collect();
    for edge in traced.segments() {
        for at in [edge.start(), edge.eval(0.5)] {
            let away = drawn
                .iter()
                .map(|s| distance(s, at))
                .fold(f64::MAX, f64::min);
            assert!(away < 1.2, "{away} at {at:?}");
        }
    }
}

fn distance(edge: &kurbo::PathSeg, at: Point) -> f64 {
    use kurbo::ParamCurveNearest;
    edge.nearest(at, 1e-3).distance_sq.sqrt()
}

#[test]
fn the_readme_lists_the_faults_as_they_are() {
    let readme = include_str!("../README.md");
    let (_, faults) = planted().unwrap();
    for fault in &faults {
        let start = format!("| {} | ", fault.letter);
        let row = readme.lines().find(|line| line.starts_with(&start));
        let row = row.unwrap_or_else(|| panic!("no row for {}", fault.letter));
        for value in [fault.clean, fault.planted] {
            let said = |cell: &str| cell.split(' ').any(|word| word == value.to_string());
            assert!(row.split('|').any(said), "{value} is not in: {row}");
        }
        assert!(readme.contains(&format!("`{}`", fault.measure)));
    }
    let rows = readme
        .lines()
        .filter(|l| l.starts_with("| ") && l.contains(" | "))
        .count();
    // Two tables, each with a line of headings; the first lists five kinds of file.
    assert_eq!(rows, faults.len() + 7);
}
