//! Spacing of finished faces: little stands out in them, what is suggested keeps
//! its tolerance, and its feature file is one that a compiler and a shaper read.

use crate::{Fonts, face, open};
use counterpoise::measure::Context;
use counterpoise::report::{SpacingSurvey, SuggestedKern, SuggestionReport};
use counterpoise_checks::manifest::Face;
use counterpoise_checks::{place, python};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;
use std::time::Instant;
use unicode_normalization::UnicodeNormalization;

/// Text families known to most readers, one face each.
const KNOWN: [&str; 5] = [
    "dejavu",
    "heros",
    "texgyretermes-regular",
    "texgyrepagella-regular",
    "sourcesans",
];

/// Of some 2,000 pairs of a finished face, no more findings than this. Not all
/// are mistaken: some of these faces kern To and leave Tq.
const MOST: usize = 20;

/// Tolerance of what is suggested, thousandths of the em.
const TOLERANCE: f64 = 12.0;

const LETTERS: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = Vec::new();
    for id in KNOWN {
        all.push(
            fonts.check(format!("spacing::{id}"), vec![face(id)?], |faces| {
                faces.iter().try_for_each(finished_face)
            }),
        );
    }
    Ok(all)
}

fn finished_face(face: &Face) -> Result<(), Failed> {
    let font = open(face)?;
    let context = Context::of(&font);
    let mut survey = SpacingSurvey::new(&font, &context, LETTERS.chars());
    while survey.step(&font, 8) {}
    let report = survey.report().ok_or("the survey has no end")?;
    println!("{}: {} findings", face.id, report.findings.len());
    if report.findings.len() > MOST || report.letters.len() != LETTERS.len() {
        return Err(format!("{:#?}", report.findings).into());
    }
    let tolerance = TOLERANCE * f64::from(font.units_per_em()) / 1000.0;
    let suggestion = survey
        .suggestion(&font, tolerance, &[])
        .ok_or("nothing is suggested")?;
    if suggestion.left > 0 || suggestion.kerns.is_empty() {
        return Err(format!("{} pairs are left", suggestion.left).into());
    }
    two_hundred(face, &font, &context)?;
    let suggestion = accented(face, &font, &context, tolerance)?;

    let mut pairs = Vec::new();
    let mut told = Vec::new();
    for kern in suggestion.kerns.iter().step_by(5) {
        if let (Some(a), Some(b)) = (kern.firsts.last(), kern.seconds.first()) {
            // The last that names a pair is the one that counts.
            let names = |k: &&SuggestedKern| k.firsts.contains(a) && k.seconds.contains(b);
            let last = suggestion.kerns.iter().rfind(names).unwrap_or(kern);
            pairs.push(format!("{a}{b}"));
            told.push(f64::from(last.apart));
        }
    }
    python::set_up()?;
    let file = |ending| place::target().join(format!("spacing-{}.{ending}", face.id));
    std::fs::write(file("json"), serde_json::to_string(&pairs)?)?;
    std::fs::write(file("fea"), &suggestion.feature_file)?;
    let said = python::script(
        "kerning.py",
        &[
            "feature",
            &face.path().to_string_lossy(),
            &file("fea").to_string_lossy(),
            &file("json").to_string_lossy(),
        ],
    )?;
    let theirs: Vec<[f64; 2]> = serde_json::from_slice(&said)?;
    let shaped: Vec<f64> = theirs.iter().map(|[on, off]| on - off).collect();
    println!(
        "{}: {} kerns for {} pairs, {} of them shaped",
        face.id,
        suggestion.kerns.len(),
        suggestion.asked,
        shaped.len()
    );
    if shaped != told {
        return Err(format!("{pairs:?}: {shaped:?} shaped, {told:?} told").into());
    }
    Ok(())
}

/// Accented letters cost few kerns of their own: those that their base's do not serve.
fn accented(
    face: &Face,
    font: &counterpoise::font::Font,
    context: &Context,
    tolerance: f64,
) -> Result<SuggestionReport, Failed> {
    const ACCENTED: &str = "ÀÁÂÃÄÅÇÈÉÊËÌÍÎÏÑÒÓÔÕÖÙÚÛÜÝàáâãäåçèéêëìíîïñòóôõöùúûüýÿ";
    let bases: Vec<(char, char)> = ACCENTED
        .chars()
        .filter_map(|c| Some((c, c.nfd().next()?)))
        .collect();
    let read = |letters: &str, bases| {
        let mut survey = SpacingSurvey::new(font, context, letters.chars());
        while survey.step(font, 8) {}
        survey.suggestion(font, tolerance, bases)
    };
    let all = format!("{LETTERS}{ACCENTED}");
    let [plain, apart, with] = [read(LETTERS, &[]), read(&all, &[]), read(&all, &bases)]
        .map(|suggestion| suggestion.ok_or("nothing is suggested"));
    let (plain, apart, with) = (plain?, apart?, with?);
    println!(
        "{}: {} kerns without accents; with them {} one by one, {} with their bases, \
         which leave {} of {} pairs between one and two tolerances",
        face.id,
        plain.kerns.len(),
        apart.kerns.len(),
        with.kerns.len(),
        with.left,
        with.asked
    );
    if 2 * with.kerns.len() >= plain.kerns.len() + apart.kerns.len() {
        return Err("accents are not folded in".into());
    }
    let holds = |letters: &[String], c: &str| letters.iter().any(|l| l == c);
    let torn = |k: &&SuggestedKern| holds(&k.firsts, "A") && !holds(&k.firsts, "\u{c0}");
    if let Some(kern) = with.kerns.iter().find(torn) {
        return Err(format!("\u{c0} is not kerned with A: {kern:?}").into());
    }
    Ok(with)
}

/// Prints what two hundred letters take; no check asserts a time.
fn two_hundred(
    face: &Face,
    font: &counterpoise::font::Font,
    context: &Context,
) -> Result<(), Failed> {
    let letters = font.reader().characters();
    let letters = letters
        .into_iter()
        .map(|(c, _)| c)
        .filter(|c| c.is_alphabetic());
    let start = Instant::now();
    let mut survey = SpacingSurvey::new(font, context, letters.take(200));
    while survey.step(font, 8) {}
    let (done, all) = survey.progress();
    println!("{}: 200 letters in {:?}", face.id, start.elapsed());
    if done != all || survey.report().is_none() {
        return Err(format!("{done} of {all} steps").into());
    }
    Ok(())
}
