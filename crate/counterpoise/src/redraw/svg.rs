//! An outline as an SVG file, to draw over in any drawing program.
//!
//! One user unit is one font unit. y runs down in SVG, so that a point (x, y) of
//! the font stands at (x, -y) and the baseline at 0. Numbers are written with as
//! many decimals as lead back to the very same number.

use crate::outline::Outline;
use kurbo::Affine;
use std::fmt::Write;

/// What is written beside the outline.
#[derive(Debug, Clone, PartialEq)]
pub struct SvgSheet<'a> {
    /// What it is: the file's title.
    pub title: &'a str,
    /// Its advance width, font units.
    pub advance: f64,
    /// Units per em.
    pub units_per_em: f64,
    /// How high the sheet reaches above the baseline, font units.
    pub top: f64,
    /// How deep it reaches, negative below the baseline.
    pub foot: f64,
    /// Whether the lab drew it: then the file says that it is a sketch.
    pub sketch: bool,
}

/// The outline as an SVG document. Its root carries `data-units-per-em` and
/// `data-advance`, by which the lab knows its own sheets again.
pub fn svg(outline: &Outline, sheet: &SvgSheet<'_>) -> String {
    let ink = outline.bounds().unwrap_or_default();
    // Whole numbers: readers that keep single precision move the drawing by the
    // sheet's corner, and whole units leave its own numbers as they are.
    let left = ink.x0.min(0.0).floor();
    let right = ink.x1.max(sheet.advance).ceil();
    let foot = ink.y0.min(sheet.foot).floor();
    let top = ink.y1.max(sheet.top).ceil();
    let (width, height) = ((right - left).max(1.0), (top - foot).max(1.0));
    let about = if sheet.sketch {
        "It is a sketch for the artist to draw over, not a finished letter. "
    } else {
        ""
    };
    let path = (Affine::FLIP_Y * outline.to_bez_path()).to_svg();
    let mut text = String::new();
    // Writing into a string cannot fail.
    let _ = write!(
        text,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height}\" \
         viewBox=\"{left} {} {width} {height}\" data-units-per-em=\"{}\" \
         data-advance=\"{}\">\n  <title>{}</title>\n  <desc>{about}One unit is one of {} units \
         per em; the baseline is at y = 0; the advance width is {}.</desc>\n  \
         <path fill-rule=\"nonzero\" d=\"{path}\"/>\n</svg>\n",
        -top,
        sheet.units_per_em,
        sheet.advance,
        escaped(sheet.title),
        sheet.units_per_em,
        sheet.advance,
    );
    text
}

/// Text as XML may hold it.
fn escaped(text: &str) -> String {
    let mut out = String::new();
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            // XML 1.0 has no way to write most control characters.
            c if c.is_control() => out.push(' '),
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{BezPath, Shape};

    fn sheet(title: &str) -> SvgSheet<'_> {
        SvgSheet {
            title,
            advance: 612.5,
            units_per_em: 1000.0,
            top: 750.0,
            foot: -250.0,
            sketch: true,
        }
    }

    #[test]
    fn numbers_lead_back_to_themselves() {
        let mut path = BezPath::new();
        path.move_to((0.1 + 0.2, 1.0 / 3.0));
        path.curve_to((100.0, -1e-7), (200.123_456_789, 5.0), (300.0, 712.25));
        path.line_to((12.0, 700.0));
        path.close_path();
        let outline = Outline::from_path(&path);
        let text = svg(&outline, &sheet("R"));
        let d = text
            .split(" d=\"")
            .nth(1)
            .unwrap()
            .split('"')
            .next()
            .unwrap();
        let back = Affine::FLIP_Y * BezPath::from_svg(d).unwrap();
        assert_eq!(Outline::from_path(&back), outline);
        assert!(back.bounding_box().y1 > 700.0);
    }

    #[test]
    fn it_says_that_it_is_a_sketch_and_a_name_cannot_break_out() {
        let text = svg(&Outline::default(), &sheet("<script>\"&\u{0}"));
        assert!(text.contains("sketch for the artist"));
        assert!(text.contains("&lt;script&gt;&quot;&amp; </title>"));
    }
}
