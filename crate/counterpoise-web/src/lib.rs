//! The browser's door to Counterpoise, and the stage.

mod refuse;
pub mod stage;
pub mod theme;
