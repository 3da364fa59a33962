//! Where labels go: each to the first of its places that is free.

use kurbo::{Point, Rect, Size};
use std::collections::HashMap;

/// Side of a cell of the index, CSS pixels: about a label's width.
const CELL: f64 = 48.0;

/// A label and the places where its middle may be, the best first.
#[derive(Debug, Clone)]
pub(super) struct Wish {
    pub(super) text: String,
    pub(super) size: Size,
    pub(super) spots: Vec<Point>,
    /// What to write where none of these places is free.
    pub(super) or: Option<Box<Wish>>,
}

/// A label in its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Label {
    pub(super) text: String,
    pub(super) size: Size,
    pub(super) at: Point,
}

impl Label {
    /// The room that it takes.
    pub(super) fn rect(&self) -> Rect {
        Rect::from_center_size(self.at, self.size)
    }
}

/// Places labels within bounds, the first wish first; those for which no place
/// is free are left out. `taken` may hold boxes already.
pub(super) fn settle(wishes: Vec<Wish>, bounds: Rect, taken: &mut Taken) -> Vec<Label> {
    let place = |wish| placed(wish, bounds, taken);
    wishes.into_iter().filter_map(place).collect()
}

fn placed(wish: Wish, bounds: Rect, taken: &mut Taken) -> Option<Label> {
    let Wish {
        text,
        size,
        spots,
        or,
    } = wish;
    let free = spots.into_iter().find(|spot| {
        let r = Rect::from_center_size(*spot, size);
        bounds.contains_rect(r) && taken.take(r)
    });
    match (free, or) {
        (Some(at), _) => Some(Label { text, size, at }),
        (None, Some(or)) => placed(*or, bounds, taken),
        (None, None) => None,
    }
}

/// Boxes that are taken, found by where they are.
#[derive(Debug, Default)]
pub(super) struct Taken(HashMap<(i32, i32), Vec<Rect>>);

impl Taken {
    /// Takes boxes whatever they overlap.
    pub(super) fn of(boxes: &[Rect]) -> Self {
        let mut taken = Self::default();
        for r in boxes {
            taken.put(*r);
        }
        taken
    }

    /// Takes a box whatever it overlaps.
    pub(super) fn put(&mut self, r: Rect) {
        for cell in cells(r) {
            self.0.entry(cell).or_default().push(r);
        }
    }

    /// Takes a box if it overlaps none that is taken; whether it did.
    pub(super) fn take(&mut self, r: Rect) -> bool {
        let free = cells(r).all(|cell| {
            self.0
                .get(&cell)
                .is_none_or(|taken| taken.iter().all(|t| !t.overlaps(r)))
        });
        if free {
            self.put(r);
        }
        free
    }
}

fn cells(r: Rect) -> impl Iterator<Item = (i32, i32)> {
    // Only boxes on the canvas come here; the cast saturates for others.
    let cell = |v: f64| (v / CELL).floor() as i32;
    let (x0, x1, y0, y1) = (cell(r.x0), cell(r.x1), cell(r.y0), cell(r.y1));
    (x0..=x1).flat_map(move |x| (y0..=y1).map(move |y| (x, y)))
}

