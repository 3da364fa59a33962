//! The recipe of Counterpoise's own demonstration face.
//!
//! [`clean`] draws the face as it should be, [`planted`] the revision with
//! faults and the list of them; [`truetype`] and [`postscript`] write either as
//! a font file. Letters keep their outlines as drawn ([`Letter::path`]), for
//! whoever wants one on its own, redrawn or sketched.

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
mod sketch;
mod slant;
mod spline;
mod style;
mod trace;

pub use error::Error;
pub use face::{Face, Kern, Letter, clean};
pub use faults::{Fault, planted};
pub use opentype::{postscript, truetype};
pub use sketch::{redraw_svg, sketch_png};
