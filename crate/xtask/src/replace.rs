//! Puts a freshly made folder in the place of an old one.
//!
//! Makers write elsewhere first, so that a slip on the way does not leave the
//! page without what it had.

use crate::stamp;
use anyhow::{Context, Result};
use std::fs;
use std::path::Path;

/// An empty folder to write into.
pub(crate) fn fresh(folder: &Path) -> Result<()> {
    if folder.exists() {
        fs::remove_dir_all(folder)?;
    }
    fs::create_dir_all(folder).with_context(|| format!("{} cannot be made", folder.display()))
}

/// Makes `old` hold what `new` holds, and nothing else. Both are flat.
pub(crate) fn replace(old: &Path, new: &Path) -> Result<()> {
    fresh(old)?;
    for file in stamp::entries(new)? {
        if let Some(name) = file.file_name() {
            fs::copy(&file, old.join(name))?;
        }
    }
    Ok(())
}
