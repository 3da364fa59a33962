//! The JavaScript half of the WebAssembly module.
//!
//! wasm-bindgen's own library does it, not its command, so that both halves
//! come from one lock file and no tool needs to be installed.

use anyhow::{Context, Result};
use std::path::Path;
use wasm_bindgen_cli_support::Bindgen;

/// Writes `{name}.js`, `{name}.d.ts` and `{name}_bg.wasm` into a folder.
pub(crate) fn write(module: &Path, name: &str, folder: &Path) -> Result<()> {
    let mut bindgen = Bindgen::new();
    bindgen
        .input_path(module)
        .out_name(name)
        .web(true)?
        .typescript(true)
        // The page names the module's address itself: with both, the bundler
        // would ship two copies of it.
        .omit_default_module_path(true)
        .remove_name_section(true)
        .remove_producers_section(true)
        .generate(folder)
        .context("the bindings could not be written")
}
