//! Writes the TypeScript declarations of the types that cross into the page.

use crate::stamp::{self, Stamp};
use crate::{place, replace, run};
use anyhow::{Result, bail};
use std::path::PathBuf;

/// What makes the tests of these crates write a file a type.
pub(crate) const FEATURES: &str =
    "counterpoise-web/typescript,counterpoise-redraw/typescript,counterpoise-formats/typescript";

/// Writes one file a type into `www/src/generated`.
///
/// `.cargo/config.toml` says where they are written first.
pub(crate) fn make() -> Result<()> {
    if stamp()?.holds() && generated().is_dir() {
        return Ok(());
    }
    println!("TypeScript types");
    let begun = Begun::now()?;
    run::run(run::cargo(&place::root()).args([
        "test",
        "--quiet",
        "--package",
        "counterpoise",
        "--package",
        "counterpoise-web",
        "--package",
        "counterpoise-redraw",
        "--package",
        "counterpoise-formats",
        "--features",
        FEATURES,
        "--lib",
        "export_bindings",
    ]))?;
    begun.take()
}

/// Types on their way: of the tests that are run next with [`FEATURES`].
pub(crate) struct Begun(PathBuf);

impl Begun {
    /// Empties the folder that they are written to.
    pub(crate) fn now() -> Result<Self> {
        let written = place::target().join("types");
        replace::fresh(&written)?;
        Ok(Self(written))
    }

    /// Brings to the page what was written.
    pub(crate) fn take(self) -> Result<()> {
        if stamp::entries(&self.0)?.is_empty() {
            bail!("no type asked to be exported");
        }
        let stamp = stamp()?;
        stamp.lift();
        replace::replace(&generated(), &self.0)?;
        stamp.press()
    }
}

fn generated() -> PathBuf {
    place::www().join("src").join("generated")
}

fn stamp() -> Result<Stamp> {
    Stamp::of("types", &library_sources()?)
}

/// All that the library and the browser's crate are made of.
fn library_sources() -> Result<Vec<PathBuf>> {
    let mut sources = vec![place::root().join("Cargo.lock")];
    for krate in stamp::entries(&place::root().join("crate"))? {
        if !krate.ends_with("xtask") {
            sources.push(krate);
        }
    }
    Ok(sources)
}
