//! What the commands need made, each made at most once in a run.
//!
//! A part that failed is not tried again: whoever needs it gets the same words.

use crate::{node, page, place, sample, types, wasm};
use anyhow::{Error, Result};
use std::cell::OnceCell;

type Made = OnceCell<Result<(), String>>;

/// The parts of the build, in the order in which they need each other.
#[derive(Default)]
pub(crate) struct Workshop {
    packages: Made,
    types: Made,
    wasm: Made,
    sample: Made,
    page: Made,
}

impl Workshop {
    /// The page's npm packages.
    pub(crate) fn packages(&self) -> Result<()> {
        once(&self.packages, "the page's packages", || {
            node::install(&place::www(), "packages")
        })
    }

    /// TypeScript's view of the Rust types.
    pub(crate) fn types(&self) -> Result<()> {
        once(&self.types, "the TypeScript types", types::make)
    }

    /// The WebAssembly module and its bindings.
    pub(crate) fn wasm(&self) -> Result<()> {
        once(&self.wasm, "the WebAssembly module", || {
            // Its optimiser is one of the packages.
            self.packages()?;
            wasm::make()
        })
    }

    /// The sample font.
    pub(crate) fn sample(&self) -> Result<()> {
        once(&self.sample, "the sample", sample::make)
    }

    /// The page, ready to serve.
    pub(crate) fn page(&self) -> Result<()> {
        once(&self.page, "the page", || {
            self.packages()?;
            self.types()?;
            self.wasm()?;
            self.sample()?;
            page::make()
        })
    }
}

fn once(made: &Made, what: &str, make: impl FnOnce() -> Result<()>) -> Result<()> {
    made.get_or_init(|| make().map_err(|error| format!("{what} could not be made: {error:#}")))
        .clone()
        .map_err(Error::msg)
}
