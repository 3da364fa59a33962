//! Pressing and dragging letters.

use super::{Kind, REACH, TOUCH_REACH};
use crate::stage::command::{ItemId, PointerInput, PointerKind};
use crate::stage::scene::FAR;
use crate::stage::{Stage, hit};
use counterpoise::order::by_number;
use kurbo::{Point, Vec2};

/// How near to its own place in the line a dragged letter falls into it, CSS pixels.
const HOME_REACH: f64 = 5.0;

impl Stage {
    pub(super) fn press(&mut self, event: &PointerInput, p: Point) -> Kind {
        let alone = !(event.shift || event.ctrl);
        match self.letter_under(event, p) {
            Some(letter) => Kind::Press { letter, alone },
            None => Kind::Ground { alone },
        }
    }

    pub(super) fn letter_under(&self, event: &PointerInput, p: Point) -> Option<ItemId> {
        let camera = self.camera();
        let touch = event.kind == PointerKind::Touch;
        let reach = if touch { TOUCH_REACH } else { REACH } / camera.scale;
        let standings = self.standings();
        if !self.frame().letters.contains(p) {
            return None;
        }
        hit::letter_at(&standings, camera.to_stage(p), reach).map(|i| standings[i].item.id)
    }

    pub(super) fn choose_pressed(&mut self, letter: ItemId, alone: bool) {
        let chosen = self.chosen.contains(&letter);
        if !alone && chosen {
            self.chosen.retain(|id| *id != letter);
        } else if !chosen {
            if alone {
                self.chosen.clear();
            }
            self.chosen.push(letter);
        }
        self.say(self.chosen_sentence());
    }

    /// Where the letters that a drag moves stand, the held one first; `None` if
    /// the held one is pinned or was just taken out of the choice.
    pub(super) fn drag_from(&mut self, held: ItemId) -> Option<Vec<(ItemId, f64)>> {
        if self.scene.item(held).is_some_and(|i| i.pinned) {
            let name = self.name(held);
            self.say(format!("{name} is pinned. Let it go to move it."));
            return None;
        }
        let free = self.movable().ok().filter(|free| free.contains(&held))?;
        let mut from: Vec<(ItemId, f64)> = self
            .standings()
            .iter()
            .filter(|s| free.contains(&s.item.id))
            .map(|s| (s.item.id, s.x))
            .collect();
        by_number(&mut from, |(id, _)| f64::from(u8::from(*id != held)));
        Some(from)
    }

    /// Moves letters along the baseline by whole units. The held letter falls
    /// into its own place when near, and takes the others with it.
    pub(super) fn drag(&mut self, from: &[(ItemId, f64)], by: Vec2, free: bool) {
        let scale = self.camera().scale;
        let mut dx = (by.x / scale).round();
        let standings = self.standings();
        let own = |id| standings.iter().find(|s| s.item.id == id).map(|s| s.own);
        if let Some((x, own)) = from.first().and_then(|(id, x)| Some((*x, own(*id)?)))
            && !free
            && (x + dx - own).abs() * scale <= HOME_REACH
        {
            dx = own - x;
        }
        let places: Vec<_> = from
            .iter()
            .map(|(id, x)| (*id, (x + dx).clamp(-FAR, FAR)))
            .collect();
        self.stand(&places);
        let ids: Vec<ItemId> = places.iter().map(|p| p.0).collect();
        self.say(self.place_sentence(&ids));
        self.touch();
    }
}
