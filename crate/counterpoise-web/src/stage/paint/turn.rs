//! How long what the canvas lacks is worked on at a time.
//!
//! A letter's measures take milliseconds, an elaborate letter's refit tens of
//! them. A line of letters that are all new is worked out in several tasks, so
//! that none of them holds the page up.

/// Milliseconds: of what must come between two frames, about half.
const LONG: f64 = 8.0;

/// A turn at working.
#[derive(Debug, Clone, Copy)]
pub(super) struct Turn {
    end: f64,
}

impl Turn {
    /// Begins now.
    pub(super) fn begin() -> Self {
        Self {
            end: js_sys::Date::now() + LONG,
        }
    }

    /// Whether nothing more may be begun in it.
    pub(super) fn is_over(self) -> bool {
        js_sys::Date::now() > self.end
    }
}
