//! The lines that figures stand between, taken from the figures themselves. Font
//! units.
//!
//! Figures are all of one height (lining), or they rise and hang as lower case
//! does (old style). Their tops, and their feet, are parted in two zones where
//! they lie far apart; a zone's line is the median of its ends. Flat and round ends
//! count alike, since a zone may have none that are flat: what passes the line is
//! therefore of use beside the same figure of other fonts, not as an overshoot.

use super::heights::{End, extremity};
use super::median;
use crate::font::Reader;
use crate::outline::Outline;

/// The figures.
const FIGURES: &str = "0123456789";

/// Ends that lie this far apart, as a share of the em, stand on two lines: twice
/// what any overshoot is, and less than a half of what lower case rises or hangs.
const APART: f64 = 0.1;

/// The lines of a font's figures.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FigureLines {
    tops: Vec<f64>,
    feet: Vec<f64>,
}

impl FigureLines {
    pub(super) fn of(reader: &Reader<'_>, units_per_em: f64) -> Self {
        let outlines: Vec<Outline> = FIGURES
            .chars()
            .filter_map(|c| reader.outline(reader.glyph(c)?).ok())
            .collect();
        let ends = |end| -> Vec<f64> {
            let read = |outline| Some(extremity(outline, end, units_per_em)?.y);
            outlines.iter().filter_map(read).collect()
        };
        let apart = APART * units_per_em;
        Self {
            tops: lines(ends(End::Top), apart),
            feet: lines(ends(End::Foot), apart),
        }
    }

    /// How far a figure's end at a height passes its line, outward positive;
    /// `None` of what is no figure, and in a font without figures.
    pub fn past(&self, c: char, end: End, y: f64) -> Option<f64> {
        let (lines, outward) = match end {
            End::Top => (&self.tops, 1.0),
            End::Foot => (&self.feet, -1.0),
        };
        lines
            .iter()
            .filter(|_| FIGURES.contains(c))
            .map(|line| outward * (y - line))
            .min_by(|a, b| a.abs().total_cmp(&b.abs()))
    }
}

/// One line, or two where the ends lie on both sides of a gap; a figure alone
/// beyond the gap has no line of its own.
fn lines(mut ends: Vec<f64>, apart: f64) -> Vec<f64> {
    ends.sort_unstable_by(f64::total_cmp);
    let gap = |i: &usize| ends[*i] - ends[*i - 1];
    let widest = (1..ends.len()).max_by(|a, b| gap(a).total_cmp(&gap(b)));
    match widest {
        None => ends,
        Some(at) if gap(&at) > apart && at > 1 && at + 1 < ends.len() => {
            let (low, high) = ends.split_at_mut(at);
            vec![median(low), median(high)]
        }
        Some(_) => vec![median(&mut ends)],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lining_figures_have_one_line_and_old_style_ones_two() {
        let lining = vec![700.0, 710.0, 708.0, 700.0, 712.0];
        assert_eq!(lines(lining, 100.0), [708.0]);
        let old_style = vec![480.0, 710.0, 490.0, 478.0, 706.0, 481.0];
        assert_eq!(lines(old_style, 100.0), [480.5, 708.0]);
        // One that stands high by mistake makes no second line.
        assert_eq!(lines(vec![480.0, 482.0, 481.0, 700.0], 100.0), [481.5]);
        assert!(lines(Vec::new(), 100.0).is_empty());
    }

    #[test]
    fn what_passes_is_told_outward_from_the_nearest_line() {
        let lines = FigureLines {
            tops: vec![480.0, 700.0],
            feet: vec![-200.0, 0.0],
        };
        assert_eq!(lines.past('6', End::Top, 706.0), Some(6.0));
        assert_eq!(lines.past('0', End::Top, 470.0), Some(-10.0));
        assert_eq!(lines.past('9', End::Foot, -205.0), Some(5.0));
        assert_eq!(lines.past('O', End::Top, 706.0), None);
    }
}
