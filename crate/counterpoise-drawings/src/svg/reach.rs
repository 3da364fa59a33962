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
    let text = text.replace("e+", "e").replace("E+", "e");
    let inside = |c: char| c.is_ascii_digit() || matches!(c, '.' | 'e' | 'E');
    text.split(|c| !inside(c))
        // "1e36.5" holds two numbers.
        .flat_map(|run| std::iter::once(run).chain(run.split('.')))
        .filter_map(|run| run.trim_end_matches(['e', 'E']).parse::<f64>().ok())
        .fold(0.0, f64::max)
}
