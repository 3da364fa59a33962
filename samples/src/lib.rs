//! The recipe of Counterpoise's own demonstration face.

mod capitals_bowl;
mod capitals_diagonal;
mod capitals_round;
mod capitals_straight;
mod error;
mod face;
mod figures;
mod lower_arched;
mod lower_diagonal;
mod lower_round;
mod lower_straight;
mod lower_turned;
mod opentype;
mod oval;
mod pen;
mod points;
mod slant;
mod spline;
mod style;

pub use error::Error;
pub use face::{Face, Kern, Letter, clean};
pub use opentype::truetype;
pub use spline::Knot;
