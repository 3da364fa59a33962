//! The browser's door to Counterpoise, and the stage.

pub mod stage;
pub mod theme;
