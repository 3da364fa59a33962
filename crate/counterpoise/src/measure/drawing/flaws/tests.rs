//! Each flaw planted and found where it lies; absent, and not found.

use super::*;
use crate::font::OutlineFormat;
use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape};

fn found(path: &BezPath, format: Option<OutlineFormat>) -> Vec<Flaw> {
    let context = DrawingContext {
        units_per_em: 1000.0,
        format,
    };
    let found = flaws(&Outline::from_path(path), &context);
    assert!(found.not_looked_for.is_empty() && found.left_out == 0);
    found.flaws
}

fn of(path: &BezPath) -> Vec<Flaw> {
    found(path, Some(OutlineFormat::Cff))
}

fn svg(path: &str) -> BezPath {
    BezPath::from_svg(path).unwrap()
}

/// The only flaw of a path.
fn only(path: &BezPath) -> Flaw {
    let all = of(path);
    assert_eq!(all.len(), 1, "{all:?}");
    all[0]
}

#[track_caller]
fn check(flaw: Flaw, kind: FlawKind, at: (f64, f64), size: f64) {
    assert_eq!(flaw.kind, kind);
    assert!(flaw.at.distance(Point::from(at)) < 0.6, "{flaw:?}");
    assert!((flaw.size - size).abs() < 0.02 * size + 0.02, "{flaw:?}");
}

fn ring() -> BezPath {
    let mut p = Circle::new((300.0, 300.0), 250.0).to_path(0.1);
    p.extend(
        Circle::new((300.0, 300.0), 150.0)
            .to_path(0.1)
            .reverse_subpaths(),
    );
    p
}

fn block(x0: f64, y0: f64, x1: f64, y1: f64) -> BezPath {
    Rect::new(x0, y0, x1, y1).to_path(0.1)
}

fn both(mut a: BezPath, b: BezPath) -> BezPath {
    a.extend(b);
    a
}

#[test]
fn a_sound_letter_has_none() {
    assert_eq!(of(&ring()), []);
    let n = svg(
        "M60 0 L140 0 L140 340 C180 390 220 420 270 420 C340 420 370 380 370 290 L370 0 \
         L450 0 L450 300 C450 420 400 490 300 490 C230 490 180 460 135 410 L130 480 L60 480 Z",
    );
    assert_eq!(of(&n), []);
    assert_eq!(of(&BezPath::new()), []);
}

#[test]
fn an_extreme_between_points() {
    // An arch of one curve from foot to foot: its top is three quarters up.
    let arch = svg("M0 0 L400 0 C400 200 0 200 0 0 Z");
    check(
        only(&arch),
        FlawKind::NoPointAtExtreme,
        (200.0, 150.0),
        150.0,
    );
    // A bulge of less than a unit asks for no point.
    assert_eq!(
        of(&svg("M0 0 L400 0 L400 100 C300 101 100 101 0 100 Z")),
        []
    );
    // Points at the extremes of a quadratic curve serve as well.
    assert_eq!(of(&svg("M0 0 L200 0 Q200 100 100 100 Q0 100 0 0 Z")), []);
}

#[test]
fn a_kink_is_told_unless_rounding_explains_it() {
    let joint = |off: f64| {
        let mut p = svg("M0 0 L200 0");
        p.line_to((200.0, 200.0));
        p.curve_to((200.0 + off, 260.0), (140.0, 300.0), (100.0, 300.0));
        p.line_to((0.0, 300.0));
        p.close_path();
        p
    };
    // 60 units on, the handle lies 4 off the stem's line: 3.8 degrees.
    check(only(&joint(-4.0)), FlawKind::Kink, (200.0, 200.0), 4.0);
    for (off, why) in [(0.0, "smooth"), (-1.0, "rounding"), (-15.0, "a corner")] {
        assert_eq!(of(&joint(off)), [], "{why}");
    }
}

#[test]
fn short_segments() {
    let notched = |step: f64| {
        let mut p = svg("M0 0 L200 0 L200 100");
        p.line_to((200.0 - step, 100.0));
        p.line_to((150.0, 300.0));
        p.line_to((0.0, 300.0));
        p.close_path();
        p
    };
    check(only(&notched(1.5)), FlawKind::Stub, (199.25, 100.0), 1.5);
    check(
        only(&notched(0.8)),
        FlawKind::DoublePoint,
        (199.6, 100.0),
        0.8,
    );
    assert_eq!(of(&notched(2.5)), []);
    // The contour's last line, back to its start.
    let loose = svg("M0 0 L200 0 L200 300 L100 400 L0 300 L1.2 1 Z");
    let all = of(&loose);
    assert!(
        all.iter()
            .any(|f| f.kind == FlawKind::LooseEnd && (f.size - 1.562).abs() < 0.01),
        "{all:?}"
    );
}

#[test]
fn a_point_that_does_nothing() {
    let bent = |off: f64| {
        let mut p = svg("M0 0");
        p.line_to((100.0, -off));
        p.line_to((230.0, 0.0));
        p.line_to((230.0, 300.0));
        p.line_to((0.0, 300.0));
        p.close_path();
        p
    };
    check(only(&bent(0.0)), FlawKind::IdlePoint, (100.0, 0.0), 0.0);
    check(only(&bent(0.4)), FlawKind::IdlePoint, (100.0, 0.0), 0.4);
    assert_eq!(of(&bent(9.0)), []);
}

