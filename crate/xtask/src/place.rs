//! Where things stand in the repository.

use std::path::{Path, PathBuf};

/// The repository's own folder.
pub(crate) fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.ancestors().nth(2).unwrap_or(here).to_path_buf()
}

/// The page's sources.
pub(crate) fn www() -> PathBuf {
    root().join("www")
}

/// The built page, as any static host can serve it.
pub(crate) fn dist() -> PathBuf {
    www().join("dist")
}

/// The end-to-end tests.
pub(crate) fn browser_tests() -> PathBuf {
    root().join("tests").join("browser")
}

/// What is made and never committed.
pub(crate) fn target() -> PathBuf {
    root().join("target")
}
