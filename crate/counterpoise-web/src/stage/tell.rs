//! What the stage tells the page: its state, and sentences about it.

use super::command::ItemId;
use super::finding::key;
use super::scene::View;
use super::state::{CalliperState, ItemState, StageState, ViewState};
use super::{Stage, calliper, figure, line};

/// Names beyond this many are counted instead.
const MOST_NAMES: usize = 3;

impl Stage {
    /// All that a toolbar, a text field and a live region need to know.
    pub(crate) fn state(&self) -> StageState {
        let setting = &self.scene.setting;
        StageState {
            text: line::text(&self.scene),
            items: self.item_states(),
            missing: self.missing(),
            tool: self.tool,
            view: self.view_state(),
            spacing: setting.spacing,
            layers: setting.layers,
            refit_within: setting.refit_within,
            standout: self.standout(),
            rhythm: self.rhythm_state(),
            finding: self.finding().map(key),
            blur: setting.blur,
            reading: setting.reading.clone(),
            calliper: self.calliper_state(),
            undo: self.history.next_undo().map(str::to_owned),
            redo: self.history.next_redo().map(str::to_owned),
            in_gesture: self.gestures.under_way(),
            status: self.status.clone(),
        }
    }

    fn item_states(&self) -> Vec<ItemState> {
        self.standings()
            .iter()
            .map(|s| ItemState {
                id: s.item.id,
                character: s.item.character.map(String::from),
                glyph: s.item.glyph,
                label: self.name(s.item.id),
                x: s.x,
                advance: s.item.advance,
                moved: s.item.place.map(|x| x - s.own).filter(|m| m.abs() > 1e-6),
                pinned: s.item.pinned,
                mirrored: s.item.mirrored,
                turned: s.item.turned,
                selected: self.chosen.contains(&s.item.id),
            })
            .collect()
    }

    fn view_state(&self) -> ViewState {
        let (window, camera) = (self.window(), self.camera());
        ViewState {
            scale: camera.scale,
            em: camera.scale * window.units_per_em,
            origin: [camera.origin.x, camera.origin.y],
            fitted: matches!(self.scene.setting.view, View::Fit(_)),
        }
    }

    pub(super) fn calliper_state(&self) -> Option<CalliperState> {
        let line = self.scene.setting.calliper.as_ref()?;
        Some(calliper::read(line, &self.standings()))
    }

    /// What to call a letter.
    pub(super) fn name(&self, id: ItemId) -> String {
        match (&self.sorts, self.scene.item(id)) {
            (Some(sorts), Some(item)) => sorts.label(item.character, item.glyph),
            _ => String::new(),
        }
    }

    /// What to call some letters: "O", "H and O", "5 letters".
    pub(super) fn names(&self, ids: &[ItemId]) -> String {
        match ids {
            [one] => self.name(*one),
            _ if ids.len() > MOST_NAMES => format!("{} letters", ids.len()),
            [most @ .., last] => {
                let most: Vec<String> = most.iter().map(|id| self.name(*id)).collect();
                format!("{} and {}", most.join(", "), self.name(*last))
            }
            [] => "nothing".to_owned(),
        }
    }

    pub(super) fn chosen_sentence(&self) -> String {
        match self.chosen.as_slice() {
            [] => "Nothing chosen.".to_owned(),
            [one] => {
                let pinned = self.scene.item(*one).is_some_and(|i| i.pinned);
                let pinned = if pinned { ", pinned" } else { "" };
                format!("{} chosen{pinned}.", self.name(*one))
            }
            more => format!("{} chosen.", self.names(more)),
        }
    }

    /// Where letters stand now: in a word for many, in figures for one.
    pub(super) fn place_sentence(&self, ids: &[ItemId]) -> String {
        let names = self.names(ids);
        let standings = self.standings();
        let [one] = ids else {
            return format!("{names} moved.");
        };
        let Some(s) = standings.iter().find(|s| s.item.id == *one) else {
            return String::new();
        };
        let off = s.x - s.own;
        if off.abs() < 1e-6 {
            return format!("{names} in its place.");
        }
        let side = if off > 0.0 { "right" } else { "left" };
        let off = figure::length(off.abs());
        format!("{names} {off} units {side} of its place.")
    }
}
