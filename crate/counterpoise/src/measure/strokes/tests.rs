//! Strokes of shapes whose thickness and direction are known.

use super::*;
use kurbo::{Affine, BezPath, Circle, Rect, Shape};

const CONTEXT: StrokeContext = StrokeContext {
    units_per_em: 1000.0,
    slant: 0.0,
};

fn of(path: &BezPath) -> Vec<Stroke> {
    strokes(&Outline::from_path(path), &CONTEXT)
}

fn kinds(strokes: &[Stroke]) -> Vec<StrokeKind> {
    strokes.iter().map(|s| s.kind).collect()
}

/// An H of stems 90 and bar 70 drawn as one contour.
fn h() -> BezPath {
    let points = [
        (0, 0),
        (90, 0),
        (90, 320),
        (410, 320),
        (410, 0),
        (500, 0),
        (500, 700),
        (410, 700),
        (410, 390),
        (90, 390),
        (90, 700),
        (0, 700),
    ];
    let mut p = BezPath::new();
    for (i, &(x, y)) in points.iter().enumerate() {
        let at = (f64::from(x), f64::from(y));
        if i == 0 { p.move_to(at) } else { p.line_to(at) }
    }
    p.close_path();
    p
}

#[test]
fn an_h_is_two_stems_and_a_bar() {
    let s = of(&h());
    assert_eq!(
        kinds(&s),
        [StrokeKind::Stem, StrokeKind::Stem, StrokeKind::Bar]
    );
    assert!((s[0].median - 90.0).abs() < 1e-6 && (s[1].median - 90.0).abs() < 1e-6);
    assert!((s[2].median - 70.0).abs() < 1e-6);
    assert!((s[0].length - 700.0).abs() < 1e-6 && (s[2].length - 320.0).abs() < 1e-6);
}

#[test]
fn an_h_of_overlapping_bars_is_the_same() {
    let mut p = Rect::new(0.0, 0.0, 90.0, 700.0).to_path(0.1);
    p.extend(Rect::new(410.0, 0.0, 500.0, 700.0).to_path(0.1));
    p.extend(Rect::new(40.0, 320.0, 460.0, 390.0).to_path(0.1));
    let s = of(&p);
    assert_eq!(
        kinds(&s),
        [StrokeKind::Stem, StrokeKind::Stem, StrokeKind::Bar]
    );
    assert!((s[2].median - 70.0).abs() < 1e-6);
}

#[test]
fn a_ring_is_one_curve_of_one_thickness() {
    let mut p = Circle::new((300.0, 350.0), 300.0).to_path(1e-6);
    p.extend(
        Circle::new((300.0, 350.0), 210.0)
            .to_path(1e-6)
            .reverse_subpaths(),
    );
    let s = of(&p);
    assert_eq!(kinds(&s), [StrokeKind::Curve]);
    for t in [s[0].median, s[0].least.value, s[0].greatest.value] {
        assert!((t - 90.0).abs() < 0.1, "{t}");
    }
    assert_eq!(s[0].marks.len(), 4);
}

#[test]
fn slanted_bars_at_twenty_angles() {
    for i in 0..20 {
        let angle = f64::from(i) * 9.0 + 0.5;
        let bar = Rect::new(-300.0, -45.0, 300.0, 45.0).to_path(0.1);
        let s = of(&(Affine::rotate(angle.to_radians()) * bar));
        assert_eq!(s.len(), 1, "at {angle}");
        assert!((s[0].median - 90.0).abs() < 0.1);
        let off = (s[0].angle.unwrap() - angle).abs();
        assert!(off.min(180.0 - off) < 0.5, "{:?} at {angle}", s[0].angle);
    }
}

#[test]
fn a_wedge_is_read_square_to_its_middle() {
    let mut p = BezPath::new();
    p.move_to((0.0, 0.0));
    p.line_to((120.0, 0.0));
    p.line_to((90.0, 600.0));
    p.line_to((30.0, 600.0));
    p.close_path();
    let s = of(&p);
    assert_eq!(s[0].kind, StrokeKind::Stem);
    assert!((s[0].median - 90.0).abs() < 3.0, "{}", s[0].median);
    let at = s[0].marks[0];
    assert!((at.value - (120.0 - 0.1 * at.centre().y)).abs() < 0.1);
}

#[test]
fn no_stroke_in_nothing_and_none_in_a_blob() {
    assert!(of(&BezPath::new()).is_empty());
    let blob = Circle::new((0.0, 0.0), 100.0).to_path(1e-3);
    assert!(of(&blob).is_empty());
}
