//! Area of the ink, overlaps counted once; whole, or between two heights.
//!
//! Where no contours overlap, Green's theorem gives it exactly. Where they do,
//! the ink on level lines is summed instead: between two heights at which some
//! segment starts, ends or turns, its length is a smooth function of the
//! height, which Gauss-Legendre quadrature of few points sums almost exactly.

use super::crossing::cross;
use super::{Crossing, Outline, Ray, Segment, Span};
use kurbo::{
    ParamCurve, ParamCurveArea, ParamCurveExtrema, PathSeg, common::GAUSS_LEGENDRE_COEFFS_4,
};

/// No strip is taller than this share of the outline. Where two contours cross,
/// the length of the ink has a kink that no strip's end marks; in a low strip it
/// costs next to nothing (0.01% of a letter's area, at a 64th).
const TALLEST_STRIP: f64 = 1.0 / 64.0;

/// The most meetings of a level line with a segment that are looked for. A
/// letter needs some tens of thousands; a hostile outline of 10,000 curves is
/// summed more coarsely instead of taking seconds.
const MOST_MEETINGS: usize = 4_000_000;

/// Level lines in a strip: the nodes of the quadrature.
const NODES: usize = GAUSS_LEGENDRE_COEFFS_4.len();

/// Pieces shorter than this in the curve's parameter are the rounding of a cut
/// that falls on a segment's end.
const LEAST_PIECE: f64 = 1e-12;

/// The ink of an outline. What it takes to know its area is found once, and
/// serves for every band that is asked for afterwards.
#[derive(Debug)]
pub struct Ink<'a> {
    outline: &'a Outline,
    area: f64,
    /// Strips from the lowest up, of contours that overlap.
    strips: Option<Vec<Strip>>,
}

/// A level strip, and the ink inside.
#[derive(Debug)]
struct Strip {
    from: f64,
    to: f64,
    ink: f64,
}

impl<'a> Ink<'a> {
    /// Looks whether contours overlap, and takes the area.
    pub fn of(outline: &'a Outline) -> Self {
        if !outline.overlaps() {
            return Self {
                outline,
                area: outline.signed_area().abs(),
                strips: None,
            };
        }
        let mut sum = Sum::new(outline);
        let strips: Vec<Strip> = outline
            .levels()
            .windows(2)
            .map(|w| Strip {
                from: w[0],
                to: w[1],
                ink: sum.between(w[0], w[1]),
            })
            .collect();
        Self {
            outline,
            area: strips.iter().map(|s| s.ink).sum(),
            strips: Some(strips),
        }
    }

    /// The outline whose ink it is.
    pub fn outline(&self) -> &'a Outline {
        self.outline
    }

    /// All of its area, square units; never negative.
    pub fn area(&self) -> f64 {
        self.area
    }

    /// The area between two heights, the lower first, square units.
    pub fn between(&self, from: f64, to: f64) -> f64 {
        let Some(strips) = &self.strips else {
            let segments = self.outline.segments().iter();
            let sum: f64 = segments.map(|s| area_between(s, from, to)).sum();
            return sum.abs();
        };
        let mut sum = Sum::new(self.outline);
        strips
            .iter()
            .filter(|s| s.to > from && s.from < to)
            .map(|s| match s.from >= from && s.to <= to {
                true => s.ink,
                false => sum.between(s.from.max(from), s.to.min(to)),
            })
            .sum()
    }
}

/// Sums the ink on level lines, keeping its working memory.
struct Sum<'a> {
    outline: &'a Outline,
    crossings: Vec<Crossing>,
    spans: Vec<Span>,
}

impl<'a> Sum<'a> {
    fn new(outline: &'a Outline) -> Self {
        Self {
            outline,
            crossings: Vec::new(),
            spans: Vec::new(),
        }
    }

    /// The ink between two heights where its length changes smoothly.
    fn between(&mut self, from: f64, to: f64) -> f64 {
        let (middle, half) = (0.5 * (from + to), 0.5 * (to - from));
        let mut area = 0.0;
        for (weight, node) in GAUSS_LEGENDRE_COEFFS_4 {
            let ray = Ray::level(middle + half * node);
            self.outline
                .spans(&ray, &mut self.crossings, &mut self.spans);
            area += weight * half * self.spans.iter().map(Span::length).sum::<f64>();
        }
        area
    }
}

