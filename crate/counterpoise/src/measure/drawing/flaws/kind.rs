//! What a flaw is, and on whose word.

use kurbo::Point;

/// Something in an outline that is worth a look.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Flaw {
    /// What it is.
    pub kind: FlawKind,
    /// Where, font units.
    pub at: Point,
    /// How large, font units; what is measured is said at each [`FlawKind`].
    pub size: f64,
    /// Which contour, in the outline's order.
    pub contour: usize,
}

/// What is wrong, or seems so.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum FlawKind {
    /// A curve has its extreme between its points. Size: how far it passes them.
    NoPointAtExtreme,
    /// A joint that seems meant to be smooth turns a little. Size: how far the
    /// end of the shorter handle lies off the other's line.
    Kink,
    /// Two points in nearly one place. Size: the way between them.
    DoublePoint,
    /// A segment too short to be seen. Size: its length.
    Stub,
    /// A point on a straight line that it does not bend. Size: how far the line
    /// would move without it.
    IdlePoint,
    /// A handle reaches past the line of the curve's other handle, which it
    /// should stop short of. Size: how far its end lies past that line.
    LongHandle,
    /// One curve bends both ways, by much one way and by little the other, as no
    /// hand would mean it. Size: the height of the lesser bend.
    Wobble,
    /// A line is nearly level. Size: how far its ends differ in height.
    NearlyLevel,
    /// A line is nearly upright. Size: how far its ends differ sideways.
    NearlyUpright,
    /// A contour ends close to where it began and is closed by a stub. Size: its
    /// length.
    LooseEnd,
    /// A contour that encloses nothing, as an open path does. Size: the longer
    /// side of its box.
    NothingInside,
    /// A contour runs the wrong way round for its place. Size: the longer side
    /// of its box.
    WrongWay,
    /// Two contours overlap. Size: how deep; of one drawn twice, the shorter
    /// side of its box.
    Overlap,
    /// A contour crosses itself. Size: the way across the lesser loop.
    SelfCrossing,
}

/// On whose word something counts as a flaw.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Basis {
    /// A font format asks for it: it may be called an error.
    Format,
    /// The trade does so: it is a note.
    Practice,
}

impl FlawKind {
    /// Every kind.
    pub const ALL: [Self; 14] = [
        Self::NoPointAtExtreme,
        Self::Kink,
        Self::DoublePoint,
        Self::Stub,
        Self::IdlePoint,
        Self::LongHandle,
        Self::Wobble,
        Self::NearlyLevel,
        Self::NearlyUpright,
        Self::LooseEnd,
        Self::NothingInside,
        Self::WrongWay,
        Self::Overlap,
        Self::SelfCrossing,
    ];

    /// Its name in plain words.
    pub fn name(self) -> &'static str {
        match self {
            Self::NoPointAtExtreme => "no point at the extreme",
            Self::Kink => "kink",
            Self::DoublePoint => "double point",
            Self::Stub => "stub",
            Self::IdlePoint => "idle point",
            Self::LongHandle => "handle too long",
            Self::Wobble => "wobble",
            Self::NearlyLevel => "nearly level",
            Self::NearlyUpright => "nearly upright",
            Self::LooseEnd => "loose end",
            Self::NothingInside => "nothing inside",
            Self::WrongWay => "runs the wrong way",
            Self::Overlap => "overlap",
            Self::SelfCrossing => "crosses itself",
        }
    }

    /// On whose word it counts.
    pub fn basis(self) -> Basis {
        match self {
            Self::WrongWay => Basis::Format,
            _ => Basis::Practice,
        }
    }

    /// Where that is written; limits are this lab's own where it says practice.
    pub fn source(self) -> &'static str {
        match self {
            Self::NoPointAtExtreme => {
                "Adobe Type 1 Font Format, chapter 4, on points at extremes; limit: common practice"
            }
            Self::WrongWay => {
                "OpenType glyf chapter (outer contours clockwise); CFF: Adobe Type 1 Font Format, \
                 chapter 4 (outer contours counter-clockwise)"
            }
            _ => "common practice",
        }
    }
}
