//! Checks against references outside the project.
