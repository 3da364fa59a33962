//! What was learned of well-made alphabets, brought by the page as a file of its
//! own: as data it costs the module nothing, and the two come side by side.

use counterpoise::judge::{Table, read_table};
use std::sync::OnceLock;
use wasm_bindgen::prelude::*;

static TABLE: OnceLock<Table> = OnceLock::new();

/// Takes the file of what was learned; once is enough. Tells whether the lab can
/// judge now.
#[wasm_bindgen]
#[must_use]
pub fn learn(file: &[u8]) -> bool {
    if let Some(table) = read_table(file) {
        // A second file changes nothing: judgements of one visit agree.
        TABLE.get_or_init(|| table);
    }
    TABLE.get().is_some()
}

/// The table, if the page has brought it.
pub(crate) fn table() -> Option<&'static Table> {
    TABLE.get()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_that_is_none_teaches_nothing() {
        assert!(!learn(b"not a table"));
        assert!(table().is_none());
    }
}
