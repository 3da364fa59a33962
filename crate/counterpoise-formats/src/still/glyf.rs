//! Quadratic outlines at a position: every point moved as gvar says, with the
//! same points on the same curves (OpenType, gvar).

use super::Place;
use super::glyph::{Bounds, Glyph};
use super::iup::{self, Moves};
use super::metrics::Metrics;
use crate::FormatError;
use crate::sfnt::{Tables, short, u16_at, u32_at};
use read_fonts::tables::gvar::{GlyphVariationData, Gvar};
use read_fonts::types::GlyphId;
use read_fonts::{FontData, FontRead};

/// Points times variations that are worked through. Ten times what the largest
/// open variable fonts take; a hostile file could ask for days.
const MOST_WORK: usize = 400_000_000;

/// Parts within parts. OpenType allows what maxp says; browsers stop near here.
const DEEPEST: usize = 8;

/// Points of one composite that are looked at for its box.
const MOST_POINTS: usize = 100_000;

/// Moves the outlines, and with them the advances where no table gives those.
pub(super) fn vary(
    tables: &mut Tables<'_>,
    place: &Place,
    metrics: &mut Metrics,
) -> Result<(), FormatError> {
    let (glyphs, lefts) = moved(tables, place, metrics)?;
    let mut glyf = Vec::new();
    let mut loca: Vec<u8> = 0_u32.to_be_bytes().to_vec();
    for (id, glyph) in glyphs.iter().enumerate() {
        let mut bounds = Bounds::NONE;
        let mut left = MOST_POINTS;
        gather(&glyphs, glyph, &mut |p| p, &mut bounds, DEEPEST, &mut left);
        if !bounds.is_none() {
            metrics.set_bearing(id, short(bounds.low[0] - lefts[id]));
        }
        glyf.extend(glyph.write(bounds));
        glyf.resize(glyf.len().next_multiple_of(4), 0);
        let end = u32::try_from(glyf.len()).map_err(|_| FormatError::TooMuch)?;
        loca.extend(end.to_be_bytes());
    }
    tables.put(*b"glyf", glyf);
    tables.put(*b"loca", loca);
    const LONG_OFFSETS: usize = 50;
    if let Some(head) = tables.change(b"head") {
        crate::sfnt::put_u16(head, LONG_OFFSETS, 1);
    }
    // Instructions are for the shapes that were drawn.
    tables.drop(&[*b"gvar", *b"cvar", *b"fpgm", *b"prep", *b"cvt "]);
    Ok(())
}

/// Every glyph at the position, and where each one's origin went.
fn moved(
    tables: &Tables<'_>,
    place: &Place,
    metrics: &mut Metrics,
) -> Result<(Vec<Glyph>, Vec<f64>), FormatError> {
    let (Some(glyf), Some(loca)) = (tables.get(b"glyf"), tables.get(b"loca")) else {
        return Err(FormatError::Variations);
    };
    let long = tables.get(b"head").and_then(|t| u16_at(t, 50)) == Some(1);
    let offset = |i: usize| {
        if long {
            u32_at(loca, 4 * i).map(|o| o as usize)
        } else {
            u16_at(loca, 2 * i).map(|o| 2 * usize::from(o))
        }
    };
    let gvar = tables
        .get(b"gvar")
        .and_then(|t| Gvar::read(FontData::new(t)).ok());
    let gvar = gvar.ok_or(FormatError::Variations)?;
    let mut work = 0;
    let mut glyphs = Vec::new();
    let mut lefts = Vec::new();
    for id in 0..usize::from(tables.glyph_count()) {
        let range = offset(id).zip(offset(id + 1));
        let data = range
            .and_then(|(from, to)| glyf.get(from..to))
            .unwrap_or_default();
        let mut glyph = Glyph::read(data);
        let x_min = crate::sfnt::i16_at(data, 2).map_or(0.0, f64::from);
        let origin = x_min - f64::from(metrics.bearing(id));
        let mut left = origin;
        if let Ok(Some(varied)) = gvar.glyph_variation_data(GlyphId::new(id as u32)) {
            let mut points = glyph.points();
            let advance = f64::from(metrics.advance(id));
            // The four points past the outline's own: the origin and the advance,
            // and their likes for lines that run down.
            points.extend([[origin, 0.0], [origin + advance, 0.0], [0.0; 2], [0.0; 2]]);
            let moves = moves(&varied, place, &glyph, &points, &mut work)?;
            for (point, step) in points.iter_mut().zip(&moves) {
                point[0] += step[0];
                point[1] += step[1];
            }
            let own = points.len() - 4;
            glyph.place(&points[..own]);
            left = points[own][0];
            metrics.set_advance(id, points[own + 1][0] - left);
        }
        lefts.push(left);
        glyphs.push(glyph);
    }
    Ok((glyphs, lefts))
}

/// How far each point goes.
fn moves(
    varied: &GlyphVariationData<'_>,
    place: &Place,
    glyph: &Glyph,
    points: &[[f64; 2]],
    work: &mut usize,
) -> Result<Vec<[f64; 2]>, FormatError> {
    let mut total = vec![[0.0; 2]; points.len()];
    for tuple in varied.tuples() {
        *work += 1;
        let Some(scalar) = tuple.compute_scalar_f32(&place.coordinates) else {
            continue;
        };
        *work += points.len();
        if *work > MOST_WORK {
            return Err(FormatError::TooMuch);
        }
        let mut moves: Moves = vec![None; points.len()];
        for delta in tuple.deltas() {
            if let Some(step) = moves.get_mut(usize::from(delta.position)) {
                *step = Some([f64::from(delta.x_delta), f64::from(delta.y_delta)]);
            }
        }
        if let Glyph::Simple(simple) = glyph
            && !tuple.has_deltas_for_all_points()
        {
            iup::infer(points, &simple.ends, &mut moves);
        }
        for (sum, step) in total.iter_mut().zip(moves) {
            let [x, y] = step.unwrap_or_default();
            sum[0] += f64::from(scalar) * x;
            sum[1] += f64::from(scalar) * y;
        }
    }
    Ok(total)
}

/// Puts the points of a glyph and of all that it is made of into a box.
fn gather(
    glyphs: &[Glyph],
    glyph: &Glyph,
    apply: &mut dyn FnMut([f64; 2]) -> [f64; 2],
    bounds: &mut Bounds,
    deep: usize,
    left: &mut usize,
) {
    match glyph {
        Glyph::Kept(data) => {
            // Its own box stands in for it.
            let corner = |i: usize| crate::sfnt::i16_at(data, 2 * i).map(f64::from);
            if let (Some(a), Some(b), Some(c), Some(d)) =
                (corner(1), corner(2), corner(3), corner(4))
            {
                bounds.add(apply([a, b]));
                bounds.add(apply([c, d]));
            }
        }
        Glyph::Simple(simple) => {
            for &point in simple.points.iter().take(*left) {
                bounds.add(apply(point));
            }
            *left = left.saturating_sub(simple.points.len());
        }
        Glyph::Composite(parts) => {
            for part in parts {
                let Some(other) = glyphs.get(usize::from(part.glyph)) else {
                    continue;
                };
                *left = left.saturating_sub(1);
                if deep > 0 && *left > 0 {
                    gather(
                        glyphs,
                        other,
                        &mut |p| apply(part.apply(p)),
                        bounds,
                        deep - 1,
                        left,
                    );
                }
            }
        }
    }
}
