//! The same letter with too many points, as an automatic trace would set them:
//! a counter-example to show, and outlines of known excess to test with.

use super::DrawingContext;
use super::economy::runs;
use super::joint::unit;
use super::whole::whole;
use crate::outline::{Outline, Segment};
use kurbo::{BezPath, ParamCurve, PathSeg, Point, Vec2};

/// Places looked at on each segment to tell the way along it.
const PLACES: u32 = 32;

/// The most points on the curve that a trace is given; more are set further apart.
const MOST: f64 = 20_000.0;

/// The outline redrawn with a point every `spacing` units of the way between
/// its corners, wherever that falls, on coordinates rounded to whole units. Only
/// straight lines from corner to corner stay as they are.
pub fn traced(outline: &Outline, context: &DrawingContext, spacing: f64) -> BezPath {
    let outline = whole(outline);
    let length: f64 = outline.segments().iter().map(Segment::length).sum();
    let spacing = spacing.max(1.0).max(length / MOST);
    let mut path = BezPath::new();
    for contour in outline.contours() {
        let segments = &outline.segments()[contour.clone()];
        for (k, run) in runs(segments, context.units_per_em).iter().enumerate() {
            let table = Table::of(&run.legs);
            if k == 0 {
                path.move_to(table.places[0].at.round());
            }
            if let [PathSeg::Line(l)] = run.legs[..] {
                path.line_to(l.p1.round());
                continue;
            }
            let length = table.length();
            let count = (length / spacing).round().max(1.0) as usize;
            let step = length / count as f64;
            let mut from = table.at(0.0);
            for i in 1..=count {
                let to = table.at(i as f64 * step);
                // The handles of a cubic that runs at an even pace.
                path.curve_to(
                    (from.at + from.direction * (step / 3.0)).round(),
                    (to.at - to.direction * (step / 3.0)).round(),
                    to.at.round(),
                );
                from = to;
            }
        }
        path.close_path();
    }
    path
}

#[derive(Debug, Clone, Copy)]
struct Place {
    way: f64,
    at: Point,
    direction: Vec2,
}

/// Places along a run by their way from its start.
struct Table {
    places: Vec<Place>,
}

impl Table {
    fn of(legs: &[PathSeg]) -> Self {
        let mut places: Vec<Place> = Vec::new();
        for leg in legs {
            let segment = Segment::new(*leg);
            // The end of one leg is the start of the next.
            let first = u32::from(!places.is_empty());
            for k in first..=PLACES {
                let t = f64::from(k) / f64::from(PLACES);
                let at = leg.eval(t);
                places.push(Place {
                    way: places.last().map_or(0.0, |p| p.way + p.at.distance(at)),
                    at,
                    direction: segment.tangent(t),
                });
            }
        }
        Self { places }
    }

    fn length(&self) -> f64 {
        self.places.last().map_or(0.0, |p| p.way)
    }

    fn at(&self, way: f64) -> Place {
        let after = self
            .places
            .partition_point(|p| p.way < way)
            .clamp(1, self.places.len() - 1);
        let (a, b) = (self.places[after - 1], self.places[after]);
        let share = if b.way > a.way {
            ((way - a.way) / (b.way - a.way)).clamp(0.0, 1.0)
        } else {
            1.0
        };
        Place {
            way,
            at: a.at.lerp(b.at, share),
            direction: unit(a.direction.lerp(b.direction, share)).unwrap_or(b.direction),
        }
    }
}
