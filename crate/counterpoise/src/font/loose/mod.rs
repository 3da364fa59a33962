//! Loose shapes on their way to be letters: which ink is which letter, where the
//! baseline is, and how much white stands beside each.

mod place;
mod split;

pub use place::{Guides, Placed, estimate, place};
pub use split::{OVER, split};
