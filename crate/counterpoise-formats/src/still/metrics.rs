//! Advances, side bearings and heights at a position (OpenType, HVAR and MVAR).

use super::Place;
use crate::sfnt::{Tables, i16_at, put_u16, short, u16_at};
use read_fonts::tables::hvar::Hvar;
use read_fonts::tables::mvar::Mvar;
use read_fonts::types::{GlyphId, Tag};
use read_fonts::{FontData, FontRead};

/// Horizontal metrics of every glyph.
#[derive(Debug, Clone)]
pub(super) struct Metrics {
    advances: Vec<u16>,
    bearings: Vec<i16>,
}

impl Metrics {
    /// From hmtx; what it lacks is 0.
    pub(super) fn read(tables: &Tables<'_>) -> Self {
        let count = usize::from(tables.glyph_count());
        let long = tables
            .get(b"hhea")
            .and_then(|t| u16_at(t, 34))
            .map_or(0, usize::from);
        let hmtx = tables.get(b"hmtx").unwrap_or_default();
        let (mut advances, mut bearings) = (Vec::with_capacity(count), Vec::with_capacity(count));
        for id in 0..count {
            let last = long.saturating_sub(1);
            advances.push(u16_at(hmtx, 4 * id.min(last)).unwrap_or(0));
            let at = if id < long {
                4 * id + 2
            } else {
                4 * long + 2 * (id - long)
            };
            bearings.push(i16_at(hmtx, at).unwrap_or(0));
        }
        Self { advances, bearings }
    }

    pub(super) fn advance(&self, id: usize) -> u16 {
        self.advances.get(id).copied().unwrap_or(0)
    }

    pub(super) fn bearing(&self, id: usize) -> i16 {
        self.bearings.get(id).copied().unwrap_or(0)
    }

    pub(super) fn set_advance(&mut self, id: usize, advance: f64) {
        if let Some(place) = self.advances.get_mut(id) {
            *place = (advance + 0.5).floor().clamp(0.0, f64::from(u16::MAX)) as u16;
        }
    }

    pub(super) fn set_bearing(&mut self, id: usize, bearing: i16) {
        if let Some(place) = self.bearings.get_mut(id) {
            *place = bearing;
        }
    }

    /// Takes the advances that HVAR gives, which go before the outlines' own;
    /// `before` holds those of the file.
    pub(super) fn vary(&mut self, tables: &Tables<'_>, place: &Place, before: &Self) {
        let hvar = tables
            .get(b"HVAR")
            .and_then(|t| Hvar::read(FontData::new(t)).ok());
        let Some(hvar) = hvar else { return };
        for id in 0..self.advances.len() {
            if let Some(step) = hvar.advance_delta(GlyphId::new(id as u32), &place.coordinates) {
                self.set_advance(id, f64::from(before.advance(id)) + step.to_f64());
            }
        }
    }

    pub(super) fn write(&self, tables: &mut Tables<'_>) {
        let mut hmtx = Vec::with_capacity(4 * self.advances.len());
        for (advance, bearing) in self.advances.iter().zip(&self.bearings) {
            hmtx.extend(advance.to_be_bytes());
            hmtx.extend(bearing.to_be_bytes());
        }
        tables.put(*b"hmtx", hmtx);
        if let Some(hhea) = tables.change(b"hhea") {
            put_u16(hhea, 10, self.advances.iter().copied().max().unwrap_or(0));
            put_u16(hhea, 34, self.advances.len() as u16);
        }
        tables.drop(&[*b"HVAR", *b"VVAR", *b"hdmx", *b"LTSH", *b"VDMX"]);
    }
}

/// Where a height that MVAR varies stands (OpenType, MVAR, "Value tags").
const HEIGHTS: [(&[u8; 4], &[u8; 4], usize); 9] = [
    (b"hasc", b"OS/2", 68),
    (b"hdsc", b"OS/2", 70),
    (b"hlgp", b"OS/2", 72),
    (b"hcla", b"OS/2", 74),
    (b"hcld", b"OS/2", 76),
    (b"xhgt", b"OS/2", 86),
    (b"cpht", b"OS/2", 88),
    (b"undo", b"post", 8),
    (b"unds", b"post", 10),
];

/// Heights that vary, and what the axes themselves declare: weight, width, slant.
pub(super) fn declared(tables: &mut Tables<'_>, place: &Place) {
    let mut changes = Vec::new();
    let mvar = tables
        .get(b"MVAR")
        .and_then(|t| Mvar::read(FontData::new(t)).ok());
    if let Some(at) = mvar.as_ref().and_then(|m| m.at(&place.coordinates)) {
        for (value, table, offset) in HEIGHTS {
            let old = tables.get(table).and_then(|t| i16_at(t, offset));
            if let (Some(step), Some(old)) = (at.get(Tag::new(value)), old) {
                let new = short(f64::from(old) + step.to_f64());
                changes.push((*table, offset, new.cast_unsigned()));
            }
        }
    }
    if let Some(weight) = place.value(*b"wght") {
        changes.push((*b"OS/2", 4, weight.round().clamp(1.0, 1000.0) as u16));
    }
    if let Some(width) = place.value(*b"wdth") {
        changes.push((*b"OS/2", 6, width_class(width)));
    }
    if let Some(slant) = place.value(*b"slnt") {
        // The angle is a number of 16 bits before the point and 16 after.
        let angle = (slant.clamp(-90.0, 90.0) * 65536.0).round() as i32;
        changes.push((*b"post", 4, ((angle.cast_unsigned()) >> 16) as u16));
        changes.push((*b"post", 6, (angle.cast_unsigned() & 0xFFFF) as u16));
    }
    for (table, offset, value) in changes {
        if let Some(table) = tables.change(&table) {
            put_u16(table, offset, value);
        }
    }
    tables.drop(&[*b"MVAR"]);
}

/// The class whose width is nearest (OpenType, OS/2, usWidthClass).
fn width_class(percent: f64) -> u16 {
    const WIDTHS: [f64; 9] = [50.0, 62.5, 75.0, 87.5, 100.0, 112.5, 125.0, 150.0, 200.0];
    let far = |w: &f64| (w - percent).abs();
    let nearest = (1..)
        .zip(WIDTHS)
        .min_by(|(_, a), (_, b)| far(a).total_cmp(&far(b)));
    nearest.map_or(5, |(class, _)| class)
}
