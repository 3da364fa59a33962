//! Two revisions of a font: what changed, by how much, and what became of the
//! findings.
//!
//! Letters are matched by code point, then by name. `change` says what became
//! of one letter's figures, [`motion`] how far its outline moved and where,
//! [`fates`] what became of each earlier finding.

mod change;
mod distance;
mod fate;
mod matched;
mod motion;

pub use change::{Change, Figure, Kind, letters};
pub use distance::ACCURACY;
pub use fate::{Fate, Fated, MARKED, SETTLED, Told, fates};
pub use matched::{Entry, Matched, Pair, matched};
pub use motion::{MOVED, Motion, Part, motion};
