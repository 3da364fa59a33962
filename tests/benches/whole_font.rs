//! How long it takes to measure a whole font, beside what FreeType needs merely
//! to load the same outlines; what counting the points needed adds; and how the
//! time per glyph grows with the font. The browser's bench times the same work.
//!
//! Every row is what the work costs when nothing else on the machine interrupts it.

#![allow(
    clippy::print_stdout,
    reason = "a benchmark's answer goes to the terminal"
)]

use counterpoise::font::{Font, GlyphId};
use counterpoise::judge::Alphabet;
use counterpoise::measure::{self, Context, QUANTITIES, Subject};
use counterpoise::report::{Choice, Chosen, LetterReport};
use counterpoise_checks::manifest::{self, Face};
use counterpoise_checks::{fetch, forge};
use freetype::Library;
use freetype::face::LoadFlag;
use serde_json::json;
use skrifa::raw::TableProvider;
use skrifa::{FontRef, Tag};
use std::collections::HashMap;
use std::error::Error;
use std::hint::black_box;
use std::time::Instant;

type Result<T> = std::result::Result<T, Box<dyn Error + Send + Sync>>;

/// Runs of each row, and glyphs timed at once.
const RUNS: usize = 9;
const HANDFUL: u16 = 10;

/// Runs where the refit is in it, which is slow.
const REFIT_RUNS: usize = 3;
const SURVEY_RUNS: usize = 5;

/// Glyphs timed at once where the browser's figures stand beside: its clock tells
/// no less than a tenth of a millisecond.
const SURVEY_HANDFUL: u16 = 50;

/// Latin fonts of about a thousand glyphs.
const LATIN: [&str; 2] = ["heros", "roboto-slab"];

/// Beside them, to be seen and not judged: a hand with edges as rough as its pen
/// left them, many times the points of a drawn letter.
const ROUGH: &str = "isabella";

/// Measuring may take this many times what bare loading takes.
const MOST_TIMES: f64 = 40.0;

/// Counting the points that a glyph needs may take this long at the median.
const MOST_REFIT_MS: f64 = 1.0;

/// Sizes of the grown fonts, and the most that a glyph of the largest may cost
/// beside one of the second.
const SIZES: [usize; 4] = [100, 1000, 5000, 20_000];
const MOST_GROWTH: f64 = 1.3;

/// Glyphs that the grown fonts repeat: few enough that the smallest has them all.
const REPEATED: usize = 100;

fn main() -> Result<()> {
    fetch::fetch_all()?;
    let faces: Vec<Face> = manifest::packages()?
        .into_iter()
        .flat_map(|p| p.faces)
        .collect();
    let read = |id: &str| -> Result<Vec<u8>> {
        let face = faces
            .iter()
            .find(|f| f.id == id)
            .ok_or_else(|| format!("fonts.toml has no {id}"))?;
        Ok(std::fs::read(face.path()).map_err(|e| format!("{id} is not here: {e}"))?)
    };
    for id in LATIN {
        beside_freetype(id, &read(id)?, Some(MOST_TIMES))?;
    }
    beside_freetype(ROUGH, &read(ROUGH)?, None)?;
    growth(&read("dejavu")?)
}

fn row(name: &str, value: f64, of: Option<&str>, most: Option<f64>) {
    println!(
        "bench {}",
        json!({ "name": name, "value": value, "unit": "us/glyph", "of": of, "most": most })
    );
}

fn beside_freetype(id: &str, bytes: &[u8], most: Option<f64>) -> Result<()> {
    let font = Font::open(bytes.to_vec())?;
    let glyphs = font.glyph_count();
    let load = format!("{id}, {glyphs} glyphs: FreeType loads the outlines");
    row(&load, freetype_us(bytes, glyphs)?, None, None);
    let reader = font.reader();
    let outlines = best(glyphs, |id| {
        let _ = black_box(reader.outline(GlyphId(id)));
    });
    row(
        &format!("{id}: outlines alone"),
        outlines,
        Some(&load),
        None,
    );
    row(
        &format!("{id}: every measure"),
        measured_us(&font),
        Some(&load),
        most,
    );
    refit(id, &font, most.map(|_| MOST_REFIT_MS));
    row(&format!("{id}: surveyed"), surveyed_us(&font), None, None);
    Ok(())
}

/// Every figure of every glyph, but those of how it is drawn: stems, heights,
/// widths and darkness.
fn measured_us(font: &Font) -> f64 {
    let (reader, context) = (font.reader(), Context::of(font));
    let mut characters = HashMap::new();
    for (c, glyph) in reader.characters() {
        characters.entry(glyph).or_insert(c);
    }
    best(font.glyph_count(), |id| {
        let glyph = GlyphId(id);
        if let Ok(letter) = measure::letter(&reader, glyph, &context) {
            let subject = Subject {
                letter: &letter,
                character: characters.get(&glyph).copied(),
                context: &context,
            };
            for quantity in QUANTITIES {
                black_box((quantity.of)(&subject));
            }
        }
    })
}

