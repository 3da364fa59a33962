//! A letter as it stands: its sort, and the map from the sort's own units to
//! the stage's, which is an isometry, so that every length stays what it is.

use super::line;
use super::scene::{Item, Scene};
use super::sorts::{Sort, Sorts};
use super::spacing::Added;
use counterpoise::order::by_number;
use counterpoise::report::GuideKind;
use kurbo::{Affine, Point, Rect};
use std::rc::Rc;

/// One letter of the line, resolved.
#[derive(Debug, Clone)]
pub(crate) struct Standing {
    pub(crate) item: Item,
    /// Where its origin stands.
    pub(crate) x: f64,
    /// Where its own place in the line is.
    pub(crate) own: f64,
    /// What is added at its left side and at its right.
    added: [f64; 2],
    /// `None` if the font lacks the character.
    pub(crate) sort: Option<Rc<Sort>>,
    /// From the sort's units to the stage's.
    pub(crate) map: Affine,
    /// The box of its ink on the stage.
    pub(crate) ink: Option<Rect>,
}

impl Standing {
    /// The letter's way from origin to advance, on the stage, with what is added
    /// at its sides.
    pub(crate) fn breadth(&self) -> (f64, f64) {
        let [left, right] = self.added;
        (self.x - left, self.x + self.item.advance + right)
    }

    /// The part of the line that is this letter's: its ink, or its advance if
    /// it has none.
    pub(crate) fn column(&self) -> (f64, f64) {
        self.ink.map_or(self.breadth(), |b| (b.x0, b.x1))
    }
}

/// Every letter of the line, in the line's order.
pub(crate) fn standings(scene: &Scene, sorts: &Sorts, added: &Added) -> Vec<Standing> {
    scene
        .items
        .iter()
        .zip(line::own_places(scene, added))
        .map(|(item, own)| {
            let x = item.place.unwrap_or(own);
            let sort = item.glyph.and_then(|g| sorts.sort(g));
            let ink = sort.as_ref().and_then(|s| s.ink());
            let map = map(item, x, ink, sorts);
            Standing {
                item: *item,
                x,
                own,
                added: added.sides(item),
                map,
                ink: ink.map(|b| map.transform_rect_bbox(b)),
                sort,
            }
        })
        .collect()
}

/// The order in which letters are painted: pinned ones first, as the ground
/// that others are compared with, then the line, then what was moved, the last
/// moved uppermost.
pub(crate) fn painting_order(standings: &[Standing]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..standings.len()).collect();
    by_number(&mut order, |&i| {
        let item = &standings[i].item;
        // Lifts start at nought: what is pinned lies under them all.
        if item.pinned {
            f64::from(item.lift) - f64::from(u32::MAX)
        } else {
            1.0 + f64::from(item.lift)
        }
    });
    order
}

fn map(item: &Item, x: f64, ink: Option<Rect>, sorts: &Sorts) -> Affine {
    let (right, up) = (f64::from(item.shift.0), f64::from(item.shift.1));
    let x = x + right;
    let Some(ink) = ink else {
        return Affine::translate((x, up));
    };
    let twice_centre = ink.x0 + ink.x1;
    let twice_height = if item.turned {
        turn_height(item, ink, sorts)
    } else {
        0.0
    };
    // Turning flips both ways; mirroring flips left to right once more.
    let (sx, dx) = if item.mirrored == item.turned {
        (1.0, 0.0)
    } else {
        (-1.0, twice_centre)
    };
    let (sy, dy) = if item.turned {
        (-1.0, twice_height)
    } else {
        (1.0, 0.0)
    };
    Affine::new([sx, 0.0, 0.0, sy, x + dx, up + dy])
}

/// Twice the height that a letter is turned about: so that an S, turned, stands
/// on the baseline again and shows its overshoot at the other end, and a p shows
/// whether it is a d.
fn turn_height(item: &Item, ink: Rect, sorts: &Sorts) -> f64 {
    let kind = match item.character {
        Some(c) if c.is_lowercase() => GuideKind::XHeight,
        Some(c) if c.is_uppercase() || c.is_ascii_digit() => GuideKind::CapHeight,
        _ => return ink.y0 + ink.y1,
    };
    sorts.height(kind).unwrap_or(ink.y0 + ink.y1)
}

/// The part of the stage that holds every letter, and at least the guides.
pub(crate) fn extent(standings: &[Standing], sorts: &Sorts) -> Rect {
    let em = sorts.units_per_em();
    let heights = sorts.guides().iter().filter_map(|g| g.drawn.or(g.declared));
    let (foot, top) = heights.fold((0.0_f64, 0.0_f64), |(a, b), h| (a.min(h), b.max(h)));
    let top = if top > foot { top } else { foot + 0.75 * em };
    let mut all: Option<Rect> = None;
    for s in standings {
        let (left, right) = s.breadth();
        let mut own = Rect::new(left, foot, right, top);
        if let Some(ink) = s.ink {
            own = own.union(ink);
        }
        all = Some(all.map_or(own, |a| a.union(own)));
    }
    all.unwrap_or(Rect::new(0.0, foot, em, top))
}

/// Whether the ink of neighbours overlaps along the line, as in a script's.
pub(crate) fn is_crowded(standings: &[Standing]) -> bool {
    let mut ink: Vec<Rect> = standings.iter().filter_map(|s| s.ink).collect();
    by_number(&mut ink, |r| r.x0);
    ink.windows(2).any(|pair| pair[1].x0 < pair[0].x1)
}

/// The part of the stage that holds these letters' ink.
pub(crate) fn ink_extent<'a>(standings: impl Iterator<Item = &'a Standing>) -> Option<Rect> {
    standings.filter_map(|s| s.ink).reduce(|a, b| a.union(b))
}

/// A point of the stage in a sort's own units.
pub(crate) fn in_sort(map: Affine, p: Point) -> Point {
    map.inverse() * p
}
