//! The program over open fonts that others drew: every document is what the
//! schema says, and the same twice.
//!
//! Where a font cannot be had, its check counts as ignored with the reason; in
//! continuous integration, where all can be had, it fails.

use counterpoise_checks::fetch::{self, Missing};
use counterpoise_checks::manifest::{self, Face, Use};
use libtest_mimic::{Arguments, Completion, Failed, Trial};
use serde_json::Value;
use std::process::{Command, ExitCode};
use std::sync::Arc;

/// Faces of which every glyph is measured: one of each kind of outline, none so
/// large that checking its document against the schema takes long.
const WHOLE: [&str; 3] = ["cabinsketch", "murmure", "heros"];

/// A font, and the web fonts that its makers packed it as.
const PLAIN_TWIN: &str = "sourcesans-ttf";
const PACKED_TWINS: [&str; 2] = ["sourcesans-woff-ttf", "sourcesans-woff2-ttf"];

/// A font that varies, and which glyphs stand for some of its letters where it
/// was drawn: what HarfBuzz sets there is held in `tests/checks/positions.rs`.
const VARIES: &str = "fraunces-woff2";
const FORMS: [(&str, &str); 4] = [("h", "h.alt"), ("m", "m.alt"), ("n", "n.alt"), ("o", "o")];

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    let trials = trials().unwrap_or_else(|failed| {
        let said = failed.message().unwrap_or("no reason given").to_owned();
        vec![Trial::test("the open fonts are at hand", move || {
            Err(Failed::from(said))
        })]
    });
    libtest_mimic::run(&arguments, trials).exit_code()
}

fn trials() -> Result<Vec<Trial>, Failed> {
    let missing = Arc::new(fetch::fetch_all()?);
    let schema: Value = serde_json::from_str(include_str!("../schema/measures-2.json"))?;
    let schema = Arc::new(schema);
    let missing_for_twins = Arc::clone(&missing);
    let faces = manifest::faces_for(Use::Glyphs)?;
    let trials = faces.into_iter().map(|(_, face)| {
        let (missing, schema) = (Arc::clone(&missing), Arc::clone(&schema));
        Trial::ignorable_test(format!("document::{}", face.id), move || {
            match missing.iter().find(|m| m.id == face.id) {
                Some(font) => absent(font),
                None => check(&face, &schema).map(|()| Completion::Completed),
            }
        })
    });
    let varying = manifest::faces_for(Use::Formats)?
        .into_iter()
        .find(|(_, face)| face.id == VARIES);
    let (_, varying) = varying.ok_or("no font that varies is listed")?;
    let missing_of_varying = Arc::clone(&missing_for_twins);
    let formed = Trial::ignorable_test(
        "a font that varies is measured in the forms of where it was drawn",
        move || match missing_of_varying.iter().find(|m| m.id == varying.id) {
            Some(font) => absent(font),
            None => forms(&varying).map(|()| Completion::Completed),
        },
    );
    let twins = [PLAIN_TWIN].into_iter().chain(PACKED_TWINS);
    let twins: Vec<Face> = manifest::faces_for(Use::Formats)?
        .into_iter()
        .map(|(_, face)| face)
        .filter(|face| twins.clone().any(|id| face.id == id))
        .collect();
    let missing = Arc::clone(&missing_for_twins);
    let unpacked = Trial::ignorable_test(
        "web fonts are measured as what they were packed from",
        move || match missing
            .iter()
            .find(|m| twins.iter().any(|face| face.id == m.id))
        {
            Some(font) => absent(font),
            None => same_letters(&twins).map(|()| Completion::Completed),
        },
    );
    Ok(trials.chain([formed, unpacked]).collect())
}

/// Letters of a web font against those of the font that it was packed from, figure by figure.
fn same_letters(twins: &[Face]) -> Result<(), Failed> {
    let letters = |face: &Face| -> Result<Value, Failed> {
        let mut document: Value = serde_json::from_slice(&measure(face, false)?)?;
        Ok(document["fonts"][0]["letters"].take())
    };
    let plain = twins.iter().find(|face| face.id == PLAIN_TWIN);
    let plain = letters(plain.ok_or("no plain twin is listed")?)?;
    if plain.as_array().is_none_or(|letters| letters.len() != 62) {
        return Err("the plain twin lacks letters".into());
    }
    for face in twins.iter().filter(|face| face.id != PLAIN_TWIN) {
        if letters(face)? != plain {
            return Err(format!("{} is measured as another font", face.id).into());
        }
    }
    if twins.len() != 1 + PACKED_TWINS.len() {
        return Err(format!("{} twins are listed", twins.len()).into());
    }
    Ok(())
}

/// Which glyphs stand for a font's letters.
fn forms(face: &Face) -> Result<(), Failed> {
    let document: Value = serde_json::from_slice(&measure(face, false)?)?;
    let letters = document["fonts"][0]["letters"].as_array();
    let letters = letters.ok_or("there are no letters")?;
    for (character, name) in FORMS {
        let letter = letters.iter().find(|l| l["character"] == character);
        let found = letter.map(|l| &l["name"]);
        if found.is_none_or(|found| found != name) {
            return Err(format!("{character} is {found:?}, not {name}").into());
        }
    }
    Ok(())
}

fn absent(font: &Missing) -> Result<Completion, Failed> {
    if std::env::var_os("CI").is_some() {
        Err(Failed::from(font))
    } else {
        Ok(Completion::ignored_with(font))
    }
}

fn check(face: &Face, schema: &Value) -> Result<(), Failed> {
    let whole = WHOLE.contains(&face.id.as_str());
    let text = measure(face, whole)?;
    if measure(face, whole)? != text {
        return Err("the second run wrote another document".into());
    }
    let document: Value = serde_json::from_slice(&text)?;
    let validator = jsonschema::validator_for(schema)?;
    if let Some(e) = validator.iter_errors(&document).next() {
        return Err(format!("{}: {e}", e.instance_path()).into());
    }
    let entry = &document["fonts"][0];
    let letters = entry["letters"].as_array().ok_or("there are no letters")?;
    let expected = if whole {
        entry["font"]["glyphCount"].as_u64()
    } else {
        let missing = entry["missing"].as_str().unwrap_or_default();
        Some(62 - missing.chars().count() as u64)
    };
    if Some(letters.len() as u64) != expected {
        return Err(format!("{} letters, not {expected:?}", letters.len()).into());
    }
    let weighed = letters.iter().filter(|l| l["figures"]["weight"].is_f64());
    if 2 * weighed.count() < letters.len() {
        return Err("fewer than half of the letters have a weight".into());
    }
    Ok(())
}

fn measure(face: &Face, whole: bool) -> Result<Vec<u8>, Failed> {
    let mut command = Command::new(env!("CARGO_BIN_EXE_counterpoise"));
    command.args(["measure", "--json"]).arg(face.path());
    if whole {
        command.arg("--all");
    }
    let output = command.output()?;
    if !output.status.success() {
        let said = String::from_utf8_lossy(&output.stderr).into_owned();
        return Err(format!("{}: {said}", output.status).into());
    }
    Ok(output.stdout)
}
