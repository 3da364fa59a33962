//! Counterpoise measures the letters of a font and tells which ones stand out
//! from the rest, why, and by how much.
//!
//! The rooms of the house, from the bytes upwards; arrows point one way:
//!
//! | room | question it answers |
//! |---|---|
//! | [`font`] | what letters are in this file, and what does the file say of itself? |
//! | [`outline`] | what is the exact geometry of this shape? |
//! | [`measure`] | how thick, how high, how wide is this letter? |
//! | [`judge`] | what should it be, given the others? |
//! | [`spacing`] | how much white do letters need about them? |
//! | [`kerning`] | which pairs want kerning, and what is there? |
//! | [`lesson`] | why is even not equal, on these letters and to this eye? |
//! | [`report`] | the same in plain structs, for the page, scripts and files |
//!
//! No room knows a screen, a file system or a browser. Lengths are font units
//! (y up, baseline at 0) unless a name says otherwise.

pub mod compare;
pub mod font;
pub mod judge;
pub mod kerning;
pub mod lesson;
pub mod measure;
pub mod order;
pub mod outline;
pub mod redraw;
pub mod report;
pub mod spacing;
