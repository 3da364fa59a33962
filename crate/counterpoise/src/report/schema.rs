//! The documents' JSON Schemas, generated from the types that are written.

use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema};

/// JSON Schema (draft 2020-12) of a document as it is written: a
/// [`Document`](super::Document), or a [`SpacingDocument`](super::SpacingDocument).
pub fn schema<T: JsonSchema>() -> Schema {
    SchemaSettings::draft2020_12()
        .for_serialize()
        .into_generator()
        .into_root_schema_for::<T>()
}
