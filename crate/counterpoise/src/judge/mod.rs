//! What a letter should be, given the others of its font.
//!
//! For now the expectation is the plainest robust one: the median of like
//! letters (`class`), the letter itself left out. It never says "wrong": it
//! says how far a letter stands from its fellows, and how far they commonly
//! stand from each other.

mod alphabet;
mod class;
mod deviation;

pub use alphabet::{Alphabet, Member};
pub use deviation::{Deviation, Measure};
