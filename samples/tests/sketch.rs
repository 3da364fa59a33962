//! The redraw and the sketch of the R are read by the lab as the R that they show.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

use counterpoise::measure::strokes::StrokeKind;
use counterpoise::measure::{Context, of_outline};
use counterpoise::outline::Outline;
use counterpoise_samples::{clean, planted, redraw_svg, sketch_png, truetype};
use counterpoise_scan::strokes::Run;

fn width(outline: &Outline) -> f64 {
    outline.bounds().unwrap().width()
}

#[test]
fn the_redraw_is_the_mended_r() {
    let sheet = counterpoise_drawings::svg::read(&redraw_svg().unwrap()).unwrap();
    let own = sheet.own.unwrap();
    let face = clean();
    let letter = face.letter("R").unwrap();
    assert_eq!((own.units_per_em, own.advance), (1000.0, letter.advance));
    let drawn = Outline::from_path(&letter.path);
    let shape = &sheet.shapes[0];
    assert!((width(shape) - width(&drawn)).abs() < 0.01);
    let faulty = planted().unwrap().0;
    let narrow = Outline::from_path(&faulty.letter("R").unwrap().path);
    assert!(width(shape) > width(&narrow) + 40.0);
}

#[test]
fn the_sketch_shows_the_same_r() {
    let png = sketch_png().unwrap();
    assert_eq!(
        png,
        sketch_png().unwrap(),
        "the recipe gives other bytes each time"
    );
    let decoded = counterpoise_scan::decode::decode(&png).unwrap();
    let scan = counterpoise_scan::letters::read(&decoded.grey, Some(1.6)).unwrap();
    let [letter] = &scan.letters[..] else {
        panic!("{} letters", scan.letters.len());
    };
    let scale = 300.0 / 700.0;
    let face = clean();
    let r = face.letter("R").unwrap();
    let outline = Outline::from_path(&r.path);
    let near = |is: f64, was: f64| (is / was - 1.0).abs() < 0.04;
    assert!(near(width(&letter.outline) / scale, width(&outline)));
    let font = counterpoise::font::Font::open(truetype(&face).unwrap()).unwrap();
    let measured = of_outline(&outline, r.advance, &Context::of(&font));
    let stem = measured
        .strokes
        .iter()
        .find(|s| s.kind == StrokeKind::Stem)
        .unwrap();
    let found = letter
        .strokes
        .iter()
        .find(|s| s.run == Run::Upright)
        .unwrap();
    let is = found.thickness / scale;
    assert!(near(is, stem.median), "{is} for {}", stem.median);
}
