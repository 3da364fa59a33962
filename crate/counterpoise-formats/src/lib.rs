//! Unusual font files made plain, for the browser.
//!
//! Web fonts are unpacked, a face is taken out of a collection, a variable font
//! is brought to a position, old character maps are written anew: what comes out
//! is a plain font file in memory that the rest of the lab opens like any other.
//! A module apart from the lab's own, which the page fetches when the first such
//! file is dropped.

mod characters;
mod error;
mod face;
mod file;
mod names;
mod report;
mod sfnt;
mod still;
mod unpack;

pub use error::FormatError;
pub use file::FontFile;
pub use report::{
    AxisReport, FaceName, FaceReport, FileReport, InstanceReport, Packing, StopReport,
};

use serde::Serialize;
use wasm_bindgen::prelude::*;

/// An unusual font file, for the page.
#[wasm_bindgen]
pub struct Parcel(FontFile);

#[wasm_bindgen]
impl Parcel {
    /// Unpacks a file.
    ///
    /// # Errors
    /// Throws a sentence if that cannot be done.
    #[wasm_bindgen(constructor)]
    pub fn new(bytes: Vec<u8>) -> Result<Parcel, JsError> {
        FontFile::open(bytes).map(Self).map_err(|e| thrown(&e))
    }

    /// A `FileReport`, as JSON.
    ///
    /// # Errors
    /// Never, unless the engine is out of memory.
    pub fn report(&self) -> Result<String, JsError> {
        json(&self.0.report())
    }

    /// A `FaceReport` of a face, as JSON.
    ///
    /// # Errors
    /// Throws a sentence if there is no such face or it cannot be read.
    pub fn face(&self, face: usize) -> Result<String, JsError> {
        json(&self.0.face(face).map_err(|e| thrown(&e))?)
    }

    /// A face as a plain font file; one that varies at a position, or as it
    /// is if none is given.
    ///
    /// # Errors
    /// Throws a sentence if that cannot be done.
    pub fn plain(
        &self,
        face: usize,
        position: Option<Vec<f64>>,
        style: Option<String>,
    ) -> Result<Vec<u8>, JsError> {
        self.0
            .plain(face, position.as_deref(), style.as_deref())
            .map_err(|e| thrown(&e))
    }
}

fn json(value: &impl Serialize) -> Result<String, JsError> {
    serde_json::to_string(value).map_err(|e| JsError::new(&e.to_string()))
}

fn thrown(error: &FormatError) -> JsError {
    JsError::new(&error.to_string())
}

#[cfg(test)]
mod tests {
    /// Our own sample face.
    pub(crate) fn sample() -> Vec<u8> {
        counterpoise_samples::truetype(&counterpoise_samples::clean()).unwrap()
    }
}
