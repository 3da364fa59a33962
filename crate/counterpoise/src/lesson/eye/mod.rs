//! Try your eye: where two things look equal, found from some dozens of answers.
//!
//! # Method and source
//! Each question shows two things and asks which looks the larger (the heavier,
//! the lower). How much the one is drawn larger than the other is its *level*.
//! Two staircases go on side by side, in an order drawn by lot: the one comes
//! down after two answers running that the thing looks larger and goes up after
//! one that it does not, and so settles where 70.7% of answers say "larger"; the
//! other is its mirror image and settles at 29.3% (transformed up-down rules:
//! H. Levitt, Transformed up-down methods in psychoacoustics, J. Acoust. Soc.
//! Am. 49:467-477, 1971, from memory). Between the two lies the point of equality.
//!
//! All answers together are then fitted with a logistic curve by maximum
//! likelihood (`fit`), and the interval is where the likelihood, profiled over
//! the slope, stays above its bound. A test of this room simulates observers of
//! known bias and slope, and prints how often the interval holds the bias.

mod fit;
mod random;
mod staircase;
mod trial;

pub use fit::{Answers, Fit, fit};
pub use random::Random;
pub use staircase::{Rule, Staircase};
pub use trial::{Answer, LENGTH, Question, Scale, Trial};

#[cfg(test)]
mod tests;
