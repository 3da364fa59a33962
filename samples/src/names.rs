//! What the face is called, and by whom it is said to be drawn.
//!
//! Foundry and artist are invented: the face needs a sender, so that its
//! review can be played through as it would happen.

/// Family name.
pub(crate) const FAMILY: &str = "Brigaroe";
/// Style name.
pub(crate) const STYLE: &str = "Regular";
/// Family and style.
pub(crate) const FULL: &str = "Brigaroe Regular";
/// Family and style for PostScript.
pub(crate) const POSTSCRIPT: &str = "Brigaroe-Regular";
/// The invented foundry.
pub(crate) const FOUNDRY: &str = "Ebbgate Letters (an invented foundry)";
/// The invented artist.
pub(crate) const ARTIST: &str = "Ines Tollemarsh (an invented artist, who pilots a ferry by day)";
/// Who holds the rights.
pub(crate) const COPYRIGHT: &str = "Copyright (c) 2026 The Counterpoise authors";
/// The licence in full.
pub(crate) const LICENCE: &str = include_str!("../../LICENSE");
/// A line that shows the face.
pub(crate) const SAMPLE: &str =
    "Fog over Brigaroe: the last ferry waits at Quay 5 & sounds her bell";
