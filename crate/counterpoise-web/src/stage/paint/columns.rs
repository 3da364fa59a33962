//! The strip's columns: one under each letter. Letters that are laid over each
//! other share the room under them, side by side.

use counterpoise::order::by_number;
/// Two letters that share more than this of the narrower one's width cannot
/// both have the column under them.
const SHARED: f64 = 0.35;

/// A letter's column, CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Column {
    /// Index of the letter.
    pub(super) letter: usize,
    pub(super) left: f64,
    pub(super) right: f64,
    /// Whether the letter stands elsewhere than over the middle of its column.
    pub(super) shared: bool,
}

impl Column {
    pub(super) fn middle(&self) -> f64 {
        0.5 * (self.left + self.right)
    }

    pub(super) fn width(&self) -> f64 {
        self.right - self.left
    }
}

/// Columns from the letters' own extents (index, left, right), from left to right.
pub(super) fn columns(extents: &[(usize, f64, f64)]) -> Vec<Column> {
    let mut sorted = extents.to_vec();
    by_number(&mut sorted, |s| s.1 + s.2);
    let mut groups: Vec<Vec<(usize, f64, f64)>> = Vec::new();
    for extent in sorted {
        match groups.last_mut() {
            Some(group) if group.iter().any(|other| share(*other, extent)) => group.push(extent),
            _ => groups.push(vec![extent]),
        }
    }
    groups.iter().flat_map(|g| divide(g)).collect()
}

fn share(a: (usize, f64, f64), b: (usize, f64, f64)) -> bool {
    let common = a.2.min(b.2) - a.1.max(b.1);
    let narrower = (a.2 - a.1).min(b.2 - b.1);
    common > SHARED * narrower.max(1.0)
}

/// Gives each letter of a group an equal part of what they stand over.
fn divide(group: &[(usize, f64, f64)]) -> Vec<Column> {
    let left = group.iter().map(|g| g.1).fold(f64::INFINITY, f64::min);
    let right = group.iter().map(|g| g.2).fold(f64::NEG_INFINITY, f64::max);
    let part = (right - left) / group.len() as f64;
    (0..)
        .zip(group)
        .map(|(i, g)| Column {
            letter: g.0,
            left: left + f64::from(i) * part,
            right: left + f64::from(i + 1) * part,
            shared: group.len() > 1,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_side_by_side_have_their_own_columns() {
        let c = columns(&[(0, 0.0, 50.0), (1, 60.0, 100.0), (2, 95.0, 130.0)]);
        assert!(c.iter().all(|c| !c.shared));
        assert_eq!((c[2].left, c[2].right), (95.0, 130.0));
    }

    #[test]
    fn letters_laid_over_share_the_room() {
        let c = columns(&[(0, 0.0, 60.0), (1, 10.0, 40.0), (2, 100.0, 120.0)]);
        assert_eq!(c.len(), 3);
        let of = |letter| *c.iter().find(|c| c.letter == letter).unwrap();
        // 1's middle is 25, 0's is 30.
        assert_eq!((of(1).left, of(1).right, of(1).shared), (0.0, 30.0, true));
        assert_eq!((of(0).left, of(0).right), (30.0, 60.0));
        assert!(!of(2).shared);
    }

    #[test]
    fn columns_never_overlap_within_a_group() {
        let extents: Vec<(usize, f64, f64)> = (0..30)
            .map(|i| {
                let x = (i * 17 % 40) as f64;
                (i, x, x + 20.0)
            })
            .collect();
        let c = columns(&extents);
        assert_eq!(c.len(), 30);
        for w in c.windows(2).filter(|w| w[0].shared && w[1].shared) {
            assert!(w[1].left >= w[0].left);
        }
    }
}
