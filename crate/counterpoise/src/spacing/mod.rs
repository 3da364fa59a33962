//! The white before, after and between letters.
//!
//! | file | question it answers |
//! |---|---|
//! | [`grid`] | at which heights are sides read? |
//! | [`side`] | how much white lies at a letter's sides, and what kind are they? |

mod grid;
mod side;

pub use grid::{Grid, LEVELS};
pub use side::{Side, SideKind, Sides, sides};
