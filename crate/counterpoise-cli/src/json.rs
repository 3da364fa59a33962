//! The measures as one JSON document, written while they are taken.

use crate::arguments::Schema;
use crate::run::{Line, Run};
use counterpoise::report::{self, Document, SpacingDocument};
use serde::ser::{Serialize, SerializeSeq, Serializer};
use std::io::{self, Write};

/// Writes the document of a run.
///
/// # Errors
/// If `out` cannot be written to.
pub(crate) fn write(run: &Run, pretty: bool, out: &mut dyn Write) -> io::Result<()> {
    let document = Document::of(run);
    if pretty {
        serde_json::to_writer_pretty(&mut *out, &document)?;
    } else {
        serde_json::to_writer(&mut *out, &document)?;
    }
    writeln!(out)
}

/// Writes a document's JSON Schema.
///
/// # Errors
/// If `out` cannot be written to.
pub(crate) fn write_schema(of: Schema, out: &mut dyn Write) -> io::Result<()> {
    let schema = match of {
        Schema::Measures => report::schema::<Document>(),
        Schema::Spacing => report::schema::<SpacingDocument>(),
    };
    serde_json::to_writer_pretty(&mut *out, &schema)?;
    writeln!(out)
}

impl Serialize for Run {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut entries = serializer.serialize_seq(Some(self.len()))?;
        self.each(|entry| entries.serialize_element(&entry))?;
        entries.end()
    }
}

impl Serialize for Line<'_> {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        let mut letters = serializer.serialize_seq(Some(self.len()))?;
        self.each(|letter| letters.serialize_element(letter))?;
        letters.end()
    }
}
