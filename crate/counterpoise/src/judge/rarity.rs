//! How rarely a sound letter shows a sign as strong: read off the letters of
//! untouched open fonts that were not fitted.

/// Shares of sound letters at which strengths are tabled, commonest first.
pub(super) const SHARES: [f64; 11] = [
    0.5, 0.3, 0.2, 0.1, 0.05, 0.03, 0.02, 0.01, 0.005, 0.002, 0.001,
];

/// The share of sound letters that show a strength or more, from the strengths
/// tabled at [`SHARES`]: linear in its logarithm between them and, with the last
/// slope, beyond.
pub(super) fn rarity(strengths: &[f64], strength: f64) -> f64 {
    let last = SHARES.len() - 1;
    if strengths.len() != SHARES.len() || strength <= strengths[0] {
        return 1.0;
    }
    let i = strengths[..last].partition_point(|&s| s <= strength).max(1);
    let (from, to) = (strengths[i - 1], strengths[i]);
    let (a, b) = (SHARES[i - 1].ln(), SHARES[i].ln());
    let run = (to - from).max(1e-9);
    (a + (b - a) * (strength - from) / run).exp().min(1.0)
}

/// The strengths to table, from those of sound letters.
pub fn tabled(mut strengths: Vec<f64>) -> Vec<f64> {
    strengths.sort_unstable_by(f64::total_cmp);
    strengths.reverse();
    let n = strengths.len();
    SHARES
        .iter()
        .map(|share| {
            let at = ((share * n as f64) as usize).min(n.saturating_sub(1));
            strengths.get(at).copied().unwrap_or(0.0)
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tabled_strengths_are_as_rare_as_they_were() {
        let table = tabled((0..10_000).map(f64::from).collect());
        assert!((rarity(&table, 8_999.0) - 0.1).abs() < 1e-3);
        assert!((rarity(&table, 9_899.0) - 0.01).abs() < 1e-4);
        assert_eq!(rarity(&table, 0.0), 1.0);
        assert!(rarity(&table, 20_000.0) < 1e-3);
    }
}
