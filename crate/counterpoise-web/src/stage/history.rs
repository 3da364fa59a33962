//! Undo and redo. A step holds what it changed, both ways, not a copy of the
//! stage; a run of like steps (nudges, panning, typing) counts as one.

use super::command::ItemId;
use super::scene::{Item, Scene, Setting};

/// Steps kept. A day's work is a few hundred; each costs some hundred bytes.
const MOST_STEPS: usize = 1000;

/// Steps of one run follow each other into one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Run {
    View,
    Nudge,
    Adding,
    Removing,
    Blur,
    Reading,
    Calliper,
    Finding,
}

/// What a step changed.
#[derive(Debug, Clone, PartialEq)]
struct Delta {
    /// Where the line was changed, the letters before, the letters after.
    items: Option<(usize, Vec<Item>, Vec<Item>)>,
    setting: Option<Box<(Setting, Setting)>>,
}

impl Delta {
    fn between(before: &Scene, after: &Scene) -> Self {
        let (a, b) = (&before.items, &after.items);
        let head = a.iter().zip(b).take_while(|(x, y)| x == y).count();
        let tail = a[head..]
            .iter()
            .rev()
            .zip(b[head..].iter().rev())
            .take_while(|(x, y)| x == y)
            .count();
        let (was, is) = (&a[head..a.len() - tail], &b[head..b.len() - tail]);
        let changed = !(was.is_empty() && is.is_empty());
        let setting = before.setting != after.setting;
        Self {
            items: changed.then(|| (head, was.to_vec(), is.to_vec())),
            setting: setting.then(|| Box::new((before.setting.clone(), after.setting.clone()))),
        }
    }

    fn is_nothing(&self) -> bool {
        self.items.is_none() && self.setting.is_none()
    }

    fn undo(&self, scene: &mut Scene) {
        if let Some((at, was, is)) = &self.items {
            scene.items.splice(*at..*at + is.len(), was.iter().copied());
        }
        if let Some(setting) = &self.setting {
            scene.setting = setting.0.clone();
        }
    }

    fn redo(&self, scene: &mut Scene) {
        if let Some((at, was, is)) = &self.items {
            scene.items.splice(*at..*at + was.len(), is.iter().copied());
        }
        if let Some(setting) = &self.setting {
            scene.setting = setting.1.clone();
        }
    }
}

/// One step.
#[derive(Debug, Clone)]
struct Step {
    name: String,
    run: Option<Run>,
    delta: Delta,
    chosen_before: Vec<ItemId>,
    chosen_after: Vec<ItemId>,
}

/// The scene and what is chosen on it, at one moment.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Moment<'a> {
    pub(crate) scene: &'a Scene,
    pub(crate) chosen: &'a [ItemId],
}

/// What was done, and what was taken back.
#[derive(Debug, Clone, Default)]
pub(crate) struct History {
    past: Vec<Step>,
    future: Vec<Step>,
}

impl History {
    /// Keeps the step from one moment to the next; `false` if nothing changed.
    pub(crate) fn record(
        &mut self,
        before: Moment<'_>,
        after: Moment<'_>,
        name: String,
        run: Option<Run>,
    ) -> bool {
        let delta = Delta::between(before.scene, after.scene);
        if delta.is_nothing() {
            return false;
        }
        let goes_on = self.future.is_empty()
            && run.is_some()
            && self
                .past
                .last()
                .is_some_and(|s| s.run == run && s.chosen_after == before.chosen);
        self.future.clear();
        if goes_on && let Some(mut last) = self.past.pop() {
            let mut start = before.scene.clone();
            last.delta.undo(&mut start);
            last.delta = Delta::between(&start, after.scene);
            last.chosen_after = after.chosen.to_vec();
            last.name = name;
            // A run may end where it began: then there is no step left.
            if !last.delta.is_nothing() {
                self.past.push(last);
            }
            return true;
        }
        self.past.push(Step {
            name,
            run,
            delta,
            chosen_before: before.chosen.to_vec(),
            chosen_after: after.chosen.to_vec(),
        });
        if self.past.len() > MOST_STEPS {
            self.past.remove(0);
        }
        true
    }

    /// Ends a run: the next step stands by itself.
    pub(crate) fn end_run(&mut self) {
        if let Some(last) = self.past.last_mut() {
            last.run = None;
        }
    }

    /// Takes the last step back; its name, if there was one.
    pub(crate) fn undo(&mut self, scene: &mut Scene, chosen: &mut Vec<ItemId>) -> Option<String> {
        let mut step = self.past.pop()?;
        step.delta.undo(scene);
        step.run = None;
        chosen.clone_from(&step.chosen_before);
        let name = step.name.clone();
        self.future.push(step);
        self.end_run();
        Some(name)
    }

    /// Does the step again that was taken back last; its name, if there was one.
    pub(crate) fn redo(&mut self, scene: &mut Scene, chosen: &mut Vec<ItemId>) -> Option<String> {
        let step = self.future.pop()?;
        step.delta.redo(scene);
        chosen.clone_from(&step.chosen_after);
        let name = step.name.clone();
        self.past.push(step);
        Some(name)
    }

    /// The step that `undo` would take back.
    pub(crate) fn next_undo(&self) -> Option<&str> {
        self.past.last().map(|s| s.name.as_str())
    }

    /// The step that `redo` would do again.
    pub(crate) fn next_redo(&self) -> Option<&str> {
        self.future.last().map(|s| s.name.as_str())
    }
}
