//! Lines from right to left: glyphs, their order, advances and offsets against
//! HarfBuzz; and the form that each character takes on the stage against the same.

use crate::{Fonts, face};
use counterpoise_checks::manifest::Face;
use counterpoise_checks::{place, python};
use counterpoise_shaping::{Form, Placed, Shaper, read};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Words of Hebrew, with its points and without, and of Arabic: letters that join
/// and that do not, marks, the ligature of lam and alef, figures of its own.
const HEBREW: [&str; 4] = [
    "\u{5e9}\u{5dc}\u{5d5}\u{5dd}",
    "\u{5d0}\u{5d1}\u{5d2}\u{5d3}\u{5d4}\u{5d5}\u{5d6}\u{5d7}\u{5d8}\u{5d9} (\u{5db}\u{5dc})",
    "\u{5e9}\u{5c1}\u{5b8}\u{5dc}\u{5d5}\u{5b9}\u{5dd}",
    "\u{5d1}\u{5bc}\u{5b0}\u{5e8}\u{5b5}\u{5d0}\u{5e9}\u{5b4}\u{5c1}\u{5d9}\u{5ea}",
];
const ARABIC: [&str; 5] = [
    "\u{627}\u{644}\u{633}\u{644}\u{627}\u{645}",
    "\u{639}\u{644}\u{64a}\u{643}\u{645} \u{645}\u{631}\u{62d}\u{628}\u{627}",
    "\u{644}\u{627} \u{625}\u{644}\u{647}",
    "\u{628}\u{650}\u{633}\u{652}\u{645}\u{650}",
    "\u{645}\u{64f}\u{62d}\u{64e}\u{645}\u{651}\u{64e}\u{62f}",
];

/// Fonts, and which of the words each has: one of either script, and one of both.
const FACES: [(&str, &[&[&str]]); 3] = [
    ("amiri", &[&ARABIC]),
    ("noto-sans-hebrew", &[&HEBREW]),
    ("dejavu", &[&HEBREW, &ARABIC]),
];

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    FACES
        .into_iter()
        .map(|(id, words)| {
            let face = face(id)?;
            let run = move |faces: &[Face]| {
                faces
                    .iter()
                    .try_for_each(|face| leftwards(face, &words.concat()))
            };
            Ok(fonts.check(format!("reading::{id}"), vec![face], run))
        })
        .collect()
}

/// A glyph as HarfBuzz tells it.
type Theirs = (u32, u32, i32, i32, i32);

fn told(p: &Placed) -> Theirs {
    (p.glyph, p.character, p.advance, p.right, p.up)
}

fn leftwards(face: &Face, words: &[&str]) -> Result<(), Failed> {
    python::set_up()?;
    let file = place::target().join(format!("reading-{}.json", face.id));
    std::fs::write(&file, serde_json::to_string(&words)?)?;
    let said = python::script(
        "reading.py",
        &[&face.path().to_string_lossy(), &file.to_string_lossy()],
    )?;
    let theirs: Vec<Vec<Theirs>> = serde_json::from_slice(&said)?;
    let shaper = Shaper::open(std::fs::read(face.path())?, 0).ok_or("it cannot be shaped")?;
    let (mut glyphs, mut alone, mut taken_in) = (0, 0, 0);
    for (word, theirs) in words.iter().zip(&theirs) {
        let ours: Vec<Theirs> = shaper.shape(word, true).iter().map(told).collect();
        if ours != *theirs {
            return Err(format!("{word}: {ours:?} against {theirs:?}").into());
        }
        // On the stage each character stands by itself, the first of them rightmost.
        let forms = read(word, Some(&shaper));
        let stand: Vec<u32> = forms
            .iter()
            .rev()
            .filter_map(|one| match one.form {
                Form::Shaped(placed) => Some(placed.glyph),
                Form::Plain | Form::TakenIn => None,
            })
            .collect();
        let expected: Vec<u32> = theirs.iter().map(|one| one.0).collect();
        alone += forms.iter().filter(|one| one.form == Form::Plain).count();
        taken_in += forms.iter().filter(|one| one.form == Form::TakenIn).count();
        if forms.iter().any(|one| one.level != 1) || (stand != expected && alone == 0) {
            return Err(format!("{word}: {stand:?} stand, not {expected:?}").into());
        }
        glyphs += theirs.len();
    }
    println!(
        "{}: {} words, {glyphs} glyphs as HarfBuzz sets them; {taken_in} characters taken in by ligatures, \
         {alone} left as the font's map has them",
        face.id,
        words.len()
    );
    if theirs.len() != words.len() || alone > 0 {
        return Err("not every word was set".into());
    }
    Ok(())
}
