//! Which letter is under a place of the stage.

use super::standing::Standing;
use super::standing::{in_sort, painting_order};
use counterpoise::outline::Ray;
use kurbo::{Point, Rect};

/// The letter at a point of the stage: the uppermost whose ink is there, else
/// the uppermost whose box is, widened by `reach` on each side, so that the
/// white within a letter and thin strokes can be held too.
pub(crate) fn letter_at(standings: &[Standing], p: Point, reach: f64) -> Option<usize> {
    let mut order = painting_order(standings);
    order.reverse();
    let boxed = |i: &usize| body(&standings[*i]).inflate(reach, reach).contains(p);
    order.retain(boxed);
    let inked = order.iter().find(|&&i| is_ink(&standings[i], p));
    inked.or(order.first()).copied()
}

/// The box of the ink; for a space or a gap, its advance, low on the line.
fn body(s: &Standing) -> Rect {
    s.ink.unwrap_or_else(|| {
        let (left, right) = s.breadth();
        Rect::new(left, 0.0, right, 0.5 * s.item.advance.max(0.0))
    })
}

/// Whether a point of the stage is in the letter's ink, overlaps included.
pub(crate) fn is_ink(s: &Standing, p: Point) -> bool {
    let Some(sort) = &s.sort else { return false };
    let p = in_sort(s.map, p);
    let (mut crossings, mut spans) = (Vec::new(), Vec::new());
    sort.outline
        .spans(&Ray::level(p.y), &mut crossings, &mut spans);
    spans.iter().any(|s| s.from.s <= p.x && p.x <= s.to.s)
}
