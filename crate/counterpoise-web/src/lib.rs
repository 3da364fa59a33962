//! The browser's door to Counterpoise, and the stage.
