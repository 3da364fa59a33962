//! The files are sound: two readers agree on them, and they say what they are.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

mod common;

use common::{PROMISED, Sink, files, outline};
use counterpoise_samples::{clean, planted, postscript, truetype};
use kurbo::{BezPath, PathEl, Shape};
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::raw::TableProvider;
use skrifa::{GlyphId, MetadataProvider};
use ttf_parser::OutlineBuilder;
use ttf_parser::gpos::{PairAdjustment, PositioningSubtable};
use ttf_parser::name_id;

/// What one reader's outlines are gathered in serves the other's.
impl OutlinePen for Sink {
    fn move_to(&mut self, x: f32, y: f32) {
        OutlineBuilder::move_to(self, x, y);
    }
    fn line_to(&mut self, x: f32, y: f32) {
        OutlineBuilder::line_to(self, x, y);
    }
    fn quad_to(&mut self, a: f32, b: f32, x: f32, y: f32) {
        OutlineBuilder::quad_to(self, a, b, x, y);
    }
    fn curve_to(&mut self, a: f32, b: f32, c: f32, d: f32, x: f32, y: f32) {
        OutlineBuilder::curve_to(self, a, b, c, d, x, y);
    }
    fn close(&mut self) {
        OutlineBuilder::close(self);
    }
}

fn second_opinion(file: &[u8], glyph: u16) -> BezPath {
    let font = skrifa::FontRef::new(file).unwrap();
    let mut sink = Sink::default();
    let settings = DrawSettings::unhinted(Size::unscaled(), LocationRef::default());
    let glyphs = font.outline_glyphs();
    if let Some(outline) = glyphs.get(GlyphId::new(u32::from(glyph))) {
        outline.draw(settings, &mut sink).unwrap();
    }
    sink.path()
}

/// Without the straight edges that only lead back to a contour's start: readers
/// differ in whether they draw them before they close.
fn plain(path: &BezPath) -> Vec<PathEl> {
    let mut out: Vec<PathEl> = Vec::new();
    let mut start = kurbo::Point::ORIGIN;
    for element in path.elements() {
        match (*element, out.last()) {
            (PathEl::MoveTo(p), _) => start = p,
            (PathEl::ClosePath, Some(&PathEl::LineTo(p))) if p == start => {
                out.pop();
            }
            _ => {}
        }
        out.push(*element);
    }
    out
}

fn all_files() -> Vec<Vec<u8>> {
    let mut all = files().to_vec();
    all.push(postscript(&clean()).unwrap());
    all.push(postscript(&planted().unwrap().0).unwrap());
    all
}

#[test]
fn two_readers_see_the_same_outlines() {
    for file in all_files() {
        let face = ttf_parser::Face::parse(&file, 0).unwrap();
        for glyph in 0..face.number_of_glyphs() {
            let (one, other) = (outline(&file, glyph), second_opinion(&file, glyph));
            assert_eq!(plain(&one), plain(&other), "glyph {glyph}");
        }
    }
}

#[test]
fn characters_widths_and_bearings_are_the_recipe_s() {
    let recipe = clean();
    for file in all_files().iter().step_by(2) {
        let face = ttf_parser::Face::parse(file, 0).unwrap();
        let font = skrifa::FontRef::new(file).unwrap();
        for (id, letter) in recipe.letters.iter().enumerate() {
            let glyph = ttf_parser::GlyphId(id as u16);
            if let Some(code) = letter.code {
                assert_eq!(face.glyph_index(code), Some(glyph));
                assert_eq!(font.charmap().map(code), Some(GlyphId::new(id as u32)));
            }
            assert_eq!(face.glyph_name(glyph), Some(letter.name));
            let advance = face.glyph_hor_advance(glyph).unwrap();
            assert_eq!(f64::from(advance), letter.advance, "{}", letter.name);
            if !letter.path.is_empty() {
                let left = f64::from(face.glyph_hor_side_bearing(glyph).unwrap());
                assert_eq!(left, outline(file, id as u16).bounding_box().x0.round());
                assert!((left - letter.path.bounding_box().x0).abs() <= 0.5);
            }
        }
    }
}

#[test]
fn every_glyph_states_the_box_of_its_curves() {
    for file in files() {
        let font = skrifa::FontRef::new(&file).unwrap();
        let (glyf, loca) = (font.glyf().unwrap(), font.loca(None).unwrap());
        for id in 0..clean().letters.len() as u16 {
            let Some(glyph) = loca.get_glyf(GlyphId::new(u32::from(id)), &glyf).unwrap() else {
                continue;
            };
            let stated = [glyph.x_min(), glyph.y_min(), glyph.x_max(), glyph.y_max()];
            let curves = outline(&file, id).bounding_box();
            let curves = [curves.x0, curves.y0, curves.x1, curves.y1];
            for (stated, curves) in stated.into_iter().zip(curves) {
                assert!((f64::from(stated) - curves).abs() < 0.5, "glyph {id}");
            }
        }
    }
}

