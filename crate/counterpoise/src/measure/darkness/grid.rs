//! The grid that a line is drawn on, and the bounds that keep it small.

use kurbo::{Point, Rect};

/// Pixels for each standard deviation of the blur. The blurred picture holds
/// next to nothing finer than 2; with 3 the pixel's own box, a third of it wide,
/// can be taken off the blur without leaving a trace.
const FINENESS: f64 = 3.0;

/// The most pixels of a picture: 8 MiB of coverage, some 400 letters of text at
/// the default setting. A longer line is drawn coarser.
pub(super) const MOST_PIXELS: f64 = 2_097_152.0;

/// The most pixels that the letters take together, each with its own body: more
/// only if they lie over each other. Bounds the time as the above bounds memory.
const MOST_DRAWN: f64 = 2.0 * MOST_PIXELS;

/// The most pixels along one side: single precision still tells a place to a
/// 256th of a pixel there.
const MOST_SIDE: f64 = 65_536.0;

/// How far the blur reaches, in standard deviations: past 4 of them lie 6 parts
/// in 100,000 of its weight.
const REACH: f64 = 4.0;

/// The most pixels that outlines pass through, each segment counted by the
/// reach of its whole letter: hundreds of times what a line of text needs, half
/// a second of a hostile one.
const MOST_PASSED: f64 = 1e8;

/// What is to be held by a grid: a letter's ink, or its body.
#[derive(Debug, Clone, Copy)]
pub(super) struct Part {
    pub(super) place: Rect,
    /// Segments of its outline; none of a body.
    pub(super) segments: usize,
}

/// A grid over the plane of the letters. Row 0 is the uppermost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Grid {
    pub(super) width: usize,
    pub(super) height: usize,
    /// Font units a pixel.
    pub(super) pixel: f64,
    /// The upper left corner, font units.
    pub(super) origin: Point,
    /// How far the blur reaches, pixels.
    pub(super) reach: usize,
}

impl Grid {
    /// The grid for a line of some parts; `None` of none. `fineness` is pixels
    /// for each standard deviation, `shift` moves the grid by part of a pixel:
    /// neither may be seen in the figures.
    pub(super) fn over(parts: &[Part], sigma: f64, fineness: f64, shift: Point) -> Option<Self> {
        let all = parts.iter().map(|p| p.place).reduce(|a, b| a.union(b))?;
        let most_length = all.width().max(all.height());
        let mut pixel = (sigma / fineness).max(most_length / MOST_SIDE);
        loop {
            let reach = (REACH * sigma / pixel).ceil() + 1.0;
            let side = |length: f64| (length / pixel).ceil() + 2.0 * reach + 1.0;
            let (width, height) = (side(all.width()), side(all.height()));
            let (mut drawn, mut passed) = (0.0, 0.0);
            for part in parts {
                let (w, h) = (part.place.width() / pixel, part.place.height() / pixel);
                // Each is at least one pixel, which no coarseness saves.
                drawn += (w + 1.0) * (h + 1.0) - 1.0;
                passed += part.segments as f64 * (w + h);
            }
            if width * height <= MOST_PIXELS
                && width <= MOST_SIDE
                && height <= MOST_SIDE
                && drawn <= MOST_DRAWN
                && passed <= MOST_PASSED
            {
                return Some(Self {
                    width: width as usize,
                    height: height as usize,
                    pixel,
                    origin: Point::new(
                        all.x0 - (reach + shift.x) * pixel,
                        all.y1 + (reach + shift.y) * pixel,
                    ),
                    reach: reach as usize,
                });
            }
            // Small steps, so that a line just too long loses little.
            pixel *= 1.1;
        }
    }

    /// The grid at the default fineness.
    pub(super) fn fit(parts: &[Part], sigma: f64) -> Option<Self> {
        Self::over(parts, sigma, FINENESS, Point::ZERO)
    }

    /// Where a place in font units falls, in pixels from the upper left corner.
    pub(super) fn column(&self, x: f64) -> f64 {
        (x - self.origin.x) / self.pixel
    }

    /// As [`Grid::column`], downwards.
    pub(super) fn row(&self, y: f64) -> f64 {
        (self.origin.y - y) / self.pixel
    }
}
