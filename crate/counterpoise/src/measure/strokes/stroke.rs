//! The finished stroke: its figures, and the places that an artist would mark.

use super::StrokeContext;
use super::pieces::Piece;
use super::station::{Caster, Station};
use crate::measure::median;
use kurbo::{Point, Vec2};

/// A straight stroke within this of the slant is a stem, within this of level
/// a bar (degrees). Hand-drawn stems waver by 2 or 3; the steepest diagonals of
/// condensed faces lean 5 or more.
const STEM_WITHIN: f64 = 4.0;
const BAR_WITHIN: f64 = 10.0;

/// A stroke is at least this many thicknesses long: a square dot is 1, the
/// arch of a bold n between its stems about a half.
const LEAST_ELONGATION: f64 = 0.6;

/// A curve's thickest place is marked beside its sides if it is thicker by more
/// than this: under 1% no eye tells them apart.
const WORTH_A_MARK: f64 = 1.01;

/// An end of a curve within this of upright or level (sine of 22 degrees) is
/// marked: short of that it is a terminal or a join, whose thickness is its own.
const NEARLY: f64 = 0.375;

/// A curve shorter than this many thicknesses is a serif or a tongue: one mark
/// tells all of it.
const SERIF: f64 = 4.0;

/// Ink that goes on for this many thicknesses behind a curve's end is another
/// stroke's. A terminal's own remainder, past the last station, is shorter.
const BEHIND: f64 = 1.2;

/// A mark that departs from level, or from upright, by no more than this (rise
/// over run) is level, or upright.
const LEVEL: f64 = 0.4;

/// A thickness at one place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Thickness {
    /// Font units, perpendicular to the stroke.
    pub value: f64,
    /// One edge.
    pub from: Point,
    /// The other edge.
    pub to: Point,
}

impl Thickness {
    fn of(s: &Station) -> Self {
        Self {
            value: s.thickness,
            from: s.near.point,
            to: s.far.point,
        }
    }

    /// Whether the stroke runs upright where it is marked, in a font that leans by
    /// this much (the tangent): the mark then lies level.
    pub fn runs_upright(&self, lean: f64) -> bool {
        let (along, across) = self.spans(lean);
        along <= LEVEL * across
    }

    /// Whether the stroke runs level where it is marked: the mark then stands upright.
    pub fn runs_level(&self, lean: f64) -> bool {
        let (along, across) = self.spans(lean);
        across <= LEVEL * along
    }

    /// How far the mark reaches upwards and sideways, once the font stands upright:
    /// square to a slanted stem, a mark falls by the slant.
    fn spans(&self, lean: f64) -> (f64, f64) {
        let mark = self.to - self.from;
        ((mark.y + mark.x * lean).abs(), mark.x.abs())
    }

    /// Middle of the ink.
    pub fn centre(&self) -> Point {
        self.from.midpoint(self.to)
    }
}

/// How a stroke runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum StrokeKind {
    /// Straight, along the font's slant.
    Stem,
    /// Straight and level.
    Bar,
    /// Straight and neither.
    Diagonal,
    /// Curved.
    Curve,
}

/// One stroke of a letter. Lengths in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Stroke {
    /// How it runs.
    pub kind: StrokeKind,
    /// Median thickness along it.
    pub median: f64,
    /// Where it is thinnest.
    pub least: Thickness,
    /// Where it is thickest.
    pub greatest: Thickness,
    /// Places to mark: the middle of a straight stroke; where a curve runs
    /// upright or level, and where it is thickest.
    pub marks: Vec<Thickness>,
    /// Length of the middle line.
    pub length: f64,
    /// Direction in degrees, anticlockwise from level, in [0, 180); `None` of a curve.
    pub angle: Option<f64>,
    /// The middle line.
    pub axis: Vec<Point>,
    /// Thickness at each point of a curve's axis; empty of a straight stroke.
    pub profile: Vec<f64>,
    /// Where it runs into other ink: the thickness at each such end.
    pub joins: Vec<Thickness>,
    /// Whether it is a ring.
    pub closed: bool,
}

impl Stroke {
    /// The one figure that an artist would give: the median of a straight
    /// stroke, the thickest mark of a curved one.
    pub fn weight(&self) -> f64 {
        match self.kind {
            StrokeKind::Curve => thickest(&self.marks),
            _ => self.median,
        }
    }
}

