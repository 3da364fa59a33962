//! Across the border: Rust's values as plain JavaScript objects, and back.

use crate::refuse::Refuse;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

/// The names of the types that cross, for the bindings' declarations.
#[wasm_bindgen(typescript_custom_section)]
const TYPES: &str = r#"
import type { Command } from '../generated/Command'
import type { ContentsReport } from '../generated/ContentsReport'
import type { FontReport } from '../generated/FontReport'
import type { JudgementReport } from '../generated/JudgementReport'
import type { LetterDrawing } from '../generated/LetterDrawing'
import type { LetterReport } from '../generated/LetterReport'
import type { PointerInput } from '../generated/PointerInput'
import type { StageState } from '../generated/StageState'
import type { SurveyProgress } from '../generated/SurveyProgress'
import type { Theme } from '../generated/Theme'
"#;

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
    serde_wasm_bindgen::from_value(value).map_err(|e| throw(&Refuse::Malformed(e.to_string())))
}

/// A refusal as JavaScript throws it: `{ code, sentence }`.
pub(crate) fn throw(refuse: &Refuse) -> JsValue {
    give(&refuse.refusal()).unwrap_or_else(|e| e)
}
