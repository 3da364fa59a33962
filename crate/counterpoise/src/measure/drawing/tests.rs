//! Shapes of which it is known how many points they need.

use super::*;
use kurbo::{
    Affine, BezPath, Circle, ParamCurve, ParamCurveNearest, PathEl, PathSeg, Point, Shape,
};

const CONTEXT: DrawingContext = DrawingContext {
    units_per_em: 1000.0,
    format: Some(OutlineFormat::Cff),
};

fn outline(path: &BezPath) -> Outline {
    Outline::from_path(path)
}

fn of(path: &BezPath) -> Drawing {
    drawing(&outline(path), &CONTEXT)
}

fn svg(path: &str) -> BezPath {
    BezPath::from_svg(path).unwrap()
}

/// A superellipse as an artist draws it: four curves, a point at each extreme.
fn oval(x: f64, y: f64, w: f64, h: f64) -> BezPath {
    let (k, l) = (0.6 * w, 0.58 * h);
    let mut p = BezPath::new();
    p.move_to((x + w, y));
    p.curve_to((x + w, y + l), (x + k, y + h), (x, y + h));
    p.curve_to((x - k, y + h), (x - w, y + l), (x - w, y));
    p.curve_to((x - w, y - l), (x - k, y - h), (x, y - h));
    p.curve_to((x + k, y - h), (x + w, y - l), (x + w, y));
    p.close_path();
    p
}

/// An o of two ovals.
fn o() -> BezPath {
    let mut p = oval(270.0, 240.0, 230.0, 250.0);
    p.extend(oval(270.0, 240.0, 150.0, 200.0).reverse_subpaths());
    p
}

/// An n: straight stems that run on into the arch.
fn n() -> BezPath {
    svg(
        "M60 0 L140 0 L140 340 C180 390 220 420 270 420 C340 420 370 380 370 290 L370 0 \
         L450 0 L450 300 C450 420 400 490 300 490 C230 490 180 460 135 410 L130 480 L60 480 Z",
    )
}

/// A spine: curves that bend both ways, with terminals cut aslant.
fn s() -> BezPath {
    svg(
        "M60 70 C110 20 170 -12 240 -12 C350 -12 420 50 420 140 C420 230 350 260 260 300 \
         C190 331 140 350 140 400 C140 450 180 480 240 480 C290 480 330 460 365 430 L400 475 \
         C360 510 310 540 240 540 C130 540 70 480 70 395 C70 310 140 275 220 240 \
         C290 209 350 190 350 130 C350 80 310 48 240 48 C180 48 140 75 100 115 Z",
    )
}

/// Each line and curve cut into `count` parts, in place.
fn cut(path: &BezPath, count: u32) -> BezPath {
    let mut out = BezPath::new();
    for el in path.elements().iter().zip(0..) {
        match *el.0 {
            PathEl::MoveTo(p) => out.move_to(p),
            PathEl::ClosePath => out.close_path(),
            _ => {
                let Some(seg) = path.get_seg(el.1) else {
                    continue;
                };
                for k in 0..count {
                    let range =
                        f64::from(k) / f64::from(count)..f64::from(k + 1) / f64::from(count);
                    match seg.subsegment(range) {
                        PathSeg::Line(l) => out.line_to(l.p1),
                        PathSeg::Quad(q) => out.quad_to(q.p1, q.p2),
                        PathSeg::Cubic(c) => out.curve_to(c.p1, c.p2, c.p3),
                    }
                }
            }
        }
    }
    out
}

fn rounded(path: &BezPath) -> BezPath {
    path.elements()
        .iter()
        .map(|el| match *el {
            PathEl::MoveTo(p) => PathEl::MoveTo(p.round()),
            PathEl::LineTo(p) => PathEl::LineTo(p.round()),
            PathEl::QuadTo(a, p) => PathEl::QuadTo(a.round(), p.round()),
            PathEl::CurveTo(a, b, p) => PathEl::CurveTo(a.round(), b.round(), p.round()),
            PathEl::ClosePath => PathEl::ClosePath,
        })
        .collect()
}

/// Points of a path that an outline is made of.
fn points(path: &BezPath) -> usize {
    Points::of(&outline(path)).total()
}

