//! How much work a glyph asks for, found before the parser is let loose on it.
//!
//! A glyph may draw others, and a charstring may call others, so that a few
//! hundred bytes can ask for more than a lifetime of drawing. The parser limits
//! how deep that goes, not how much it comes to, and once it draws nothing can
//! stop it. So every such glyph is first walked without drawing, with a budget:
//! the walk ends where the budget does, and is thus as quick as the budget is small.

pub(super) mod charstring;
pub(super) mod composite;

/// Why the parser shall not draw a glyph.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Refusal {
    /// It cannot be read.
    Broken,
    /// It asks for too much work.
    TooLarge,
    /// Its components are placed by matching points, which the parser misreads.
    MatchedPoints,
}
