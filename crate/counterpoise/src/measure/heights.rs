//! Tops and feet: how high a letter reaches, and whether it ends flat, round or
//! pointed. Heights are font units.
//!
//! # Method and limits
//! The breadth of the ink is read at three depths under the top. On a flat top
//! it is all there at once, on a round one it grows with the root of the depth,
//! on a pointed one in proportion to it. Round and pointed are told by the
//! outline's own corner at the peak, except where a point is rounded off a
//! little: there growth decides. A point cut flat counts as flat once the cut
//! is what meets the eye. That A and V are cut flat in most open faces, and so
//! do not overshoot, is why form is read from the shape and never from the
//! letter's name.

use crate::outline::{Crossing, Outline, Ray, Span};

/// The depths at which breadth is read, as shares of the em: the first under
/// any flat's own waver, the last within the thinnest serif.
const DEPTHS: [f64; 3] = [0.003, 0.01, 0.03];

/// A flat top has at least this share of its breadth by the middle depth. A
/// round one has 0.58 (the root of a third).
const FLAT: f64 = 0.85;

/// Where the top is a level line, a flat one has at least this share of its
/// breadth at once: a D goes on into its bowl, so that its ink grows further
/// down, but a point cut off by a hair has a third or less.
const LEVEL: f64 = 0.5;

/// Growth from middle to last depth beside growth before it: 1 for a point,
/// 0.57 for a round.
const POINTED: f64 = 0.75;

/// Breadth is read no deeper than this share of the ink's own thickness there.
const WITHIN_INK: f64 = 0.75;

/// A contour that turns more than this at the peak has a corner there
/// (cosine of 20 degrees).
const CORNER: f64 = 0.939_692_6;

/// Shape of a letter's top or foot.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Form {
    /// Ends in an edge along the line.
    Flat,
    /// Ends in a curve that touches the line.
    Round,
    /// Ends in a corner.
    Pointed,
}

/// A letter's top or foot.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extremity {
    /// Flat, round or pointed.
    pub form: Form,
    /// Its height: exact.
    pub y: f64,
    /// Where along the letter, at its middle.
    pub x: f64,
    /// Breadth of the flat edge, 0.3% of the em under the top; 0 unless flat.
    pub breadth: f64,
}

/// Which end of the letter.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum End {
    /// The highest ink.
    Top,
    /// The lowest ink.
    Foot,
}

/// The letter's top or foot; `None` of a glyph without ink.
pub fn extremity(outline: &Outline, end: End, units_per_em: f64) -> Option<Extremity> {
    let bounds = outline.bounds()?;
    let (y, inward) = match end {
        End::Top => (bounds.y1, -1.0),
        End::Foot => (bounds.y0, 1.0),
    };
    let peak = peak(outline, y, units_per_em)?;
    let mut probe = Probe::new(outline);
    let scale = match probe.thickness(peak.x, y, inward) {
        // Below a thin top there is a counter; stay in the ink.
        Some(ink) => units_per_em.min(WITHIN_INK * ink / DEPTHS[2]),
        None => units_per_em.min(WITHIN_INK * bounds.height() / DEPTHS[2]),
    };
    let mut at = |share: f64, within: Option<(f64, f64)>| {
        probe.breadth(y + inward * share * scale, peak.x, within)
    };
    let (deep, reach) = at(DEPTHS[2], None);
    // The arm of a K has moved aside by as much as it has come down.
    let aside = DEPTHS[2] * scale;
    let reach = reach.map(|(a, b)| (a - aside, b + aside));
    let (middle, _) = at(DEPTHS[1], reach);
    let (shallow, shallow_reach) = at(DEPTHS[0], reach);

    let late = (deep - middle) / (DEPTHS[2] - DEPTHS[1]);
    let early = (middle - shallow) / (DEPTHS[1] - DEPTHS[0]);
    let form = if middle >= FLAT * deep || (peak.level && shallow >= LEVEL * deep) {
        Form::Flat
    } else if peak.corner || late >= POINTED * early {
        Form::Pointed
    } else {
        Form::Round
    };
    let x = match (form, shallow_reach) {
        (Form::Flat, Some((a, b))) => 0.5 * (a + b),
        _ => peak.x,
    };
    Some(Extremity {
        form,
        y,
        x,
        breadth: if form == Form::Flat { shallow } else { 0.0 },
    })
}

/// The point of the outline at the very top or foot.
struct Peak {
    x: f64,
    corner: bool,
    /// It is the middle of a level line.
    level: bool,
}

fn peak(outline: &Outline, y: f64, units_per_em: f64) -> Option<Peak> {
    use kurbo::ParamCurveExtrema;
    let slack = 1e-7 * units_per_em;
    // A line this little off level is drawn as level.
    let wavers = 0.001 * units_per_em;
    let mut found: Option<Peak> = None;
    for contour in outline.contours() {
        let segments = &outline.segments()[contour.clone()];
        for (i, s) in segments.iter().enumerate() {
            if s.bounds().y0 - slack > y || s.bounds().y1 + slack < y {
                continue;
            }
            let (p, q) = (s.at(0.0), s.at(1.0));
            if s.is_line() && (p.y - y).abs() <= wavers && (q.y - y).abs() <= wavers {
                return Some(Peak {
                    x: 0.5 * (p.x + q.x),
                    corner: true,
                    level: true,
                });
            }
            // Inside a curve the peak is smooth.
            for t in s.path_seg().extrema() {
                let p = s.at(t);
                if (p.y - y).abs() <= slack {
                    found.get_or_insert(Peak {
                        x: p.x,
                        corner: false,
                        level: false,
                    });
                }
            }
            if (p.y - y).abs() <= slack {
                let before = &segments[(i + segments.len() - 1) % segments.len()];
                let corner = before.tangent(1.0).dot(s.tangent(0.0)) < CORNER;
                found.get_or_insert(Peak {
                    x: p.x,
                    corner,
                    level: false,
                });
            }
        }
    }
    found
}

