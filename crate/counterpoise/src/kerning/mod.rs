//! What kerning the white asks for, what kerning is there, and what could be
//! suggested in its place.
//!
//! | file | question it answers |
//! |---|---|
//! | `need` | by how much does each pair's white ask to be kerned? |
//! | `finding` | which kerning stands out, and why? |
//! | `classes` | which members of a kerning class do not belong by shape? |
//! | `suggest` | which fewest kerns would bring the white within a tolerance? |
//! | `feature` | how are they written for the artist to take home? |

mod classes;
mod feature;
mod finding;
mod need;
mod suggest;

pub use feature::{Unnamed, feature_file};
pub use finding::{KernFinding, KernMatter, findings};
pub use need::{Block, Gathering, Need, Needs};
pub use suggest::{KernSuggestion, NewBearing, SuggestedKern, suggest};
