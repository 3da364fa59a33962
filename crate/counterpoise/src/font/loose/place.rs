//! From a drawing's own units to a font's: where the baseline is, how large the
//! letters are, and how much white stands beside them.

use crate::outline::Outline;
use kurbo::Affine;

/// The two guides of a drawing, in its own units, y up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guides {
    /// What flat letters stand on.
    pub baseline: f64,
    /// What the capitals, or the letters at hand, reach up to.
    pub height: f64,
}

/// Feet or tops this near each other (share of the tallest letter) are one line:
/// rounds pass the flat letters by less.
const ONE_LINE: f64 = 0.04;

/// Finds the guides of a row: the line that most feet stand on, and the line of
/// the highest tops. Both are estimates, and the artist may drag them: a row of
/// lower case alone has no capital to show their height. `None` of no letters.
pub fn estimate(letters: &[Outline]) -> Option<Guides> {
    let boxes: Vec<_> = letters.iter().filter_map(Outline::bounds).collect();
    let tallest = boxes.iter().map(|b| b.height()).reduce(f64::max)?;
    let within = ONE_LINE * tallest;
    let feet: Vec<f64> = boxes.iter().map(|b| b.y0).collect();
    let count = |y: f64| feet.iter().filter(|f| (**f - y).abs() <= within).count();
    let most = feet.iter().map(|&y| count(y)).max()?;
    // Of the line's feet the highest are the flat ones: rounds reach below.
    let on_line = |y: f64| count(y) == most;
    let baseline = feet
        .iter()
        .copied()
        .filter(|&y| on_line(y))
        .reduce(f64::max)?;
    let top = boxes.iter().map(|b| b.y1).reduce(f64::max)?;
    // Likewise the lowest of the highest tops.
    let tops = boxes.iter().map(|b| b.y1).filter(|y| top - y <= within);
    Some(Guides {
        baseline,
        height: tops.reduce(f64::min)?,
    })
}

/// A letter in font units.
#[derive(Debug, Clone, PartialEq)]
pub struct Placed {
    /// Its outline, its origin at 0.
    pub outline: Outline,
    /// Its advance width.
    pub advance: f64,
}

/// White beside a letter that stands alone, as a share of its height: about what
/// a capital's round side has (common practice, no source).
const ALONE: f64 = 0.06;

/// Brings letters to font units: the guides are `height` font units apart. Each
/// letter has half of the white between it and its neighbour; at the ends of the
/// row as much as on its other side. `None` where the guides lie in one place, or
/// a letter has no ink.
pub fn place(letters: &[Outline], guides: Guides, height: f64) -> Option<Vec<Placed>> {
    let own = guides.height - guides.baseline;
    let scale = height / own;
    if !(scale.is_finite() && scale > 0.0) {
        return None;
    }
    let boxes: Vec<_> = letters.iter().filter_map(Outline::bounds).collect();
    if boxes.len() != letters.len() {
        return None;
    }
    let white = |i: usize| {
        let next = boxes.get(i + 1)?;
        Some(0.5 * (next.x0 - boxes[i].x1) * scale)
    };
    Some(
        letters
            .iter()
            .enumerate()
            .map(|(i, letter)| {
                let (before, after) = (i.checked_sub(1).and_then(white), white(i));
                let alone = ALONE * height;
                let left = before.or(after).unwrap_or(alone);
                let right = after.or(before).unwrap_or(alone);
                let b = boxes[i];
                let map = Affine::translate((left, 0.0))
                    * Affine::scale(scale)
                    * Affine::translate((-b.x0, -guides.baseline));
                Placed {
                    outline: letter.transformed(map),
                    advance: left + scale * b.width() + right,
                }
            })
            .collect(),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::{Circle, Rect, Shape};

    #[test]
    fn a_row_finds_its_lines_and_takes_half_of_its_white() {
        let of = |path: kurbo::BezPath| Outline::from_path(&path);
        // H, O, p, H, drawn at twice the size, 40 above the sheet's own nought.
        let row = [
            of(Rect::new(0.0, 40.0, 100.0, 1440.0).to_path(0.1)),
            of(Circle::new((850.0, 740.0), 720.0).to_path(0.1)),
            of(Rect::new(1650.0, -400.0, 1750.0, 1040.0).to_path(0.1)),
            of(Rect::new(1850.0, 40.0, 1950.0, 1440.0).to_path(0.1)),
        ];
        let guides = estimate(&row).unwrap();
        assert_eq!((guides.baseline, guides.height), (40.0, 1440.0));
        let placed = place(&row, guides, 700.0).unwrap();
        let b = placed[0].outline.bounds().unwrap();
        assert_eq!((b.y0, b.y1, b.width()), (0.0, 700.0, 50.0));
        // The white between H and O is 30 of the sheet's 60 halves.
        assert!(
            (placed[0].advance - (7.5 + 50.0 + 7.5)).abs() < 1e-6,
            "{placed:?}"
        );
        assert!((placed[1].outline.bounds().unwrap().y0 + 10.0).abs() < 0.1);
        let flat = Guides {
            baseline: 5.0,
            height: 5.0,
        };
        assert_eq!(place(&row, flat, 700.0), None);
        assert_eq!(estimate(&[]), None);
    }
}