fn needs(d: &Drawing) -> [(Tolerance, Need); 2] {
    [
        (Tolerance::Half, d.within_half),
        (Tolerance::Two, d.within_two),
    ]
}

#[test]
fn points_count_as_they_are_drawn() {
    let d = of(&o());
    assert_eq!(
        d.points,
        Points {
            on_curve: 8,
            implied: 0,
            off_curve: 16,
            contours: 2,
            segments: 8
        }
    );
    assert_eq!((d.points.total(), d.curves), (24, Curves::Cubic));
    let quads = svg("M0 0 Q50 0 75 25 Q100 50 100 100 L0 100 Z");
    let d = of(&quads);
    assert_eq!((d.points.on_curve, d.points.off_curve), (4, 2));
    assert_eq!((d.points.implied, d.curves), (1, Curves::Quadratic));
    assert_eq!(of(&svg("M0 0 L9 0 L9 9 Z")).curves, Curves::None);
    assert_eq!(
        of(&svg("M0 0 Q50 0 75 25 C90 40 100 70 100 100 L0 100 Z")).curves,
        Curves::Both
    );
}

#[test]
fn a_letter_drawn_with_care_needs_all_its_points() {
    for (name, letter) in [("o", o()), ("n", n()), ("s", s())] {
        let d = of(&letter);
        assert_eq!(d.within_half.excess(&d.points), 0, "{name}");
        assert!(d.within_half.is_complete);
    }
    // Within two units the spine of the s passes for one curve a side.
    for (name, letter) in [("o", o()), ("n", n())] {
        let d = of(&letter);
        assert_eq!(d.within_two.excess(&d.points), 0, "{name}");
    }
}

#[test]
fn points_that_do_nothing_are_not_needed() {
    for count in [2, 3, 5, 8] {
        for (name, letter) in [("o", o()), ("n", n()), ("s", s())] {
            let d = of(&cut(&letter, count));
            let (true_need, need) = (points(&letter), d.within_half.cubic);
            assert_eq!(need, true_need, "{name} cut in {count}");
        }
    }
}

/// A trace's coordinates are rounded, by up to 0.7 units aslant. Two units pass
/// over that; within half a unit it asks for points of its own, so that less of
/// the excess is told.
#[test]
fn the_excess_of_a_trace_is_told_within_a_tenth() {
    for (name, letter) in [("o", o()), ("n", n()), ("s", s())] {
        let needed = points(&letter);
        let traces = [15.0, 25.0, 40.0]
            .map(|spacing| traced(&outline(&letter), &CONTEXT, spacing))
            .into_iter()
            .chain([3, 5].map(|count| rounded(&cut(&letter, count))));
        for trace in traces {
            let d = of(&trace);
            let excess = (d.points.total() - needed) as f64;
            let [half, two] = needs(&d).map(|(_, n)| n.excess(&d.points) as f64);
            assert!(
                (two / excess - 1.0).abs() < 0.1,
                "{name} of {} points: {two} told of {excess}",
                d.points.total()
            );
            assert!(half <= two);
        }
    }
}

#[test]
fn a_chain_of_lines_round_a_bowl_needs_curves() {
    let mut p = BezPath::new();
    for k in 0..120 {
        let a = std::f64::consts::TAU * f64::from(k) / 120.0;
        let at = Point::new(250.0 * a.cos(), 250.0 * a.sin());
        if k == 0 { p.move_to(at) } else { p.line_to(at) }
    }
    p.close_path();
    let d = of(&p);
    assert_eq!(d.points.total(), 120);
    assert_eq!(d.within_two.cubic, 12);
    assert_eq!(d.within_half.cubic, 12);
}

#[test]
fn corners_and_straight_lines_stay() {
    let octagon = svg("M100 0 L200 0 L300 100 L300 200 L200 300 L100 300 L0 200 L0 100 Z");
    assert_eq!(of(&octagon).within_two.cubic, 8);
    let with_idle = svg("M0 0 L50 0 L100 0 L100 700 L0 700 L0 431 L0 200 Z");
    assert_eq!(of(&with_idle).within_half.cubic, 4);
    // A stem whose sides run on into round ends.
    let pill = svg("M0 50 C0 20 20 0 50 0 C80 0 100 20 100 50 L100 700 \
                    C100 730 80 750 50 750 C20 750 0 730 0 700 Z");
    assert_eq!(of(&pill).within_two.excess(&of(&pill).points), 0);
}

