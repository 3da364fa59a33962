//! The recipe of Counterpoise's own demonstration face.

mod capitals_bowl;
mod capitals_diagonal;
mod capitals_round;
mod capitals_straight;
mod error;
mod face;
mod faults;
mod figures;
mod forked;
mod kerning;
mod lower_arched;
mod lower_diagonal;
mod lower_round;
mod lower_straight;
mod lower_turned;
mod measure;
mod names;
mod opentype;
mod oval;
mod pen;
mod points;
mod slant;
mod spline;
mod style;
mod trace;

pub use error::Error;
pub use face::{Face, Kern, Letter, clean};
pub use faults::{Fault, planted};
pub use opentype::{postscript, truetype};
