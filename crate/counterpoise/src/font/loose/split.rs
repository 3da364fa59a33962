//! Which of a drawing's ink is which letter.
//!
//! # Method and limits
//! Contours that lie in each other, or whose edges cross, are one piece of ink.
//! Pieces that stand above one another (their widths overlap by [`OVER`] of the
//! narrower) are one letter: the dot of an i, the bars of an equals sign.
//! Letters come from left to right. What cannot be told apart so: pieces side by
//! side that are one sign (quotation marks, a percent sign), and letters whose
//! strokes touch.

use crate::outline::Outline;
use kurbo::{BezPath, ParamCurve, PathEl, Rect, Shape};

/// Pieces whose widths overlap by this share of the narrower stand above one
/// another. The dot of a slanted i reaches half over its stem; an A and a V set
/// tight overlap by a third at most.
pub const OVER: f64 = 0.4;

/// Ink narrower and lower than this share of the tallest piece is a speck.
const SPECK: f64 = 0.01;

/// The most contours that are held against each other: some hundred letters.
const MOST_CONTOURS: usize = 4_000;

/// The letters of a row, from left to right.
pub fn split(shapes: &[Outline]) -> Vec<Outline> {
    let contours: Vec<Contour> = shapes.iter().flat_map(contours).collect();
    let tallest = contours
        .iter()
        .map(|c| c.bounds.height())
        .fold(0.0, f64::max);
    let speck = |b: Rect| b.width().max(b.height()) < SPECK * tallest;
    let contours: Vec<Contour> = contours
        .into_iter()
        .filter(|c| !speck(c.bounds))
        .take(MOST_CONTOURS)
        .collect();
    let mut pieces = joined(&contours, touch);
    // Until nothing joins any more: a dot may first meet a dot.
    loop {
        let before = pieces.len();
        pieces = joined_pieces(pieces);
        if pieces.len() == before {
            break;
        }
    }
    pieces.sort_by(|a, b| (a.bounds.x0 + a.bounds.x1).total_cmp(&(b.bounds.x0 + b.bounds.x1)));
    pieces.iter().map(|p| Outline::from_path(&p.path)).collect()
}

#[derive(Debug, Clone)]
struct Contour {
    path: BezPath,
    bounds: Rect,
}

fn contours(outline: &Outline) -> Vec<Contour> {
    let path = outline.to_bez_path();
    let mut all: Vec<BezPath> = Vec::new();
    for el in path.elements() {
        if matches!(el, PathEl::MoveTo(_)) {
            all.push(BezPath::new());
        }
        if let Some(last) = all.last_mut() {
            last.push(*el);
        }
    }
    all.into_iter()
        .map(|path| Contour {
            bounds: path.bounding_box(),
            path,
        })
        .collect()
}

/// Whether two contours are one piece of ink: a point of either lies in the other.
fn touch(a: &Contour, b: &Contour) -> bool {
    let (p, q) = (a.bounds, b.bounds);
    if p.x1 < q.x0 || q.x1 < p.x0 || p.y1 < q.y0 || q.y1 < p.y0 {
        return false;
    }
    let within = |path: &BezPath, other: &BezPath| {
        let places = path.segments().flat_map(|s| [s.eval(0.0), s.eval(0.5)]);
        places.into_iter().any(|p| other.winding(p) != 0)
    };
    within(&a.path, &b.path) || within(&b.path, &a.path)
}

fn over(a: Rect, b: Rect) -> bool {
    let common = a.x1.min(b.x1) - a.x0.max(b.x0);
    common >= OVER * a.width().min(b.width())
}

/// Joins whatever is to be joined, by chains of neighbours.
fn joined(all: &[Contour], together: impl Fn(&Contour, &Contour) -> bool) -> Vec<Contour> {
    let mut group: Vec<usize> = (0..all.len()).collect();
    for i in 0..all.len() {
        for j in 0..i {
            if group[i] != group[j] && together(&all[i], &all[j]) {
                let (from, to) = (group[i], group[j]);
                for g in &mut group {
                    if *g == from {
                        *g = to;
                    }
                }
            }
        }
    }
    let mut pieces: Vec<(usize, Contour)> = Vec::new();
    for (contour, &g) in all.iter().zip(&group) {
        match pieces.iter_mut().find(|(of, _)| *of == g) {
            Some((_, piece)) => {
                piece.path.extend(contour.path.clone());
                piece.bounds = piece.bounds.union(contour.bounds);
            }
            None => pieces.push((g, contour.clone())),
        }
    }
    pieces.into_iter().map(|(_, piece)| piece).collect()
}

fn joined_pieces(pieces: Vec<Contour>) -> Vec<Contour> {
    joined(&pieces, |a, b| over(a.bounds, b.bounds))
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Shape};

    fn rect(x0: f64, y0: f64, x1: f64, y1: f64) -> Outline {
        Outline::from_path(&Rect::new(x0, y0, x1, y1).to_path(0.1))
    }

    #[test]
    fn a_row_is_split_with_its_dots_and_counters() {
        let mut o = Circle::new((300.0, 250.0), 150.0).to_path(0.1);
        o.extend(
            Circle::new((300.0, 250.0), 90.0)
                .to_path(0.1)
                .reverse_subpaths(),
        );
        let row = [
            // An i whose dot was drawn last, an o, and two letters whose arms pass.
            rect(0.0, 0.0, 90.0, 500.0),
            Outline::from_path(&o),
            rect(500.0, 0.0, 600.0, 700.0),
            rect(570.0, 600.0, 800.0, 700.0),
            rect(10.0, 600.0, 80.0, 680.0),
            rect(700.0, 0.0, 790.0, 500.0),
        ];
        let letters = split(&row);
        let boxes: Vec<_> = letters
            .iter()
            .map(|l| l.bounds().unwrap())
            .map(|b| (b.x0.round(), b.y1.round(), b.x1.round()))
            .collect();
        assert_eq!(
            boxes,
            [
                (0.0, 680.0, 90.0),
                (150.0, 400.0, 450.0),
                (500.0, 700.0, 800.0)
            ]
        );
        assert_eq!(letters[1].contours().len(), 2);
    }

    #[test]
    fn specks_are_no_letters() {
        let row = [rect(0.0, 0.0, 90.0, 500.0), rect(200.0, 3.0, 202.0, 5.0)];
        assert_eq!(split(&row).len(), 1);
        assert!(split(&[]).is_empty());
    }
}
