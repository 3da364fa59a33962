//! Makes the page: all that a static host needs, in `www/dist`.

use crate::stamp::{self, Stamp};
use crate::{node, place, run};
use anyhow::Result;
use std::path::PathBuf;

/// What lies in `www` and is not a source of the page.
const NOT_SOURCES: [&str; 3] = ["node_modules", "dist", "pictures"];

/// Bundles the page.
pub(crate) fn make() -> Result<()> {
    let stamp = Stamp::of("page", &sources()?)?;
    if stamp.holds() && place::dist().join("index.html").is_file() {
        return Ok(());
    }
    stamp.lift();
    println!("Page");
    run::run(node::npm(&place::www()).args(["run", "build", "--silent"]))?;
    stamp.press()
}

fn sources() -> Result<Vec<PathBuf>> {
    let mut sources = stamp::entries(&place::www())?;
    sources.retain(|entry| !NOT_SOURCES.iter().any(|other| entry.ends_with(other)));
    Ok(sources)
}