/// Takes a piece's figures; `None` if it is too short to be a stroke.
pub(super) fn finish(
    piece: &Piece,
    caster: &mut Caster<'_>,
    context: &StrokeContext,
) -> Option<Stroke> {
    if piece.length < LEAST_ELONGATION * piece.thickness {
        return None;
    }
    let stations = &piece.stations;
    let by = |a: &&Station, b: &&Station| a.thickness.total_cmp(&b.thickness);
    let (least, greatest) = (stations.iter().min_by(by)?, stations.iter().max_by(by)?);
    let axis = axis(piece);
    if piece.straight {
        let u = piece.direction;
        let angle = u.y.atan2(u.x).to_degrees().rem_euclid(180.0);
        return Some(Stroke {
            kind: kind(angle, context.slant),
            median: piece.thickness,
            least: Thickness::of(least),
            greatest: Thickness::of(greatest),
            marks: vec![straight_mark(piece)?],
            length: piece.length,
            angle: Some(if angle >= 180.0 { 0.0 } else { angle }),
            axis,
            profile: Vec::new(),
            joins: Vec::new(),
            closed: false,
        });
    }
    // At an end the curve goes on into a straight stroke or a terminal, and is
    // no thicker there than those are.
    let inner = piece.closed
        || !(std::ptr::eq(greatest, &stations[0])
            || std::ptr::eq(greatest, &stations[stations.len() - 1]));
    // Nor is what fills the corner between a bowl and its stem a thickness of either.
    let own = inner && !caster.fills_a_corner(greatest);
    let least = refine(least, piece, caster, -1.0);
    let greatest = refine(greatest, piece, caster, 1.0);
    Some(Stroke {
        kind: StrokeKind::Curve,
        median: median(&mut stations.iter().map(|s| s.thickness).collect::<Vec<_>>()),
        least: Thickness::of(&least),
        greatest: Thickness::of(&greatest),
        marks: curve_marks(piece, own.then_some(&greatest), caster, context),
        length: piece.length,
        angle: None,
        axis,
        profile: profile(piece),
        joins: joins(piece, caster),
        closed: piece.closed,
    })
}

fn kind(angle: f64, slant: f64) -> StrokeKind {
    let from = |direction: f64| {
        let d = (angle - direction).rem_euclid(180.0);
        d.min(180.0 - d)
    };
    if from(90.0 - slant) <= STEM_WITHIN {
        StrokeKind::Stem
    } else if from(0.0) <= BAR_WITHIN {
        StrokeKind::Bar
    } else {
        StrokeKind::Diagonal
    }
}

fn axis(piece: &Piece) -> Vec<Point> {
    if piece.straight {
        return vec![piece.ends.0, piece.ends.1];
    }
    let mut axis: Vec<Point> = piece.stations.iter().map(Station::centre).collect();
    if piece.closed {
        axis.extend(axis.first().copied());
    }
    axis
}

fn profile(piece: &Piece) -> Vec<f64> {
    let ring = piece.closed.then(|| piece.stations.first()).flatten();
    piece
        .stations
        .iter()
        .chain(ring)
        .map(|s| s.thickness)
        .collect()
}

/// The ends of a curve behind which the ink goes on: there it springs from
/// another stroke. Behind a terminal there is white.
fn joins(piece: &Piece, caster: &mut Caster<'_>) -> Vec<Thickness> {
    let ends = [
        (piece.free.0, piece.stations.first(), -1.0),
        (piece.free.1, piece.stations.last(), 1.0),
    ];
    ends.into_iter()
        .filter(|(free, ..)| *free)
        .filter_map(|(_, s, sign)| Some((s?, sign)))
        .filter(|(s, sign)| {
            let c = s.centre();
            caster.all_ink(c, c + (sign * BEHIND * s.thickness) * s.along)
        })
        .map(|(s, _)| Thickness::of(s))
        .collect()
}

/// The station nearest to the middle of a straight stroke.
fn straight_mark(piece: &Piece) -> Option<Thickness> {
    let middle = piece.ends.0.midpoint(piece.ends.1);
    let far = |s: &Station| (s.centre() - middle).hypot2();
    piece
        .stations
        .iter()
        .min_by(|a, b| far(a).total_cmp(&far(b)))
        .map(Thickness::of)
}

/// Moves a thinnest (`sign` -1) or thickest (+1) station to the best place
/// between its neighbours: the vertex of the parabola through the three, taken
/// if a ray there agrees that it is better.
fn refine(at: &Station, piece: &Piece, caster: &mut Caster<'_>, sign: f64) -> Station {
    let n = piece.stations.len();
    let Some(i) = piece.stations.iter().position(|s| std::ptr::eq(s, at)) else {
        return *at;
    };
    let neighbours = if piece.closed {
        n > 2
    } else {
        i > 0 && i + 1 < n
    };
    if !neighbours {
        return *at;
    }
    let (before, after) = (
        &piece.stations[(i + n - 1) % n],
        &piece.stations[(i + 1) % n],
    );
    let x0 = -(at.near.point - before.near.point).hypot();
    let x2 = (after.near.point - at.near.point).hypot();
    let (y0, y2) = (
        before.thickness - at.thickness,
        after.thickness - at.thickness,
    );
    // The parabola through (x0, y0), (0, 0), (x2, y2).
    let a = (y0 / x0 - y2 / x2) / (x0 - x2);
    let b = y0 / x0 - a * x0;
    let x = -b / (2.0 * a);
    if !x.is_finite() || x <= x0 || x >= x2 || x.abs() < 1e-9 {
        return *at;
    }
    match step(at, x, caster) {
        Some(s) if sign * (s.thickness - at.thickness) > 0.0 => s,
        _ => *at,
    }
}

