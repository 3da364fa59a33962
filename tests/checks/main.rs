//! Checks against references outside the project.
fn main() {}
