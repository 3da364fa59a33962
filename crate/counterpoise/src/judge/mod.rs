//! What a letter should be, given the others of its font.
//!
//! What a letter should be follows from the font's other letters, by how
//! letters relate in well-made alphabets (`relations`); of signs that the model
//! does not know, and in a font unlike any that it was fitted on, it is the
//! median of like letters (`class`). It never says "wrong": it says how far a
//! letter stands from what its fellows make one expect, and how far they
//! commonly stand from it themselves.

mod alphabet;
mod cause;
mod class;
mod deviation;
mod economy;
mod finding;
mod judgement;
mod linear;
mod meant;
mod own;
mod rarity;
mod relations;
mod rules;
mod table;
mod traits;
mod weigh;

pub use alphabet::{Alphabet, Member};
pub use cause::Cause;
pub use deviation::{Deviation, Measure};
pub use economy::{Drawn, spendthrifts};
pub use finding::{Finding, Matter};
pub use judgement::{Judgement, rarest, signs};
pub use meant::Meant;
pub use rarity::tabled;
pub use relations::{FIGURES, FREEDOM, Group, LETTERS, Relations, Row, Together, Variable};
pub use rules::{Rule, Ruled, Ruling, Stance, habits, rulings};
pub use table::{Table, read as read_table, write as write_table};
pub use traits::{Trait, Traits, scale, traits};
pub use weigh::{Kind, SHOWN, Sign, Standing, Weighed};
