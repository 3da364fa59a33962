//! Kerning as shaped, against HarfBuzz; and all that the tables hold, against
//! fontTools. Fonts without kerning and with damaged kerning are made in code.

use crate::{Fonts, face, open};
use counterpoise::font::{Font, KerningNote, KerningSource, LATIN, SubtableTally};
use counterpoise_checks::manifest::Face;
use counterpoise_checks::{forge, place, python};
use libtest_mimic::{Failed, Trial};
use serde::Deserialize;
use std::sync::Arc;

/// Faces of each kind of kerning: classes and single pairs, extension lookups,
/// the legacy table alone, and both.
const FACES: [&str; 8] = [
    "dejavu",
    "heros",
    "texgyretermes-regular",
    "texgyrepagella-regular",
    "sourcesans",
    "spartan",
    "murmure",
    "ebgaramond",
];

/// Pairs of each face: over all faces, well over 2,000.
const PAIRS: usize = 500;

/// Seed of the pairs.
const SEED: u64 = 5;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = Vec::new();
    for id in FACES {
        let face = face(id)?;
        for (name, run) in [
            ("advances", advances as fn(&Face) -> Result<(), Failed>),
            ("tables", tables),
        ] {
            all.push(fonts.check(
                format!("kerning_{name}::{id}"),
                vec![face.clone()],
                move |faces| faces.iter().try_for_each(run),
            ));
        }
    }
    all.push(Trial::test("kerning::none", none));
    all.push(Trial::test("kerning::damaged", damaged));
    Ok(all)
}

/// Pairs of the font's Latin letters, figures and signs: half of unaccented
/// letters, which are kerned most.
fn pairs(font: &Font) -> Vec<String> {
    let characters: Vec<char> = font
        .reader()
        .characters()
        .into_iter()
        .map(|(c, _)| c)
        .filter(|&c| {
            c.is_ascii_graphic() || (('\u{C0}'..='\u{17F}').contains(&c) && c.is_alphabetic())
        })
        .collect();
    let letters: Vec<char> = characters
        .iter()
        .copied()
        .filter(char::is_ascii_alphabetic)
        .collect();
    let mut random = fastrand::Rng::with_seed(SEED);
    (0..PAIRS)
        .map(|i| {
            let from = if i % 2 == 0 { &letters } else { &characters };
            let mut one = || from[random.usize(..from.len())];
            [one(), one()].iter().collect()
        })
        .collect()
}

fn advances(face: &Face) -> Result<(), Failed> {
    python::set_up()?;
    let font = open(face)?;
    let (reader, kerning) = (font.reader(), font.kerning(LATIN, None));
    let pairs = pairs(&font);
    let file = place::target().join(format!("kerning-pairs-{}.json", face.id));
    std::fs::write(&file, serde_json::to_string(&pairs)?)?;
    let said = python::script(
        "kerning.py",
        &[
            "shape",
            &face.path().to_string_lossy(),
            &file.to_string_lossy(),
        ],
    )?;
    let theirs: Vec<[f64; 2]> = serde_json::from_slice(&said)?;
    let (mut kerned, mut wrong) = (0, Vec::new());
    for (pair, theirs) in pairs.iter().zip(&theirs) {
        let glyphs: Vec<_> = pair.chars().filter_map(|c| reader.glyph(c)).collect();
        let [a, b] = glyphs[..] else {
            return Err(format!("{pair} is not in the font").into());
        };
        let plain = reader.advance(a) + reader.advance(b);
        let moved = f64::from(kerning.value(a, b).advance());
        kerned += usize::from(moved != 0.0);
        if [plain + moved, plain] != *theirs {
            wrong.push(format!(
                "{pair}: {:?} against {theirs:?}",
                [plain + moved, plain]
            ));
        }
    }
    println!(
        "{}: {} pairs, {kerned} of them kerned, {} differ; {:?}",
        face.id,
        pairs.len(),
        wrong.len(),
        kerning.notes()
    );
    if theirs.len() != pairs.len() || kerned == 0 || !wrong.is_empty() {
        return Err(format!("{kerned} kerned; {wrong:#?}").into());
    }
    Ok(())
}

#[derive(Deserialize)]
#[serde(rename_all = "camelCase")]
struct Subtable {
    lookup: u16,
    subtable: u16,
    of_classes: bool,
    entries: usize,
    sum: i64,
}

#[derive(Deserialize)]
struct Tables {
    source: Option<String>,
    subtables: Vec<Subtable>,
}

fn tables(face: &Face) -> Result<(), Failed> {
    python::set_up()?;
    let kerning = open(face)?.kerning(LATIN, None);
    let said = python::script("kerning.py", &["tables", &face.path().to_string_lossy()])?;
    let theirs: Tables = serde_json::from_slice(&said)?;
    let source = kerning.source().map(|s| match s {
        KerningSource::Gpos => "GPOS",
        KerningSource::KernTable => "kern",
    });
    let subtables: Vec<SubtableTally> = theirs
        .subtables
        .iter()
        .map(|s| SubtableTally {
            lookup: s.lookup,
            subtable: s.subtable,
            of_classes: s.of_classes,
            entries: s.entries,
            sum: s.sum,
        })
        .collect();
    let ours = kerning.tallies();
    println!(
        "{}: {source:?}, {} subtables, {} entries",
        face.id,
        ours.len(),
        ours.iter().map(|t| t.entries).sum::<usize>()
    );
    if source != theirs.source.as_deref() || ours != subtables || ours.is_empty() {
        return Err(format!("{source:?} {ours:#?} against {subtables:#?}").into());
    }
    Ok(())
}

fn forged(extra: &[forge::Table]) -> Result<Font, Failed> {
    let square = forge::polygons(&[vec![(50, 0), (450, 0), (450, 700), (50, 700)]]);
    let mut tables = forge::tables(&[square.clone(), square.clone(), square]);
    tables.extend_from_slice(extra);
    tables.sort_by_key(|(tag, _)| *tag);
    Font::open(forge::font(&tables)).map_err(|e| e.to_string().into())
}

fn none() -> Result<(), Failed> {
    let kerning = forged(&[])?.kerning(LATIN, None);
    if kerning.source().is_some() || !kerning.notes().is_empty() {
        return Err(format!("{kerning:?}").into());
    }
    Ok(())
}

fn damaged() -> Result<(), Failed> {
    let legacy = forge::words(&[0, 1, 0, 20, 1, 1, 0, 0, 0, 1, 2, -30]);
    for (tables, notes, value) in [
        // GPOS that is no GPOS: the kern table serves.
        (
            vec![(*b"GPOS", vec![0; 3]), (*b"kern", legacy.clone())],
            vec![KerningNote::BrokenGpos],
            -30,
        ),
        (vec![(*b"kern", legacy.clone())], vec![], -30),
        (
            vec![(*b"kern", legacy[..20].to_vec())],
            vec![KerningNote::BrokenKernTable],
            0,
        ),
    ] {
        let font = forged(&tables)?;
        let kerning = font.kerning(LATIN, None);
        let reader = font.reader();
        let (Some(a), Some(b)) = (reader.glyph('A'), reader.glyph('B')) else {
            return Err("the forged font has no A and B".into());
        };
        let apart = kerning.value(a, b).apart();
        if kerning.notes() != notes || apart != value {
            return Err(
                format!("{apart} {:?}, expected {value} {notes:?}", kerning.notes()).into(),
            );
        }
    }
    Ok(())
}
