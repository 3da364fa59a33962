//! Contours that cross themselves or each other.
//!
//! Every segment is laid out in chords that keep within a fifth of a unit of it;
//! chords whose boxes meet are held against each other by a half-open rule, and
//! each meeting is brought to the curves' own by Newton's method. What only
//! touches, or runs along an edge, is then told from what crosses by the order
//! of the four ways that lead from the place.

use super::winding::winding;
use super::{Flaw, FlawKind, Found};
use crate::outline::Outline;
use kurbo::{
    CubicBez, Line, ParamCurve, ParamCurveDeriv, ParamCurveNearest, PathSeg, Point, Rect, Vec2,
};

/// Chords keep this near to their curve (of the em).
const FLAT: f64 = 0.000_2;

/// The most chords, and the most pairs of boxes held against each other (about
/// 2 ns each). Letters take hundreds and thousands; past these, crossings are
/// not looked for.
const MOST_CHORDS: usize = 60_000;
const MOST_PAIRS: usize = 3_000_000;

/// The most meetings of chords that are followed up.
const MOST_MEETINGS: usize = 20_000;

/// How far from a crossing (of the em) its four ways are looked at.
const ASIDE: f64 = 0.000_5;

/// Ways nearer to each other than this (radians) run along each other.
const ALONG: f64 = 0.003;

/// An overlap or a loop smaller than this (of the em) is rounding.
const LEAST: f64 = 0.000_5;

/// A place on the outline.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Place {
    segment: usize,
    t: f64,
}

/// Where the outline crosses itself.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Crossing {
    at: Point,
    places: [Place; 2],
    contours: [usize; 2],
}

/// Which contours cross.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Crossed {
    /// Of each contour, whether it crosses itself or another.
    pub(super) contours: Vec<bool>,
}

/// Finds crossings and tells of them. `None` if there is too much to look at.
pub(super) fn crossings(outline: &Outline, em: f64, found: &mut Found) -> Option<Crossed> {
    let search = Search::new(outline, em);
    let Some(crossings) = search.as_ref().and_then(Search::crossings) else {
        found
            .not_looked_for
            .extend([FlawKind::Overlap, FlawKind::SelfCrossing]);
        return None;
    };
    let mut crossed = Crossed {
        contours: vec![false; outline.contours().len()],
    };
    for c in &crossings {
        for contour in c.contours {
            crossed.contours[contour] = true;
        }
    }
    if let Some(search) = search {
        search.tell(&crossings, found);
    }
    Some(crossed)
}

/// A chord of a segment.
#[derive(Debug, Clone, Copy)]
struct Chord {
    segment: usize,
    contour: usize,
    from: f64,
    to: f64,
    a: Point,
    b: Point,
}

impl Chord {
    fn bounds(&self) -> Rect {
        Rect::from_points(self.a, self.b)
    }

    /// Where two chords meet, as shares of each.
    fn meets(&self, other: &Self) -> Option<(f64, f64)> {
        let (d, e) = (self.b - self.a, other.b - other.a);
        // On the line counts as left of it, so that a chain of chords that
        // passes through a joint of another crosses it once.
        let side = |p: Point, from: Point, along: Vec2| along.cross(p - from) >= 0.0;
        if side(self.a, other.a, e) == side(self.b, other.a, e)
            || side(other.a, self.a, d) == side(other.b, self.a, d)
        {
            return None;
        }
        let across = d.cross(e);
        if across == 0.0 {
            return None;
        }
        let apart = other.a - self.a;
        Some((apart.cross(e) / across, apart.cross(d) / across))
    }
}

struct Search<'a> {
    outline: &'a Outline,
    em: f64,
    chords: Vec<Chord>,
    /// Where each segment's chords stand.
    first_chord: Vec<usize>,
    /// Which contour each segment belongs to.
    contour_of: Vec<usize>,
}

impl<'a> Search<'a> {
    fn new(outline: &'a Outline, em: f64) -> Option<Self> {
        let mut search = Self {
            outline,
            em,
            chords: Vec::new(),
            first_chord: Vec::new(),
            contour_of: Vec::new(),
        };
        for (contour, range) in outline.contours().iter().enumerate() {
            for segment in range.clone() {
                search.first_chord.push(search.chords.len());
                search.contour_of.push(contour);
                search.lay_out(segment, contour);
                if search.chords.len() > MOST_CHORDS {
                    return None;
                }
            }
        }
        search.first_chord.push(search.chords.len());
        Some(search)
    }

