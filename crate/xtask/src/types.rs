//! Writes the TypeScript declarations of the types that cross into the page.

use crate::stamp::{self, Stamp};
use crate::{place, replace, run};
use anyhow::{Result, bail};
use std::path::PathBuf;

/// Writes one file a type into `www/src/generated`.
///
/// `.cargo/config.toml` says where they are written first.
pub(crate) fn make() -> Result<()> {
    let generated = place::www().join("src").join("generated");
    let stamp = Stamp::of("types", &library_sources()?)?;
    if stamp.holds() && generated.is_dir() {
        return Ok(());
    }
    println!("TypeScript types");
    let written = place::target().join("types");
    replace::fresh(&written)?;
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
        "counterpoise-web/typescript,counterpoise-redraw/typescript,counterpoise-formats/typescript",
        "--lib",
        "export_bindings",
    ]))?;
    if stamp::entries(&written)?.is_empty() {
        bail!("no type asked to be exported");
    }
    stamp.lift();
    replace::replace(&generated, &written)?;
    stamp.press()
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
