//! The white before, after and between letters.
//!
//! | file | question it answers |
//! |---|---|
//! | `grid` | at which heights are sides read? |
//! | `side` | how much white lies at a letter's sides, and what kind are they? |
//! | `white` | how much white lies between two letters? |
//! | `rhythm` | how even is a line, and where does it break? |
//! | `control` | what would the handbook set a side to? |
//! | `features`, `model` | what do well-spaced families set such a side to? |
//! | `fitting` | what do a font's own sides imply? |

mod control;
mod features;
mod fitting;
mod grid;
mod model;
mod rhythm;
mod side;
mod white;

pub use control::{Controls, handbook};
pub use features::{SIDE_FIGURES, side_figures};
pub use fitting::{Expected, Spaced, Spacing, reference};
pub use grid::{Grid, LEVELS};
pub use model::{
    Case, Model, OF_CONTROLS, OF_LETTERS, OF_SHAPES, RULED, RULED_SIDES, Reference, Rule,
};
pub use rhythm::{Place, Rhythm, rhythm};
pub use side::{Side, SideKind, Sides, sides};
pub use white::{DEEPEST, PairWhite, Whites};
