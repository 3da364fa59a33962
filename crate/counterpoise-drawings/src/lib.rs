//! Letters out of drawings: SVG files and pasted SVG, the glyph interchange
//! format of the UFO specification, and zipped UFO folders.
//!
//! | file | question it answers |
//! |---|---|
//! | [`svg`] | what ink does this drawing hold? |
//! | [`ufo`] | what letters does this glyph file or folder hold? |
//!
//! Which ink is which letter, and how large, the library says
//! ([`counterpoise::font::loose`]).
//!
//! Nothing is fetched and nothing runs: of a drawing only shapes are read, and
//! what else it holds is told of and left out. Every bound is a named constant.

mod error;
mod note;
pub mod svg;
pub mod ufo;

pub use error::DrawingError;
pub use note::Note;
