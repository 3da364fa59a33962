//! What several of the tests need.
#![allow(dead_code, reason = "each test file uses its own part")]

use counterpoise_samples::{Face, clean, planted, truetype};
use kurbo::{BezPath, Line, ParamCurve, ParamCurveArclen, PathEl, PathSeg, Point, Shape};

/// The letters that the face promises.
pub(crate) const PROMISED: &str = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789\
     .,:;-\u{2013}!?&'\"\u{2018}\u{2019}\u{201c}\u{201d} ";

/// Both revisions as font files.
pub(crate) fn files() -> [Vec<u8>; 2] {
    [
        truetype(&clean()).unwrap(),
        truetype(&planted().unwrap().0).unwrap(),
    ]
}

/// Collects an outline that ttf-parser reads.
#[derive(Default)]
pub(crate) struct Sink(BezPath);

impl Sink {
    /// What has been gathered.
    pub(crate) fn path(self) -> BezPath {
        self.0
    }
}

impl ttf_parser::OutlineBuilder for Sink {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, a: f32, b: f32, x: f32, y: f32) {
        self.0
            .quad_to((f64::from(a), f64::from(b)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, a: f32, b: f32, c: f32, d: f32, x: f32, y: f32) {
        self.0.curve_to(
            (f64::from(a), f64::from(b)),
            (f64::from(c), f64::from(d)),
            (f64::from(x), f64::from(y)),
        );
    }
    fn close(&mut self) {
        self.0.close_path();
    }
}

/// The outline of a glyph, as ttf-parser reads it.
pub(crate) fn outline(file: &[u8], glyph: u16) -> BezPath {
    let face = ttf_parser::Face::parse(file, 0).unwrap();
    let mut sink = Sink::default();
    face.outline_glyph(ttf_parser::GlyphId(glyph), &mut sink);
    sink.0
}

/// The outline of a character, as ttf-parser reads it.
pub(crate) fn outline_of(file: &[u8], code: char) -> BezPath {
    let face = ttf_parser::Face::parse(file, 0).unwrap();
    outline(file, face.glyph_index(code).unwrap().0)
}

/// The glyph index of a letter.
pub(crate) fn index_of(face: &Face, name: &str) -> u16 {
    face.letters.iter().position(|l| l.name == name).unwrap() as u16
}

/// A path cut into its contours.
pub(crate) fn contours(path: &BezPath) -> Vec<BezPath> {
    let mut out: Vec<BezPath> = Vec::new();
    for element in path.elements() {
        if matches!(element, PathEl::MoveTo(_)) {
            out.push(BezPath::new());
        }
        out.last_mut().unwrap().push(*element);
    }
    out
}

/// The edges of a contour, without any of no length.
pub(crate) fn edges(contour: &BezPath) -> Vec<PathSeg> {
    contour
        .segments()
        .filter(|s| s.arclen(0.01) > 0.01)
        .collect()
}

/// A contour as short straight pieces.
pub(crate) fn flat(contour: &BezPath) -> Vec<Line> {
    let mut points: Vec<Point> = Vec::new();
    kurbo::flatten(contour, 0.05, |element| match element {
        PathEl::MoveTo(p) | PathEl::LineTo(p) => points.push(p),
        _ => {}
    });
    if let (Some(first), Some(last)) = (points.first().copied(), points.last().copied())
        && first.distance(last) > 1e-9
    {
        points.push(first);
    }
    points
        .windows(2)
        .map(|w| Line::new(w[0], w[1]))
        .filter(|l| l.p0.distance(l.p1) > 1e-9)
        .collect()
}

/// The ink along a level line, as lengths from left to right.
pub(crate) fn runs(path: &BezPath, y: f64) -> Vec<f64> {
    let bounds = path.bounding_box();
    let line = Line::new((bounds.x0 - 9.0, y), (bounds.x1 + 9.0, y));
    let mut at: Vec<f64> = path
        .segments()
        .flat_map(|s| s.intersect_line(line))
        .map(|hit| line.eval(hit.line_t).x)
        .collect();
    at.sort_by(f64::total_cmp);
    at.chunks_exact(2).map(|p| p[1] - p[0]).collect()
}
