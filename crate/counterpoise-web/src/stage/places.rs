//! Where letters stand, and which way round.

use super::command::{Alignment, ItemId, Step};
use super::history::Run;
use super::scene::{FAR, Item};
use super::standing::Standing;
use super::{Done, Stage, align, line};
use crate::refuse::{Refuse, within};

impl Step {
    /// Its length, font units.
    pub(super) fn length(self, units_per_em: f64) -> f64 {
        match self {
            Self::Unit => 1.0,
            Self::TenUnits => 10.0,
            Self::TenthEm => 0.1 * units_per_em,
        }
    }
}

impl Stage {
    /// The chosen letters that may be moved.
    pub(super) fn movable(&self) -> Result<Vec<ItemId>, Refuse> {
        self.some_chosen()?;
        let free = |id: &ItemId| self.scene.item(*id).is_some_and(|i| !i.pinned);
        let free: Vec<ItemId> = self.chosen.iter().copied().filter(free).collect();
        if free.is_empty() {
            Err(Refuse::Pinned)
        } else {
            Ok(free)
        }
    }

    /// Stands letters at places, above the others.
    pub(super) fn stand(&mut self, places: &[(ItemId, f64)]) {
        let own = line::own_places(&self.scene, self.added());
        let lift = self.lift_for(places);
        for (item, own) in self.scene.items.iter_mut().zip(own) {
            if let Some((_, x)) = places.iter().find(|(id, _)| *id == item.id) {
                item.lift = lift;
                line::stand(item, own, *x);
            }
        }
    }

    /// The lift that puts these letters above all others. It does not grow while
    /// the same letters are moved on and on.
    fn lift_for(&self, places: &[(ItemId, f64)]) -> u32 {
        let highest = self.scene.highest_lift();
        let others = |i: &&Item| !places.iter().any(|(id, _)| *id == i.id);
        let below = self.scene.items.iter().filter(others).map(|i| i.lift).max();
        if highest > 0 && below.is_none_or(|b| b < highest) {
            highest
        } else {
            highest.saturating_add(1)
        }
    }

    fn standing(&self, id: ItemId) -> Result<Standing, Refuse> {
        self.standings()
            .into_iter()
            .find(|s| s.item.id == id)
            .ok_or(Refuse::NoSuchLetter)
    }

    pub(super) fn nudge(&mut self, steps: i32, step: Step) -> Result<Done, Refuse> {
        let free = self.movable()?;
        let by = f64::from(steps) * step.length(self.sorts()?.units_per_em());
        let places: Vec<_> = self
            .standings()
            .iter()
            .filter(|s| free.contains(&s.item.id))
            .map(|s| (s.item.id, (s.x + by).clamp(-FAR, FAR)))
            .collect();
        self.stand(&places);
        Ok(self.moved(&free).in_run(Run::Nudge))
    }

    pub(super) fn place(&mut self, item: ItemId, x: f64) -> Result<Done, Refuse> {
        let x = within("place", x, -FAR, FAR)?;
        if self.standing(item)?.item.pinned {
            return Err(Refuse::Pinned);
        }
        self.stand(&[(item, x)]);
        Ok(self.moved(&[item]))
    }

    pub(super) fn moved(&self, ids: &[ItemId]) -> Done {
        Done::new(
            format!("Move {}", self.names(ids)),
            self.place_sentence(ids),
        )
    }

    pub(super) fn align(&mut self, by: Alignment) -> Result<Done, Refuse> {
        self.some_chosen()?;
        let standings = self.standings();
        let pinned = standings.iter().find(|s| s.item.pinned);
        let first = standings
            .iter()
            .find(|s| Some(&s.item.id) == self.chosen.first());
        let reference = pinned.or(first).ok_or(Refuse::NothingToAlign)?;
        let sorts = self.sorts()?;
        let at = align::hold(reference, by, sorts)?;
        let places = standings
            .iter()
            .filter(|s| self.chosen.contains(&s.item.id))
            .filter(|s| s.item.id != reference.item.id && !s.item.pinned)
            .map(|s| {
                Ok((
                    s.item.id,
                    align::origin_for(s, align::hold(s, by, sorts)?, at),
                ))
            })
            .collect::<Result<Vec<_>, Refuse>>()?;
        if places.is_empty() {
            return Err(Refuse::NothingToAlign);
        }
        let what = match by {
            Alignment::LeftEdge => "left edge",
            Alignment::StemLeft => "stem's left edge",
            Alignment::StemCentre => "middle of the stem",
            Alignment::InkCentre => "middle of the ink",
            Alignment::RightEdge => "right edge",
        };
        let to = self.names(&[reference.item.id]);
        self.stand(&places);
        let moved: Vec<ItemId> = places.iter().map(|p| p.0).collect();
        let names = self.names(&moved);
        Ok(Done::new(
            format!("Line {names} up"),
            format!("{names} lined up with {to} by the {what}."),
        ))
    }

    pub(super) fn reset_places(&mut self) -> Result<Done, Refuse> {
        let all = self.chosen.is_empty();
        let chosen = |id: &ItemId| all || self.chosen.contains(id);
        let resettable: Vec<ItemId> = self
            .scene
            .items
            .iter()
            .filter(|i| chosen(&i.id) && !i.pinned)
            .map(|i| i.id)
            .collect();
        if resettable.is_empty() && !self.scene.items.is_empty() {
            return Err(Refuse::Pinned);
        }
        for item in &mut self.scene.items {
            if resettable.contains(&item.id) {
                (item.place, item.lift) = (None, 0);
                (item.mirrored, item.turned) = (false, false);
            }
        }
        if self.scene.items.iter().all(|i| i.place.is_none()) {
            self.scene.setting.start = 0.0;
        }
        self.refit();
        let names = self.names(&resettable);
        Ok(Done::new(
            format!("Put {names} back"),
            format!("{names} back in the line."),
        ))
    }

    pub(super) fn pin(&mut self, pinned: bool) -> Result<Done, Refuse> {
        self.some_chosen()?;
        let own = line::own_places(&self.scene, self.added());
        for (item, own) in self.scene.items.iter_mut().zip(own) {
            if self.chosen.contains(&item.id) && item.pinned != pinned {
                item.pinned = pinned;
                // A pinned letter's place is its own, whatever the text becomes.
                line::stand(item, own, item.place.unwrap_or(own));
            }
        }
        let names = self.names(&self.chosen);
        Ok(if pinned {
            Done::new(format!("Pin {names}"), format!("{names} pinned."))
        } else {
            Done::new(format!("Let {names} go"), format!("{names} let go."))
        })
    }

    pub(super) fn mirror(&mut self) -> Result<Done, Refuse> {
        self.flip("Mirror", "mirrored", |i| i.mirrored = !i.mirrored)
    }

    pub(super) fn turn(&mut self) -> Result<Done, Refuse> {
        self.flip("Turn", "turned upside down", |i| i.turned = !i.turned)
    }

    fn flip(&mut self, verb: &str, done: &str, flip: impl Fn(&mut Item)) -> Result<Done, Refuse> {
        self.some_chosen()?;
        for item in &mut self.scene.items {
            if self.chosen.contains(&item.id) {
                flip(item);
            }
        }
        let names = self.names(&self.chosen);
        Ok(Done::new(
            format!("{verb} {names}"),
            format!("{names} {done}."),
        ))
    }
}
