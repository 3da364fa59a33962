//! The browser's door to Counterpoise, and the stage.
//!
//! [`Lab`] is all that the page holds. Everything that crosses is a plain
//! object: commands and states in [`stage::command`], colours in [`theme`],
//! measures in [`counterpoise::report`].

mod boundary;
mod lab;
mod refuse;
pub mod stage;
mod supply;
pub mod theme;

pub use lab::Lab;
