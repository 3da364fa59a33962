//! Outlines and names of glyphs read by skrifa, a reader that shares no code with ours.
//!
//! The two may start a contour at another point or leave out a line of no
//! length, so what is compared is what no such choice changes: the box, the area,
//! its moments and the length of the edge.

use crate::{Fonts, open};
use counterpoise::font::{GlyphId, OutlineFormat};
use counterpoise_checks::compare::Comparison;
use counterpoise_checks::manifest::{Face, Use};
use kurbo::{BezPath, ParamCurveArclen, ParamCurveMoments, PathEl, Point, Shape};
use libtest_mimic::{Failed, Trial};
use skrifa::instance::{LocationRef, Size};
use skrifa::outline::{DrawSettings, OutlinePen};
use skrifa::{FontRef, MetadataProvider};
use std::sync::Arc;

/// Both readers hand over single-precision coordinates, and CFF's fractions
/// pass through 16.16 fixed numbers in one of them: some thousandths of a unit.
const LENGTH: f64 = 0.01;

/// Areas and moments, as a share of what the box could hold.
const SHARE: f64 = 1e-4;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    fonts.each("second_reader", Use::Glyphs, every_glyph)
}

fn every_glyph(face: &Face) -> Result<(), Failed> {
    let font = open(face)?;
    let reader = font.reader();
    let theirs = FontRef::new(font.data())?;
    let outlines = theirs.outline_glyphs();
    // At a size skrifa keeps the fractions of scaled components, which it rounds
    // where it is asked for none.
    let size = match font.format() {
        OutlineFormat::TrueType => Size::new(f32::from(font.units_per_em())),
        _ => Size::unscaled(),
    };
    let names = theirs.glyph_names();
    let mut figures = Comparison::default();
    for id in 0..font.glyph_count() {
        let named = names.get(skrifa::GlyphId::new(id.into()));
        // Where the file has no name, skrifa makes one.
        let named = named.filter(|name| !name.is_synthesized());
        let (ours, theirs) = (reader.glyph_name(GlyphId(id)), named.as_ref());
        if ours != theirs.map(|name| name.as_str()) {
            return Err(format!("{} glyph {id} is named {ours:?}, {named:?}", face.id).into());
        }
        let ours = reader
            .outline(GlyphId(id))
            .map_err(|e| format!("{} glyph {id}: {e}", face.id))?
            .to_bez_path();
        let mut pen = Pen(BezPath::new());
        if let Some(glyph) = outlines.get(skrifa::GlyphId::new(id.into())) {
            let settings = DrawSettings::unhinted(size, LocationRef::default());
            glyph.draw(settings, &mut pen)?;
        }
        // skrifa cuts off the fractions that CFF may carry, as FreeType does; what
        // fontTools says of those glyphs is checked elsewhere, to a hundredth.
        let cut = font.format() != OutlineFormat::TrueType && has_fractions(&ours);
        compare(
            id,
            &ours,
            &pen.0,
            if cut { 1.0 } else { LENGTH },
            &mut figures,
        );
    }
    println!(
        "{}: {} figures, worst {:.5}",
        face.id,
        figures.compared(),
        figures.worst()
    );
    figures.verdict()?;
    Ok(())
}

fn has_fractions(path: &BezPath) -> bool {
    let whole = |p: Point| p.x.fract() == 0.0 && p.y.fract() == 0.0;
    !path.elements().iter().all(|el| match *el {
        PathEl::MoveTo(p) | PathEl::LineTo(p) => whole(p),
        PathEl::QuadTo(a, p) => whole(a) && whole(p),
        PathEl::CurveTo(a, b, p) => whole(a) && whole(b) && whole(p),
        PathEl::ClosePath => true,
    })
}

fn compare(id: u16, ours: &BezPath, theirs: &BezPath, length: f64, figures: &mut Comparison) {
    let (a, b) = (inked_box(ours), inked_box(theirs));
    for (what, pick) in [
        ("left", (|r: kurbo::Rect| r.x0) as fn(kurbo::Rect) -> f64),
        ("foot", |r| r.y0),
        ("right", |r| r.x1),
        ("top", |r| r.y1),
    ] {
        figures.near(
            format!("glyph {id} {what}"),
            a.map(pick),
            b.map(pick),
            length,
        );
    }
    let Some(size) = b.map(|r| r.width().max(r.height()).max(1.0)) else {
        return;
    };
    if length > LENGTH {
        return;
    }
    let edge = |p: &BezPath| p.segments().map(|s| s.arclen(1e-3)).sum::<f64>() / size;
    figures.near(
        format!("glyph {id} edge length"),
        Some(edge(ours)),
        Some(edge(theirs)),
        1e-3,
    );
    let (m, n) = (moments(ours), moments(theirs));
    for (i, what) in ["area", "moment along x", "moment along y"]
        .iter()
        .enumerate()
    {
        let whole = size.powi(if i == 0 { 2 } else { 3 }) * 4.0;
        figures.near(
            format!("glyph {id} {what}"),
            Some(m[i] / whole),
            Some(n[i] / whole),
            SHARE,
        );
    }
}

fn inked_box(path: &BezPath) -> Option<kurbo::Rect> {
    path.segments().next().map(|_| path.bounding_box())
}

fn moments(path: &BezPath) -> [f64; 3] {
    let m = path.moments();
    [path.area(), m.moment_x, m.moment_y]
}

struct Pen(BezPath);

impl OutlinePen for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }

    fn quad_to(&mut self, cx: f32, cy: f32, x: f32, y: f32) {
        self.0
            .quad_to((f64::from(cx), f64::from(cy)), (f64::from(x), f64::from(y)));
    }

    fn curve_to(&mut self, ax: f32, ay: f32, bx: f32, by: f32, x: f32, y: f32) {
        self.0.curve_to(
            (f64::from(ax), f64::from(ay)),
            (f64::from(bx), f64::from(by)),
            (f64::from(x), f64::from(y)),
        );
    }

    fn close(&mut self) {
        self.0.close_path();
    }
}
