//! The browser's door to Counterpoise, and the stage.
//!
//! [`Lab`] is all that the page holds; [`Survey`] and [`SpacingJob`] are all that
//! its worker does. Everything that crosses is a plain object: commands and states in [`stage::command`], colours in [`theme`],
//! measures in [`counterpoise::report`].

mod boundary;
mod drawings;
mod fingerprint;
mod lab;
mod learned;
mod refuse;
mod spacing_job;
pub mod stage;
mod supply;
mod survey;
pub mod theme;

pub use drawings::LetterDrawing;
pub use lab::Lab;
pub use learned::learn;
pub use spacing_job::SpacingJob;
pub use survey::{Survey, SurveyProgress};