    fn lay_out(&mut self, segment: usize, contour: usize) {
        let seg = self.outline.segments()[segment].path_seg();
        let count = chord_count(&seg, FLAT * self.em);
        let (mut from, mut a) = (0.0, seg.start());
        for k in 1..=count {
            let to = f64::from(k) / f64::from(count);
            let b = if k == count { seg.end() } else { seg.eval(to) };
            self.chords.push(Chord {
                segment,
                contour,
                from,
                to,
                a,
                b,
            });
            (from, a) = (to, b);
        }
    }

    /// Every true crossing; `None` if there is too much to look at.
    fn crossings(&self) -> Option<Vec<Crossing>> {
        let mut order: Vec<(Rect, usize)> = self
            .chords
            .iter()
            .enumerate()
            .map(|(i, c)| (c.bounds(), i))
            .collect();
        order.sort_unstable_by(|a, b| a.0.x0.total_cmp(&b.0.x0));
        let mut found = Vec::new();
        let (mut pairs, mut meetings) = (0, 0);
        for (i, (box_a, a)) in order.iter().enumerate() {
            for (box_b, b) in &order[i + 1..] {
                if box_b.x0 > box_a.x1 {
                    break;
                }
                pairs += 1;
                if box_b.y0 <= box_a.y1 && box_b.y1 >= box_a.y0 {
                    // The chord that comes first on the outline goes first.
                    let (a, b) = (&self.chords[*a.min(b)], &self.chords[*a.max(b)]);
                    if let Some(shares) = a.meets(b) {
                        meetings += 1;
                        found.extend(self.crossing(a, b, shares));
                    }
                }
            }
            if pairs > MOST_PAIRS || meetings > MOST_MEETINGS {
                return None;
            }
        }
        for (segment, s) in self.outline.segments().iter().enumerate() {
            if let PathSeg::Cubic(c) = s.path_seg() {
                found.extend(self.looped(segment, &c));
            }
        }
        found.sort_by_key(|c| (c.contours, c.places[0].segment, c.places[1].segment));
        // Chords that end in one place find one crossing twice.
        found.dedup_by(|a, b| a.contours == b.contours && a.at.distance(b.at) < 1e-3);
        Some(found)
    }

    /// The crossing of two curves near the meeting of two chords.
    fn crossing(&self, a: &Chord, b: &Chord, (s, u): (f64, f64)) -> Option<Crossing> {
        // A curve crosses itself only as a loop, which is found apart.
        if a.segment == b.segment {
            return None;
        }
        let places = self.refine([
            Place {
                segment: a.segment,
                t: a.from + s * (a.to - a.from),
            },
            Place {
                segment: b.segment,
                t: b.from + u * (b.to - b.from),
            },
        ])?;
        let at = self.at(places[0]);
        let crossing = Crossing {
            at,
            places,
            contours: [a.contour, b.contour],
        };
        let joined = self.next(a.segment) == b.segment && at.distance(self.start(b)) < 1e-3
            || self.next(b.segment) == a.segment && at.distance(self.start(a)) < 1e-3;
        (!joined && self.is_true(places)).then_some(crossing)
    }

    /// A cubic curve passes one place at t and at u where, of its polynomial
    /// a t^3 + b t^2 + c t, the part without the difference t - u is nought:
    /// a (t^2 + t u + u^2) + b (t + u) + c = 0, two equations that are linear in
    /// the bracket and the sum.
    fn looped(&self, segment: usize, curve: &CubicBez) -> Option<Crossing> {
        let (p0, p1, p2, p3) = (
            curve.p0.to_vec2(),
            curve.p1.to_vec2(),
            curve.p2.to_vec2(),
            curve.p3.to_vec2(),
        );
        let (a, b, c) = (
            p3 - 3.0 * p2 + 3.0 * p1 - p0,
            3.0 * (p0 - 2.0 * p1 + p2),
            3.0 * (p1 - p0),
        );
        let across = a.cross(b);
        if across.abs() < 1e-12 {
            return None;
        }
        let (bracket, sum) = (b.cross(c) / across, c.cross(a) / across);
        let product = sum * sum - bracket;
        let spread = sum * sum - 4.0 * product;
        if spread <= 0.0 {
            return None;
        }
        let (t, u) = (0.5 * (sum - spread.sqrt()), 0.5 * (sum + spread.sqrt()));
        // From end to end it is a contour of one curve, which closes there.
        let whole = t <= 1e-6 && u >= 1.0 - 1e-6;
        (t >= 0.0 && u <= 1.0 && !whole).then(|| Crossing {
            at: curve.eval(t),
            places: [Place { segment, t }, Place { segment, t: u }],
            contours: [self.contour_of[segment]; 2],
        })
    }

