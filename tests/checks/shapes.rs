//! Shapes whose thickness and direction are known without measuring.

use counterpoise::measure::strokes::{Stroke, StrokeContext, StrokeKind, strokes};
use counterpoise::outline::Outline;
use counterpoise_checks::compare::Comparison;
use kurbo::{Affine, BezPath, Circle, Ellipse, Point, Rect, Shape, Vec2};
use libtest_mimic::{Failed, Trial};
use std::f64::consts::{FRAC_PI_2, TAU};

/// Thicknesses must be right to this, font units.
const THICKNESS: f64 = 0.1;

/// Directions must be right to this, degrees.
const ANGLE: f64 = 0.5;

/// Circles are drawn this near to true, far below what is measured.
const DRAWN: f64 = 1e-6;

pub(crate) fn trials() -> Vec<Trial> {
    vec![
        Trial::test("shapes::ring", ring),
        Trial::test("shapes::ring with its counter off centre", off_centre),
        Trial::test("shapes::bowl of two ellipses", bowl),
        Trial::test("shapes::slanted bar at twenty angles", bars),
        Trial::test("shapes::slanted stem cut level", cut_level),
        Trial::test("shapes::superellipse of one thickness", superellipse),
        Trial::test("shapes::wedge", wedges),
    ]
}

fn of(path: &BezPath, slant: f64) -> Vec<Stroke> {
    strokes(
        &Outline::from_path(path),
        &StrokeContext {
            units_per_em: 1000.0,
            slant,
        },
    )
}

/// The one stroke that a shape should be.
fn only(path: &BezPath, what: &str) -> Result<Stroke, Failed> {
    let mut found = of(path, 0.0);
    match (found.pop(), found.is_empty()) {
        (Some(stroke), true) => Ok(stroke),
        (last, _) => {
            found.extend(last);
            let told: Vec<_> = found.iter().map(|s| (s.kind, s.median, s.length)).collect();
            Err(format!("{what}: {} strokes instead of one: {told:?}", told.len()).into())
        }
    }
}

fn near(figures: &mut Comparison, what: &str, ours: f64, truth: f64) {
    figures.near(what, Some(ours), Some(truth), THICKNESS);
}

fn done(figures: &Comparison) -> Result<(), Failed> {
    println!(
        "{} figures, worst {:.5}",
        figures.compared(),
        figures.worst()
    );
    figures.verdict()?;
    Ok(())
}

fn with_counter(outer: impl Shape, counter: impl Shape) -> BezPath {
    let mut path = outer.to_path(DRAWN);
    path.extend(counter.to_path(DRAWN).reverse_subpaths());
    path
}

fn ring() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for (radius, thickness) in [(300.0, 12.0), (300.0, 80.0), (260.0, 140.0), (120.0, 40.0)] {
        let centre = Point::new(310.0, 290.0);
        let path = with_counter(
            Circle::new(centre, radius),
            Circle::new(centre, radius - thickness),
        );
        let stroke = only(&path, &format!("ring of {thickness}"))?;
        figures.same("a ring is a curve", stroke.kind, StrokeKind::Curve);
        near(&mut figures, "median", stroke.median, thickness);
        near(&mut figures, "least", stroke.least.value, thickness);
        near(&mut figures, "greatest", stroke.greatest.value, thickness);
        for mark in &stroke.marks {
            near(&mut figures, "mark", mark.value, thickness);
        }
        // The middle line's length is known too; to a hundredth, as it is drawn in steps.
        let around = TAU * (radius - thickness / 2.0);
        figures.near(
            format!("length of a ring of {radius} and {thickness}, as a share"),
            Some(stroke.length / around),
            Some(1.0),
            0.01,
        );
    }
    done(&figures)
}

/// Thin above, thick below: both lie on the line through the two centres.
fn off_centre() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for off in [5.0, 20.0, 40.0] {
        let path = with_counter(
            Circle::new((300.0, 300.0), 300.0),
            Circle::new((300.0, 300.0 + off), 220.0),
        );
        let stroke = only(&path, &format!("ring, {off} off centre"))?;
        near(&mut figures, "least", stroke.least.value, 80.0 - off);
        near(&mut figures, "greatest", stroke.greatest.value, 80.0 + off);
    }
    done(&figures)
}

