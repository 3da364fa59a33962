//! How the canvas is shared out: a legend at the head, the letters, the brackets
//! of their widths and the reading rows under them, and the deviations at the foot.

use super::scene::Setting;
use kurbo::{Rect, Size};

/// Lines in the strip: one of bars for each measure, and the letters' names.
pub(crate) const STRIP_ROWS: u32 = 3;

/// The strip never takes more of the canvas than this, nor stays when its rows
/// would be too low to tell a bar up from a bar down.
const MOST_STRIP: f64 = 0.3;
const LEAST_ROW: f64 = 14.0;

/// Height of a strip's row and of a reading row, in label heights.
const ROW: f64 = 3.2;
const READING_LEADING: f64 = 1.5;

/// Room at the left for the names of guides and rows, and at the right for what
/// is said of the guides, in label heights. Where that would take a fifth of the
/// canvas the names are short ones, and nothing is said at the right; where even
/// these would take a quarter, there is no room for names. (A quarter: a canvas of
/// 320 pixels, as any is at 400%, still has its letters beside their names.)
const NAMES: f64 = 9.5;
const SHORT_NAMES: f64 = 6.2;
const NOTES: f64 = 8.0;
const MOST_NAMES: f64 = 0.22;
const MOST_SHORT_NAMES: f64 = 0.25;

/// Height of the legend, in label heights.
const LEGEND: f64 = 2.0;

/// Height of a row of brackets, in label heights: a bracket and its figure.
const BRACKET_ROW: f64 = 1.75;

/// Rows of brackets, and the most of the letters' height that they take: where
/// there is less room there are fewer rows, and under the least of them none.
const BRACKET_ROWS: f64 = 4.0;
const LEAST_BRACKET_ROWS: f64 = 3.0;
const MOST_BRACKETS: f64 = 0.34;

/// The parts of the canvas, CSS pixels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Frame {
    /// The whole canvas.
    pub(crate) canvas: Rect,
    /// Where a fitted line stands.
    pub(crate) room: Rect,
    /// Everything above the rows and the strip.
    pub(crate) letters: Rect,
    /// What the marks on the letters mean; of no height if they need no telling.
    pub(crate) legend: Rect,
    /// The brackets of the letters' widths; of no height if hidden.
    pub(crate) widths: Rect,
    /// Whether ink has a second row of brackets.
    pub(crate) crowded: bool,
    /// Height of a row of brackets.
    pub(crate) bracket_row: f64,
    /// The reading rows; of no height if there are none.
    pub(crate) reading: Rect,
    /// The strip, its names in the left-hand part; of no height if hidden.
    pub(crate) strip: Rect,
    /// Width of the column of names at the left; 0 on the narrowest canvases.
    pub(crate) names: f64,
    /// Whether that column holds short names, and there is none at the right.
    pub(crate) short: bool,
    /// Height of a strip's row.
    pub(crate) row: f64,
    /// Height of the line of letters' names above the strip's rows.
    pub(crate) captions: f64,
}

/// Shares out a canvas. `crowded` says that the ink of neighbours overlaps, so
/// that its brackets need a second row.
pub(crate) fn frame(size: Size, label: f64, setting: &Setting, crowded: bool) -> Frame {
    let (w, h) = (size.width, size.height);
    let captions = 1.6 * label;
    let (row, strip) = if setting.layers.strip {
        strip(h, label, captions)
    } else {
        (0.0, 0.0)
    };
    let rows: f64 = setting.reading.iter().map(|size| reading_row(*size)).sum();
    let reading = if rows > 0.0 {
        (rows + label).min(0.5 * (h - strip))
    } else {
        0.0
    };
    let short = NAMES * label > MOST_NAMES * w;
    let names = if short { SHORT_NAMES } else { NAMES } * label;
    let names = if names > MOST_SHORT_NAMES * w {
        0.0
    } else {
        names
    };
    let under = h - strip - reading;
    let bracket_row = BRACKET_ROW * label;
    let rows = (MOST_BRACKETS * under / bracket_row)
        .floor()
        .min(BRACKET_ROWS + f64::from(u8::from(crowded)));
    let widths = if setting.layers.widths && rows >= LEAST_BRACKET_ROWS {
        rows * bracket_row + 0.25 * label
    } else {
        0.0
    };
    let foot = under - widths;
    let legend = if setting.layers.refit || setting.layers.texture {
        (LEGEND * label).min(0.2 * foot)
    } else {
        0.0
    };
    let guides = setting.layers.guides;
    let left = if guides || strip > 0.0 || widths > 0.0 {
        names
    } else {
        0.0
    };
    let right = if guides && !short {
        w - NOTES * label
    } else {
        w
    };
    Frame {
        canvas: Rect::new(0.0, 0.0, w, h),
        room: Rect::new(left, legend, right, foot),
        letters: Rect::new(0.0, 0.0, w, foot),
        legend: Rect::new(0.0, 0.0, w, legend),
        widths: Rect::new(0.0, foot, w, under),
        crowded,
        bracket_row,
        reading: Rect::new(0.0, under, w, under + reading),
        strip: Rect::new(0.0, h - strip, w, h),
        names,
        short,
        row,
        captions,
    }
}

/// Height of a row of text at a reading size.
pub(crate) fn reading_row(size: f64) -> f64 {
    READING_LEADING * size
}

/// Height of a row and of the whole strip; nought where there is no room.
fn strip(height: f64, label: f64, captions: f64) -> (f64, f64) {
    let rows = f64::from(STRIP_ROWS);
    let row = (ROW * label).min((MOST_STRIP * height - captions) / rows);
    if row < LEAST_ROW {
        (0.0, 0.0)
    } else {
        (row, rows * row + captions)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::scene::Scene;

    #[test]
    fn the_parts_fill_the_canvas_without_overlap() {
        let mut setting = Scene::default().setting;
        setting.reading = vec![12.0, 16.0];
        setting.layers.widths = true;
        setting.layers.refit = true;
        let f = frame(Size::new(1200.0, 700.0), 12.0, &setting, true);
        assert_eq!(f.legend.y1, f.room.y0);
        assert_eq!(f.letters.y1, f.widths.y0);
        assert_eq!(f.widths.y1, f.reading.y0);
        assert_eq!(f.reading.y1, f.strip.y0);
        assert_eq!(f.strip.y1, 700.0);
        assert!(f.letters.height() > 300.0);
        setting.layers.widths = false;
        let f = frame(Size::new(1200.0, 700.0), 12.0, &setting, true);
        assert_eq!(f.widths.height(), 0.0);
        assert!(f.letters.height() > 400.0);
    }

    #[test]
    fn letters_stand_beside_the_names_on_a_canvas_of_320_pixels() {
        let f = frame(
            Size::new(320.0, 270.0),
            12.0,
            &Scene::default().setting,
            false,
        );
        assert!(f.short && f.names > 0.0);
        assert_eq!(f.room.x0, f.names);
    }

    #[test]
    fn small_canvases_keep_the_letters() {
        let mut setting = Scene::default().setting;
        setting.reading = vec![96.0; 6];
        setting.layers.widths = true;
        for (w, h) in [(320.0, 200.0), (50.0, 40.0), (0.0, 0.0)] {
            let f = frame(Size::new(w, h), 12.0, &setting, true);
            assert!(f.letters.height() >= 0.22 * h, "{f:?}");
            assert!(f.strip.height() >= 0.0 && f.reading.height() >= 0.0);
            assert!(f.room.width() >= 0.6 * w);
        }
    }
}
