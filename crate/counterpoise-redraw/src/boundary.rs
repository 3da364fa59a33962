//! Across the border: Rust's values as plain JavaScript objects, and back.

use serde::Serialize;
use serde::de::DeserializeOwned;
use std::fmt::Display;
use wasm_bindgen::prelude::*;

/// The names of the types that cross, for the bindings' declarations.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { CompareReport } from '../generated/CompareReport'
import type { DrawingReport } from '../generated/DrawingReport'
import type { FatedFinding } from '../generated/FatedFinding'
import type { FindingReport } from '../generated/FindingReport'
import type { LineLetter } from '../generated/LineLetter'
import type { LooseLetter } from '../generated/LooseLetter'
import type { LooseLetters } from '../generated/LooseLetters'
import type { MeantSo } from '../generated/MeantSo'
import type { QuantityName } from '../generated/QuantityName'
import type { ScanReport } from '../generated/ScanReport'
import type { SketchChange } from '../generated/SketchChange'
import type { SketchReport } from '../generated/SketchReport'
"#;

/// A refusal as the page knows it.
#[derive(Serialize)]
struct Refusal {
    code: &'static str,
    sentence: String,
}

/// As a plain object: what is not there is `null`, as in JSON.
///
/// # Errors
/// If the engine refuses to make the object.
pub(crate) fn give<T: Serialize>(value: &T) -> Result<JsValue, JsValue> {
    let serializer = serde_wasm_bindgen::Serializer::json_compatible();
    value.serialize(&serializer).map_err(JsValue::from)
}

/// From a plain object.
///
/// # Errors
/// If it is not of that type.
pub(crate) fn take<T: DeserializeOwned>(value: JsValue) -> Result<T, JsValue> {
    serde_wasm_bindgen::from_value(value).map_err(|e| refuse("malformed", &e))
}

/// A refusal as JavaScript throws it: `{ code, sentence }`.
pub(crate) fn refuse(code: &'static str, why: &dyn Display) -> JsValue {
    let sentence = why.to_string();
    give(&Refusal { code, sentence }).unwrap_or_else(|e| e)
}
