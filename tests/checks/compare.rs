//! Two released versions of one family: the letters that changed, as fontTools
//! finds them glyph by glyph, and none else.

use crate::{Fonts, face, open};
use counterpoise::judge::Alphabet;
use counterpoise::report::{ChangeKind, CompareReport, GlyphEntry, Revision};
use counterpoise_checks::manifest::Face;
use counterpoise_checks::python;
use libtest_mimic::{Failed, Trial};
use serde::Deserialize;
use std::collections::BTreeSet;
use std::sync::Arc;

const OLD: &str = "sourcesans-earlier";
const NEW: &str = "sourcesans";

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let faces = vec![face(OLD)?, face(NEW)?];
    Ok(vec![fonts.check(
        "compare::two releases of one family".into(),
        faces,
        |faces| releases(&faces[0], &faces[1]),
    )])
}

#[derive(Deserialize)]
struct Theirs {
    shape: BTreeSet<String>,
    advance: BTreeSet<String>,
    added: BTreeSet<String>,
    gone: BTreeSet<String>,
}

fn releases(old: &Face, new: &Face) -> Result<(), Failed> {
    python::set_up()?;
    let paths = [old.path(), new.path()].map(|p| p.to_string_lossy().into_owned());
    let said = python::script("changed.py", &[&paths[0], &paths[1]])?;
    let theirs: Theirs = serde_json::from_slice(&said)?;

    let (before, after) = (open(old)?, open(new)?);
    let (a, b) = (Alphabet::of(&before), Alphabet::of(&after));
    let revision = |font, alphabet| Revision { font, alphabet };
    let ours = CompareReport::of(revision(&before, &a), revision(&after, &b), None);

    let names = |all: &mut dyn Iterator<Item = &GlyphEntry>| -> BTreeSet<String> {
        all.filter_map(|e| e.name.clone()).collect()
    };
    let changed: BTreeSet<String> = theirs.shape.union(&theirs.advance).cloned().collect();
    same(
        "changed",
        &names(&mut ours.changed.iter().map(|c| &c.new)),
        &changed,
    )?;
    same("added", &names(&mut ours.added.iter()), &theirs.added)?;
    same("gone", &names(&mut ours.gone.iter()), &theirs.gone)?;
    // What moved has a move, and a part that did.
    for change in ours.changed.iter().filter(|c| c.kind == ChangeKind::Shape) {
        let moved = change.greatest.is_none_or(|g| g > 0.0);
        let parts = !change.came.is_empty() || !change.left.is_empty();
        if !moved || (change.greatest.is_none_or(|g| g > 0.6) && !parts) {
            return Err(format!("{:?} moved by {:?}", change.new.name, change.greatest).into());
        }
    }
    if changed.len() < 10 {
        return Err(format!("only {} letters changed: nothing is tried", changed.len()).into());
    }
    println!(
        "{} letters changed, {} are the same",
        changed.len(),
        ours.same
    );
    Ok(())
}

fn same(what: &str, ours: &BTreeSet<String>, theirs: &BTreeSet<String>) -> Result<(), Failed> {
    if ours == theirs {
        return Ok(());
    }
    let only = |a: &BTreeSet<String>, b| a.difference(b).take(8).cloned().collect::<Vec<_>>();
    Err(format!(
        "{what}: {:?} ours alone, {:?} theirs alone",
        only(ours, theirs),
        only(theirs, ours)
    )
    .into())
}