#[test]
fn extremes_ask_for_points() {
    // A circle whose four points are off its extremes, as when it was turned.
    let turned =
        Affine::rotate_about(0.5, (300.0, 300.0)) * Circle::new((300.0, 300.0), 250.0).to_path(1.0);
    let d = of(&turned);
    let joints = refit(&outline(&turned), &CONTEXT, Tolerance::Half);
    let on: Vec<Point> = joints
        .elements()
        .iter()
        .filter_map(|el| match el {
            PathEl::CurveTo(_, _, p) => Some(*p),
            _ => None,
        })
        .collect();
    for extreme in [(550.0, 300.0), (300.0, 550.0), (50.0, 300.0), (300.0, 50.0)] {
        let near = on.iter().map(|p| p.distance(extreme.into()));
        assert!(near.fold(f64::MAX, f64::min) < 1.0, "{extreme:?} {on:?}");
    }
    assert_eq!(d.within_half.cubic, 12);
}

#[test]
fn a_quadratic_letter_is_held_against_quadratic_curves() {
    // A quarter of a circle of 250 within half a unit: two quadratic curves
    // stray by almost a unit, three by a fifth.
    let ring = |quads: u32| {
        let mut p = BezPath::new();
        p.move_to((250.0, 0.0));
        let step = std::f64::consts::TAU / f64::from(quads);
        for k in 0..quads {
            let (a, b) = ((f64::from(k) + 0.5) * step, f64::from(k + 1) * step);
            let r = 250.0 / (0.5 * step).cos();
            p.quad_to(
                (r * a.cos(), r * a.sin()),
                (250.0 * b.cos(), 250.0 * b.sin()),
            );
        }
        p.close_path();
        p
    };
    let d = of(&ring(32));
    assert_eq!((d.points.total(), d.curves), (64, Curves::Quadratic));
    assert_eq!(d.within_half.quadratic, Some(24));
    assert_eq!(d.within_two.quadratic, Some(16));
    assert_eq!((d.within_half.cubic, d.within_two.cubic), (12, 12));
    // Eight are what they are: never more are asked for than are drawn.
    let d = of(&ring(8));
    assert_eq!(d.within_half.excess(&d.points), 0);
    assert_eq!(d.within_half.quadratic, Some(16));
    assert_eq!(of(&o()).within_half.quadratic, None);
}

#[test]
fn the_refit_keeps_its_distance_and_its_count() {
    let turned = Affine::rotate(0.3) * o();
    for letter in [o(), n(), s(), turned, cut(&s(), 4)] {
        for spacing in [None, Some(12.0), Some(30.0)] {
            let drawn = match spacing {
                None => letter.clone(),
                Some(spacing) => traced(&outline(&letter), &CONTEXT, spacing),
            };
            let d = of(&drawn);
            for (tolerance, need) in needs(&d) {
                let refit = refit(&outline(&drawn), &CONTEXT, tolerance);
                assert_eq!(points(&refit), need.cubic);
                // Between the samples of a tight curve it may be a little more.
                let most = 1.1 * tolerance.units(1000.0);
                assert!(distance(&drawn, &refit) <= most);
                assert!(distance(&refit, &drawn) <= most);
            }
        }
    }
}

/// How far the first path strays from the second.
fn distance(a: &BezPath, b: &BezPath) -> f64 {
    let mut most = 0.0_f64;
    for seg in a.segments() {
        for k in 0..16 {
            let p = seg.eval(f64::from(k) / 16.0);
            let near = b.segments().map(|s| s.nearest(p, 1e-4).distance_sq);
            most = most.max(near.fold(f64::MAX, f64::min).sqrt());
        }
    }
    most
}

#[test]
fn the_scale_is_the_em() {
    let large = Affine::scale(2.048) * o();
    let context = DrawingContext {
        units_per_em: 2048.0,
        ..CONTEXT
    };
    let (d, e) = (of(&o()), drawing(&outline(&large), &context));
    assert_eq!(d.within_half, e.within_half);
    assert_eq!(d.within_two, e.within_two);
    assert!((Tolerance::Two.units(2048.0) - 4.096).abs() < 1e-12);
}

