//! The stage: letters on a baseline, what can be done with them, and how they
//! are drawn.

pub mod command;
