//! Letters of an open font as a scanner would see them: 300 dots an inch, laid on
//! askew, lit from one side, grainy. Stems and widths are what the outlines say.

use crate::{Fonts, face, open};
use ab_glyph_rasterizer::{Point as At, Rasterizer};
use counterpoise::font::Font;
use counterpoise::measure::strokes::StrokeKind;
use counterpoise::measure::{self, Context, Letter};
use counterpoise::outline::Outline;
use counterpoise_checks::manifest::Face;
use counterpoise_scan::decode::decode;
use counterpoise_scan::letters::{Scan, read};
use counterpoise_scan::straighten::by_points;
use counterpoise_scan::strokes::Run;
use counterpoise_scan::trace::beside;
use kurbo::{Affine, PathSeg, Point};
use libtest_mimic::{Failed, Trial};
use std::sync::Arc;

/// Stems agree with the outline's within this share, widths too.
const STEM: f64 = 0.03;

/// Skew is laid on by this, and told within that, degrees.
const SKEW: f64 = 2.0;
const TOLD: f64 = 0.3;

/// Capitals are drawn this high, in inches, and scanned at so many dots an inch.
const CAPITAL: f64 = 0.8;
const DOTS: f64 = 300.0;

/// Grain: the standard deviation of a pixel's shade, of 255.
const GRAIN: f64 = 9.0;

/// Of a picture that fits, the outline lies from the ink by no more than this at
/// the median, pixels.
const TRACED: f64 = 0.5;

pub(crate) fn trials(fonts: &Arc<Fonts>) -> Result<Vec<Trial>, Failed> {
    let mut all = Vec::new();
    for id in ["sourcesans", "roboto-slab"] {
        for (what, run) in [
            ("stems of a straightened sketch", stems as fn(&Face) -> _),
            ("skew of a row", skew),
            ("outline over its own ink", traced),
        ] {
            all.push(fonts.check(
                format!("scan::{what}::{id}"),
                vec![face(id)?],
                move |faces| faces.iter().try_for_each(run),
            ));
        }
    }
    Ok(all)
}

struct Sketch {
    font: Font,
    context: Context,
    /// Pixels a font unit.
    scale: f64,
}

impl Sketch {
    fn of(face: &Face) -> Result<Self, Failed> {
        let font = open(face)?;
        let context = Context::of(&font);
        let cap = context
            .drawn(measure::GuideKind::CapHeight)
            .ok_or("no capitals")?;
        Ok(Self {
            scale: CAPITAL * DOTS / cap,
            font,
            context,
        })
    }

    fn letter(&self, c: char) -> Result<(Outline, Letter), Failed> {
        let reader = self.font.reader();
        let glyph = reader.glyph(c).ok_or_else(|| format!("no {c}"))?;
        let outline = reader.outline(glyph).map_err(|e| e.to_string())?;
        let letter = measure::of_outline(&outline, reader.advance(glyph), &self.context);
        Ok((outline, letter))
    }

    /// A PNG of a row of letters, and where its baseline's two ends are.
    fn png(&self, text: &str, askew: f64) -> Result<(Vec<u8>, [[f64; 2]; 2]), Failed> {
        let mut pen = 0.0;
        let mut placed = Vec::new();
        for c in text.chars() {
            let (outline, letter) = self.letter(c)?;
            placed.push(outline.transformed(Affine::translate((pen, 0.0))));
            pen += letter.advance + 0.1 * f64::from(self.font.units_per_em());
        }
        let (width, height) = ((pen * self.scale + 240.0) as usize, 560);
        let turn = Affine::rotate_about(askew.to_radians(), Point::new(0.5 * width as f64, 280.0));
        let map = turn
            * Affine::translate((120.0, 400.0))
            * Affine::scale_non_uniform(self.scale, -self.scale);
        let mut raster = Rasterizer::new(width, height);
        for outline in &placed {
            for segment in outline.segments() {
                draw(&mut raster, map * segment.path_seg());
            }
        }
        let mut pixels = vec![0_u8; width * height];
        let mut noise = fastrand::Rng::with_seed(7);
        raster.for_each_pixel(|i, coverage| {
            let light = 0.62 + 0.38 * (i % width) as f64 / width as f64;
            let shade = 235.0 - 195.0 * f64::from(coverage.abs().min(1.0));
            // The sum of twelve even numbers is near to normal.
            let grain: f64 = (0..12).map(|_| noise.f64()).sum::<f64>() - 6.0;
            pixels[i] = (shade * light + GRAIN * grain).clamp(0.0, 255.0) as u8;
        });
        let mut out = Vec::new();
        let mut encoder = png::Encoder::new(&mut out, width as u32, height as u32);
        encoder.set_color(png::ColorType::Grayscale);
        let mut writer = encoder.write_header()?;
        writer.write_image_data(&pixels)?;
        drop(writer);
        let end = |x: f64| {
            let p = map * Point::new(x, 0.0);
            [p.x, p.y]
        };
        Ok((out, [end(0.0), end(pen)]))
    }
}

fn draw(raster: &mut Rasterizer, seg: PathSeg) {
    let p = |p: Point| At {
        x: p.x as f32,
        y: p.y as f32,
    };
    match seg {
        PathSeg::Line(l) => raster.draw_line(p(l.p0), p(l.p1)),
        PathSeg::Quad(q) => raster.draw_quad(p(q.p0), p(q.p1), p(q.p2)),
        PathSeg::Cubic(c) => raster.draw_cubic(p(c.p0), p(c.p1), p(c.p2), p(c.p3)),
    }
}

