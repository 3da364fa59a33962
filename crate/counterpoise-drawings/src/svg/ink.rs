//! The ink of a cleaned drawing, shape by shape.

use super::clean::Cleaned;
use super::{Own, Sheet};
use crate::{DrawingError, Note};
use counterpoise::outline::Outline;
use kurbo::{Affine, BezPath, Cap, Join, Point, Shape, Stroke, StrokeOpts};
use usvg::tiny_skia_path::PathSegment;
use usvg::{FillRule, Group, ImageHrefResolver, LineCap, LineJoin, Node, Options, Paint, Tree};

/// Strokes are turned to outlines within this share of their width: an eye sees
/// no less than a hundredth.
const STROKE: f64 = 0.002;

/// A colour of at least this luminance (sRGB, 0 to 1) is paper.
const PAPER: f64 = 0.9;

/// What is less opaque than this is not there.
const THERE: f32 = 0.05;

pub(super) fn ink(cleaned: Cleaned) -> Result<Sheet, DrawingError> {
    let options = Options {
        // Without a resolver nothing could be loaded, were an image left.
        image_href_resolver: ImageHrefResolver {
            resolve_data: Box::new(|_, _, _| None),
            resolve_string: Box::new(|_, _| None),
        },
        ..Options::default()
    };
    let tree = Tree::from_str(&cleaned.text, &options).map_err(|e| match e {
        usvg::Error::ElementsLimitReached => DrawingError::TooManyElements,
        // Parts without a size have no ink either.
        usvg::Error::InvalidSize => DrawingError::NoInk,
        _ => DrawingError::Unreadable,
    })?;
    let mut found = Found {
        shapes: Vec::new(),
        notes: cleaned.notes(),
        user: user(&cleaned, &tree),
        own: cleaned.own.is_some(),
    };
    found.group(tree.root());
    if found.shapes.is_empty() {
        return Err(DrawingError::NoInk);
    }
    let own = cleaned.own.filter(|_| cleaned.view_box.is_some());
    Ok(Sheet {
        shapes: found.shapes,
        own: own.map(|(units_per_em, advance)| Own {
            units_per_em,
            advance,
        }),
        notes: found.notes,
    })
}

/// From the sheet as it is sized back to the units that it was drawn in, y up.
fn user(cleaned: &Cleaned, tree: &Tree) -> Affine {
    let Some([x, y, width, _]) = cleaned.view_box.filter(|b| b[2] > 0.0 && b[3] > 0.0) else {
        return Affine::FLIP_Y;
    };
    let scale = width / f64::from(tree.size().width());
    Affine::FLIP_Y * Affine::translate((x, y)) * Affine::scale(scale)
}

struct Found {
    shapes: Vec<Outline>,
    notes: Vec<Note>,
    user: Affine,
    /// Whether it is a sheet of the lab's own, whose one shape keeps its way round:
    /// a measure walks the outline as it runs.
    own: bool,
}

impl Found {
    fn note(&mut self, note: Note) {
        if !self.notes.contains(&note) {
            self.notes.push(note);
        }
    }

    fn group(&mut self, group: &Group) {
        if group.opacity().get() < THERE {
            return;
        }
        for node in group.children() {
            match node {
                Node::Group(group) => self.group(group),
                Node::Path(path) => self.path(path),
                Node::Image(_) => self.note(Note::Picture),
                Node::Text(_) => self.note(Note::Text),
            }
        }
    }

    fn path(&mut self, path: &usvg::Path) {
        if !path.is_visible() {
            return;
        }
        let t = path.abs_transform();
        let place = self.user * Affine::new([t.sx, t.ky, t.kx, t.sy, t.tx, t.ty].map(f64::from));
        let drawn = bez(path.data());
        let mut ink = BezPath::new();
        let mut white = false;
        if let Some(fill) = path.fill() {
            if is_paper(fill.paint()) {
                white = true;
            } else if fill.opacity().get() >= THERE {
                let shape = match fill.rule() {
                    FillRule::NonZero => drawn.clone(),
                    FillRule::EvenOdd => self.by_turns(&drawn),
                };
                add(&mut ink, &shape, place, !self.own);
            }
        }
        if let Some(stroke) = path.stroke() {
            if is_paper(stroke.paint()) {
                white = true;
            } else if stroke.opacity().get() >= THERE {
                let width = f64::from(stroke.width().get());
                let style = Stroke::new(width)
                    .with_caps(match stroke.linecap() {
                        LineCap::Butt => Cap::Butt,
                        LineCap::Round => Cap::Round,
                        LineCap::Square => Cap::Square,
                    })
                    .with_join(match stroke.linejoin() {
                        LineJoin::Miter | LineJoin::MiterClip => Join::Miter,
                        LineJoin::Round => Join::Round,
                        LineJoin::Bevel => Join::Bevel,
                    })
                    .with_miter_limit(f64::from(stroke.miterlimit().get()));
                let opts = StrokeOpts::default();
                let edge = kurbo::stroke(drawn, &style, &opts, STROKE * width);
                add(&mut ink, &edge, place, true);
            }
        }
        if white {
            self.note(Note::White);
        }
        let outline = Outline::from_path(&ink);
        if !outline.is_empty() {
            self.shapes.push(outline);
        }
    }