    /// The meeting of the curves near the meeting of their chords.
    fn refine(&self, [mut a, mut b]: [Place; 2]) -> Option<[Place; 2]> {
        /// Newton's method doubles the digits; chords start within a hundredth.
        const STEPS: u32 = 8;
        let (p, q) = (self.seg(a.segment), self.seg(b.segment));
        for _ in 0..STEPS {
            let apart = q.eval(b.t) - p.eval(a.t);
            if apart.hypot() < 1e-7 * self.em {
                return Some([a, b]);
            }
            let (d, e) = (derivative(&p, a.t), derivative(&q, b.t));
            let across = d.cross(e);
            if across == 0.0 {
                return None;
            }
            a.t = (a.t + apart.cross(e) / across).clamp(0.0, 1.0);
            b.t = (b.t + apart.cross(d) / across).clamp(0.0, 1.0);
        }
        None
    }

    /// Whether the outline changes sides there, instead of touching.
    fn is_true(&self, places: [Place; 2]) -> bool {
        let at = self.at(places[0]);
        let way = |place: Place, by: f64| (self.walk(place, by) - at).atan2();
        let by = ASIDE * self.em;
        let [a, b] = places;
        let from = way(b, by);
        let turned = |angle: f64| (angle - from).rem_euclid(std::f64::consts::TAU);
        let (back, forth, across) = (turned(way(a, -by)), turned(way(a, by)), turned(way(b, -by)));
        let is_along = |angle: f64| {
            angle < ALONG || std::f64::consts::TAU - angle < ALONG || (angle - across).abs() < ALONG
        };
        !is_along(back) && !is_along(forth) && (back < across) != (forth < across)
    }

    /// The point a little way along the contour from a place.
    fn walk(&self, place: Place, by: f64) -> Point {
        let (mut segment, mut left) = (place.segment, by.abs());
        let mut t = place.t;
        // A few stubs at most lie within so small a way.
        for _ in 0..8 {
            let seg = self.seg(segment);
            let end = if by > 0.0 { 1.0 } else { 0.0 };
            let (rest, length) = ((end - t).abs(), (seg.eval(end) - seg.eval(t)).hypot());
            if length > left {
                let speed = derivative(&seg, t).hypot();
                let step = if speed * rest >= left {
                    left / speed
                } else {
                    rest * left / length
                };
                return seg.eval(t + step * by.signum());
            }
            left -= length;
            (segment, t) = if by > 0.0 {
                (self.next(segment), 0.0)
            } else {
                (self.previous(segment), 1.0)
            };
        }
        self.seg(segment).eval(t)
    }

    fn seg(&self, segment: usize) -> PathSeg {
        self.outline.segments()[segment].path_seg()
    }

    /// Where the chord's segment starts.
    fn start(&self, chord: &Chord) -> Point {
        self.seg(chord.segment).start()
    }

    fn at(&self, place: Place) -> Point {
        self.seg(place.segment).eval(place.t)
    }

    fn next(&self, segment: usize) -> usize {
        let range = &self.outline.contours()[self.contour_of[segment]];
        if segment + 1 == range.end {
            range.start
        } else {
            segment + 1
        }
    }

    fn previous(&self, segment: usize) -> usize {
        let range = &self.outline.contours()[self.contour_of[segment]];
        if segment == range.start {
            range.end - 1
        } else {
            segment - 1
        }
    }

    /// Tells of each contour that crosses itself, and of each pair that overlap.
    fn tell(&self, crossings: &[Crossing], found: &mut Found) {
        for group in crossings.chunk_by(|a, b| a.contours == b.contours) {
            let [a, b] = group[0].contours;
            if a == b {
                for c in group {
                    let size = self.loop_size(c);
                    if size > LEAST * self.em {
                        found.add(Flaw {
                            kind: FlawKind::SelfCrossing,
                            at: c.at,
                            size,
                            contour: a,
                        });
                    }
                }
            } else if let Some((at, size)) = self.overlap(group, a, b)
                && size > LEAST * self.em
            {
                found.add(Flaw {
                    kind: FlawKind::Overlap,
                    at,
                    size,
                    contour: a,
                });
            }
        }
    }

    /// The greater side of the box of the lesser loop.
    fn loop_size(&self, c: &Crossing) -> f64 {
        let range = self.chords_of(self.contour_of[c.places[0].segment]);
        let inner = self.chord_at(c.places[0])..self.chord_at(c.places[1]);
        let size = |points: &mut dyn Iterator<Item = Point>| {
            let b = points.fold(Rect::from_points(c.at, c.at), |b, p| b.union_pt(p));
            b.width().max(b.height())
        };
        let within = size(&mut self.chords[inner.clone()].iter().map(|c| c.b));
        let beyond = size(
            &mut self.chords[range.start..inner.start]
                .iter()
                .map(|c| c.a)
                .chain(self.chords[inner.end..range.end].iter().map(|c| c.b)),
        );
        within.min(beyond)
    }

