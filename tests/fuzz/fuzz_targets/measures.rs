//! Outlines that nobody would draw, given to every measure: no panic, and no
//! figure that is no number.
#![no_main]

use counterpoise::measure::{self, Context, QUANTITIES, Subject};
use counterpoise::outline::Outline;
use kurbo::{BezPath, Point};
use libfuzzer_sys::fuzz_target;
use std::sync::LazyLock;

/// Segments of an outline; the measures' own bounds are tried by the fonts.
const SEGMENTS: usize = 300;

static CONTEXT: LazyLock<Context> = LazyLock::new(|| {
    let sample = counterpoise_samples::truetype(&counterpoise_samples::clean()).expect("the sample");
    Context::of(&counterpoise::font::Font::open(sample).expect("the sample opens"))
});

/// Reads places from bytes: whole units, or with fractions, near each other or far.
struct Places<'a>(&'a [u8]);

impl Places<'_> {
    fn byte(&mut self) -> Option<u8> {
        let (&first, rest) = self.0.split_first()?;
        self.0 = rest;
        Some(first)
    }

    fn number(&mut self) -> Option<f64> {
        let kind = self.byte()?;
        let value = i16::from_be_bytes([self.byte()?, self.byte()?]);
        Some(match kind % 4 {
            0 => f64::from(value % 1024),
            1 => f64::from(value),
            2 => f64::from(value) / 64.0,
            _ => f64::from(value % 16) * 1e-6 + 500.0,
        })
    }

    fn point(&mut self) -> Option<Point> {
        Some(Point::new(self.number()?, self.number()?))
    }
}

fn path(places: &mut Places<'_>) -> Option<BezPath> {
    let mut path = BezPath::new();
    path.move_to(places.point()?);
    for _ in 0..SEGMENTS {
        let Some(kind) = places.byte() else { break };
        let mut next = || places.point();
        let Some(first) = next() else { break };
        match kind % 8 {
            0..=2 => path.line_to(first),
            3 | 4 => match next() {
                Some(end) => path.quad_to(first, end),
                None => break,
            },
            5 | 6 => match (next(), next()) {
                (Some(second), Some(end)) => path.curve_to(first, second, end),
                _ => break,
            },
            _ => {
                path.close_path();
                path.move_to(first);
            }
        }
    }
    path.close_path();
    Some(path)
}

fuzz_target!(|data: &[u8]| {
    let Some(path) = path(&mut Places(data)) else {
        return;
    };
    let outline = Outline::from_path(&path);
    let letter = measure::of_outline(&outline, 600.0, &CONTEXT);
    for character in [Some('H'), Some('o'), None] {
        let subject = Subject {
            letter: &letter,
            character,
            context: &CONTEXT,
        };
        for quantity in QUANTITIES {
            if let Some(figure) = (quantity.of)(&subject) {
                assert!(figure.is_finite(), "{figure}");
            }
        }
    }
    for stroke in &letter.strokes {
        assert!(stroke.median.is_finite() && stroke.length.is_finite());
    }
});
