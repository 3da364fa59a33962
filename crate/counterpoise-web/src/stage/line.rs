//! The line: where letters stand by their advances, and how a new text takes
//! over from the old.

use super::command::ItemId;
use super::scene::{Item, Scene};
use super::spacing::Added;
use std::ops::Range;

/// Where each letter's own place in the line is: the pen moves on by each
/// letter's advance, and by what is added to its sides and after it.
pub(crate) fn own_places(scene: &Scene, added: &Added) -> Vec<f64> {
    let mut pen = scene.setting.start;
    let mut before: Option<&Item> = None;
    let mut places = vec![pen; scene.items.len()];
    for at in order(&scene.items) {
        let item = &scene.items[at];
        let [left, right] = added.sides(item);
        pen += left + before.map_or(0.0, |b| added.gap(b, item));
        places[at] = pen;
        pen += item.advance + right;
        before = Some(item);
    }
    places
}

/// The letters as they stand from left to right (Unicode Standard Annex 9, rule
/// L2): from the highest level down to the lowest odd one, every stretch of that
/// level or higher is turned round.
pub(crate) fn order(items: &[Item]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..items.len()).collect();
    let highest = items.iter().map(|i| i.level).max().unwrap_or(0);
    for level in (1..=highest).rev() {
        for stretch in
            order.chunk_by_mut(|&a, &b| (items[a].level >= level) == (items[b].level >= level))
        {
            if items[stretch[0]].level >= level {
                stretch.reverse();
            }
        }
    }
    order
}

/// The text that the line spells.
pub(crate) fn text(scene: &Scene) -> String {
    scene.items.iter().map(Item::sign).collect()
}

/// Characters that can stand on the line. Line ends, tabs, joiners and
/// variation selectors have no letter to show.
pub(crate) fn stands(c: char) -> bool {
    !c.is_control()
        && !matches!(c, '\u{200B}'..='\u{200F}' | '\u{2028}'..='\u{202E}' | '\u{2060}'..='\u{206F}'
            | '\u{FE00}'..='\u{FE0F}' | '\u{FEFF}' | '\u{E0000}'..='\u{E0FFF}')
}

/// What a new text changes: which letters go, and which characters come there.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Edit {
    pub(crate) goes: Range<usize>,
    pub(crate) comes: Vec<char>,
}

/// The least edit that keeps the common beginning and the common end.
pub(crate) fn edit(scene: &Scene, text: &[char]) -> Edit {
    let old = &scene.items;
    let same = |(item, c): &(&Item, &char)| item.sign() == **c;
    let head = old.iter().zip(text).take_while(same).count();
    let tail = old[head..]
        .iter()
        .rev()
        .zip(text[head..].iter().rev())
        .take_while(same)
        .count();
    Edit {
        goes: head..old.len() - tail,
        comes: text[head..text.len() - tail].to_vec(),
    }
}

/// Puts letters where others were. Letters with places of their own keep them;
/// the line's beginning moves so that those that follow the new letters do not
/// slip from under a letter that was laid over them.
pub(crate) fn splice(scene: &mut Scene, added: &Added, goes: Range<usize>, comes: Vec<Item>) {
    let before = own_places(scene, added);
    let old_tail = before.get(goes.end).copied();
    let new_tail = goes.start + comes.len();
    let at_beginning = goes.start == 0;
    scene.items.splice(goes, comes);
    if scene.items.iter().all(|i| i.place.is_none()) {
        scene.setting.start = 0.0;
    } else if at_beginning
        && let (Some(was), Some(is)) = (old_tail, own_places(scene, added).get(new_tail).copied())
    {
        scene.setting.start += was - is;
    }
}

/// Stands a letter at a place, or back in the line if that is its own place.
pub(crate) fn stand(item: &mut Item, own: f64, x: f64) {
    // Places come from sums of advances: a millionth of a unit apart is the same.
    let home = (x - own).abs() < 1e-6 && !item.pinned;
    item.place = (!home).then_some(x);
    if home {
        item.lift = 0;
    }
}

/// Index of a letter in the line.
pub(crate) fn index_of(scene: &Scene, id: ItemId) -> Option<usize> {
    scene.items.iter().position(|i| i.id == id)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scene(text: &str) -> Scene {
        let mut scene = Scene::default();
        for (id, c) in (0..).zip(text.chars()) {
            scene.items.push(item(id, c));
        }
        scene
    }

    fn item(id: ItemId, c: char) -> Item {
        Item {
            id,
            character: Some(c),
            glyph: Some(1),
            advance: 100.0,
            place: None,
            lift: 0,
            pinned: false,
            mirrored: false,
            turned: false,
            level: 0,
            shift: (0, 0),
        }
    }

    fn set(scene: &mut Scene, text: &str) {
        let text: Vec<char> = text.chars().collect();
        let Edit { goes, comes } = edit(scene, &text);
        let comes = (100..).zip(comes).map(|(id, c)| item(id, c)).collect();
        splice(scene, &Added::default(), goes, comes);
    }

    fn ids(scene: &Scene) -> Vec<ItemId> {
        scene.items.iter().map(|i| i.id).collect()
    }

    #[test]
    fn letters_stand_by_their_advances() {
        assert_eq!(
            own_places(&scene("HOn"), &Added::default()),
            [0.0, 100.0, 200.0]
        );
    }

    #[test]
    fn letters_of_odd_levels_stand_from_right_to_left() {
        // A word of Hebrew with a figure in it, in a line of Latin.
        let mut s = scene("abXY12Zc");
        for (item, level) in s.items.iter_mut().zip([0, 0, 1, 1, 2, 2, 1, 0]) {
            item.level = level;
        }
        assert_eq!(order(&s.items), [0, 1, 6, 4, 5, 3, 2, 7]);
        let places = own_places(&s, &Added::default());
        assert_eq!(places[2], 600.0, "X is the first of its word, to the right");
        assert_eq!(places[7], 700.0);
    }

    #[test]
    fn letters_that_stay_keep_their_number() {
        let mut s = scene("HOn");
        set(&mut s, "HaOn");
        assert_eq!(ids(&s), [0, 100, 1, 2]);
        set(&mut s, "HaO");
        assert_eq!(ids(&s), [0, 100, 1]);
        set(&mut s, "");
        assert!(s.items.is_empty());
    }

    #[test]
    fn doubled_letters_are_not_counted_twice() {
        let mut s = scene("oo");
        set(&mut s, "ooo");
        assert_eq!(ids(&s), [0, 1, 100]);
        set(&mut s, "o");
        assert_eq!(ids(&s), [0]);
    }

    #[test]
    fn a_laid_letter_stays_over_its_partner_when_text_is_added() {
        for text in ["HOn", "HnO", "nHO"] {
            let mut s = scene("HO");
            s.items[1].place = Some(0.0);
            set(&mut s, text);
            let h = s.items.iter().position(|i| i.id == 0).unwrap();
            let o = s.items.iter().find(|i| i.id == 1).unwrap();
            assert_eq!(own_places(&s, &Added::default())[h], 0.0, "in {text}");
            assert_eq!(o.place, Some(0.0), "in {text}");
        }
    }

    #[test]
    fn back_at_home_is_no_place_of_its_own() {
        let mut i = item(0, 'H');
        stand(&mut i, 50.0, 70.0);
        assert_eq!(i.place, Some(70.0));
        stand(&mut i, 50.0, 50.0);
        assert_eq!(i.place, None);
    }
}
