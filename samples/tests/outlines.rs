//! The outlines are whole: all there, closed, wound, clean.
#![allow(clippy::unwrap_used, reason = "a test ends where it cannot go on")]

mod common;

use common::{PROMISED, contours, edges, files, flat, outline};
use counterpoise_samples::{Face, clean, planted};
use kurbo::{Line, ParamCurve, PathEl, PathSeg, Point, Shape, Vec2};

fn both() -> [Face; 2] {
    [clean(), planted().unwrap().0]
}

#[test]
fn every_promised_character_has_a_letter_with_ink() {
    for face in both() {
        for code in PROMISED.chars() {
            let letter = face.letters.iter().find(|l| l.code == Some(code));
            let letter = letter.unwrap_or_else(|| panic!("no letter for {code:?}"));
            assert_eq!(letter.path.is_empty(), code == ' ', "{code:?}");
            assert!(letter.advance > 0.0, "{code:?}");
        }
        assert_eq!(face.letters[0].name, ".notdef");
        assert_eq!(face.letters.len(), PROMISED.chars().count() + 1);
    }
}

#[test]
fn every_contour_is_closed_as_drawn() {
    for letter in both().iter().flat_map(|f| &f.letters) {
        for contour in contours(&letter.path) {
            let last = contour.elements().last();
            assert_eq!(last, Some(&PathEl::ClosePath), "{}", letter.name);
        }
    }
}

/// How often a point is wound about by a path's other contours.
fn depth(contour: usize, all: &[kurbo::BezPath]) -> usize {
    let inside = all[contour].elements()[0].end_point().unwrap();
    let others = all.iter().enumerate().filter(|(i, _)| *i != contour);
    others.filter(|(_, c)| c.winding(inside) != 0).count()
}

#[test]
fn ink_runs_clockwise_and_counters_the_other_way() {
    for (face, file) in both().iter().zip(files()) {
        for (id, letter) in face.letters.iter().enumerate() {
            let all = contours(&outline(&file, id as u16));
            for (i, contour) in all.iter().enumerate() {
                let outer = depth(i, &all).is_multiple_of(2);
                assert_eq!(contour.area() < 0.0, outer, "{} {i}", letter.name);
            }
        }
    }
}

fn cross(a: Line, b: Line) -> bool {
    let side = |l: Line, p: Point| (l.p1 - l.p0).cross(p - l.p0);
    side(a, b.p0) * side(a, b.p1) < 0.0 && side(b, a.p0) * side(b, a.p1) < 0.0
}

#[test]
fn no_contour_crosses_itself_or_another() {
    for (face, file) in both().iter().zip(files()) {
        for (id, letter) in face.letters.iter().enumerate() {
            let path = outline(&file, id as u16);
            let pieces: Vec<Line> = contours(&path).iter().flat_map(flat).collect();
            for (i, a) in pieces.iter().enumerate() {
                for b in &pieces[i + 1..] {
                    assert!(!cross(*a, *b), "{} at {:?}", letter.name, a.p0);
                }
            }
        }
    }
}

fn leaving(edge: &PathSeg) -> Vec2 {
    match edge {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => q.p1 - q.p0,
        PathSeg::Cubic(c) => c.p1 - c.p0,
    }
}

fn arriving(edge: &PathSeg) -> Vec2 {
    match edge {
        PathSeg::Line(l) => l.p1 - l.p0,
        PathSeg::Quad(q) => q.p2 - q.p1,
        PathSeg::Cubic(c) => c.p3 - c.p2,
    }
}

#[test]
fn a_joint_is_smooth_or_a_corner_never_between() {
    let file = &files()[0];
    for (id, letter) in clean().letters.iter().enumerate() {
        for contour in contours(&outline(file, id as u16)) {
            let edges = edges(&contour);
            for (i, edge) in edges.iter().enumerate() {
                let next = &edges[(i + 1) % edges.len()];
                let (a, b) = (arriving(edge), leaving(next));
                let turn = a.cross(b).atan2(a.dot(b)).to_degrees().abs();
                let corner = edge.end();
                assert!(
                    !(0.5..8.0).contains(&turn),
                    "{} turns {turn:.2} degrees at {corner:?}",
                    letter.name
                );
            }
        }
    }
}

/// Drawn curves bulge past their ends by less than this, in font units.
const BULGE: f64 = 0.6;

#[test]
fn curves_carry_points_at_their_extremes() {
    for letter in &clean().letters {
        for edge in letter.path.segments() {
            let bounds = edge.bounding_box();
            let ends = kurbo::Rect::from_points(edge.start(), edge.end());
            let beyond = [
                ends.x0 - bounds.x0,
                ends.y0 - bounds.y0,
                bounds.x1 - ends.x1,
                bounds.y1 - ends.y1,
            ];
            let most = beyond.into_iter().fold(0.0, f64::max);
            let (name, at) = (letter.name, edge.start());
            assert!(most < BULGE, "{name} bulges {most:.2} after {at:?}");
        }
    }
}