/// Moves heights apart until each has `room`, in order, with the least that any
/// must give way, and none nearer than half that to an end while there is place
/// for all. For labels of lines that may lie close together.
pub(super) fn spread(heights: &mut [f64], room: f64, (top, foot): (f64, f64)) {
    // Groups of labels that push each other, each about the mean of its wishes.
    let mut groups: Vec<(f64, usize)> = Vec::new();
    for &h in heights.iter() {
        groups.push((h, 1));
        while let [.., (a, n), (b, m)] = groups[..] {
            let (n_f, m_f) = (n as f64, m as f64);
            if b - a >= 0.5 * (n_f + m_f) * room {
                break;
            }
            let mean = (a * n_f + b * m_f) / (n_f + m_f);
            groups.truncate(groups.len() - 2);
            groups.push((mean, n + m));
        }
    }
    let last = foot - (heights.len() as f64 - 0.5) * room;
    let mut before = 0.0;
    for (middle, n) in groups {
        // Where the topmost of all would stand, had this group no other above it.
        let topmost = middle - (before + 0.5 * (n as f64 - 1.0)) * room;
        let topmost = topmost.min(last).max(top + 0.5 * room);
        for h in &mut heights[before as usize..before as usize + n] {
            *h = topmost + before * room;
            before += 1.0;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const BOUNDS: Rect = Rect::new(0.0, 0.0, 200.0, 100.0);

    fn wish(text: &str, spots: &[(f64, f64)]) -> Wish {
        Wish {
            text: text.to_owned(),
            size: Size::new(20.0, 10.0),
            spots: spots.iter().map(|&s| s.into()).collect(),
            or: None,
        }
    }

    #[test]
    fn the_first_wish_has_the_first_choice() {
        let wishes = vec![
            wish("a", &[(50.0, 50.0)]),
            wish("b", &[(55.0, 50.0), (80.0, 50.0)]),
            wish("c", &[(45.0, 52.0)]),
        ];
        let placed = settle(wishes, BOUNDS, &mut Taken::default());
        let texts: Vec<&str> = placed.iter().map(|l| l.text.as_str()).collect();
        assert_eq!(texts, ["a", "b"]);
        assert_eq!(placed[1].at, Point::new(80.0, 50.0));
    }

    #[test]
    fn the_short_form_goes_where_the_long_one_does_not() {
        let mut long = wish("a long one", &[(50.0, 50.0)]);
        long.size.width = 300.0;
        long.or = Some(Box::new(wish("a", &[(50.0, 50.0)])));
        let placed = settle(vec![long], BOUNDS, &mut Taken::default());
        assert_eq!(placed[0].text, "a");
    }

    #[test]
    fn labels_stay_within_bounds() {
        let wishes = vec![wish("a", &[(5.0, 50.0), (195.0, 50.0), (100.0, 99.0)])];
        assert!(settle(wishes, BOUNDS, &mut Taken::default()).is_empty());
    }

    #[test]
    fn no_two_overlap_however_many_there_are() {
        let spots: Vec<(f64, f64)> = (0..40)
            .map(|i| (10.0 + f64::from(i * 37 % 180), 5.0 + f64::from(i * 53 % 90)))
            .collect();
        let wishes = (0..40).map(|i| wish("x", &spots[i..])).collect();
        let placed = settle(wishes, BOUNDS, &mut Taken::default());
        assert!(placed.len() > 10);
        let boxes: Vec<Rect> = placed
            .iter()
            .map(|l| Rect::from_center_size(l.at, (20.0, 10.0)))
            .collect();
        for (i, a) in boxes.iter().enumerate() {
            assert!(boxes[i + 1..].iter().all(|b| !a.overlaps(*b)));
        }
    }

    const ROOMY: (f64, f64) = (-100.0, 300.0);

    #[test]
    fn close_lines_give_way_evenly() {
        let mut h = [100.0, 102.0, 200.0];
        spread(&mut h, 14.0, ROOMY);
        assert_eq!(h, [94.0, 108.0, 200.0]);
        let mut h = [0.0, 10.0, 20.0, 100.0];
        spread(&mut h, 14.0, ROOMY);
        assert_eq!(h, [-4.0, 10.0, 24.0, 100.0]);
        spread(&mut [], 14.0, ROOMY);
    }

    #[test]
    fn no_line_is_told_past_the_ends_while_there_is_place() {
        let mut h = [0.0, 10.0, 20.0, 100.0];
        spread(&mut h, 14.0, (0.0, 104.0));
        assert_eq!(h, [7.0, 21.0, 35.0, 97.0]);
        let mut h = [1.0, 2.0, 3.0];
        spread(&mut h, 14.0, (0.0, 20.0));
        assert_eq!(h, [7.0, 21.0, 35.0]);
    }
}
