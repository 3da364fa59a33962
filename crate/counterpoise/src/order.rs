//! Putting things in order by a number that each has.
//!
//! The standard sort is made anew for each kind of thing that it sorts, some five
//! kilobytes each time: with a few dozen of them a fifth of the module that the
//! page fetches was sorting. Here numbers alone are sorted, by one piece of code,
//! and the things are moved after them. Where a list is put in order for each
//! station of each letter the standard sort is used still: it makes no list beside.

use std::collections::BTreeMap;

/// Puts items in order by a number that each has, the least first; those with
/// the same number stay in their order.
pub fn by_number<T>(items: &mut [T], number: impl Fn(&T) -> f64) {
    let mut order: Vec<(f64, usize)> = items.iter().map(number).zip(0..).collect();
    numbers(&mut order);
    // Cycle by cycle, each item goes to its place.
    for start in 0..order.len() {
        let mut at = start;
        loop {
            let from = std::mem::replace(&mut order[at].1, at);
            if from == start || from == at {
                break;
            }
            items.swap(at, from);
            at = from;
        }
    }
}

/// A map filled one by one: collecting it would put all in order first, by a copy
/// of the standard sort for each kind of map.
pub fn by_key<K: Ord, V>(all: impl Iterator<Item = (K, V)>) -> BTreeMap<K, V> {
    let mut map = BTreeMap::new();
    map.extend(all);
    map
}

#[inline(never)]
fn numbers(order: &mut [(f64, usize)]) {
    order.sort_unstable_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_the_standard_sort_orders_them() {
        let mut seed = 7_u64;
        for length in 0..40 {
            let mut items: Vec<(u64, usize)> = (0..length)
                .map(|i| {
                    seed = seed.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1);
                    ((seed >> 33) % 9, i)
                })
                .collect();
            let mut expected = items.clone();
            expected.sort_by_key(|i| i.0);
            by_number(&mut items, |i| i.0 as f64);
            assert_eq!(items, expected);
        }
    }
}
