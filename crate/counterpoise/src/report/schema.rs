//! The document's JSON Schema, generated from the types that are written.

use super::Document;
use schemars::Schema;
use schemars::generate::SchemaSettings;

/// JSON Schema (draft 2020-12) of a [`Document`] as it is written.
pub fn schema() -> Schema {
    SchemaSettings::draft2020_12()
        .for_serialize()
        .into_generator()
        .into_root_schema_for::<Document>()
}
