//! Files that are no fonts, or fonts that nobody would draw: an error or what can
//! be read, never a panic, never a figure that is no number, never a long wait.

use crate::{Fonts, open};
use counterpoise::font::{Font, FontError, GlyphId};
use counterpoise::measure::{self, Context, Letter, QUANTITIES, Subject};
use counterpoise_checks::forge;
use counterpoise_checks::manifest::{self, Face};
use libtest_mimic::{Failed, Trial};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;
use std::sync::mpsc;
use std::time::Duration;

/// Longest that one damaged file may take. Ten thousand random curves take some
/// seconds in the product's build, over a minute in the tests' on two idle cores and
/// several on busy ones; what this is here to find would take years.
const PATIENCE: Duration = Duration::from_secs(300);

/// Damaged copies tried of each font and kind of damage.
const TRIES: u64 = 60;

/// Glyphs looked at in each damaged copy.
const GLYPHS: u16 = 60;

/// The fonts that copies are damaged of: glyf, CFF with and without subroutines
/// nested in one another, CFF2, glyf with variations, a collection of CID CFF.
const DAMAGED: [&str; 6] = [
    "isabella",
    "murmure",
    "dancingscript",
    "sourcesans-cff2",
    "inter-vf",
    "notocjk",
];

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = vec![
        Trial::test("hostile::files that are no fonts", no_fonts),
        Trial::test("hostile::a sound font made in code", sound),
        Trial::test("hostile::components nested in one another", nested),
        Trial::test("hostile::subroutines that multiply", subroutines),
        Trial::test(
            "hostile::coordinates at the edge of what the format holds",
            extremes,
        ),
        Trial::test("hostile::ten thousand points", many_points),
        Trial::test("hostile::tables left out, emptied or cut", broken_tables),
        Trial::test(
            "hostile::nonsense in tables that tell nothing of letters",
            beside,
        ),
    ];
    let faces: Vec<Face> = manifest::packages()?
        .into_iter()
        .flat_map(|p| p.faces)
        .collect();
    for id in DAMAGED {
        let face = faces.iter().find(|f| f.id == id).cloned();
        let face = face.ok_or_else(|| format!("fonts.toml has no {id}"))?;
        all.push(fonts.check(
            format!("hostile::truncated::{id}"),
            vec![face.clone()],
            |faces| faces.iter().try_for_each(truncated),
        ));
        all.push(fonts.check(
            format!("hostile::flipped bits::{id}"),
            vec![face],
            |faces| faces.iter().try_for_each(flipped),
        ));
    }
    Ok(all)
}

/// What came of a hostile file.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
struct Outcome {
    opened: bool,
    read: usize,
    refused: usize,
}

/// Opens and measures; fails on a panic, a figure that is no number, or a long wait.
fn survive(what: &str, bytes: Vec<u8>) -> Result<Outcome, Failed> {
    let (tell, told) = mpsc::channel();
    // In a thread of its own: one that hangs is left behind, and the check goes on.
    std::thread::spawn(move || {
        let outcome = catch_unwind(AssertUnwindSafe(|| measure(bytes)));
        // Nobody listens any more once patience has run out.
        let _ = tell.send(outcome);
    });
    match told.recv_timeout(PATIENCE) {
        Ok(Ok(Ok(outcome))) => Ok(outcome),
        Ok(Ok(Err(e))) => Err(format!("{what}: {e}").into()),
        Ok(Err(_)) => Err(format!("{what}: it panicked").into()),
        Err(_) => Err(format!("{what}: it hung for {} s", PATIENCE.as_secs()).into()),
    }
}

