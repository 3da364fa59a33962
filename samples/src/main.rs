//! The sample face and the recipe that makes it.
fn main() {}