fn scanned(png: &[u8], angle: Option<f64>) -> Result<Scan, Failed> {
    let decoded = decode(png).map_err(|e| e.to_string())?;
    Ok(read(&decoded.grey, angle).map_err(|e| e.to_string())?)
}

fn stems(face: &Face) -> Result<(), Failed> {
    let sketch = Sketch::of(face)?;
    for c in "HnROi".chars() {
        let (outline, letter) = sketch.letter(c)?;
        let (png, [a, b]) = sketch.png(&c.to_string(), SKEW)?;
        let scan = scanned(&png, by_points(a, b))?;
        let [found] = &scan.letters[..] else {
            return Err(format!("{c}: {} letters were found", scan.letters.len()).into());
        };
        let width = |o: &Outline| o.bounds().map_or(0.0, |b| b.width());
        let (was, is) = (width(&outline), width(&found.outline) / sketch.scale);
        if (is / was - 1.0).abs() > STEM {
            return Err(format!("{c}: {was:.1} units wide, {is:.1} scanned").into());
        }
        // Stems, or the sides of a round, from left to right.
        let sides: Vec<f64> = {
            let of = |kind| {
                let strokes = letter.strokes.iter().filter(move |s| s.kind == kind);
                let long =
                    strokes.filter(|s| s.length > 0.3 * letter.bounds.map_or(0.0, |b| b.height()));
                long.flat_map(|s| s.marks.iter().filter(|m| m.runs_upright(0.0)))
            };
            let mut all: Vec<_> = of(StrokeKind::Stem).collect();
            if all.is_empty() {
                all = of(StrokeKind::Curve).collect();
            }
            all.sort_by(|a, b| a.centre().x.total_cmp(&b.centre().x));
            all.iter().map(|m| m.value).collect()
        };
        let mut uprights: Vec<_> = found
            .strokes
            .iter()
            .filter(|s| s.run == Run::Upright)
            .collect();
        uprights.sort_by(|a, b| b.length.total_cmp(&a.length));
        uprights.truncate(sides.len());
        uprights.sort_by(|a, b| a.middle.x.total_cmp(&b.middle.x));
        if sides.is_empty() || uprights.len() != sides.len() {
            return Err(format!("{c}: {} of {} uprights", uprights.len(), sides.len()).into());
        }
        let round = letter.strokes.iter().all(|s| s.kind != StrokeKind::Stem);
        for (was, stroke) in sides.iter().zip(uprights) {
            // A round is measured at its side, where it is thickest.
            let pixels = if round {
                stroke.greatest
            } else {
                stroke.thickness
            };
            let is = pixels / sketch.scale;
            println!(
                "{} {c}: {was:.1}, scanned {is:.1} ({:+.2}%)",
                face.id,
                100.0 * (is / was - 1.0)
            );
            if (is / was - 1.0).abs() > STEM {
                return Err(format!("{c}: a stem of {was:.1} was scanned as {is:.1}").into());
            }
        }
    }
    Ok(())
}

fn skew(face: &Face) -> Result<(), Failed> {
    let sketch = Sketch::of(face)?;
    for askew in [-SKEW, 0.0, SKEW] {
        let (png, _) = sketch.png("HEnE", askew)?;
        let scan = scanned(&png, None)?;
        if (scan.skew - askew).abs() > TOLD {
            return Err(format!("{askew} degrees were told as {:.2}", scan.skew).into());
        }
        if scan.letters.len() != 4 {
            return Err(format!("{} letters of 4", scan.letters.len()).into());
        }
        let found = scan.guides.height - scan.guides.baseline;
        let drawn = CAPITAL * DOTS;
        if (found / drawn - 1.0).abs() > 0.02 {
            return Err(format!("capitals of {drawn} pixels were told as {found:.1}").into());
        }
        println!("{}: {askew} degrees told as {:.2}", face.id, scan.skew);
    }
    Ok(())
}

fn traced(face: &Face) -> Result<(), Failed> {
    let sketch = Sketch::of(face)?;
    let (outline, _) = sketch.letter('R')?;
    let (png, _) = sketch.png("R", 0.0)?;
    let scan = scanned(&png, Some(0.0))?;
    let map =
        Affine::translate((120.0, 400.0)) * Affine::scale_non_uniform(sketch.scale, -sketch.scale);
    // Drawn as it is, and 4 pixels too far to the right.
    for (off, aside) in [(0.0, 0.0), (4.0 / sketch.scale, 4.0)] {
        let drawn = outline.transformed(Affine::translate((off, 0.0)));
        let places = beside(
            &scan.levelled,
            &drawn,
            map,
            2.0 / sketch.scale,
            20.0 / sketch.scale,
        );
        let mut all: Vec<f64> = places
            .iter()
            .filter_map(|b| Some(b.distance? * sketch.scale))
            .collect();
        if all.len() * 10 < places.len() * 9 {
            return Err(format!("{} of {} places", all.len(), places.len()).into());
        }
        all.sort_by(f64::total_cmp);
        let at = |share: f64| all[(share * (all.len() - 1) as f64) as usize];
        println!(
            "{}: {aside} pixels aside: {:.2} {:.2} {:.2}",
            face.id,
            at(0.02),
            at(0.5),
            at(0.98)
        );
        let fits = at(0.5).abs() <= TRACED
            && (at(0.98) - aside).abs() <= 2.0 * TRACED
            && (at(0.02) + aside).abs() <= 2.0 * TRACED;
        if !fits {
            return Err(format!("{aside} pixels aside: {:.2} to {:.2}", at(0.02), at(0.98)).into());
        }
    }
    Ok(())
}