/// An O with contrast: its sides and its top lie on the axes of both ellipses.
fn bowl() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for (side, top) in [(90.0, 60.0), (100.0, 30.0), (60.0, 60.0)] {
        let ellipse = |inset_x: f64, inset_y: f64| {
            Ellipse::new((320.0, 350.0), (300.0 - inset_x, 360.0 - inset_y), 0.0)
        };
        let path = with_counter(ellipse(0.0, 0.0), ellipse(side, top));
        let stroke = only(&path, &format!("bowl of {side} and {top}"))?;
        near(
            &mut figures,
            "mark at the left side",
            at(&stroke, Point::new(20.0 + side / 2.0, 350.0))?,
            side,
        );
        near(
            &mut figures,
            "mark at the right side",
            at(&stroke, Point::new(620.0 - side / 2.0, 350.0))?,
            side,
        );
        near(
            &mut figures,
            "mark at the top",
            at(&stroke, Point::new(320.0, 710.0 - top / 2.0))?,
            top,
        );
        near(
            &mut figures,
            "mark at the foot",
            at(&stroke, Point::new(320.0, -10.0 + top / 2.0))?,
            top,
        );
        if side > top {
            near(&mut figures, "least", stroke.least.value, top);
            near(&mut figures, "greatest", stroke.greatest.value, side);
        }
    }
    done(&figures)
}

/// The marked thickness whose middle lies nearest to a place.
fn at(stroke: &Stroke, place: Point) -> Result<f64, Failed> {
    let nearest = stroke.marks.iter().min_by(|a, b| {
        let off = |m: &counterpoise::measure::strokes::Thickness| m.centre().distance(place);
        off(a).total_cmp(&off(b))
    });
    match nearest {
        Some(mark) if mark.centre().distance(place) < 10.0 => Ok(mark.value),
        _ => Err(format!("no mark near {place:?}").into()),
    }
}

fn bars() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for i in 0..20 {
        let angle = f64::from(i) * 9.0;
        for thickness in [20.0, 90.0] {
            let bar = Rect::new(-350.0, -thickness / 2.0, 350.0, thickness / 2.0);
            let path = Affine::rotate(angle.to_radians()) * bar.to_path(DRAWN);
            let stroke = only(&path, &format!("bar at {angle} degrees"))?;
            let what = format!("bar of {thickness} at {angle} degrees");
            for value in [stroke.median, stroke.least.value, stroke.greatest.value] {
                near(&mut figures, &what, value, thickness);
            }
            turned(&mut figures, &what, &stroke, angle);
            figures.near(
                format!("{what}, length"),
                Some(stroke.length),
                Some(700.0),
                1.0,
            );
        }
    }
    done(&figures)
}

/// Directions that differ by half a turn are one.
fn turned(figures: &mut Comparison, what: &str, stroke: &Stroke, truth: f64) {
    let off = stroke
        .angle
        .map(|a| (a - truth + 90.0).rem_euclid(180.0) - 90.0);
    figures.near(format!("{what}, direction"), off, Some(0.0), ANGLE);
}

/// An italic stem: its level run is thicker than the stem by one over the cosine.
fn cut_level() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for slant in [0.0, 5.0, 12.0, 20.0, 30.0] {
        let (thickness, height) = (80.0, 700.0);
        let lean = f64::to_radians(slant);
        let run = thickness / lean.cos();
        let shift = height * lean.tan();
        let path = polygon(&[
            (0.0, 0.0),
            (run, 0.0),
            (run + shift, height),
            (shift, height),
        ]);
        let found = of(&path, slant);
        let what = format!("stem that leans {slant}");
        let longest = found.first().ok_or_else(|| format!("{what}: no stroke"))?;
        figures.same(format!("{what}, kind"), longest.kind, StrokeKind::Stem);
        near(&mut figures, &what, longest.median, thickness);
        turned(&mut figures, &what, longest, 90.0 - slant);
    }
    done(&figures)
}

fn polygon(points: &[(f64, f64)]) -> BezPath {
    let mut path = BezPath::new();
    for (i, &point) in points.iter().enumerate() {
        if i == 0 {
            path.move_to(point)
        } else {
            path.line_to(point)
        }
    }
    path.close_path();
    path
}

