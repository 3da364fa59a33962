//! The glyph interchange format (UFO specification, glif formats 1 and 2).

use super::xml;
use crate::DrawingError;
use kurbo::{Affine, BezPath, Point};
use usvg::roxmltree::Node;

/// Another glyph, drawn as a part of this one.
#[derive(Debug, Clone, PartialEq)]
pub struct Component {
    /// Its name.
    pub base: String,
    /// Where it stands.
    pub map: Affine,
}

/// A glyph file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Glif {
    /// The glyph's name.
    pub name: String,
    /// The characters that lead to it.
    pub characters: Vec<char>,
    /// Its advance width.
    pub advance: f64,
    /// Its own contours.
    pub path: BezPath,
    /// Its components.
    pub components: Vec<Component>,
    /// Whether a contour is open.
    pub open: bool,
}

/// Components of one glyph: accents take two or three.
const MAX_COMPONENTS: usize = 1_000;

/// Reads a glyph file.
///
/// # Errors
/// If it is none, or damaged.
pub(super) fn parse(text: &str) -> Result<Glif, DrawingError> {
    let broken = |said: &str| DrawingError::BrokenGlyph(said.to_owned());
    let document = xml::parse(text, DrawingError::BrokenGlyph)?;
    let root = document.root_element();
    if root.tag_name().name() != "glyph" {
        return Err(broken("it does not begin with a glyph"));
    }
    let mut glif = Glif {
        name: root.attribute("name").unwrap_or_default().to_owned(),
        ..Glif::default()
    };
    for node in root.children().filter(|n| n.is_element()) {
        match node.tag_name().name() {
            "advance" => glif.advance = number(node, "width", 0.0)?,
            "unicode" => {
                let hex = node.attribute("hex").unwrap_or_default();
                let code = u32::from_str_radix(hex, 16).ok().and_then(char::from_u32);
                let c = code.ok_or_else(|| broken("a code point is no number"))?;
                if !glif.characters.contains(&c) {
                    glif.characters.push(c);
                }
            }
            "outline" => outline(node, &mut glif)?,
            _ => {}
        }
    }
    Ok(glif)
}

fn number(node: Node<'_, '_>, name: &str, or: f64) -> Result<f64, DrawingError> {
    match node.attribute(name) {
        None => Ok(or),
        Some(text) => text
            .trim()
            .parse::<f64>()
            .ok()
            .filter(|n| n.is_finite())
            .ok_or_else(|| DrawingError::BrokenGlyph(format!("{name} is no number"))),
    }
}

fn outline(node: Node<'_, '_>, glif: &mut Glif) -> Result<(), DrawingError> {
    for part in node.children().filter(|n| n.is_element()) {
        match part.tag_name().name() {
            "contour" => {
                let points = points(part)?;
                glif.open |= contour(&points, &mut glif.path)?;
            }
            "component" => {
                if glif.components.len() >= MAX_COMPONENTS {
                    return Err(DrawingError::BrokenGlyph("too many components".into()));
                }
                let of = |name, or| number(part, name, or);
                glif.components.push(Component {
                    base: part.attribute("base").unwrap_or_default().to_owned(),
                    map: Affine::new([
                        of("xScale", 1.0)?,
                        of("xyScale", 0.0)?,
                        of("yxScale", 0.0)?,
                        of("yScale", 1.0)?,
                        of("xOffset", 0.0)?,
                        of("yOffset", 0.0)?,
                    ]),
                });
            }
            _ => {}
        }
    }
    Ok(())
}

/// What a point is to the curve.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Kind {
    Move,
    Line,
    Curve,
    Quadratic,
    Off,
}

fn points(contour: Node<'_, '_>) -> Result<Vec<(Kind, Point)>, DrawingError> {
    contour
        .children()
        .filter(|n| n.is_element() && n.tag_name().name() == "point")
        .map(|n| {
            let kind = match n.attribute("type") {
                Some("move") => Kind::Move,
                Some("line") => Kind::Line,
                Some("curve") => Kind::Curve,
                Some("qcurve") => Kind::Quadratic,
                None | Some("offcurve") => Kind::Off,
                Some(other) => {
                    return Err(DrawingError::BrokenGlyph(format!(
                        "a point of type {other}"
                    )));
                }
            };
            Ok((
                kind,
                Point::new(number(n, "x", f64::NAN)?, number(n, "y", f64::NAN)?),
            ))
        })
        .collect::<Result<Vec<_>, _>>()
        .and_then(|all| {
            let placed = all.iter().all(|(_, p)| p.is_finite());
            placed
                .then_some(all)
                .ok_or_else(|| DrawingError::BrokenGlyph("a point without a place".into()))
        })
}

/// Draws a contour; tells whether it is open.
fn contour(points: &[(Kind, Point)], path: &mut BezPath) -> Result<bool, DrawingError> {
    let open = points.first().is_some_and(|p| p.0 == Kind::Move);
    // A single point to move to is an anchor of old files.
    if points.len() < 2 {
        return Ok(false);
    }
    let first = points.iter().position(|p| p.0 != Kind::Off);
    let Some(first) = first else {
        quadratic_ring(points, path);
        return Ok(false);
    };
    let n = points.len();
    path.move_to(points[first].1);
    let mut off: Vec<Point> = Vec::new();
    // A closed contour ends at the point that it began with.
    let steps = if open { 1..n } else { 1..n + 1 };
    for k in steps {
        let (kind, p) = points[(first + k) % n];
        match kind {
            Kind::Off => off.push(p),
            Kind::Move if open => {
                return Err(DrawingError::BrokenGlyph(
                    "a contour moves in its middle".into(),
                ));
            }
            Kind::Move | Kind::Line => {
                path.line_to(p);
                off.clear();
            }
            Kind::Curve => {
                match off[..] {
                    [] => path.line_to(p),
                    [a] => path.quad_to(a, p),
                    [a, b] => path.curve_to(a, b, p),
                    _ => {
                        return Err(DrawingError::BrokenGlyph(
                            "a cubic curve with more than two handles".into(),
                        ));
                    }
                }
                off.clear();
            }
            Kind::Quadratic => {
                quadratics(&off, p, path);
                off.clear();
            }
        }
    }
    path.close_path();
    Ok(open)
}

/// Quadratic curves through handles, with the points between them implied.
fn quadratics(off: &[Point], to: Point, path: &mut BezPath) {
    if off.is_empty() {
        path.line_to(to);
    }
    for (i, &handle) in off.iter().enumerate() {
        let end = off.get(i + 1).map_or(to, |next| handle.midpoint(*next));
        path.quad_to(handle, end);
    }
}

/// A contour of handles alone, as TrueType allows.
fn quadratic_ring(points: &[(Kind, Point)], path: &mut BezPath) {
    let off: Vec<Point> = points.iter().map(|p| p.1).collect();
    let Some((first, last)) = off.first().zip(off.last()) else {
        return;
    };
    let start = last.midpoint(*first);
    path.move_to(start);
    quadratics(&off, start, path);
    path.close_path();
}
