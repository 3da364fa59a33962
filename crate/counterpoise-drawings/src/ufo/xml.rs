//! XML that holds no surprise: no entities, bounded.

use crate::DrawingError;
use usvg::roxmltree::{Document, ParsingOptions};

/// Elements, texts and white space of one file: a glyph has hundreds.
const MAX_NODES: u32 = 400_000;

/// Parses a file of a UFO; what is said goes into the error's sentence.
pub(super) fn parse(
    text: &str,
    broken: impl Fn(String) -> DrawingError,
) -> Result<Document<'_>, DrawingError> {
    // UFO's property lists name a DTD, but declare no entities.
    if text.contains("<!ENTITY") {
        return Err(DrawingError::Entities);
    }
    if text.len() > DrawingError::MAX_BYTES {
        return Err(DrawingError::TooLarge);
    }
    crate::svg::check_depth(text)?;
    let options = ParsingOptions {
        allow_dtd: true,
        nodes_limit: MAX_NODES,
        ..ParsingOptions::default()
    };
    Document::parse_with_options(text, options).map_err(|e| broken(e.to_string()))
}