fn measure(bytes: Vec<u8>) -> Result<Outcome, String> {
    let font = match Font::open(bytes) {
        Ok(font) => font,
        Err(e) if e.to_string().ends_with('.') => return Ok(Outcome::default()),
        Err(e) => return Err(format!("no sentence: {e}")),
    };
    let mut outcome = Outcome {
        opened: true,
        ..Outcome::default()
    };
    let (reader, context) = (font.reader(), Context::of(&font));
    if !context.slant.is_finite() {
        return Err("the slant is no number".into());
    }
    for id in 0..font.glyph_count().min(GLYPHS) {
        match measure::letter(&reader, GlyphId(id), &context) {
            Ok(letter) => {
                outcome.read += 1;
                if let Some(figure) = figures(&letter, &context)
                    .into_iter()
                    .find(|f| !f.is_finite())
                {
                    return Err(format!("glyph {id} has a figure that is {figure}"));
                }
            }
            Err(_) => outcome.refused += 1,
        }
    }
    Ok(outcome)
}

/// Every figure of a letter.
fn figures(letter: &Letter, context: &Context) -> Vec<f64> {
    let mut all = vec![letter.advance, letter.area];
    all.extend(letter.bounds.iter().flat_map(|b| [b.x0, b.y0, b.x1, b.y1]));
    all.extend(
        [&letter.top, &letter.foot]
            .into_iter()
            .flatten()
            .flat_map(|e| [e.x, e.y, e.breadth]),
    );
    // Taken for a capital, a hostile glyph has every figure that it can have.
    let subject = Subject {
        letter,
        character: Some('H'),
        context,
    };
    all.extend(QUANTITIES.iter().filter_map(|q| (q.of)(&subject)));
    for stroke in &letter.strokes {
        all.extend([
            stroke.median,
            stroke.length,
            stroke.least.value,
            stroke.greatest.value,
        ]);
        all.extend(stroke.angle);
        let places = stroke
            .marks
            .iter()
            .flat_map(|m| [m.from, m.to])
            .chain(stroke.axis.iter().copied());
        all.extend(places.flat_map(|p| [p.x, p.y]));
    }
    all
}