/// Reads the breadth of ink on level lines.
struct Probe<'a> {
    outline: &'a Outline,
    crossings: Vec<Crossing>,
    spans: Vec<Span>,
}

impl<'a> Probe<'a> {
    fn new(outline: &'a Outline) -> Self {
        Self {
            outline,
            crossings: Vec::new(),
            spans: Vec::new(),
        }
    }

    /// Thickness of the ink straight below or above a peak; `None` where the
    /// peak is the corner of an upright edge, with no ink on that very line.
    fn thickness(&mut self, x: f64, y: f64, inward: f64) -> Option<f64> {
        let at_edge = 1e-3;
        self.outline
            .spans(&Ray::upright(x), &mut self.crossings, &mut self.spans);
        self.spans
            .iter()
            .find(|s| (if inward < 0.0 { s.to.s } else { s.from.s } - y).abs() < at_edge)
            .map(Span::length)
            .filter(|&length| length > at_edge)
    }

    /// Breadth of the ink at `y` under the peak, and from where to where: the
    /// stretch that holds `x` or, with `within`, all stretches inside it (a cup
    /// between two serif tips parts them).
    fn breadth(&mut self, y: f64, x: f64, within: Option<(f64, f64)>) -> (f64, Option<(f64, f64)>) {
        self.outline
            .spans(&Ray::level(y), &mut self.crossings, &mut self.spans);
        let spans = self.spans.iter().map(|s| (s.from.s, s.to.s));
        let (mut sum, mut reach) = (0.0, None);
        if let Some((from, to)) = within {
            for (a, b) in spans.filter(|&(a, b)| b > from && a < to) {
                let (a, b) = (a.max(from), b.min(to));
                sum += b - a;
                reach = Some((reach.map_or(a, |(first, _)| first), b));
            }
        } else {
            // The peak of a slanted tip lies a little outside the ink below it.
            let off = |&(a, b): &(f64, f64)| (a - x).max(x - b).max(0.0);
            if let Some((a, b)) = spans.min_by(|p, q| off(p).total_cmp(&off(q))) {
                (sum, reach) = (b - a, Some((a, b)));
            }
        }
        (sum, reach)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{BezPath, Circle, Ellipse, Rect, Shape};

    fn form(path: &BezPath, end: End) -> Form {
        extremity(&Outline::from_path(path), end, 1000.0)
            .unwrap()
            .form
    }

    fn polygon(points: &[(f64, f64)]) -> BezPath {
        let mut p = BezPath::new();
        p.move_to(points[0]);
        points[1..].iter().for_each(|&q| p.line_to(q));
        p.close_path();
        p
    }

    #[test]
    fn a_stem_is_flat_and_gives_its_breadth() {
        let o = Outline::from_path(&Rect::new(20.0, 0.0, 110.0, 700.0).to_path(0.1));
        let top = extremity(&o, End::Top, 1000.0).unwrap();
        assert_eq!(
            (top.form, top.y, top.x, top.breadth),
            (Form::Flat, 700.0, 65.0, 90.0)
        );
    }

    #[test]
    fn rounds_of_every_size_are_round() {
        for r in [60.0, 120.0, 350.0] {
            assert_eq!(
                form(&Circle::new((0.0, 0.0), r).to_path(1e-6), End::Top),
                Form::Round
            );
        }
        let narrow = Ellipse::new((0.0, 350.0), (110.0, 360.0), 0.0).to_path(1e-6);
        assert_eq!(form(&narrow, End::Foot), Form::Round);
    }

    #[test]
    fn an_apex_is_pointed_until_its_cut_is_broad() {
        let apex = |cut: f64| {
            polygon(&[
                (0.0, 0.0),
                (600.0, 0.0),
                (300.0 + cut / 2.0, 700.0),
                (300.0 - cut / 2.0, 700.0),
            ])
        };
        assert_eq!(
            form(
                &polygon(&[(0.0, 0.0), (600.0, 0.0), (300.0, 700.0)]),
                End::Top
            ),
            Form::Pointed
        );
        assert_eq!(form(&apex(10.0), End::Top), Form::Pointed);
        assert_eq!(form(&apex(110.0), End::Top), Form::Flat);
        assert_eq!(form(&apex(110.0), End::Foot), Form::Flat);
    }

    #[test]
    fn a_cupped_serif_is_flat() {
        let mut p = BezPath::new();
        p.move_to((0.0, 0.0));
        p.line_to((130.0, 0.0));
        p.line_to((130.0, 653.0));
        p.quad_to((65.0, 642.0), (0.0, 653.0));
        p.close_path();
        assert_eq!(form(&p, End::Top), Form::Flat);
    }

    #[test]
    fn a_slanted_cut_is_pointed() {
        let cut = polygon(&[(0.0, 0.0), (90.0, 0.0), (90.0, 700.0), (0.0, 670.0)]);
        assert_eq!(form(&cut, End::Top), Form::Pointed);
    }

    #[test]
    fn nothing_has_no_top() {
        assert_eq!(extremity(&Outline::default(), End::Top, 1000.0), None);
    }
}
