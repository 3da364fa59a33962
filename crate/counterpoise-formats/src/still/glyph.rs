//! A glyph of the glyf table: read, moved, written (OpenType, glyf).

use crate::sfnt::{i16_at, short, u16_at};

/// Bytes before a glyph's contours or components.
const HEADER: usize = 10;

/// One glyph.
#[derive(Debug, Clone)]
pub(super) enum Glyph {
    /// No ink, or data that cannot be read: kept as it is.
    Kept(Vec<u8>),
    /// Contours of its own.
    Simple(Simple),
    /// Other glyphs, placed.
    Composite(Vec<Component>),
}

/// Contours.
#[derive(Debug, Clone)]
pub(super) struct Simple {
    /// The last point of each contour.
    pub(super) ends: Vec<u16>,
    /// The points.
    pub(super) points: Vec<[f64; 2]>,
    /// Of each point, whether it lies on the curve, and what else the format
    /// says of it beside its place (overlaps, cubic curves).
    kinds: Vec<u8>,
}

/// A glyph placed in another.
#[derive(Debug, Clone)]
pub(super) struct Component {
    pub(super) glyph: u16,
    flags: u16,
    /// Its offset, or the two points that are to meet.
    pub(super) place: [f64; 2],
    /// The bytes of its scale, as they are.
    scale: Vec<u8>,
}

impl Component {
    /// Whether it is placed by an offset.
    pub(super) fn by_offset(&self) -> bool {
        self.flags & 0x0002 != 0
    }

    /// Where a point of the component comes to lie.
    pub(super) fn apply(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let f = |i: usize| i16_at(&self.scale, 2 * i).map_or(0.0, |v| f64::from(v) / 16384.0);
        let (xx, yx, xy, yy) = match self.scale.len() {
            2 => (f(0), 0.0, 0.0, f(0)),
            4 => (f(0), 0.0, 0.0, f(1)),
            8 => (f(0), f(1), f(2), f(3)),
            _ => (1.0, 0.0, 0.0, 1.0),
        };
        let [dx, dy] = if self.by_offset() {
            self.place
        } else {
            [0.0; 2]
        };
        [xx * x + xy * y + dx, yx * x + yy * y + dy]
    }
}

/// The smallest box with all points in it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Bounds {
    pub(super) low: [f64; 2],
    pub(super) high: [f64; 2],
}

impl Bounds {
    pub(super) const NONE: Self = Self {
        low: [f64::INFINITY; 2],
        high: [f64::NEG_INFINITY; 2],
    };

    pub(super) fn add(&mut self, point: [f64; 2]) {
        for ((low, high), p) in self.low.iter_mut().zip(&mut self.high).zip(point) {
            *low = low.min(p);
            *high = high.max(p);
        }
    }

    pub(super) fn is_none(&self) -> bool {
        self.low[0] > self.high[0]
    }
}

impl Glyph {
    pub(super) fn read(data: &[u8]) -> Self {
        let read = match i16_at(data, 0) {
            Some(0) | None => None,
            Some(n) if n > 0 => simple(data, n as usize).map(Self::Simple),
            Some(_) => composite(data).map(Self::Composite),
        };
        read.unwrap_or_else(|| Self::Kept(data.to_vec()))
    }

    /// What a variation moves: points, or the components' offsets.
    pub(super) fn points(&self) -> Vec<[f64; 2]> {
        match self {
            Self::Kept(_) => Vec::new(),
            Self::Simple(simple) => simple.points.clone(),
            Self::Composite(parts) => parts
                .iter()
                .map(|p| if p.by_offset() { p.place } else { [0.0; 2] })
                .collect(),
        }
    }

    /// Moves what [`Glyph::points`] gave, in its order, and rounds.
    pub(super) fn place(&mut self, places: &[[f64; 2]]) {
        let round = |p: &[f64; 2]| p.map(|v| f64::from(short(v)));
        match self {
            Self::Kept(_) => {}
            Self::Simple(simple) => simple.points = places.iter().map(round).collect(),
            Self::Composite(parts) => {
                for (part, place) in parts.iter_mut().zip(places) {
                    if part.by_offset() {
                        part.place = round(place);
                    }
                }
            }
        }
    }

    /// The glyph's bytes, without its instructions: they are for the shape that
    /// it was drawn in.
    pub(super) fn write(&self, bounds: Bounds) -> Vec<u8> {
        let (contours, body) = match self {
            Self::Kept(data) => return data.clone(),
            Self::Simple(simple) => (simple.ends.len() as i16, simple.write()),
            Self::Composite(parts) => (-1, write_parts(parts)),
        };
        let mut data = contours.to_be_bytes().to_vec();
        let corners = if bounds.is_none() {
            [0.0; 4]
        } else {
            [bounds.low[0], bounds.low[1], bounds.high[0], bounds.high[1]]
        };
        data.extend(corners.into_iter().flat_map(|v| short(v).to_be_bytes()));
        data.extend(body);
        data
    }
}

