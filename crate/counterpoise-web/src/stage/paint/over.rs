//! Which letters lie over another.

use crate::stage::standing::Standing;
use kurbo::Rect;

/// How much of the narrower letter's width must lie over the other before it
/// counts: letters that merely reach under each other's arms are not laid over.
const SHARE: f64 = 0.2;

/// For each letter, whether it has been moved so that its ink lies over that of
/// one below it. `order` is from the lowest up.
pub(super) fn laid_over(standings: &[Standing], order: &[usize]) -> Vec<bool> {
    let mut over = vec![false; standings.len()];
    for (rank, &upper) in order.iter().enumerate() {
        let s = &standings[upper];
        let moved = s.item.lift > 0 && !s.item.pinned;
        let Some(ink) = s.ink.filter(|_| moved) else {
            continue;
        };
        over[upper] = order[..rank]
            .iter()
            .filter_map(|&lower| standings[lower].ink)
            .any(|below| covers(ink, below));
    }
    over
}

fn covers(a: Rect, b: Rect) -> bool {
    let shared = a.intersect(b);
    let narrower = a.width().min(b.width());
    shared.height() > 0.0 && shared.width() > SHARE * narrower
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::standing::painting_order;
    use crate::stage::testing::{place, stage};

    fn over(moves: &[(u32, f64)]) -> Vec<bool> {
        let mut s = stage("HOI");
        for &(id, x) in moves {
            s.run(place(id, x)).unwrap();
        }
        let standings = s.standings();
        laid_over(&standings, &painting_order(&standings))
    }

    #[test]
    fn only_a_moved_letter_lies_over_another() {
        assert_eq!(over(&[]), [false; 3]);
        assert_eq!(over(&[(1, 0.0)]), [false, true, false]);
        assert_eq!(over(&[(1, 5000.0)]), [false; 3]);
    }

    #[test]
    fn the_one_moved_last_is_uppermost() {
        assert_eq!(over(&[(1, 0.0), (0, 10.0)]), [true, false, false]);
        assert_eq!(over(&[(0, 10.0), (1, 0.0)]), [false, true, false]);
    }

    #[test]
    fn touching_is_not_lying_over() {
        // O's disc is 50..750 of 800; here its right edge passes I's left by 10.
        assert_eq!(over(&[(1, 710.0)]), [false; 3]);
    }
}
