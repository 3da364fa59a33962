//! What became of one letter between two revisions.

use super::matched::{Matched, Pair};
use super::motion::{Motion, motion};
use crate::font::{Font, GlyphId, Reader};
use crate::measure::{self, Context, Letter, QUANTITIES, Subject};
use crate::outline::Outline;
use kurbo::Affine;

/// Advances that differ by less than this are alike, font units: fonts hold
/// whole units, drawings the rounding of single precision.
const SAME_ADVANCE: f64 = 0.01;

/// In what way a letter changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Kind {
    /// Its shape.
    Shape,
    /// It stands elsewhere on its advance width, or that is another; the shape
    /// is the same.
    Spacing,
    /// The same shape with other points.
    Points,
    /// It could be read in one revision alone.
    Trouble,
}

/// A figure of both revisions, in the later one's units.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figure {
    /// Its id in the registry.
    pub id: &'static str,
    /// What it was; `None` where the letter had none.
    pub old: Option<f64>,
    /// What it is.
    pub new: Option<f64>,
}

/// A letter that changed.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// Which.
    pub pair: Pair,
    /// In what way.
    pub kind: Kind,
    /// How its outline moved, on the same baseline and origin.
    pub motion: Motion,
    /// The earlier outline, in the later revision's units.
    pub old: Outline,
    /// The later outline.
    pub new: Outline,
    /// Every figure that either has.
    pub figures: Vec<Figure>,
}

/// The matched letters that changed, in order. Outlines and figures of the
/// earlier revision are brought to the later one's units per em.
pub fn letters(
    (old, before): (&Font, &Context),
    (new, after): (&Font, &Context),
    matched: &Matched,
) -> Vec<Change> {
    let scale = f64::from(new.units_per_em()) / f64::from(old.units_per_em());
    let (earlier, later) = (
        Side {
            reader: old.reader(),
            context: before,
            scale,
        },
        Side {
            reader: new.reader(),
            context: after,
            scale: 1.0,
        },
    );
    matched
        .pairs
        .iter()
        .filter_map(|pair| changed(&earlier, &later, pair))
        .collect()
}

struct Side<'a> {
    reader: Reader<'a>,
    context: &'a Context,
    scale: f64,
}

impl Side<'_> {
    fn outline(&self, glyph: GlyphId) -> Option<Outline> {
        let outline = self.reader.outline(glyph).ok()?;
        Some(if self.scale == 1.0 {
            outline
        } else {
            outline.transformed(Affine::scale(self.scale))
        })
    }

    fn advance(&self, glyph: GlyphId) -> f64 {
        self.reader.advance(glyph) * self.scale
    }

    /// Every measure in the font's own units.
    fn letter(&self, glyph: GlyphId) -> Option<Letter> {
        let letter = measure::letter(&self.reader, glyph, self.context).ok()?;
        let drawing = measure::drawing_of(&self.reader, glyph, self.context).ok();
        Some(Letter { drawing, ..letter })
    }
}

fn changed(earlier: &Side<'_>, later: &Side<'_>, pair: &Pair) -> Option<Change> {
    let (a, b) = (pair.old.glyph, pair.new.glyph);
    let (old, new) = (earlier.outline(a), later.outline(b));
    let apart = (earlier.advance(a) - later.advance(b)).abs() >= SAME_ADVANCE;
    let change = |kind, motion, old: Outline, new: Outline| {
        Some(Change {
            pair: pair.clone(),
            kind,
            motion,
            old,
            new,
            figures: figures(earlier, later, pair),
        })
    };
    let (old, new) = match (old, new) {
        (Some(old), Some(new)) => (old, new),
        // What neither revision can read has not changed as far as can be told.
        (None, None) => return None,
        (old, new) => {
            let (old, new) = (old.unwrap_or_default(), new.unwrap_or_default());
            return change(Kind::Trouble, Motion::default(), old, new);
        }
    };
    // Most letters of most revisions are the very same.
    if !apart && old == new {
        return None;
    }
    let moved = motion(&old, &new);
    let kind = if moved.is_none() {
        if apart {
            Kind::Spacing
        } else if points(&old) == points(&new) {
            return None;
        } else {
            Kind::Points
        }
    } else if aside(&old, &new) {
        Kind::Spacing
    } else {
        Kind::Shape
    };
    change(kind, moved, old, new)
}

fn points(outline: &Outline) -> (usize, usize) {
    (outline.segments().len(), outline.contours().len())
}

/// Whether the later outline is the earlier one moved along the baseline.
fn aside(old: &Outline, new: &Outline) -> bool {
    let (Some(a), Some(b)) = (old.bounds(), new.bounds()) else {
        return false;
    };
    let by = b.x0 - a.x0;
    if by == 0.0 {
        return false;
    }
    motion(&old.transformed(Affine::translate((by, 0.0))), new).is_none()
}

fn figures(earlier: &Side<'_>, later: &Side<'_>, pair: &Pair) -> Vec<Figure> {
    let (a, b) = (earlier.letter(pair.old.glyph), later.letter(pair.new.glyph));
    let take = |letter: &Option<Letter>, side: &Side<'_>, q: &measure::Quantity| {
        let value = (q.of)(&Subject {
            letter: letter.as_ref()?,
            character: pair.new.character,
            context: side.context,
        })?;
        let scaled = match q.unit {
            measure::Unit::Units => value * side.scale,
            measure::Unit::SquareUnits => value * side.scale * side.scale,
            measure::Unit::Share | measure::Unit::Degrees | measure::Unit::Count => value,
        };
        scaled.is_finite().then_some(scaled)
    };
    QUANTITIES
        .iter()
        .map(|q| Figure {
            id: q.id,
            old: take(&a, earlier, q),
            new: take(&b, later, q),
        })
        .filter(|f| f.old.is_some() || f.new.is_some())
        .collect()
}