    /// How deep a contour reaches into another between two crossings, at most,
    /// and the crossing where that stretch begins.
    fn overlap(&self, group: &[Crossing], a: usize, b: usize) -> Option<(Point, f64)> {
        /// Stretches followed, and places on each: enough to tell the depth to
        /// within a fiftieth.
        const STRETCHES: usize = 16;
        const PLACES: usize = 7;
        let (range, other) = (self.chords_of(a), self.chords_of(b));
        let inside = &self.outline.segments()[self.outline.contours()[b].clone()];
        let count = range.len();
        let mut starts: Vec<(usize, f64, Point)> = group
            .iter()
            .map(|c| (self.chord_at(c.places[0]), c.places[0].t, c.at))
            .collect();
        starts.sort_by(|x, y| x.0.cmp(&y.0).then(x.1.total_cmp(&y.1)));
        let mut deepest: Option<(Point, f64)> = None;
        for (k, &(from, t, at)) in starts.iter().enumerate().take(STRETCHES) {
            let (to, u, _) = starts[(k + 1) % starts.len()];
            // Chords from one crossing to the next, round the contour's end.
            let chords = if k + 1 < starts.len() {
                to - from
            } else {
                count - (from - to)
            };
            for place in 1..=PLACES {
                let share = place as f64 / (PLACES + 1) as f64;
                let p = self.between((from, t), (to, u), chords, share, &range);
                if winding(inside, p) != 0 {
                    let depth = self.distance(p, &other);
                    if deepest.is_none_or(|d| d.1 < depth) {
                        deepest = Some((at, depth));
                    }
                }
            }
        }
        deepest
    }

    /// The point at a share of the way between two places on a contour, chord
    /// counted for chord.
    fn between(
        &self,
        (from, t): (usize, f64),
        (to, u): (usize, f64),
        chords: usize,
        share: f64,
        range: &std::ops::Range<usize>,
    ) -> Point {
        let on = |chord: usize, t: f64| {
            let c = &self.chords[chord];
            (t - c.from) / (c.to - c.from)
        };
        let (start, end) = (on(from, t), chords as f64 + on(to, u));
        let at = start + share * (end - start);
        let whole = (at.floor() as usize).min(chords);
        let chord = range.start + (from - range.start + whole) % range.len();
        let c = &self.chords[chord];
        c.a.lerp(c.b, at - whole as f64)
    }

    fn distance(&self, p: Point, chords: &std::ops::Range<usize>) -> f64 {
        self.chords[chords.clone()]
            .iter()
            .map(|c| Line::new(c.a, c.b).nearest(p, 1e-3).distance_sq)
            .fold(f64::INFINITY, f64::min)
            .sqrt()
    }

    fn chords_of(&self, contour: usize) -> std::ops::Range<usize> {
        let range = &self.outline.contours()[contour];
        self.first_chord[range.start]..self.first_chord[range.end]
    }

    fn chord_at(&self, place: Place) -> usize {
        let range = self.first_chord[place.segment]..self.first_chord[place.segment + 1];
        let within = self.chords[range.clone()].partition_point(|c| c.to < place.t);
        (range.start + within).min(range.end - 1)
    }
}

fn derivative(seg: &PathSeg, t: f64) -> Vec2 {
    match seg {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => q.deriv().eval(t).to_vec2(),
        PathSeg::Cubic(c) => c.deriv().eval(t).to_vec2(),
    }
}

/// Chords that keep within a distance of a curve: a chord's height is an eighth
/// of the second derivative at most.
fn chord_count(seg: &PathSeg, flat: f64) -> u32 {
    const MOST: f64 = 64.0;
    let bend = match *seg {
        PathSeg::Line(_) => return 1,
        PathSeg::Quad(q) => 2.0 * (q.p0.to_vec2() - 2.0 * q.p1.to_vec2() + q.p2.to_vec2()).hypot(),
        PathSeg::Cubic(c) => {
            let (a, b) = (
                c.p0.to_vec2() - 2.0 * c.p1.to_vec2() + c.p2.to_vec2(),
                c.p1.to_vec2() - 2.0 * c.p2.to_vec2() + c.p3.to_vec2(),
            );
            6.0 * a.hypot().max(b.hypot())
        }
    };
    (bend / (8.0 * flat)).sqrt().ceil().clamp(1.0, MOST) as u32
}
