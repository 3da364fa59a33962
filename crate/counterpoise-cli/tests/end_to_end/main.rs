//! The program as a person or a script runs it, over fonts made in code.
#![expect(
    clippy::unwrap_used,
    reason = "what a test needs and does not have fails it"
)]

mod compare;
mod document;
mod page;
mod refusals;
mod room;
mod spacing;
mod table;
mod walking;
mod writing;