/// All that is told of every glyph, its drawing too, as the document's text: what
/// the page's worker does and the command line.
fn surveyed_us(font: &Font) -> f64 {
    let (reader, alphabet) = (font.reader(), Alphabet::of(font));
    let items = Chosen::of(font, Choice::Every).items;
    best_of(SURVEY_RUNS, SURVEY_HANDFUL, font.glyph_count(), |glyph| {
        if let Some(&item) = items.get(usize::from(glyph)) {
            let report = LetterReport::read(&reader, &alphabet, item);
            black_box(serde_json::to_string(&report).map_or(0, |text| text.len()));
        }
    })
}

/// How long it takes to count the points that a glyph needs and to look for its
/// flaws, of every glyph with ink.
fn refit(id: &str, font: &Font, most: Option<f64>) {
    let (reader, context) = (font.reader(), Context::of(font));
    let inked = |&id: &u16| {
        reader
            .outline(GlyphId(id))
            .is_ok_and(|outline| !outline.is_empty())
    };
    let mut times: Vec<f64> = (0..font.glyph_count())
        .filter(inked)
        .map(|id| {
            let least = (0..REFIT_RUNS).map(|_| {
                let started = Instant::now();
                let _ = black_box(measure::drawing_of(&reader, GlyphId(id), &context));
                started.elapsed().as_secs_f64()
            });
            least.fold(f64::INFINITY, f64::min) * 1e3
        })
        .collect();
    times.sort_unstable_by(f64::total_cmp);
    let part = |share: f64| times[(share * (times.len() - 1) as f64) as usize];
    for (what, share, most) in [("median", 0.5, most), ("95th centile", 0.95, None)] {
        println!(
            "bench {}",
            json!({
                "name": format!("{id}: points needed, {what}"),
                "value": part(share),
                "unit": "ms/glyph",
                "most": most,
            })
        );
    }
}

fn freetype_us(bytes: &[u8], glyphs: u16) -> Result<f64> {
    let library = Library::init()?;
    let face = library.new_memory_face(bytes.to_vec(), 0)?;
    let mut refused = 0;
    let time = best(glyphs, |id| {
        let loaded = face.load_glyph(id.into(), LoadFlag::NO_SCALE | LoadFlag::NO_HINTING);
        refused += u32::from(black_box(loaded).is_err());
    });
    if refused > 0 {
        return Err(format!("FreeType could not load {refused} glyphs").into());
    }
    Ok(time)
}

/// Microseconds a glyph: the best that every handful of glyphs took, added up.
/// A whole font takes longer than the slice of time that a busy machine gives;
/// a handful of glyphs often gets through undisturbed.
fn best(glyphs: u16, work: impl FnMut(u16)) -> f64 {
    best_of(RUNS, HANDFUL, glyphs, work)
}

fn best_of(runs: usize, handful: u16, glyphs: u16, mut work: impl FnMut(u16)) -> f64 {
    let starts = (0..glyphs).step_by(handful.into());
    let mut least = vec![f64::INFINITY; starts.len()];
    for _ in 0..runs {
        for (start, least) in starts.clone().zip(&mut least) {
            let started = Instant::now();
            for glyph in start..glyphs.min(start.saturating_add(handful)) {
                work(glyph);
            }
            *least = least.min(started.elapsed().as_secs_f64());
        }
    }
    least.iter().sum::<f64>() * 1e6 / f64::from(glyphs.max(1))
}

/// Fonts of like glyphs: the same hundred, over and over.
fn growth(bytes: &[u8]) -> Result<()> {
    let some = simple_glyphs(bytes, REPEATED)?;
    let name = |size: usize| format!("{size} like glyphs: every measure");
    for size in SIZES {
        let glyphs: Vec<Vec<u8>> = some.iter().cycle().take(size).cloned().collect();
        let font = Font::open(forge::font(&forge::tables(&glyphs)))?;
        let (of, most) = match size {
            20_000 => (Some(name(1000)), Some(MOST_GROWTH)),
            _ => (None, None),
        };
        row(&name(size), measured_us(&font), of.as_deref(), most);
    }
    Ok(())
}

/// Data of the first glyphs of a TrueType font that are drawn, not composed.
fn simple_glyphs(bytes: &[u8], count: usize) -> Result<Vec<Vec<u8>>> {
    let font = FontRef::new(bytes)?;
    let (loca, glyf) = (
        font.loca(None)?,
        font.table_data(Tag::new(b"glyf")).ok_or("no glyf table")?,
    );
    let mut found = Vec::new();
    for i in 0..loca.len() {
        let place = loca.get_raw(i).zip(loca.get_raw(i + 1));
        let data = place.and_then(|(from, to)| glyf.as_bytes().get(from as usize..to as usize));
        // The first word is the number of contours, less than nought of composites.
        if let Some(data) = data.filter(|d| d.first().is_some_and(|&b| b < 0x80)) {
            found.push(data.to_vec());
        }
        if found.len() == count {
            return Ok(found);
        }
    }
    Err(format!("only {} glyphs are drawn", found.len()).into())
}
