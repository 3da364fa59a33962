//! Contours that cross themselves or each other.
//!
//! Every segment is laid out in chords that keep within a fifth of a unit of it;
//! chords whose boxes meet are held against each other by a half-open rule, and
//! each meeting is brought to the curves' own by Newton's method. What only
//! touches, or runs along an edge, is then told from what crosses by the order
//! of the four ways that lead from the place.

use super::chords::{Chord, Layout, Place, derivative};
use crate::order::by_number;
use kurbo::{CubicBez, ParamCurve, PathSeg, Point, Rect};

/// The most pairs of boxes held against each other (about 2 ns each): letters
/// take thousands. Past it, crossings are not looked for.
const MOST_PAIRS: usize = 3_000_000;

/// The most meetings of chords that are followed up.
const MOST_MEETINGS: usize = 20_000;

/// How far from a crossing (of the em) its four ways are looked at.
const ASIDE: f64 = 0.000_5;

/// Ways nearer to each other than this (radians) run along each other.
const ALONG: f64 = 0.003;

/// Where the outline meets itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Meeting {
    pub(super) at: Point,
    /// One way passes to the other side of the other there, instead of touching
    /// it or running along it.
    pub(super) crosses: bool,
    /// The earlier place on the outline first.
    pub(super) places: [Place; 2],
    pub(super) contours: [usize; 2],
}

/// Every place where an outline crosses or touches itself, contour by contour;
/// `None` if there is too much to look at. Segments that follow on from each
/// other do not count as touching.
pub(super) fn meetings(layout: &Layout<'_>, em: f64) -> Option<Vec<Meeting>> {
    Search { layout, em }.meetings()
}

struct Search<'a> {
    layout: &'a Layout<'a>,
    em: f64,
}

impl Search<'_> {
    fn meetings(&self) -> Option<Vec<Meeting>> {
        let mut order: Vec<(Rect, usize)> = self
            .layout
            .chords
            .iter()
            .enumerate()
            .map(|(i, c)| (c.bounds(), i))
            .collect();
        by_number(&mut order, |o| o.0.x0);
        let mut found = Vec::new();
        let (mut pairs, mut met) = (0, 0);
        for (i, (box_a, a)) in order.iter().enumerate() {
            for (box_b, b) in &order[i + 1..] {
                if box_b.x0 > box_a.x1 {
                    break;
                }
                pairs += 1;
                if box_b.y0 <= box_a.y1 && box_b.y1 >= box_a.y0 {
                    // The chord that comes first on the outline goes first.
                    let (a, b) = (
                        &self.layout.chords[*a.min(b)],
                        &self.layout.chords[*a.max(b)],
                    );
                    if let Some(shares) = a.meets(b) {
                        met += 1;
                        found.extend(self.meeting(a, b, shares));
                    } else if a.contour != b.contour
                        && let Some(at) = a.touches(b)
                    {
                        met += 1;
                        found.push(touching(a, b, at));
                    }
                }
            }
            if pairs > MOST_PAIRS || met > MOST_MEETINGS {
                return None;
            }
        }
        for (segment, s) in self.layout.outline.segments().iter().enumerate() {
            if let PathSeg::Cubic(c) = s.path_seg() {
                found.extend(self.looped(segment, &c));
            }
        }
        // The least of these first: what comes later keeps the order among its equals.
        for number in [
            |c: &Meeting| c.places[1].segment,
            |c: &Meeting| c.places[0].segment,
            |c: &Meeting| c.contours[1],
            |c: &Meeting| c.contours[0],
        ] {
            by_number(&mut found, |c| number(c) as f64);
        }
        // Chords that end in one place find one meeting twice.
        found.dedup_by(|a, b| {
            let same = a.contours == b.contours && a.at.distance(b.at) < 1e-3;
            b.crosses |= same && a.crosses;
            same
        });
        Some(found)
    }

    /// The meeting of two curves near the meeting of two chords.
    fn meeting(&self, a: &Chord, b: &Chord, (s, u): (f64, f64)) -> Option<Meeting> {
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
        let at = self.layout.at(places[0]);
        let starts_at = |segment: usize| at.distance(self.seg(segment).start()) < 1e-3;
        let is_joint = self.layout.next(a.segment) == b.segment && starts_at(b.segment)
            || self.layout.next(b.segment) == a.segment && starts_at(a.segment);
        (!is_joint).then(|| Meeting {
            at,
            crosses: self.crosses(places),
            places,
            contours: [a.contour, b.contour],
        })
    }

    /// A cubic curve passes one place at t and at u where, of its polynomial
    /// a t^3 + b t^2 + c t, the part without the difference t - u is nought:
    /// a (t^2 + t u + u^2) + b (t + u) + c = 0, two equations that are linear in
    /// the bracket and the sum.
    fn looped(&self, segment: usize, curve: &CubicBez) -> Option<Meeting> {
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
        (t >= 0.0 && u <= 1.0 && !whole).then(|| Meeting {
            at: curve.eval(t),
            crosses: true,
            places: [Place { segment, t }, Place { segment, t: u }],
            contours: [self.layout.contour_of(segment); 2],
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
    fn crosses(&self, places: [Place; 2]) -> bool {
        let at = self.layout.at(places[0]);
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
                (self.layout.next(segment), 0.0)
            } else {
                (self.layout.previous(segment), 1.0)
            };
        }
        self.seg(segment).eval(t)
    }

    fn seg(&self, segment: usize) -> PathSeg {
        self.layout.seg(segment)
    }
}

/// Two chords of different contours that touch.
fn touching(a: &Chord, b: &Chord, at: Point) -> Meeting {
    let start = |c: &Chord| Place {
        segment: c.segment,
        t: c.from,
    };
    Meeting {
        at,
        crosses: false,
        places: [start(a), start(b)],
        contours: [a.contour, b.contour],
    }
}
