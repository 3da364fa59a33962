//! Numbers of a drawing that reach farther than any letter: the reader of SVG
//! counts in single precision, and stumbles over squares that it cannot hold.

use crate::DrawingError;
use usvg::roxmltree::Node;

/// What says where things are and how large. Colours, names and addresses hold
/// digits too, and say nothing of that.
const PLACES: [&str; 23] = [
    "d",
    "points",
    "x",
    "y",
    "x1",
    "y1",
    "x2",
    "y2",
    "cx",
    "cy",
    "r",
    "rx",
    "ry",
    "width",
    "height",
    "transform",
    "transform-origin",
    "viewBox",
    "stroke-width",
    "stroke-miterlimit",
    "stroke-dasharray",
    "stroke-dashoffset",
    "font-size",
];

/// Whether an element, or a sheet of styles, holds such a number.
pub(super) fn too_far(node: Node<'_, '_>) -> bool {
    let far = |text: &str| largest(text) > DrawingError::MAX_NUMBER;
    let attributes = || node.attributes();
    attributes().any(|a| PLACES.contains(&a.name()) && far(a.value()))
        || attributes().any(|a| a.name() == "style" && styles(a.value()).any(far))
        || (node.tag_name().name() == "style"
            && node
                .children()
                .filter_map(|n| n.text())
                .any(|t| styles(t).any(far)))
}

/// The values of a style's declarations, but for those of other names.
fn styles(text: &str) -> impl Iterator<Item = &str> {
    text.split(['{', '}', ';']).filter_map(|one| {
        let (name, value) = one.split_once(':')?;
        PLACES.contains(&name.trim()).then_some(value)
    })
}

/// The largest number of a text, whatever its sign.
pub(super) fn largest(text: &str) -> f64 {
    let mut rest = text;
    let mut most = 0.0_f64;
    while let Some(start) = rest.find(|c: char| c.is_ascii_digit() || c == '.') {
        rest = &rest[start..];
        let (number, after) = rest.split_at(length(rest.as_bytes()));
        // A point by itself is none.
        most = number.parse().map_or(most, |n: f64| most.max(n));
        rest = after;
    }
    most
}

/// Bytes of the number that a text begins with, as SVG writes them: `1.5.5` holds
/// two numbers, and `1e3.5` too (SVG 2, section 9.3.9, grammar of path data).
fn length(text: &[u8]) -> usize {
    let digits = |from: usize| {
        let run = text.iter().skip(from).take_while(|b| b.is_ascii_digit());
        from + run.count()
    };
    let mut end = digits(0);
    if text.get(end) == Some(&b'.') {
        end = digits(end + 1);
    }
    if let Some(b'e' | b'E') = text.get(end) {
        let sign = matches!(text.get(end + 1), Some(b'+' | b'-'));
        let from = end + 1 + usize::from(sign);
        if digits(from) > from {
            end = digits(from);
        }
    }
    end
}

#[cfg(test)]
mod tests {
    use super::largest;

    #[test]
    fn numbers_are_read_as_svg_writes_them() {
        for (text, most) in [
            ("", 0.0),
            ("M", 0.0),
            ("..", 0.0),
            ("-12", 12.0),
            ("M12.123456789012 3", 12.123_456_789_012),
            ("1.5.75-2", 2.0),
            ("1e3.5", 1000.0),
            ("1E+4,2", 10_000.0),
            ("9e-3", 0.009),
            ("3em", 3.0),
            ("4e", 4.0),
            ("#\u{e9}7\u{e9}", 7.0),
            ("1e400", f64::INFINITY),
        ] {
            assert_eq!(largest(text).to_bits(), f64::to_bits(most), "{text}");
        }
    }
}
