//! The same work on many things, on all processors, results in order.

use std::num::NonZero;
use std::panic::resume_unwind;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::thread;

/// How many threads work.
pub(crate) fn workers() -> usize {
    thread::available_parallelism().map_or(1, NonZero::get)
}

/// Does `work` on each of `items`; each thread has a `tool` of its own for it.
pub(crate) fn map<T: Sync, S, R: Send>(
    items: &[T],
    workers: usize,
    tool: impl Fn() -> S + Sync,
    work: impl Fn(&mut S, &T) -> R + Sync,
) -> Vec<R> {
    let workers = workers.min(items.len());
    if workers <= 1 {
        let mut tool = tool();
        return items.iter().map(|item| work(&mut tool, item)).collect();
    }
    let next = AtomicUsize::new(0);
    let share = || {
        let mut tool = tool();
        let mut done = Vec::new();
        loop {
            let index = next.fetch_add(1, Ordering::Relaxed);
            let Some(item) = items.get(index) else {
                return done;
            };
            done.push((index, work(&mut tool, item)));
        }
    };
    let mut all: Vec<(usize, R)> = thread::scope(|scope| {
        let threads: Vec<_> = (0..workers).map(|_| scope.spawn(share)).collect();
        threads
            .into_iter()
            .flat_map(|t| t.join().unwrap_or_else(|panic| resume_unwind(panic)))
            .collect()
    });
    all.sort_unstable_by_key(|&(index, _)| index);
    all.into_iter().map(|(_, result)| result).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_once_and_in_order_by_any_number_of_threads() {
        let items: Vec<usize> = (0..1000).collect();
        let squares: Vec<usize> = items.iter().map(|n| n * n).collect();
        for workers in [0, 1, 2, 7, 2000] {
            assert_eq!(map(&items, workers, || (), |(), n| n * n), squares);
        }
        assert!(map(&[] as &[usize], 4, || (), |(), n| *n).is_empty());
    }
}