/// A segment's share of the area between two heights: the integral of x over y
/// along what lies between. What closes the shape at either height is level and
/// has no share, so that the shape need not be made.
fn area_between(segment: &Segment, from: f64, to: f64) -> f64 {
    let bounds = segment.bounds();
    let seg = segment.path_seg();
    if bounds.y1 <= from || bounds.y0 >= to {
        return 0.0;
    }
    if bounds.y0 >= from && bounds.y1 <= to {
        return beside_the_axis(seg);
    }
    let mut cuts = Vec::new();
    cross(segment, 0, &Ray::level(from), &mut cuts);
    cross(segment, 0, &Ray::level(to), &mut cuts);
    let mut cuts: Vec<f64> = cuts.iter().map(|c| c.t).collect();
    cuts.sort_unstable_by(f64::total_cmp);
    let (mut area, mut start) = (0.0, 0.0);
    for end in cuts.into_iter().chain([1.0]) {
        if end - start <= LEAST_PIECE {
            continue;
        }
        let middle = seg.eval(0.5 * (start + end)).y;
        if from <= middle && middle <= to {
            area += beside_the_axis(seg.subsegment(start..end));
        }
        start = end;
    }
    area
}

/// The integral of x over y along a segment.
fn beside_the_axis(seg: PathSeg) -> f64 {
    let (p, q) = (seg.start(), seg.end());
    seg.signed_area() + 0.5 * (q.x * q.y - p.x * p.y)
}

impl Outline {
    /// Area of the ink, square units; never negative. See [`Ink`] for that of bands.
    pub fn ink_area(&self) -> f64 {
        Ink::of(self).area()
    }

    /// The heights between which the length of the ink is smooth, but for kinks
    /// where contours cross: where segments start, end and turn, and between
    /// these as many as no strip is to be tall.
    fn levels(&self) -> Vec<f64> {
        let mut turns: Vec<f64> = Vec::new();
        for s in self.segments() {
            let seg = s.path_seg();
            turns.extend([seg.start().y, seg.end().y]);
            turns.extend(seg.extrema().into_iter().map(|t| s.at(t).y));
        }
        turns.sort_unstable_by(f64::total_cmp);
        turns.dedup_by(|a, b| (*a - *b).abs() < 1e-6);
        let tallest = TALLEST_STRIP * self.bounds().map_or(0.0, |b| b.height());
        let mut levels: Vec<f64> = turns
            .windows(2)
            .flat_map(|w| {
                let parts = ((w[1] - w[0]) / tallest)
                    .ceil()
                    .clamp(1.0, 1.0 / TALLEST_STRIP);
                let step = (w[1] - w[0]) / parts;
                (0..parts as u32).map(move |i| w[0] + f64::from(i) * step)
            })
            .collect();
        let last = turns.last().copied();
        let affordable = MOST_MEETINGS / (NODES * self.segments().len().max(1));
        let thin = levels.len().div_ceil(affordable.max(8)).max(1);
        levels = levels.into_iter().step_by(thin).collect();
        levels.extend(last);
        levels
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Rect, Shape};

    #[test]
    fn a_plus_of_two_bars_counts_its_middle_once() {
        let mut p = Rect::new(0.0, 40.0, 100.0, 60.0).to_path(0.1);
        p.extend(Rect::new(40.0, 0.0, 60.0, 100.0).to_path(0.1));
        let o = Outline::from_path(&p);
        assert_eq!(o.signed_area(), 4000.0);
        assert!((o.ink_area() - 3600.0).abs() < 1e-6);
    }

    #[test]
    fn two_circles_that_overlap() {
        let mut p = Circle::new((0.0, 0.0), 100.0).to_path(1e-9);
        p.extend(Circle::new((100.0, 0.0), 100.0).to_path(1e-9));
        // Two discs less their lens, r^2 (2 pi / 3 - sqrt 3 / 2) at distance r.
        let lens = 1e4 * (std::f64::consts::TAU / 3.0 - 3.0_f64.sqrt() / 2.0);
        let truth = 2e4 * std::f64::consts::PI - lens;
        let got = Outline::from_path(&p).ink_area();
        assert!((got / truth - 1.0).abs() < 1e-3, "{got} against {truth}");
    }

    #[test]
    fn direction_does_not_matter() {
        let p = Rect::new(0.0, 0.0, 30.0, 10.0).to_path(0.1);
        let o = Outline::from_path(&p.reverse_subpaths());
        assert_eq!(o.ink_area(), 300.0);
    }
}