impl Simple {
    fn write(&self) -> Vec<u8> {
        const REPEAT: u8 = 0x08;
        let mut data: Vec<u8> = self.ends.iter().flat_map(|e| e.to_be_bytes()).collect();
        data.extend([0, 0]);
        let mut flags: Vec<u8> = Vec::new();
        let (mut xs, mut ys) = (Vec::new(), Vec::new());
        let mut before = [0.0; 2];
        for (point, kind) in self.points.iter().zip(&self.kinds) {
            let x = step(point[0] - before[0], &mut xs);
            let y = step(point[1] - before[1], &mut ys);
            flags.push(kind | (x << 1) & 0x12 | (y << 2) & 0x24);
            before = *point;
        }
        let mut i = 0;
        while i < flags.len() {
            let same = flags[i..]
                .iter()
                .take(256)
                .take_while(|&&f| f == flags[i])
                .count();
            if same > 1 {
                data.extend([flags[i] | REPEAT, (same - 1) as u8]);
            } else {
                data.push(flags[i]);
            }
            i += same;
        }
        data.extend(xs);
        data.extend(ys);
        data
    }
}

/// Writes a step between two points; bit 0 says that it takes one byte, bit 3
/// that it is positive or, with bit 0 unset, that there is none.
fn step(step: f64, out: &mut Vec<u8>) -> u8 {
    if step == 0.0 {
        return 0b1000;
    }
    if step.abs() < 256.0 {
        out.push(step.abs() as u8);
        return if step > 0.0 { 0b1001 } else { 0b0001 };
    }
    // Two points may lie farther apart than a step can be: readers count on in
    // sixteen bits, and so does this.
    out.extend(((step as i32) as i16).to_be_bytes());
    0
}

fn simple(data: &[u8], contours: usize) -> Option<Simple> {
    let mut ends = Vec::with_capacity(contours.min(data.len() / 2));
    for i in 0..contours {
        let end = u16_at(data, HEADER + 2 * i)?;
        if ends.last().is_some_and(|&last| end < last) {
            return None;
        }
        ends.push(end);
    }
    let count = usize::from(*ends.last()?) + 1;
    let mut at = HEADER + 2 * contours;
    at += 2 + usize::from(u16_at(data, at)?);
    let mut flags = Vec::with_capacity(count);
    while flags.len() < count {
        let flag = *data.get(at)?;
        at += 1;
        let mut times = 1;
        if flag & 0x08 != 0 {
            times += usize::from(*data.get(at)?);
            at += 1;
        }
        flags.resize((flags.len() + times).min(count), flag);
    }
    let mut points = vec![[0.0; 2]; count];
    for (axis, (short, same)) in [(0x02, 0x10), (0x04, 0x20)].into_iter().enumerate() {
        let mut value = 0_i16;
        for (point, flag) in points.iter_mut().zip(&flags) {
            if flag & short != 0 {
                let step = i16::from(*data.get(at)?);
                at += 1;
                value = value.wrapping_add(if flag & same != 0 { step } else { -step });
            } else if flag & same == 0 {
                value = value.wrapping_add(i16_at(data, at)?);
                at += 2;
            }
            point[axis] = f64::from(value);
        }
    }
    let kinds = flags.iter().map(|f| f & 0xC1).collect();
    Some(Simple {
        ends,
        points,
        kinds,
    })
}

fn composite(data: &[u8]) -> Option<Vec<Component>> {
    let mut parts = Vec::new();
    let mut at = HEADER;
    loop {
        let flags = u16_at(data, at)?;
        let glyph = u16_at(data, at + 2)?;
        at += 4;
        let byte = |at: usize| data.get(at).copied();
        let place = match (flags & 1 != 0, flags & 2 != 0) {
            (true, true) => [
                f64::from(i16_at(data, at)?),
                f64::from(i16_at(data, at + 2)?),
            ],
            (true, false) => [
                f64::from(u16_at(data, at)?),
                f64::from(u16_at(data, at + 2)?),
            ],
            (false, true) => [byte(at)?, byte(at + 1)?].map(|b| f64::from(b.cast_signed())),
            (false, false) => [byte(at)?, byte(at + 1)?].map(f64::from),
        };
        at += if flags & 1 != 0 { 4 } else { 2 };
        let scale = match flags {
            f if f & 0x08 != 0 => 2,
            f if f & 0x40 != 0 => 4,
            f if f & 0x80 != 0 => 8,
            _ => 0,
        };
        parts.push(Component {
            glyph,
            flags,
            place,
            scale: data.get(at..at + scale)?.to_vec(),
        });
        at += scale;
        if flags & 0x20 == 0 {
            return Some(parts);
        }
    }
}

fn write_parts(parts: &[Component]) -> Vec<u8> {
    const INSTRUCTIONS: u16 = 0x0100;
    const WORDS: u16 = 0x0001;
    let mut data = Vec::new();
    for part in parts {
        data.extend((part.flags & !INSTRUCTIONS | WORDS).to_be_bytes());
        data.extend(part.glyph.to_be_bytes());
        for v in part.place {
            // Numbers of points go to 65,535, offsets to 32,767 either way.
            data.extend(((v as i32) as u16).to_be_bytes());
        }
        data.extend(&part.scale);
    }
    data
}