#[test]
fn a_handle_past_the_other() {
    let corner = |handle: f64| {
        let mut p = svg("M0 0 L200 0");
        p.curve_to((200.0, handle), (160.0, 200.0), (0.0, 200.0));
        p.close_path();
        p
    };
    let told = |handle: f64| -> Vec<Flaw> {
        let all = of(&corner(handle));
        all.into_iter()
            .filter(|f| f.kind == FlawKind::LongHandle)
            .collect()
    };
    assert_eq!(told(110.0), []);
    assert_eq!(told(200.0), []);
    check(told(240.0)[0], FlawKind::LongHandle, (200.0, 240.0), 40.0);
}

#[test]
fn a_curve_that_bends_back_a_little() {
    let side = |c: (f64, f64), d: (f64, f64)| {
        let mut p = svg("M0 0 L300 0");
        p.curve_to(c, d, (300.0, 400.0));
        p.line_to((0.0, 400.0));
        p.close_path();
        p
    };
    let wobbles = |p: BezPath| -> Vec<Flaw> {
        of(&p)
            .into_iter()
            .filter(|f| f.kind == FlawKind::Wobble)
            .collect()
    };
    // Bends out for most of the way, and in at the end.
    let told = wobbles(side((340.0, 130.0), (292.0, 330.0)));
    assert_eq!(told.len(), 1);
    assert!(told[0].size > 1.0 && told[0].at.y > 250.0, "{told:?}");
    // A bow, and a spine that bends both ways alike.
    assert_eq!(wobbles(side((340.0, 130.0), (340.0, 270.0))), []);
    assert_eq!(wobbles(side((340.0, 130.0), (260.0, 270.0))), []);
}

#[test]
fn flats_that_are_not() {
    let top = |rise: f64| {
        let mut p = svg("M0 0 L300 0 L300 200");
        p.line_to((0.0, 200.0 + rise));
        p.close_path();
        p
    };
    check(only(&top(2.0)), FlawKind::NearlyLevel, (150.0, 201.0), 2.0);
    let aside = Affine::new([0.0, 1.0, 1.0, 0.0, 0.0, 0.0]) * top(-2.0);
    check(
        only(&aside.reverse_subpaths()),
        FlawKind::NearlyUpright,
        (199.0, 150.0),
        2.0,
    );
    for rise in [0.0, 0.5, 5.0] {
        assert_eq!(of(&top(rise)), [], "{rise}");
    }
    // Off by two in thirty is a slope that was meant.
    assert_eq!(
        of(&svg("M0 0 L300 0 L300 200 L150 300 L120 302 L0 200 Z")),
        []
    );
}

#[test]
fn contours_of_each_format_run_their_way() {
    let wrong = |p: &BezPath, format| -> Vec<usize> {
        found(p, format)
            .iter()
            .map(|f| {
                assert_eq!(f.kind, FlawKind::WrongWay);
                f.contour
            })
            .collect()
    };
    let (cff, truetype) = (Some(OutlineFormat::Cff), Some(OutlineFormat::TrueType));
    assert!(wrong(&ring(), cff).is_empty());
    assert!(wrong(&ring().reverse_subpaths(), truetype).is_empty());
    // Of a whole letter that runs the wrong way only the outside is told: its
    // counter is right beside it.
    assert_eq!(wrong(&ring(), truetype), [0]);
    assert_eq!(wrong(&ring().reverse_subpaths(), cff), [0]);
    assert!(wrong(&ring().reverse_subpaths(), None).is_empty());
    // A counter that would be filled in.
    let mut filled = Circle::new((300.0, 300.0), 250.0).to_path(0.1);
    filled.extend(Circle::new((300.0, 300.0), 150.0).to_path(0.1));
    assert_eq!(wrong(&filled, cff), [1]);
    assert_eq!(wrong(&filled, None), [1]);
    // A letter in a ring: ink in a counter runs as outer contours do.
    let inside = both(ring(), block(250.0, 200.0, 350.0, 400.0));
    assert!(wrong(&inside, cff).is_empty());
    let inside = both(ring(), block(250.0, 200.0, 350.0, 400.0).reverse_subpaths());
    assert_eq!(wrong(&inside, cff), [2]);
    // An accent that runs against its letter.
    let apart = both(
        block(0.0, 0.0, 90.0, 500.0),
        block(0.0, 600.0, 90.0, 700.0).reverse_subpaths(),
    );
    assert_eq!(wrong(&apart, cff), [1]);
    assert_eq!(wrong(&apart, None), [1]);
}

#[test]
fn an_open_path_encloses_nothing() {
    let there_and_back = svg("M0 0 L300 400 L0 0 Z");
    let all = of(&there_and_back);
    assert!(
        all.iter()
            .any(|f| f.kind == FlawKind::NothingInside && f.size == 400.0)
    );
    // A hairline has an inside.
    assert_eq!(of(&block(0.0, 0.0, 4.0, 700.0)), []);
}

