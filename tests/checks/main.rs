//! Checks against references outside the project.
//!
//! Each compares a figure of the library with one that others made. Where a font
//! cannot be had, its check counts as ignored with the reason, never as passed;
//! in continuous integration, where all can be had, it fails.

#![allow(
    clippy::print_stdout,
    reason = "a check says how near the figures came"
)]

mod bowls;
mod compare;
mod drawing;
mod drawings;
mod features;
mod hostile;
mod judgement;
mod kerning;
mod known;
mod lessons;
mod metrics;
mod panel;
mod positions;
mod reading;
mod redraw;
mod scan;
mod second_reader;
mod shapes;
mod spacing;
mod stems;

use counterpoise::font::Font;
use counterpoise_checks::fetch::{self, Missing};
use counterpoise_checks::manifest::{self, Face, Use};
use libtest_mimic::{Arguments, Completion, Failed, Trial};
use std::process::ExitCode;
use std::sync::Arc;

/// What is at hand for the checks.
struct Fonts {
    missing: Vec<Missing>,
}

impl Fonts {
    /// A check that needs some faces.
    fn check(
        self: &Arc<Self>,
        name: String,
        faces: Vec<Face>,
        run: impl FnOnce(&[Face]) -> Result<(), Failed> + Send + 'static,
    ) -> Trial {
        let fonts = Arc::clone(self);
        Trial::ignorable_test(name, move || {
            if let Some(font) = fonts
                .missing
                .iter()
                .find(|m| faces.iter().any(|f| f.id == m.id))
            {
                return if std::env::var_os("CI").is_some() {
                    Err(Failed::from(font))
                } else {
                    Ok(Completion::ignored_with(font))
                };
            }
            run(&faces).map(|()| Completion::Completed)
        })
    }

    /// One check for each face of a use.
    fn each(
        self: &Arc<Self>,
        question: &str,
        use_: Use,
        run: fn(&Face) -> Result<(), Failed>,
    ) -> Result<Vec<Trial>, Failed> {
        Ok(manifest::faces_for(use_)?
            .into_iter()
            .map(|(_, face)| {
                let name = format!("{question}::{}", face.id);
                self.check(name, vec![face], move |faces| {
                    faces.iter().try_for_each(run)
                })
            })
            .collect())
    }
}

/// A listed face by its name.
fn face(id: &str) -> Result<Face, Failed> {
    let mut faces = manifest::packages()?.into_iter().flat_map(|p| p.faces);
    let face = faces.find(|f| f.id == id);
    face.ok_or_else(|| format!("fonts.toml has no {id}").into())
}

/// Opens a listed face.
fn open(face: &Face) -> Result<Font, Failed> {
    let bytes = std::fs::read(face.path())?;
    Font::open(bytes).map_err(|e| Failed::from(format!("{} does not open: {e}", face.id)))
}

fn trials() -> Result<Vec<Trial>, Failed> {
    let missing = fetch::fetch_all()?;
    let fonts = Arc::new(Fonts { missing });
    let mut all = Vec::new();
    all.extend(metrics::trials(&fonts)?);
    all.extend(second_reader::trials(&fonts)?);
    all.extend(features::trials(&fonts)?);
    all.extend(kerning::trials(&fonts)?);
    all.extend(reading::trials(&fonts)?);
    all.extend(known::trials(&fonts)?);
    all.extend(spacing::trials(&fonts)?);
    all.extend(stems::trials(&fonts)?);
    all.extend(panel::trials(&fonts)?);
    all.extend(bowls::trials(&fonts)?);
    all.extend(shapes::trials());
    all.extend(drawing::trials(&fonts)?);
    all.extend(hostile::trials(&fonts)?);
    all.extend(judgement::trials(&fonts)?);
    all.extend(redraw::trials(&fonts)?);
    all.extend(lessons::trials(&fonts)?);
    all.extend(compare::trials(&fonts)?);
    all.extend(drawings::trials(&fonts)?);
    all.extend(scan::trials(&fonts)?);
    all.extend(positions::trials(&fonts)?);
    Ok(all)
}

fn main() -> ExitCode {
    let arguments = Arguments::from_args();
    match trials() {
        Ok(trials) => libtest_mimic::run(&arguments, trials).exit_code(),
        Err(failed) => {
            let said = failed.message().unwrap_or("no reason given");
            libtest_mimic::run(&arguments, vec![broken(said.to_owned())]).exit_code()
        }
    }
}

/// The fonts or their list cannot be had at all: that fails, whatever was asked for.
fn broken(said: String) -> Trial {
    Trial::test("the open fonts are at hand", move || {
        Err(Failed::from(said))
    })
}