#[test]
fn the_cff_flavour_draws_the_same_ink() {
    let [truetype, _] = files();
    let cff = postscript(&clean()).unwrap();
    for (id, letter) in clean().letters.iter().enumerate() {
        let (a, b) = (outline(&truetype, id as u16), outline(&cff, id as u16));
        // TrueType turns one way, CFF the other.
        let (a, b) = (-a.area(), b.area());
        assert!(
            (a - b).abs() <= 0.005 * a.abs(),
            "{}: {a} and {b}",
            letter.name
        );
    }
}

#[test]
fn the_file_says_what_it_is() {
    for (file, version) in files().iter().zip(["Version 1.000", "Version 0.900"]) {
        let face = ttf_parser::Face::parse(file, 0).unwrap();
        let name = |id| {
            face.names()
                .into_iter()
                .find(|n| n.name_id == id && n.is_unicode())
                .and_then(|n| n.to_string())
                .unwrap_or_default()
        };
        assert_eq!(name(name_id::FAMILY), "Brigaroe");
        assert_eq!(name(name_id::SUBFAMILY), "Regular");
        assert_eq!(name(name_id::VERSION), version);
        assert!(name(name_id::DESIGNER).contains("invented"));
        assert!(name(name_id::DESCRIPTION).contains("demonstration face"));
        assert!(name(name_id::LICENSE).starts_with("MIT License"));
        assert_eq!(face.units_per_em(), 1000);
        assert_eq!(face.x_height(), Some(500));
        assert_eq!(face.capital_height(), Some(700));
        assert_eq!(face.weight().to_number(), 400);
        assert_eq!(
            face.permissions(),
            Some(ttf_parser::Permissions::Installable)
        );
        assert_eq!(face.tables().os2.unwrap().version, 4);
        let cmap = face.tables().cmap.unwrap();
        assert!(cmap.subtables.into_iter().all(|t| {
            matches!(
                t.format,
                ttf_parser::cmap::Format::SegmentMappingToDeltaValues(_)
            )
        }));
    }
}

/// What the file adds between two letters.
fn kern(file: &[u8], left: char, right: char) -> i16 {
    let face = ttf_parser::Face::parse(file, 0).unwrap();
    let (left, right) = (
        face.glyph_index(left).unwrap(),
        face.glyph_index(right).unwrap(),
    );
    let gpos = face.tables().gpos.unwrap();
    assert!(
        gpos.features
            .find(ttf_parser::Tag::from_bytes(b"kern"))
            .is_some()
    );
    gpos.lookups
        .into_iter()
        .flat_map(|l| {
            l.subtables
                .into_iter::<PositioningSubtable<'_>>()
                .collect::<Vec<_>>()
        })
        .find_map(|table| match table {
            PositioningSubtable::Pair(PairAdjustment::Format1 { coverage, sets }) => {
                let set = sets.get(coverage.get(left)?)?;
                Some(set.get(right)?.0.x_advance)
            }
            _ => None,
        })
        .unwrap_or(0)
}

#[test]
fn every_pair_is_in_the_file_and_no_other() {
    let recipe = clean();
    let [file, _] = files();
    for left in PROMISED.chars() {
        for right in PROMISED.chars() {
            let is = |name: &str, code| recipe.letter(name).unwrap().code == Some(code);
            let listed = recipe
                .kerning
                .iter()
                .find(|k| is(k.left, left) && is(k.right, right))
                .map_or(0, |k| k.by);
            assert_eq!(kern(&file, left, right), listed, "{left}{right}");
        }
    }
}

#[test]
fn no_pair_is_listed_twice() {
    let mut pairs: Vec<_> = clean().kerning.iter().map(|k| (k.left, k.right)).collect();
    let count = pairs.len();
    pairs.sort_unstable();
    pairs.dedup();
    assert_eq!(pairs.len(), count);
}

#[test]
fn the_recipe_makes_the_same_bytes_twice() {
    assert_eq!(truetype(&clean()).unwrap(), truetype(&clean()).unwrap());
    let (one, first) = planted().unwrap();
    let (two, second) = planted().unwrap();
    assert_eq!(truetype(&one).unwrap(), truetype(&two).unwrap());
    assert_eq!(postscript(&one).unwrap(), postscript(&two).unwrap());
    assert_eq!(first, second);
}
