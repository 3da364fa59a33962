//! The redraw: an artist's new letter beside the font's own, before and after.
//!
//! | file | question it answers |
//! |---|---|
//! | [`mod@bench`] | what changed, does it now sit with the others, and how would a change look? |
//! | [`drawing`] | what letters does this drawing hold? |
//! | [`scan`] | what letters does this scan hold, and how thick are they? |
//!
//! A module of its own, which the page fetches when something is first redrawn.
//! What comes of it are bytes ([`counterpoise::font::Font::data`]) that the lab
//! opens as it opens any font.

pub mod bench;
mod boundary;
pub mod drawing;
mod named;
pub mod scan;