#[test]
fn contours_that_overlap() {
    let plus = both(
        block(0.0, 300.0, 500.0, 380.0),
        block(200.0, 0.0, 290.0, 700.0),
    );
    let flaw = only(&plus);
    assert_eq!((flaw.kind, flaw.contour), (FlawKind::Overlap, 0));
    // The middle of the bar's edge lies 45 from the stem's sides.
    assert!((flaw.size - 45.0).abs() < 0.1, "{flaw:?}");
    let discs = both(
        Circle::new((0.0, 0.0), 200.0).to_path(0.1),
        Circle::new((390.0, 0.0), 200.0).to_path(0.1),
    );
    let flaw = only(&discs);
    assert_eq!(flaw.kind, FlawKind::Overlap);
    assert!((flaw.size - 10.0).abs() < 0.3, "{flaw:?}");
    // Their crossings lie on the middle line, as Pythagoras tells.
    let height = (200.0_f64 * 200.0 - 195.0 * 195.0).sqrt();
    assert!((flaw.at.x - 195.0).abs() < 0.1 && (flaw.at.y.abs() - height).abs() < 0.2);
    // An edge shared by both, and no crossing at all.
    let level = both(
        block(0.0, 0.0, 100.0, 100.0),
        block(60.0, 0.0, 200.0, 100.0),
    );
    let flaw = only(&level);
    assert_eq!((flaw.kind, flaw.size), (FlawKind::Overlap, 40.0));
    // A bar's end that lies within a stem's edge by half a stem, feet in line.
    let foot = both(block(0.0, 0.0, 90.0, 700.0), block(45.0, 0.0, 400.0, 80.0));
    let flaw = only(&foot);
    assert_eq!((flaw.kind, flaw.size), (FlawKind::Overlap, 45.0));
    assert_eq!(flaw.at, Point::new(90.0, 80.0));
    // Near, touching, side by side, and nested are not overlapping.
    for apart in [
        both(
            block(0.0, 0.0, 100.0, 100.0),
            block(101.0, 0.0, 200.0, 100.0),
        ),
        both(
            block(0.0, 0.0, 100.0, 100.0),
            block(100.0, 0.0, 200.0, 100.0),
        ),
        both(
            block(0.0, 0.0, 100.0, 100.0),
            block(100.0, 40.0, 200.0, 300.0),
        ),
        both(
            block(0.0, 0.0, 100.0, 100.0),
            block(100.0, 100.0, 200.0, 200.0),
        ),
        both(
            Circle::new((0.0, 0.0), 200.0).to_path(0.1),
            Circle::new((400.0, 0.0), 200.0).to_path(0.1),
        ),
        ring(),
    ] {
        assert_eq!(of(&apart), []);
    }
}

#[test]
fn a_contour_drawn_twice() {
    let twice = both(block(0.0, 0.0, 90.0, 700.0), block(0.0, 0.0, 90.0, 700.0));
    let flaw = only(&twice);
    assert_eq!((flaw.kind, flaw.size), (FlawKind::Overlap, 90.0));
}

#[test]
fn contours_that_cross_themselves() {
    let crossing = |p: &BezPath| -> Vec<Flaw> {
        of(p)
            .into_iter()
            .filter(|f| f.kind == FlawKind::SelfCrossing)
            .collect()
    };
    // A bow tie of lines.
    let told = crossing(&svg("M0 0 L400 300 L400 0 L0 300 Z"));
    assert_eq!(told.len(), 1);
    check(told[0], FlawKind::SelfCrossing, (200.0, 150.0), 300.0);
    // A curve that loops: it passes (150, 120) twice.
    let told = crossing(&svg("M0 0 C400 240 -100 240 300 0 L300 -100 L0 -100 Z"));
    assert_eq!(told.len(), 1);
    assert!((told[0].at.x - 150.0).abs() < 1e-6);
    // Two neighbours that cross beyond their joint.
    let told = crossing(&svg("M0 0 L300 0 C360 200 100 200 200 -100 L0 -100 Z"));
    assert_eq!(told.len(), 1);
    assert!((told[0].at.y).abs() < 1e-6, "{told:?}");
    // A joint that only touches a side, and a slit as of a counter cut free.
    assert_eq!(crossing(&svg("M0 0 L400 0 L400 300 L200 0 L0 300 Z")), []);
    assert_eq!(
        crossing(&svg(
            "M0 0 L400 0 L400 400 L0 400 L0 200 L100 200 L100 300 L300 300 L300 100 L100 100 \
             L100 200 L0 200 Z"
        )),
        []
    );
    assert_eq!(crossing(&ring()), []);
}

#[test]
fn every_kind_has_a_name_of_its_own_and_a_source() {
    let mut names: Vec<&str> = FlawKind::ALL.iter().map(|k| k.name()).collect();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), FlawKind::ALL.len());
    for kind in FlawKind::ALL {
        assert!(!kind.source().is_empty());
        // What may be called an error names the format that says so.
        assert_eq!(
            kind.basis() == Basis::Format,
            kind.source().contains("OpenType"),
            "{kind:?}"
        );
    }
}
