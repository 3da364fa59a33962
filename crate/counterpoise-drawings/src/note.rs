//! What was left out of a drawing, or read in one of several ways.

use std::fmt;

/// Something that the artist should know of how a drawing was read.
#[derive(Debug, Clone, PartialEq, Eq, Hash)]
pub enum Note {
    /// It holds a script or a handler of events.
    Script,
    /// It refers to something outside itself.
    Outside,
    /// It holds pictures.
    Picture,
    /// It holds text that was not turned to outlines.
    Text,
    /// It holds clips, masks, filters, markers or patterns.
    Effects,
    /// It holds white shapes.
    White,
    /// Shapes that are neither filled nor stroked, or too small.
    EvenOdd,
    /// A contour of a glyph is open.
    Open(String),
    /// A glyph could not be read, and why.
    Glyph(String),
}

impl fmt::Display for Note {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Script => {
                f.write_str("The drawing holds a script. It is left out and never runs.")
            }
            Self::Outside => f.write_str(
                "The drawing refers to files or pages outside itself. Nothing is fetched.",
            ),
            Self::Picture => f.write_str(
                "The drawing holds pictures, which have no outlines; they are left out.",
            ),
            Self::Text => f.write_str(
                "The drawing holds text that is not outlines yet; it is left out. Turn it to \
                 outlines in the drawing program.",
            ),
            Self::Effects => f.write_str(
                "The drawing holds clips, masks, filters, markers or patterns. Shapes are read \
                 whole, without them.",
            ),
            Self::White => f.write_str(
                "White shapes are read as paper and left out. A counter must be cut out of its \
                 letter, not painted over it.",
            ),
            Self::EvenOdd => f.write_str(
                "A shape that is filled by turns (even-odd) crosses itself; where it does, the \
                 lab may read ink for paper. Unite its parts.",
            ),
            Self::Open(glyph) => write!(
                f,
                "The glyph {glyph} has an open contour; it is read as closed by a line."
            ),
            Self::Glyph(said) => f.write_str(said),
        }
    }
}
