//! The ink behind an edge: from a place on the outline, straight in, to where
//! the ink ends.
//!
//! A letter's strokes are read by thousands of such looks, so this one finds
//! only what it needs: of what lies on the white side, how often it winds; of
//! what lies on the ink's, the nearest crossings until the ink ends. Whatever
//! is not as simple as that is left to [`Outline::spans`], which sees the whole
//! line; the answer is the same.

use super::crossing::{along, cross, cross_near, net_turn};
use super::{Crossing, Outline, Ray, Span};

/// How far from the outline, font units, rounding may have put a place that
/// lies on it.
const AT_EDGE: f64 = 1e-3;

/// A segment that lies wholly on one side of the place, and the least distance
/// that it can have from it.
#[derive(Debug, Clone, Copy)]
struct Away {
    least: f64,
    index: usize,
}

/// Looks from many places of one outline, keeping its working memory.
#[derive(Debug, Default)]
pub(crate) struct Behind {
    crossings: Vec<Crossing>,
    spans: Vec<Span>,
    before: Vec<Away>,
    after: Vec<Away>,
}

impl Behind {
    /// The other end of the ink that begins at the ray's origin, whichever way
    /// along the ray it lies; `None` if no ink begins there.
    ///
    /// The origin is the point `at` a segment, by index, and a parameter.
    pub(crate) fn far_edge(
        &mut self,
        outline: &Outline,
        ray: &Ray,
        at: (usize, f64),
    ) -> Option<Crossing> {
        match self.side(outline, ray, at) {
            Some(way) => self.nearest_end(outline, ray, way),
            None => self.of_whole_line(outline, ray),
        }
    }

    /// Which way the ink lies: 1 along the ray, -1 against it; `None` where it is
    /// not ink on one side and white on the other. Leaves the crossings of the
    /// segments that lie near, and those that lie away on either side.
    fn side(&mut self, outline: &Outline, ray: &Ray, at: (usize, f64)) -> Option<f64> {
        let Self {
            crossings,
            before,
            after,
            ..
        } = self;
        crossings.clear();
        before.clear();
        after.clear();
        let mut winding = 0;
        outline.boxes.met_by(ray, |index, from, to| {
            let segment = &outline.segments[index];
            if to < -AT_EDGE {
                winding += net_turn(segment, ray);
                before.push(Away { least: -to, index });
            } else if from > AT_EDGE {
                after.push(Away { least: from, index });
            } else {
                let near = (index == at.0).then_some(at.1);
                cross_near(segment, index, ray, near, crossings);
            }
        });
        let mut past = winding;
        for c in crossings.iter() {
            if c.s < -AT_EDGE {
                winding += c.turn;
            }
            if c.s <= AT_EDGE {
                past += c.turn;
            }
        }
        match (winding, past) {
            (0, 0) => None,
            (0, _) => Some(1.0),
            (_, 0) => Some(-1.0),
            _ => None,
        }
    }

    /// The first end of the ink, going a way from white.
    fn nearest_end(&mut self, outline: &Outline, ray: &Ray, way: f64) -> Option<Crossing> {
        self.crossings.retain(|c| way * c.s >= -AT_EDGE);
        loop {
            let away = match way > 0.0 {
                true => &mut self.after,
                false => &mut self.before,
            };
            let nearest = (0..away.len()).min_by(|&i, &j| away[i].least.total_cmp(&away[j].least));
            if let Some(end) = end(&mut self.crossings, way)
                && nearest.is_none_or(|i| away[i].least > way * end.s + AT_EDGE)
            {
                return Some(end);
            }
            let next = away.swap_remove(nearest?).index;
            cross(&outline.segments()[next], next, ray, &mut self.crossings);
        }
    }

    fn of_whole_line(&mut self, outline: &Outline, ray: &Ray) -> Option<Crossing> {
        outline.spans(ray, &mut self.crossings, &mut self.spans);
        // Inside another contour's ink this is no edge, and no span ends here.
        self.spans.iter().find_map(|s| {
            if s.length() <= AT_EDGE {
                None
            } else if s.from.s.abs() < AT_EDGE {
                Some(s.to)
            } else if s.to.s.abs() < AT_EDGE {
                Some(s.from)
            } else {
                None
            }
        })
    }
}

/// Where the ink ends that begins at the place, by the crossings found so far,
/// going a way from white.
fn end(crossings: &mut [Crossing], way: f64) -> Option<Crossing> {
    along(crossings);
    if way < 0.0 {
        crossings.reverse();
    }
    let (mut winding, mut from) = (0, 0.0);
    for (i, c) in crossings.iter().enumerate() {
        if winding == 0 {
            from = c.s;
        }
        winding += c.turn;
        let goes_on = || crossings.get(i + 1).is_some_and(|next| next.s == c.s);
        if winding == 0 && (c.s - from).abs() > AT_EDGE && !goes_on() {
            return Some(*c);
        }
    }
    None
}
