//! Alternates and ligatures by feature, against fontTools' reading of GSUB
//! (OpenType specification, GSUB chapter).

use crate::{Fonts, face, open};
use counterpoise_checks::manifest::Face;
use counterpoise_checks::python;
use libtest_mimic::{Failed, Trial};
use std::collections::BTreeMap;
use std::sync::Arc;

/// Faces that substitute little, much, and by extension lookups.
const FACES: [&str; 6] = [
    "dejavu",
    "heros",
    "texgyrepagella-regular",
    "sourcesans",
    "dancingscript",
    "ebgaramond",
];

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    FACES
        .iter()
        .map(|id| {
            Ok(
                fonts.check(format!("features::{id}"), vec![face(id)?], |faces| {
                    faces.iter().try_for_each(counted)
                }),
            )
        })
        .collect()
}

fn counted(face: &Face) -> Result<(), Failed> {
    python::set_up()?;
    let said = python::script("features.py", &[&face.path().to_string_lossy()])?;
    let theirs: BTreeMap<String, [u32; 3]> = serde_json::from_slice(&said)?;
    let font = open(face)?;
    let ours: BTreeMap<String, [u32; 3]> = font
        .reader()
        .features()
        .into_iter()
        .map(|f| (f.tag, [f.ligatures, f.alternates, f.contextual]))
        .collect();
    let sum = |at: usize| ours.values().map(|v| v[at]).sum::<u32>();
    println!(
        "{}: {} features, {} ligatures, {} other forms, {} rules in context",
        face.id,
        ours.len(),
        sum(0),
        sum(1),
        sum(2)
    );
    if ours.is_empty() || ours != theirs {
        return Err(format!("{ours:?} against {theirs:?}").into());
    }
    Ok(())
}
