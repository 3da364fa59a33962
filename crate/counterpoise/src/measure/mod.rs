//! One file a measure. Each says its definition, unit, method and limits.

pub mod strokes;
