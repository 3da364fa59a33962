//! Stations along the outline, and the thickness of the ink behind each.

use crate::outline::{Behind, Crossing, Outline, Ray, Segment, Span};
use kurbo::{Point, Vec2};
use std::ops::Range;

/// Stations are about this share of the em apart: a quarter of a common counter,
/// so that no stroke's end is missed, yet few enough to be quick.
const STEP: f64 = 0.07;

/// The most stations on one outline. A trace with thousands of points is
/// sampled more thinly instead of taking seconds.
const MOST: f64 = 500.0;

/// Two edges that differ more than this in direction are no stroke. Between
/// straight edges (20 degrees) a wider limit reads the junctions of W and A as
/// strokes, a narrower one loses tapered arms. A curve (32 degrees) changes its
/// thickness faster: the spine of a bold s would fall apart.
/// Both as cosines.
const WIDEST_TAPER_STRAIGHT: f64 = 0.939_692_6;
const WIDEST_TAPER_CURVED: f64 = 0.848_048_1;

/// Edges nearer to parallel than this (radians, about a third of a degree) need
/// no second ray: thickness changes by less than one in 50,000.
const PARALLEL: f64 = 0.006;

/// Short segments that turn by more than this (cosine of 25 degrees) get a
/// station sooner: a small ring of many is a ring.
const BEND: f64 = 0.906_3;

/// A corner sharper than this (cosine of 8 degrees) is no smooth join, so its
/// point has no single direction (common practice, no source).
const SMOOTH: f64 = 0.990_268_1;

/// A place on the outline and the ink behind it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Station {
    /// The near edge.
    pub(super) near: Edge,
    /// The far edge.
    pub(super) far: Edge,
    /// Direction of the stroke, of length 1, the way the outline is walked.
    pub(super) along: Vec2,
    /// Distance between the edges, square to the stroke.
    pub(super) thickness: f64,
    /// Both edges are straight lines.
    pub(super) straight: bool,
    /// Distance to the next station on the same segment.
    pub(super) spacing: f64,
}

impl Station {
    /// Middle of the ink.
    pub(super) fn centre(&self) -> Point {
        self.near.point.midpoint(self.far.point)
    }
}

/// A place on the outline.
#[derive(Debug, Clone, Copy)]
pub(super) struct Edge {
    pub(super) point: Point,
    pub(super) segment: usize,
    pub(super) t: f64,
}

/// The stations of one contour, in the order of its walk; `None` where the ink
/// behind is no stroke.
#[derive(Debug)]
pub(super) struct Walk {
    pub(super) stations: Vec<Option<Station>>,
}

/// Sends rays through one outline, keeping its working memory between them.
pub(super) struct Caster<'a> {
    outline: &'a Outline,
    behind: Behind,
    crossings: Vec<Crossing>,
    spans: Vec<Span>,
}

impl<'a> Caster<'a> {
    pub(super) fn new(outline: &'a Outline) -> Self {
        Self {
            outline,
            behind: Behind::default(),
            crossings: Vec::new(),
            spans: Vec::new(),
        }
    }

    /// The station at a place on the outline, if the ink behind is a stroke.
    pub(super) fn station(&mut self, segment: usize, t: f64) -> Option<Station> {
        let seg = self.outline.segments().get(segment)?;
        let near = Edge {
            point: seg.at(t),
            segment,
            t,
        };
        let walk = seg.tangent(t);
        let mut along = walk;
        // The first ray is square to the near edge; each next one is square to
        // the bisector of both. Twice settles all but strong curves.
        for turn in 0..3 {
            let far = self.far_edge(&near, along)?;
            let far_seg = &self.outline.segments()[far.segment];
            let mut back = far_seg.tangent(far.t);
            if back.dot(walk) < 0.0 {
                back = -back;
            }
            let straight = seg.is_line() && far_seg.is_line();
            if walk.dot(back) < widest_taper(straight) {
                return None;
            }
            let bisector = unit(walk + back)?;
            if turn == 2 || bisector.cross(along).abs() < PARALLEL {
                let thickness = (far.point - near.point).hypot();
                return (thickness > 0.0).then_some(Station {
                    near,
                    far,
                    along,
                    thickness,
                    straight,
                    spacing: 0.0,
                });
            }
            along = bisector;
        }
        None
    }