/// The station a little way along the outline, on the same contour.
fn step(from: &Station, way: f64, caster: &mut Caster<'_>) -> Option<Station> {
    let outline = caster.outline();
    let (mut segment, mut t) = (from.near.segment, from.near.t);
    let contour = outline
        .contours()
        .iter()
        .find(|c| c.contains(&segment))?
        .clone();
    let mut left = way;
    // A way between two stations crosses few segments; the bound keeps a trace
    // of tiny ones from being walked for long.
    for _ in 0..32 {
        let length = outline.segments()[segment].length().max(1e-9);
        let to = t + left / length;
        if (0.0..=1.0).contains(&to) {
            return caster.station(segment, to);
        }
        if to > 1.0 {
            left -= (1.0 - t) * length;
            segment = if segment + 1 < contour.end {
                segment + 1
            } else {
                contour.start
            };
            t = 0.0;
        } else {
            left += t * length;
            segment = if segment > contour.start {
                segment - 1
            } else {
                contour.end - 1
            };
            t = 1.0;
        }
    }
    None
}

/// Marks of a curve: where it runs along the slant and where it runs level,
/// each found between the two stations that straddle it, and `greatest`, its
/// thickest place, where the curve has one of its own; its middle if it has
/// none of these.
fn curve_marks(
    piece: &Piece,
    greatest: Option<&Station>,
    caster: &mut Caster<'_>,
    context: &StrokeContext,
) -> Vec<Thickness> {
    let slant = context.slant.to_radians();
    let upright = Vec2::new(slant.sin(), slant.cos());
    let level = Vec2::new(1.0, 0.0);
    let mut marks: Vec<Thickness> = Vec::new();
    let n = piece.stations.len();
    let pairs = if piece.closed { n } else { n.saturating_sub(1) };
    for way in [upright, level] {
        for i in 0..pairs {
            let (a, b) = (&piece.stations[i], &piece.stations[(i + 1) % n]);
            let (x, y) = (way.cross(a.along), way.cross(b.along));
            // Crosses the direction between the two (nought counts as left).
            if (x >= 0.0) == (y >= 0.0) || way.dot(a.along) * way.dot(b.along) <= 0.0 {
                continue;
            }
            let share = x / (x - y);
            let at = if share < 0.02 {
                Some(*a)
            } else if share > 0.98 {
                Some(*b)
            } else {
                step(a, share * (b.near.point - a.near.point).hypot(), caster)
            };
            push_apart(&mut marks, Thickness::of(&at.unwrap_or(*a)));
        }
    }
    // A curve that ends upright or level in other ink, as the side of an e does
    // above and below its bar, is marked where it ends.
    let ends = [
        (piece.free.0, piece.stations.first()),
        (piece.free.1, piece.stations.last()),
    ];
    let serif = piece.length < SERIF * piece.thickness;
    for end in ends
        .into_iter()
        .filter(|e| e.0 && !serif)
        .filter_map(|e| e.1)
        .filter(|end| !caster.fills_a_corner(end))
    {
        if [upright, level]
            .iter()
            .any(|way| way.cross(end.along).abs() < NEARLY)
        {
            push_apart(&mut marks, Thickness::of(end));
        }
    }
    // The thickest place is marked too where no side shows it: in letters with
    // an inclined stress it lies between.
    let shown = thickest(&marks);
    if marks.is_empty() {
        let at = &piece.stations[n / 2];
        marks.push(Thickness::of(at));
    } else if let Some(greatest) = greatest.filter(|g| g.thickness > WORTH_A_MARK * shown) {
        push_apart(&mut marks, Thickness::of(greatest));
    }
    marks
}

fn thickest(marks: &[Thickness]) -> f64 {
    marks.iter().map(|m| m.value).fold(0.0, f64::max)
}

/// Adds a mark unless one stands within its own thickness already.
fn push_apart(marks: &mut Vec<Thickness>, mark: Thickness) {
    let apart = |m: &Thickness| (m.centre() - mark.centre()).hypot() >= mark.value;
    if marks.iter().all(apart) {
        marks.push(mark);
    }
}