/// A superellipse whose counter is its parallel curve: one thickness all around.
/// Its flat sides may count as strokes of their own.
fn superellipse() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for (power, thickness) in [(2.2, 60.0), (2.6, 90.0), (3.0, 40.0)] {
        let mut path = closed_curve(|t| on_superellipse(power, t, 0.0));
        path.extend(closed_curve(|t| on_superellipse(power, t, thickness)).reverse_subpaths());
        let middle = closed_curve(|t| on_superellipse(power, t, thickness / 2.0));
        let found = of(&path, 0.0);
        for stroke in &found {
            let what = format!("superellipse of power {power}");
            for value in [stroke.median, stroke.least.value, stroke.greatest.value] {
                near(&mut figures, &what, value, thickness);
            }
        }
        let length = found.iter().map(|s| s.length).sum::<f64>() / middle.perimeter(1e-3);
        figures.near(
            format!("power {power}, length, as a share"),
            Some(length),
            Some(1.0),
            0.05,
        );
    }
    done(&figures)
}

/// A point of |x/a|^p + |y/b|^p = 1, moved inwards along its normal.
fn on_superellipse(power: f64, t: f64, inwards: f64) -> Point {
    let (a, b) = (280.0, 360.0);
    let bent = |v: f64, e: f64| v.signum() * v.abs().powf(e);
    let (sin, cos) = t.sin_cos();
    let (sin, cos) = (snap(sin), snap(cos));
    let (x, y) = (a * bent(cos, 2.0 / power), b * bent(sin, 2.0 / power));
    // The gradient of the equation, up to a factor.
    let e = 2.0 - 2.0 / power;
    let normal = Vec2::new(bent(cos, e) / a, bent(sin, e) / b).normalize();
    Point::new(x, y) - normal * inwards
}

/// The cosine of a right angle is not quite nought, and a root would make much of it.
fn snap(v: f64) -> f64 {
    if v.abs() < 1e-12 { 0.0 } else { v }
}

/// A closed curve through many points of a symmetric shape, by cubic pieces whose
/// handles follow from the points around (Catmull and Rom), within a thousandth.
fn closed_curve(at: impl Fn(f64) -> Point) -> BezPath {
    const PIECES: usize = 400;
    // Points are crowded where the parameter runs fast, beside the axes.
    let step = |i: usize| {
        let quarter = (i * 4 / PIECES) as f64;
        let within = (i * 4 % PIECES) as f64 / PIECES as f64;
        FRAC_PI_2 * (quarter + ease(within))
    };
    let points: Vec<Point> = (0..PIECES).map(|i| at(step(i))).collect();
    let p = |i: usize| points[i % PIECES];
    let mut path = BezPath::new();
    path.move_to(p(0));
    for i in 0..PIECES {
        let (before, from, to, after) = (p(i + PIECES - 1), p(i), p(i + 1), p(i + 2));
        let length = (to - from).hypot() / 3.0;
        let out = (to - before).normalize() * length;
        let into = (after - from).normalize() * length;
        path.curve_to(from + out, to - into, to);
    }
    path.close_path();
    path
}

/// From 0 to 1, slowly at both ends.
fn ease(t: f64) -> f64 {
    t * t * t * (t * (6.0 * t - 15.0) + 10.0)
}

/// A stroke that tapers evenly: its thickness is known at every height.
fn wedges() -> Result<(), Failed> {
    let mut figures = Comparison::default();
    for (foot, top) in [(90.0, 80.0), (100.0, 60.0), (40.0, 60.0)] {
        for angle in [0.0, 20.0, 90.0] {
            let path = polygon(&[
                (-foot / 2.0, 0.0),
                (foot / 2.0, 0.0),
                (top / 2.0, 700.0),
                (-top / 2.0, 700.0),
            ]);
            let turn = Affine::rotate(f64::to_radians(-angle));
            let what = format!("wedge from {foot} to {top}, turned by {angle}");
            let stroke = only(&(turn * path), &what)?;
            let thickness = |height: f64| foot + (top - foot) * height / 700.0;
            for mark in stroke.marks.iter().chain([&stroke.least, &stroke.greatest]) {
                let height = (turn.inverse() * mark.centre()).y;
                near(
                    &mut figures,
                    &format!("{what}, at {height:.0}"),
                    mark.value,
                    thickness(height),
                );
            }
            near(
                &mut figures,
                &format!("{what}, median"),
                stroke.median,
                (foot + top) / 2.0,
            );
            turned(&mut figures, &what, &stroke, 90.0 - angle);
        }
    }
    done(&figures)
}