#[test]
fn specks_left_by_arithmetic_are_no_points() {
    let mut p = oval(270.0, 240.0, 230.0, 250.0);
    p.pop();
    p.line_to((500.000_06, 240.000_02));
    p.close_path();
    let d = of(&p);
    assert_eq!((d.points.total(), d.flaws.len()), (12, 0));
}

#[test]
fn no_outline_is_too_hostile() {
    let random = |count: u32, most: f64| {
        // A generator of our own, so that the shape is the same each time.
        let mut state = 12_345_u64;
        let mut next = move || {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            ((state >> 33) as f64 / f64::from(1_u32 << 31) * most).round()
        };
        let mut point = move || Point::new(next(), next());
        let mut p = BezPath::new();
        p.move_to(point());
        for _ in 0..count {
            p.curve_to(point(), point(), point());
        }
        p.close_path();
        p
    };
    let along = |count: u32, at: fn(f64) -> Point| {
        let mut p = BezPath::new();
        p.move_to(at(0.0));
        (1..count).for_each(|k| p.line_to(at(f64::from(k))));
        p.close_path();
        p
    };
    let squares = |count: u32, size: f64, step: f64| {
        (0..count)
            .flat_map(|k| {
                let at = f64::from(k) * step;
                kurbo::Rect::new(at, at, at + size, at + size)
                    .to_path(0.1)
                    .into_iter()
            })
            .collect::<BezPath>()
    };
    let mut still = BezPath::new();
    still.move_to((5.0, 5.0));
    (0..3000).for_each(|_| still.curve_to((5.0, 5.0), (5.0, 5.0), (5.0, 5.000_000_1)));
    still.close_path();
    for (name, path) in [
        ("nothing", BezPath::new()),
        ("a line", svg("M0 0 L7 0 Z")),
        ("a point", svg("M3 3 L3 3 Z")),
        ("a loop of one curve", svg("M0 0 C900 900 -900 900 0 0 Z")),
        ("still", still),
        ("random", random(3_333, 1000.0)),
        ("huge", random(3_333, 1e6)),
        ("in a row", along(10_000, |k| Point::new(k, 0.0))),
        (
            "zigzag",
            along(10_000, |k| Point::new(1000.0 * (k % 2.0), 0.01 * k)),
        ),
        (
            "round a circle",
            along(10_000, |k| {
                let a = k * std::f64::consts::TAU / 10_000.0;
                Point::new(300.0 * a.cos(), 300.0 * a.sin())
            }),
        ),
        (
            "spiral",
            along(10_000, |k| {
                Point::new(0.05 * k * (0.01 * k).cos(), 0.05 * k * (0.01 * k).sin())
            }),
        ),
        ("squares aslant", squares(2_500, 1000.0, 0.1)),
        ("one square again and again", squares(2_500, 100.0, 0.0)),
    ] {
        let outline = outline(&path);
        let d = drawing(&outline, &CONTEXT);
        assert!(d.flaws.len() <= 500, "{name}");
        let sound = |p: Point| p.is_finite();
        assert!(
            d.flaws.iter().all(|f| sound(f.at) && f.size.is_finite()),
            "{name}"
        );
        for tolerance in [Tolerance::Half, Tolerance::Two] {
            assert!(refit(&outline, &CONTEXT, tolerance).is_finite(), "{name}");
        }
        assert!(traced(&outline, &CONTEXT, 20.0).is_finite(), "{name}");
    }
}

#[test]
fn what_is_too_much_is_said() {
    let squares: BezPath = (0..15_000)
        .flat_map(|k| {
            let at = f64::from(k) * 0.1;
            kurbo::Rect::new(at, at, at + 1000.0, at + 1000.0)
                .to_path(0.1)
                .into_iter()
        })
        .collect();
    let d = of(&squares);
    assert!(d.not_looked_for.contains(&FlawKind::Overlap));
    assert!(d.not_looked_for.contains(&FlawKind::SelfCrossing));
    assert!(d.not_looked_for.contains(&FlawKind::WrongWay));
    assert!(of(&o()).not_looked_for.is_empty());
}
