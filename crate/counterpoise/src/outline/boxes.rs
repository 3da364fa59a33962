//! The boxes of an outline's segments, laid out so that a line is held against
//! several of them at once: most rays miss most segments, and a letter is read
//! by hundreds of rays.

use super::{Ray, Segment};
use kurbo::Rect;

/// Boxes in a block: neighbours on a contour lie near each other, so that a line
/// misses most blocks whole, and what two or four lanes of a processor's
/// arithmetic divide.
const LANES: usize = 4;

/// Rounding in the box must not lose a crossing at its very edge.
const SLACK: f64 = 1e-6;

/// The boxes, in the order of the segments.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Boxes {
    blocks: Vec<Block>,
}

/// Centres of some boxes, and half their extents.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Block {
    x: [f64; LANES],
    y: [f64; LANES],
    half_width: [f64; LANES],
    half_height: [f64; LANES],
    /// The box of them all.
    whole: Rect,
}

impl Block {
    /// Boxes so small that no line meets them: what is left over of the last block.
    const EMPTY: Self = Self {
        x: [0.0; LANES],
        y: [0.0; LANES],
        half_width: [f64::NEG_INFINITY; LANES],
        half_height: [f64::NEG_INFINITY; LANES],
        whole: Rect::ZERO,
    };

    fn of(segments: &[Segment]) -> Self {
        let mut block = Self::EMPTY;
        for (i, segment) in segments.iter().enumerate().take(LANES) {
            let b = segment.bounds();
            block.x[i] = 0.5 * (b.x0 + b.x1);
            block.y[i] = 0.5 * (b.y0 + b.y1);
            block.half_width[i] = 0.5 * (b.x1 - b.x0);
            block.half_height[i] = 0.5 * (b.y1 - b.y0);
        }
        let boxes = segments.iter().map(Segment::bounds);
        block.whole = boxes.reduce(|a, b| a.union(b)).unwrap_or_default();
        block
    }
}

impl Boxes {
    pub(super) fn of(segments: &[Segment]) -> Self {
        Self {
            blocks: segments.chunks(LANES).map(Block::of).collect(),
        }
    }

    /// Tells of each segment whose box a line meets: its index, and between which
    /// distances along the line the box lies.
    #[inline]
    pub(super) fn met_by(&self, ray: &Ray, mut met: impl FnMut(usize, f64, f64)) {
        let (o, d) = (ray.origin(), ray.direction());
        let (dx, dy) = (d.x.abs(), d.y.abs());
        for (number, b) in self.blocks.iter().enumerate() {
            let (w, h) = (0.5 * b.whole.width(), 0.5 * b.whole.height());
            let aside = d.x * (b.whole.y0 + h - o.y) - d.y * (b.whole.x0 + w - o.x);
            if aside.abs() > h * dx + w * dy + SLACK {
                continue;
            }
            let mut hits = 0_u32;
            for i in 0..LANES {
                let aside = d.x * (b.y[i] - o.y) - d.y * (b.x[i] - o.x);
                let reach = b.half_height[i] * dx + b.half_width[i] * dy;
                hits |= u32::from(aside.abs() <= reach + SLACK) << i;
            }
            while hits != 0 {
                let i = hits.trailing_zeros() as usize;
                hits &= hits - 1;
                let middle = d.x * (b.x[i] - o.x) + d.y * (b.y[i] - o.y);
                let reach = b.half_width[i] * dx + b.half_height[i] * dy;
                met(number * LANES + i, middle - reach, middle + reach);
            }
        }
    }
}