    /// Whether one edge is straight and the other curved: the ink there belongs to a
    /// stem, and to the corner between it and the curve that runs into it.
    pub(super) fn fills_a_corner(&self, station: &Station) -> bool {
        let straight = |edge: &Edge| self.outline.segments()[edge.segment].is_line();
        straight(&station.near) != straight(&station.far)
    }

    /// The other end of the ink that begins at `from`, square to `along`.
    fn far_edge(&mut self, from: &Edge, along: Vec2) -> Option<Edge> {
        let ray = Ray::new(from.point, Vec2::new(-along.y, along.x))?;
        let far = self
            .behind
            .far_edge(self.outline, &ray, (from.segment, from.t))?;
        Some(Edge {
            point: ray.at(far.s),
            segment: far.segment,
            t: far.t,
        })
    }

    pub(super) fn outline(&self) -> &'a Outline {
        self.outline
    }

    /// Whether the straight way between two points is ink throughout.
    pub(super) fn all_ink(&mut self, a: Point, b: Point) -> bool {
        let Some(ray) = Ray::new(a, b - a) else {
            return true;
        };
        let length = (b - a).hypot();
        self.outline
            .spans(&ray, &mut self.crossings, &mut self.spans);
        self.spans
            .iter()
            .any(|s| s.from.s <= 1e-6 && s.to.s >= length - 1e-6)
    }
}

fn widest_taper(straight: bool) -> f64 {
    if straight {
        WIDEST_TAPER_STRAIGHT
    } else {
        WIDEST_TAPER_CURVED
    }
}

/// A direction of length 1; `None` of nought.
pub(super) fn unit(v: Vec2) -> Option<Vec2> {
    let length = v.hypot();
    (length > 1e-12).then(|| v / length)
}

/// Walks every contour.
pub(super) fn stations(caster: &mut Caster<'_>, units_per_em: f64) -> Vec<Walk> {
    let outline = caster.outline();
    let lengths: Vec<f64> = outline.segments().iter().map(Segment::length).collect();
    let step = (STEP * units_per_em).max(lengths.iter().sum::<f64>() / MOST);
    outline
        .contours()
        .iter()
        .map(|contour| {
            let places = places(outline, contour.clone(), &lengths, step);
            Walk {
                stations: places
                    .into_iter()
                    .map(|(segment, t, spacing)| {
                        let mut s = caster.station(segment, t)?;
                        s.spacing = spacing;
                        Some(s)
                    })
                    .collect(),
            }
        })
        .collect()
}

/// Where the stations of a contour stand: spread evenly along each segment, at
/// smooth points between curves (a curve's extreme is there, in a well-drawn
/// outline), and thinned out where segments are much shorter than a step. Each
/// with its segment, its parameter there and the way to the next.
/// `lengths` are all segments'.
fn places(
    outline: &Outline,
    contour: Range<usize>,
    lengths: &[f64],
    step: f64,
) -> Vec<(usize, f64, f64)> {
    let segments = &outline.segments()[contour.clone()];
    let mut places = Vec::new();
    let mut since = 0.0;
    let mut before = segments.last();
    let mut heading = segments.last().map(|s| s.tangent(1.0));
    for (i, seg) in segments.iter().enumerate() {
        let index = contour.start + i;
        let length = lengths[index];
        if length < 0.5 * step {
            since += length;
            let towards = seg.tangent(0.5);
            let bent = heading.is_some_and(|h| h.dot(towards) < BEND);
            if since >= step || (bent && since >= 0.4 * step) {
                places.push((index, 0.5, since));
                since = 0.0;
                heading = Some(towards);
            }
        } else {
            let curved = !seg.is_line() || before.is_some_and(|b| !b.is_line());
            if curved && before.is_some_and(|b| b.tangent(1.0).dot(seg.tangent(0.0)) > SMOOTH) {
                places.push((index, 0.0, step.min(length)));
            }
            let least = if seg.is_line() { 1.0 } else { 2.0 };
            let n = (length / step).ceil().max(least);
            let spacing = length / n;
            // `MOST` bounds the sum of all these counts.
            let n = n as u32;
            places.extend((0..n).map(|k| (index, (f64::from(k) + 0.5) / f64::from(n), spacing)));
            since = 0.5 * spacing;
            heading = Some(seg.tangent(1.0));
        }
        before = Some(seg);
    }
    places
}
