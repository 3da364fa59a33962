//! The R that the artist drew anew: as an SVG out of a drawing program, and the
//! pencilled sketch before it, as a scanner saw it.

use ab_glyph_rasterizer::{Point as At, Rasterizer};
use counterpoise::outline::Outline;
use counterpoise::redraw::{SvgSheet, svg};
use kurbo::{Affine, BezPath, ParamCurve, PathSeg, Point, Vec2};

use crate::error::Error;
use crate::face::{Letter, clean};
use crate::style::CAP;

const UNITS_PER_EM: f64 = 1000.0;

/// Pixels a font unit: the capital is an inch high at 300 dots an inch.
const SCALE: f64 = 300.0 / CAP;

/// The sketch's size in pixels.
const WIDTH: usize = 420;
const HEIGHT: usize = 460;

/// How far askew the sheet lay on the scanner, degrees.
const ASKEW: f64 = 1.6;

/// How far a hand strays from the line that it means, font units.
const STRAY: f64 = 2.5;

/// How far grain changes a pixel's shade, of 255.
const GRAIN: f64 = 8.0;

/// The mended R as an SVG, one unit a font unit, its baseline at 0.
pub fn redraw_svg() -> Result<String, Error> {
    let letter = r()?;
    let sheet = SvgSheet {
        title: "R, drawn anew",
        advance: letter.advance,
        units_per_em: UNITS_PER_EM,
        top: CAP,
        foot: 0.0,
        sketch: false,
    };
    Ok(svg(&Outline::from_path(&letter.path), &sheet))
}

/// The sketch of the mended R: inked by a hand that strays a little, on paper that
/// is lit from one side, laid on askew. A PNG.
pub fn sketch_png() -> Result<Vec<u8>, Error> {
    let letter = r()?;
    let left = 0.5 * (WIDTH as f64 - letter.advance * SCALE);
    let middle = Point::new(0.5 * WIDTH as f64, 0.5 * HEIGHT as f64);
    let map = Affine::rotate_about(ASKEW.to_radians(), middle)
        * Affine::translate((left, 385.0))
        * Affine::scale_non_uniform(SCALE, -SCALE);
    let mut raster = Rasterizer::new(WIDTH, HEIGHT);
    for (from, to) in strayed(&letter.path) {
        let at = |p: Point| {
            let p = map * p;
            At {
                x: p.x as f32,
                y: p.y as f32,
            }
        };
        raster.draw_line(at(from), at(to));
    }
    // Sixteen shades, two pixels a byte: grain of 256 would not pack.
    let mut pixels = vec![0_u8; WIDTH * HEIGHT / 2];
    let mut grain = fastrand::Rng::with_seed(1898);
    raster.for_each_pixel(|i, coverage| {
        let (x, y) = ((i % WIDTH) as f64, (i / WIDTH) as f64);
        let light = 0.78 + 0.22 * (x / WIDTH as f64 + 0.3 * y / HEIGHT as f64) / 1.3;
        let shade = 236.0 - 186.0 * f64::from(coverage.abs().min(1.0));
        let grain: f64 = (0..4).map(|_| grain.f64()).sum::<f64>() - 2.0;
        let shade = ((shade * light + GRAIN * grain) / 17.0)
            .round()
            .clamp(0.0, 15.0) as u8;
        pixels[i / 2] |= if i % 2 == 0 { shade << 4 } else { shade };
    });
    let mut out = Vec::new();
    let mut encoder = png::Encoder::new(&mut out, WIDTH as u32, HEIGHT as u32);
    encoder.set_color(png::ColorType::Grayscale);
    encoder.set_depth(png::BitDepth::Four);
    encoder.set_compression(png::Compression::High);
    let dots = (300.0 / 0.0254) as u32;
    encoder.set_pixel_dims(Some(png::PixelDimensions {
        xppu: dots,
        yppu: dots,
        unit: png::Unit::Meter,
    }));
    let written = encoder.write_header().and_then(|mut writer| {
        writer.write_image_data(&pixels)?;
        writer.finish()
    });
    written.map_err(std::io::Error::from)?;
    Ok(out)
}

fn r() -> Result<Letter, Error> {
    let face = clean();
    let letter = face.letter("R").cloned();
    letter.ok_or_else(|| Error::NoLetter("R".to_owned()))
}

/// The outline as short lines, each point off by a slow wave: as two waves along
/// the way whose lengths share no measure never repeat, no two strokes stray alike.
fn strayed(path: &BezPath) -> Vec<(Point, Point)> {
    const PIECES: u32 = 24;
    let mut lines = Vec::new();
    let off = |p: Point| {
        let (a, b) = (
            (0.011 * p.x + 0.017 * p.y).sin(),
            (0.023 * p.x - 0.009 * p.y).cos(),
        );
        p + STRAY * Vec2::new(a, b)
    };
    for segment in path.segments() {
        let pieces = match segment {
            PathSeg::Line(l) => (l.p0.distance(l.p1) / 10.0).ceil().max(1.0) as u32,
            _ => PIECES,
        };
        let at = |k: u32| off(segment.eval(f64::from(k) / f64::from(pieces)));
        lines.extend((0..pieces).map(|k| (at(k), at(k + 1))));
    }
    lines
}
