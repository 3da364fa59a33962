//! Where the checks keep what they fetch and find what they read.

use std::path::PathBuf;

/// This crate's folder.
pub fn crate_folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// The scripts and tables of reference.
pub fn reference() -> PathBuf {
    crate_folder().join("reference")
}

/// Cargo's target folder: what is fetched or made lies there, out of the repository.
pub fn target() -> PathBuf {
    std::env::var_os("CARGO_TARGET_DIR")
        .map_or_else(|| crate_folder().with_file_name("target"), PathBuf::from)
}
