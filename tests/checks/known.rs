//! Figures that were taken once with other tools (`reference/known.toml`): the
//! library's and the reference scripts' must both agree with them.

use crate::{Fonts, open};
use counterpoise_checks::compare::Comparison;
use counterpoise_checks::figures;
use counterpoise_checks::manifest::{self, Face};
use counterpoise_checks::place;
use libtest_mimic::{Failed, Trial};
use serde::Deserialize;
use std::collections::BTreeMap;
use std::sync::Arc;

/// Lengths were rounded to a hundredth.
const LENGTH: f64 = 0.01;

/// Areas were summed over 2000 lines, which is good to about this share.
const AREA: f64 = 0.0015;

/// Stems were the median of few rays.
const STEM: f64 = 0.5;

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Known {
    stems: Option<BTreeMap<char, f64>>,
    crossbar: Option<f64>,
    letters: Vec<Letter>,
}

#[derive(Debug, Clone, Deserialize)]
#[serde(deny_unknown_fields)]
struct Letter {
    letter: char,
    #[serde(rename = "box")]
    box_: [f64; 4],
    advance: Option<f64>,
    area: Option<f64>,
}

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let text = std::fs::read_to_string(place::reference().join("known.toml"))?;
    let known: BTreeMap<String, Known> = toml::from_str(&text)?;
    let faces: Vec<Face> = manifest::packages()?
        .into_iter()
        .flat_map(|p| p.faces)
        .collect();
    let mut all = Vec::new();
    for (id, figures) in known {
        let face = faces.iter().find(|f| f.id == id).cloned();
        let face = face.ok_or_else(|| format!("known.toml has {id}, fonts.toml has not"))?;
        let name = format!("known::{id}");
        all.push(fonts.check(name, vec![face], move |faces| {
            faces.iter().try_for_each(|face| one_face(face, &figures))
        }));
    }
    Ok(all)
}

fn one_face(face: &Face, known: &Known) -> Result<(), Failed> {
    let mut agreed = Comparison::default();
    letters(face, &known.letters, &mut agreed)?;
    if let Some(stems) = &known.stems {
        let scan = figures::stems(&face.path())?;
        for (&letter, &theirs) in stems {
            let ours = scan.stems.get(&letter).cloned().flatten();
            let ours = ours.map(|s| s.iter().map(|s| s.level).sum::<f64>() / s.len() as f64);
            agreed.near(
                format!("stem of {letter}, by the script"),
                ours,
                Some(theirs),
                STEM,
            );
        }
        agreed.near(
            "bar of H, by the script",
            scan.crossbar,
            known.crossbar,
            STEM,
        );
    }
    agreed.verdict()?;
    Ok(())
}

fn letters(face: &Face, letters: &[Letter], agreed: &mut Comparison) -> Result<(), Failed> {
    let font = open(face)?;
    let reader = font.reader();
    for known in letters {
        let letter = known.letter;
        let glyph = reader
            .glyph(letter)
            .ok_or_else(|| format!("{} has no {letter}", face.id))?;
        let outline = reader.outline(glyph)?;
        let ours = outline.bounds().map(|b| [b.x0, b.y0, b.x1, b.y1]);
        for (side, theirs) in known.box_.into_iter().enumerate() {
            let ours = ours.map(|b| b[side]);
            agreed.near(
                format!("{letter}, side {side} of its box"),
                ours,
                Some(theirs),
                LENGTH,
            );
        }
        if let Some(advance) = known.advance {
            agreed.near(
                format!("{letter} advance"),
                Some(reader.advance(glyph)),
                Some(advance),
                LENGTH,
            );
        }
        if let Some(area) = known.area {
            let share = outline.ink_area() / area;
            agreed.near(
                format!("{letter} area, as a share"),
                Some(share),
                Some(1.0),
                AREA,
            );
        }
    }
    Ok(())
}