fn no_fonts() -> Result<(), Failed> {
    let files: [(&str, &[u8]); 8] = [
        ("an empty file", b""),
        ("a text file", b"Dear all,\nhere is the font.\n"),
        ("a page", b"<!doctype html><title>404</title>"),
        ("a picture", b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR"),
        ("one byte", b"\0"),
        ("a signature alone", b"OTTO"),
        ("a collection of no faces", b"ttcf\0\x01\0\0\0\0\0\0"),
        (
            "a collection that claims four thousand million",
            b"ttcf\0\x01\0\0\xff\xff\xff\xff",
        ),
    ];
    for (what, bytes) in files {
        if survive(what, bytes.to_vec())?.opened {
            return Err(format!("{what} was opened as a font").into());
        }
    }
    // Those that a person meets are told apart, each in its own words.
    let said = |bytes: &[u8]| Font::open(bytes.to_vec()).err();
    if said(b"") != Some(FontError::Empty)
        || !matches!(said(b"Dear all,\n"), Some(FontError::NotAFont(_)))
    {
        return Err("an empty file and a text file are not told apart".into());
    }
    Ok(())
}

fn square() -> Vec<u8> {
    forge::polygons(&[vec![(100, 0), (100, 700), (500, 700), (500, 0)]])
}

/// The forge itself: without this, every hostile font could fail for one dull reason.
fn sound() -> Result<(), Failed> {
    let font = Font::open(forge::font(&forge::tables(&[
        square(),
        square(),
        forge::composite(&[1]),
    ])))?;
    let reader = font.reader();
    for letter in ['A', 'B'] {
        let glyph = reader.glyph(letter).ok_or("the letter is not mapped")?;
        let area = reader.outline(glyph)?.ink_area();
        if (area - 280_000.0).abs() > 1e-6 {
            return Err(format!("{letter} has the area {area}, not 280000").into());
        }
    }
    Ok(())
}

fn nested() -> Result<(), Failed> {
    let itself = vec![square(), forge::composite(&[1])];
    let in_turns = vec![square(), forge::composite(&[2]), forge::composite(&[1])];
    let mut deep = vec![square()];
    deep.extend((0..2000).map(|i| forge::composite(&[i])));
    // Each level draws the one below twice: two to the power of forty squares.
    let mut doubling = vec![square()];
    doubling.extend((0..40).map(|i| forge::composite(&[i, i])));
    // Shallow, but each of four levels draws the one below a hundred times.
    let mut wide = vec![square()];
    wide.extend((0..4).map(|i| forge::composite(&[i; 100])));
    for (what, glyphs) in [
        ("a glyph that draws itself", itself),
        ("two glyphs that draw each other", in_turns),
        ("two thousand deep", deep),
        ("doubling forty times", doubling),
        ("a hundredfold four times", wide),
    ] {
        let outcome = survive(what, forge::font(&forge::tables(&glyphs)))?;
        if !outcome.opened || outcome.read == 0 {
            return Err(format!("{what}: the sound glyph was lost too: {outcome:?}").into());
        }
    }
    Ok(())
}

/// CFF's own way to make little data draw much: ten levels of subroutines, each
/// of which calls the next ten times.
fn subroutines() -> Result<(), Failed> {
    const CALL: u8 = 10;
    const RETURN: u8 = 11;
    // Operands are one byte, 139 for nought; subroutines count from -107.
    let operand = |v: i32| (v + 139) as u8;
    let call = |i: i32| [operand(i - 107), CALL];
    let line = [operand(1), operand(1), 5];
    let levels = 9;
    let mut routines: Vec<Vec<u8>> = (1..=levels)
        .map(|next| call(next).repeat(10).into_iter().chain([RETURN]).collect())
        .collect();
    routines.push(line.iter().copied().chain([RETURN]).collect());
    let mut bomb = vec![operand(0), operand(0), 21];
    bomb.extend(call(0));
    bomb.push(14);
    let side = 100;
    let sound = vec![
        operand(0),
        operand(0),
        21,
        operand(side),
        operand(0),
        5,
        operand(0),
        operand(side),
        5,
        operand(-side),
        operand(0),
        5,
        14,
    ];
    let glyphs = [sound.clone(), sound, bomb];
    let outcome = survive(
        "subroutines that multiply",
        forge::font(&forge::cff_tables(&glyphs, &routines)),
    )?;
    if !outcome.opened || outcome.read < 2 {
        return Err(format!("the sound glyphs were lost too: {outcome:?}").into());
    }
    Ok(())
}

fn extremes() -> Result<(), Failed> {
    let (least, most) = (i16::MIN, i16::MAX);
    let glyphs = vec![
        square(),
        forge::polygons(&[vec![
            (least, least),
            (least, most),
            (most, most),
            (most, least),
        ]]),
        forge::polygons(&[vec![(0, 0), (0, 0), (0, 0)]]),
        forge::polygons(&[vec![(5, 5)]]),
        forge::polygons(&[vec![(0, 0), (600, 0)]]),
        forge::polygons(&[vec![(0, 0), (600, 700), (0, 700), (600, 0)]]),
        forge::polygons(&[]),
    ];
    let outcome = survive("extreme coordinates", forge::font(&forge::tables(&glyphs)))?;
    if !outcome.opened || outcome.read == 0 {
        return Err(format!("the sound glyph was lost too: {outcome:?}").into());
    }
    Ok(())
}

fn many_points() -> Result<(), Failed> {
    let mut random = fastrand::Rng::with_seed(1);
    let mut scribble = |n: usize| -> Vec<(i16, i16)> {
        (0..n)
            .map(|_| (random.i16(-500..1500), random.i16(-500..1500)))
            .collect()
    };
    let teeth: Vec<(i16, i16)> = (0..5000)
        .flat_map(|i| [(i, 0), (i, if i % 2 == 0 { 700 } else { 10 })])
        .collect();
    let glyphs = vec![
        square(),
        forge::polygons(&[teeth]),
        forge::polygons(&[scribble(10_000)]),
        forge::polygons(&(0..2000).map(|_| scribble(4)).collect::<Vec<_>>()),
    ];
    survive("many points", forge::font(&forge::tables(&glyphs))).map(drop)
}

fn broken_tables() -> Result<(), Failed> {
    let sound = forge::tables(&[square(), square(), forge::composite(&[1])]);
    for i in 0..sound.len() {
        let name = String::from_utf8_lossy(&sound[i].0).into_owned();
        let mut without = sound.clone();
        without.remove(i);
        survive(&format!("without {name}"), forge::font(&without))?;
        for length in 0..sound[i].1.len().min(64) {
            let mut cut = sound.clone();
            cut[i].1.truncate(length);
            survive(&format!("{name} cut to {length} bytes"), forge::font(&cut))?;
        }
        for fill in [0x00, 0xFF, 0x7F, 0x80] {
            let mut filled = sound.clone();
            filled[i].1.fill(fill);
            survive(
                &format!("{name} filled with {fill:#x}"),
                forge::font(&filled),
            )?;
        }
    }
    Ok(())
}

/// Counts that no file could hold, in tables of colour, bitmaps, mathematics and
/// the like: the letters are read as if these were not there.
fn beside() -> Result<(), Failed> {
    let sound = forge::tables(&[square(), square(), forge::composite(&[1])]);
    let whole = survive("sound", forge::font(&sound))?;
    let tags = [
        b"CBDT", b"CBLC", b"COLR", b"CPAL", b"EBDT", b"EBLC", b"GDEF", b"MATH", b"STAT", b"SVG ",
        b"VORG", b"VVAR", b"avar", b"bdat", b"bloc", b"gvar", b"sbix", b"vhea", b"vmtx",
    ];
    for tag in tags {
        for version in [0_u16, 1, 2, 3] {
            let mut table = forge::words(&[version.into(), 0]);
            table.resize(96, 0xFF);
            let mut all = sound.clone();
            all.push((*tag, table));
            all.sort_unstable();
            let name = String::from_utf8_lossy(tag);
            let what = format!("nonsense in {name}, version {version}");
            let outcome = survive(&what, forge::font(&all))?;
            if outcome != whole {
                return Err(format!("{what}: {outcome:?}, not {whole:?}").into());
            }
        }
    }
    Ok(())
}

fn truncated(face: &Face) -> Result<(), Failed> {
    let whole = open(face)?.data().to_vec();
    let mut random = fastrand::Rng::with_seed(2);
    for i in 0..TRIES {
        // Half of the cuts fall in the first kilobyte, where the directory is.
        let end = if i % 2 == 0 {
            whole.len()
        } else {
            whole.len().min(1024)
        };
        let length = random.usize(..end);
        survive(
            &format!("{} cut to {length} bytes", face.id),
            whole[..length].to_vec(),
        )?;
    }
    Ok(())
}

fn flipped(face: &Face) -> Result<(), Failed> {
    let whole = open(face)?.data().to_vec();
    let mut opened = 0;
    for seed in 0..TRIES {
        let mut random = fastrand::Rng::with_seed(seed);
        let mut bytes = whole.clone();
        // Few flips in the directory, many in the rest: most copies then open,
        // and the damage is met where glyphs are read.
        for _ in 0..random.usize(1..400) {
            let at = random.usize(200.min(bytes.len() - 1)..bytes.len());
            bytes[at] ^= 1 << random.u32(..8);
        }
        if seed % 4 == 0 {
            let at = random.usize(..200.min(bytes.len()));
            bytes[at] ^= 1 << random.u32(..8);
        }
        opened += u64::from(
            survive(
                &format!("{} with bits flipped, seed {seed}", face.id),
                bytes,
            )?
            .opened,
        );
    }
    // Otherwise only the door would have been tested.
    if opened < TRIES / 4 {
        return Err(format!("only {opened} of {TRIES} damaged copies opened").into());
    }
    Ok(())
}
