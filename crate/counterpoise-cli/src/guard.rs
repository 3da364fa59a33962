//! A last net below a run over hundreds of fonts: a fault of ours at one of them
//! must not cost the others.

use std::panic::{AssertUnwindSafe, catch_unwind};

/// What to say of it.
pub(crate) const FAULT: &str =
    "This is a fault of the program, not of the font: please report it with the font's name.";

/// What `work` gives; `None` if it panicked.
pub(crate) fn call<T>(work: impl FnOnce() -> T) -> Option<T> {
    // What the work was done on is not used again after a panic, or only read.
    catch_unwind(AssertUnwindSafe(work)).ok()
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_panic_costs_its_own_work_alone() {
        assert_eq!(super::call(|| 1), Some(1));
        assert_eq!(super::call(|| -> i32 { panic!("on purpose") }), None);
    }
}