    /// A shape filled by turns, its contours wound so that the non-zero rule fills
    /// the same: every other one, counted from the outside, the other way round.
    fn by_turns(&mut self, path: &BezPath) -> BezPath {
        let contours = contours(path);
        let mut out = BezPath::new();
        for (i, contour) in contours.iter().enumerate() {
            let inside = contour.segments().next().map(|s| {
                let p = kurbo::ParamCurve::eval(&s, 0.5);
                let others = contours.iter().enumerate().filter(|&(j, _)| j != i);
                others.filter(|(_, other)| other.winding(p) != 0).count()
            });
            if crosses(contour, &contours, i) {
                self.note(Note::EvenOdd);
            }
            let outer = inside.unwrap_or(0) % 2 == 0;
            let positive = contour.area() >= 0.0;
            out.extend(if outer == positive {
                contour.clone()
            } else {
                contour.reverse_subpaths()
            });
        }
        out
    }
}

/// Whether some of a contour lies within another and some does not.
fn crosses(contour: &BezPath, all: &[BezPath], own: usize) -> bool {
    all.iter().enumerate().any(|(j, other)| {
        if j == own {
            return false;
        }
        let mut inside = contour
            .segments()
            .map(|s| other.winding(kurbo::ParamCurve::eval(&s, 0.5)) != 0);
        let first = inside.next();
        inside.any(|now| Some(now) != first)
    })
}

fn contours(path: &BezPath) -> Vec<BezPath> {
    let mut all: Vec<BezPath> = Vec::new();
    for el in path.elements() {
        if matches!(el, kurbo::PathEl::MoveTo(_)) {
            all.push(BezPath::new());
        }
        if let Some(last) = all.last_mut() {
            last.push(*el);
        }
    }
    for contour in &mut all {
        if !matches!(contour.elements().last(), Some(kurbo::PathEl::ClosePath)) {
            contour.close_path();
        }
    }
    all
}

/// Adds a shape wound so that its ink counts as positive: overlapping shapes are
/// one ink, whichever way each was drawn.
fn add(ink: &mut BezPath, shape: &BezPath, place: Affine, wind: bool) {
    let mut placed = place * shape.clone();
    if wind && placed.area() < 0.0 {
        placed = placed.reverse_subpaths();
    }
    ink.extend(placed);
}

fn bez(path: &usvg::tiny_skia_path::Path) -> BezPath {
    let mut out = BezPath::new();
    let p = |p: usvg::tiny_skia_path::Point| Point::new(f64::from(p.x), f64::from(p.y));
    for segment in path.segments() {
        match segment {
            PathSegment::MoveTo(a) => out.move_to(p(a)),
            PathSegment::LineTo(a) => out.line_to(p(a)),
            PathSegment::QuadTo(a, b) => out.quad_to(p(a), p(b)),
            PathSegment::CubicTo(a, b, c) => out.curve_to(p(a), p(b), p(c)),
            PathSegment::Close => out.close_path(),
        }
    }
    out
}

/// Whether a colour is white or nearly so.
fn is_paper(paint: &Paint) -> bool {
    let Paint::Color(c) = paint else {
        return false;
    };
    // Relative luminance of ITU-R BT.709, on the encoded values: near white the
    // encoding changes nothing that matters here.
    let [r, g, b] = [c.red, c.green, c.blue].map(|v| f64::from(v) / 255.0);
    0.2126 * r + 0.7152 * g + 0.0722 * b >= PAPER
}
