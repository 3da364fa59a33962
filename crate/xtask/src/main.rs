//! Builds, serves, tests and times the lab.
fn main() {}
