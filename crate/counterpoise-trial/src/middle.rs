//! The middle of many values.

/// The median, the upper one of an even number; `None` of none. Sorts the values.
pub(crate) fn median(values: &mut [f64]) -> Option<f64> {
    values.sort_unstable_by(f64::total_cmp);
    values.get(values.len() / 2).copied()
}
