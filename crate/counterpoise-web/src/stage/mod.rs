//! The stage: letters on a baseline, what can be done with them, and how they
//! are drawn.
//!
//! | file | what it knows |
//! |---|---|
//! | [`command`], [`state`] | the vocabulary: commands in, state out |
//! | `scene` | what stands on the stage, as plain data |
//! | `line` | where letters stand, how a new text takes over from the old |
//! | `letters`, `places`, `looks`, `finding` | the commands, one function each |
//! | `gesture` | what pointers do, from pressing to letting go |
//! | `history` | undo and redo |
//! | `sorts`, `standing` | a glyph as the stage needs it, a letter as it stands |
//! | `view`, `frame` | from font units to the canvas, how the canvas is shared out |
//! | `align`, `hit`, `calliper` | questions about letters as they stand |
//! | `spacing` | how far apart letters stand |
//! | `texture` | the line as a blurred eye sees it |
//! | `reading` | lines that are read from right to left |
//! | `white` | the white between letters, and the line's rhythm |
//! | `tell` | the state and the sentences that go back to the page |
//! | `paint` | the picture |
//!
//! Nothing but `paint` knows a browser: the rest runs and is tested natively.

mod align;
mod calliper;
pub mod command;
mod figure;
mod finding;
mod frame;
mod gesture;
mod history;
mod hit;
mod letters;
mod line;
mod looks;
pub(crate) mod paint;
mod places;
mod reading;
mod scene;
pub(crate) mod sorts;
mod spacing;
mod standing;
pub mod state;
mod tell;
#[cfg(test)]
mod testing;
pub(crate) mod texture;
mod view;
pub(crate) mod white;

use crate::refuse::{Refuse, within};
use command::{Command, FindingKey, ItemId, Tool};
use counterpoise::report::{JudgementReport, LetterReport};
use frame::Frame;
use gesture::Gestures;
use history::{History, Moment, Run};
use kurbo::{Rect, Size};
use reading::Reader;
use scene::{Scene, View};
use sorts::Sorts;
use spacing::Added;
use standing::Standing;
use std::cell::RefCell;
use std::rc::Rc;
use texture::{Line, Texture};
use view::{Camera, Window};
use white::White;

/// The largest canvas side that is believed, CSS pixels.
const MOST_SIDE: f64 = 32_000.0;

/// Letters on a baseline, and all that can be done with them.
#[derive(Debug)]
pub(crate) struct Stage {
    sorts: Option<Sorts>,
    scene: Scene,
    /// In the order in which they were chosen.
    chosen: Vec<ItemId>,
    tool: Tool,
    history: History,
    gestures: Gestures,
    next_id: ItemId,
    /// The canvas, CSS pixels.
    size: Size,
    /// Height of the labels, CSS pixels.
    label: f64,
    status: String,
    seen: RefCell<Option<(Line, Rc<Texture>)>>,
    whites: RefCell<Option<(white::Line, Rc<White>)>>,
    /// What each spacing adds, in their order; nothing to the font's own.
    fittings: [Added; 3],
    reader: Reader,
    /// Findings that are marked under their letters, the worst first.
    marked: Vec<FindingKey>,
    /// How the font's letters are judged, once they are.
    judgement: Option<JudgementReport>,
    /// Grows whenever anything that is drawn changes.
    revision: u64,
}

/// What a command did.
#[derive(Debug)]
struct Done {
    /// Name of the step.
    name: String,
    run: Option<Run>,
    /// What to say of it.
    status: String,
}

impl Done {
    fn new(name: impl Into<String>, status: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            run: None,
            status: status.into(),
        }
    }

    fn in_run(mut self, run: Run) -> Self {
        self.run = Some(run);
        self
    }
}

impl Default for Stage {
    fn default() -> Self {
        Self {
            sorts: None,
            scene: Scene::default(),
            chosen: Vec::new(),
            tool: Tool::Letters,
            history: History::default(),
            gestures: Gestures::default(),
            next_id: 0,
            size: Size::ZERO,
            label: 12.0,
            status: String::new(),
            seen: RefCell::default(),
            whites: RefCell::default(),
            fittings: Default::default(),
            reader: Reader::default(),
            marked: Vec::new(),
            judgement: None,
            revision: 0,
        }
    }
}

impl Stage {
    /// Sets the line in another font. What was done to each letter stays; the
    /// history ends, since its steps were steps of the other font.
    pub(crate) fn set_sorts(&mut self, sorts: Sorts) {
        self.gestures = Gestures::default();
        self.history = History::default();
        self.seen = RefCell::default();
        self.whites = RefCell::default();
        self.fittings = Default::default();
        self.reader = Reader::default();
        self.marked.clear();
        self.judgement = None;
        self.scene.setting.finding = None;
        let same_scale = self
            .sorts
            .as_ref()
            .is_some_and(|s| s.units_per_em() == sorts.units_per_em());
        if !same_scale {
            for item in &mut self.scene.items {
                (item.place, item.lift, item.pinned) = (None, 0, false);
            }
            self.scene.setting.start = 0.0;
            self.scene.setting.calliper = None;
        }
        // A glyph without a character means nothing in another font.
        self.scene.items.retain(|i| i.character.is_some());
        for item in &mut self.scene.items {
            letters::cast(item, &sorts);
        }
        let nothing_to_show = self.scene.items.iter().all(|i| i.glyph.is_none());
        if nothing_to_show {
            let opening = sorts.opening();
            self.scene.items.clear();
            for c in opening.chars() {
                let item = letters::item(self.take_id(), Some(c), sorts.glyph(c), &sorts);
                self.scene.items.push(item);
            }
        }
        self.sorts = Some(sorts);
        self.keep_chosen();
        self.scene.setting.view = View::Fit(self.extent());
        self.touch();
    }

    /// Takes the canvas's size in CSS pixels. Sizes that make no sense are
    /// taken as the nearest that does.
    pub(crate) fn resize(&mut self, width: f64, height: f64) {
        let side = |s: f64| {
            if s.is_finite() {
                s.clamp(0.0, MOST_SIDE)
            } else {
                0.0
            }
        };
        self.size = Size::new(side(width), side(height));
        self.touch();
    }

    /// Takes the height of the labels in CSS pixels.
    pub(crate) fn set_label(&mut self, label: f64) {
        if label.is_finite() {
            self.label = label.clamp(9.0, 24.0);
        }
        self.touch();
    }

    /// Does what a command asks.
    ///
    /// # Errors
    /// If it cannot be done; nothing has changed then.
    pub(crate) fn run(&mut self, command: Command) -> Result<(), Refuse> {
        match command {
            Command::Undo => return self.undo(),
            Command::Redo => return self.redo(),
            Command::Cancel => {
                self.cancel();
                return Ok(());
            }
            _ => {}
        }
        if self.sorts.is_none() {
            return Err(Refuse::NoFont);
        }
        self.finish_gesture();
        let before = (self.scene.clone(), self.chosen.clone());
        match self.perform(command) {
            Ok(done) => {
                let moment = Moment {
                    scene: &before.0,
                    chosen: &before.1,
                };
                self.keep(moment, done);
                Ok(())
            }
            Err(refuse) => {
                (self.scene, self.chosen) = before;
                Err(refuse)
            }
        }
    }

    fn perform(&mut self, command: Command) -> Result<Done, Refuse> {
        match command {
            Command::SetText { text } => self.set_text(&text),
            Command::Insert { letters, after } => self.insert(&letters, after),
            Command::Duplicate => self.duplicate(),
            Command::Remove => self.remove(),
            Command::Select { items } => self.select(items),
            Command::SelectAll => self.select_all(),
            Command::SelectNext { backwards, extend } => self.select_next(backwards, extend),
            Command::Nudge { steps, step } => self.nudge(steps, step),
            Command::Place { item, x } => self.place(item, x),
            Command::Align { by } => self.align(by),
            Command::ResetPlaces => self.reset_places(),
            Command::Pin { pinned } => self.pin(pinned),
            Command::Mirror => self.mirror(),
            Command::Turn => self.turn(),
            Command::StandFinding { finding } => self.stand_finding(finding),
            Command::SetSpacing { spacing } => Ok(self.set_spacing(spacing)),
            Command::ShowLayer { layer, shown } => Ok(self.show_layer(layer, shown)),
            Command::SetRefit { within } => Ok(self.set_refit(within)),
            Command::SetBlur { share } => self.set_blur(share),
            Command::SetReading { sizes } => self.set_reading(sizes),
            Command::SetTool { tool } => Ok(self.set_tool(tool)),
            Command::LayCalliper { from, to } => self.lay_calliper(from, to),
            Command::MoveCalliper {
                part,
                right,
                up,
                step,
            } => self.move_calliper(part, right, up, step),
            Command::TurnCalliper { to } => self.turn_calliper(to),
            Command::LiftCalliper => Ok(self.lift_calliper()),
            Command::Pan { dx, dy } => self.pan(dx, dy),
            Command::Zoom { factor, at } => self.zoom(factor, at),
            Command::Fit => Ok(self.fit()),
            Command::FitChosen => self.fit_chosen(),
            // Taken by `run`; named so that a new command is not forgotten here.
            Command::Undo | Command::Redo | Command::Cancel => Ok(Done::new("", "")),
        }
    }

    /// Records what changed since a moment.
    fn keep(&mut self, before: Moment<'_>, done: Done) {
        self.read_line();
        let after = Moment {
            scene: &self.scene,
            chosen: &self.chosen,
        };
        self.history.record(before, after, done.name, done.run);
        self.say(done.status);
        self.touch();
    }

    fn undo(&mut self) -> Result<(), Refuse> {
        if self.gestures.under_way() {
            return Err(Refuse::InGesture);
        }
        let name = self
            .history
            .undo(&mut self.scene, &mut self.chosen)
            .ok_or(Refuse::NothingToUndo)?;
        self.read_line();
        self.keep_chosen();
        self.say(format!("Taken back: {name}."));
        self.touch();
        Ok(())
    }

    fn redo(&mut self) -> Result<(), Refuse> {
        if self.gestures.under_way() {
            return Err(Refuse::InGesture);
        }
        let name = self
            .history
            .redo(&mut self.scene, &mut self.chosen)
            .ok_or(Refuse::NothingToRedo)?;
        self.read_line();
        self.keep_chosen();
        self.say(format!("Done again: {name}."));
        self.touch();
        Ok(())
    }

    fn cancel(&mut self) {
        if self.gestures.under_way() {
            self.abandon_gesture();
            self.say("Put back as it was.");
        } else {
            self.chosen.clear();
            self.say("Nothing chosen.");
        }
        self.touch();
    }

    fn say(&mut self, status: impl Into<String>) {
        self.status = status.into();
    }

    fn touch(&mut self) {
        self.revision += 1;
    }

    fn take_id(&mut self) -> ItemId {
        let id = self.next_id;
        self.next_id = self.next_id.wrapping_add(1);
        id
    }

    /// Drops from the choice what is no longer on the line.
    fn keep_chosen(&mut self) {
        let scene = &self.scene;
        self.chosen.retain(|id| scene.item(*id).is_some());
    }

    /// The letters as they stand; none before a font has been opened.
    pub(crate) fn standings(&self) -> Vec<Standing> {
        self.sorts.as_ref().map_or_else(Vec::new, |sorts| {
            standing::standings(&self.scene, sorts, self.added())
        })
    }

    fn extent(&self) -> Rect {
        self.sorts.as_ref().map_or(Rect::ZERO, |sorts| {
            standing::extent(&self.standings(), sorts)
        })
    }

    /// A fitted view follows the line.
    fn refit(&mut self) {
        if matches!(self.scene.setting.view, View::Fit(_)) {
            self.scene.setting.view = View::Fit(self.extent());
        }
    }

    fn frame(&self) -> Frame {
        let setting = &self.scene.setting;
        let crowded = setting.layers.widths && standing::is_crowded(&self.standings());
        frame::frame(self.size, self.label, setting, crowded)
    }

    fn window(&self) -> Window {
        Window {
            size: self.size,
            room: self.frame().room,
            units_per_em: self.sorts.as_ref().map_or(1000.0, Sorts::units_per_em),
        }
    }

    fn camera(&self) -> Camera {
        self.window().camera(self.scene.setting.view)
    }

    /// Grows whenever anything that is drawn changes.
    pub(crate) fn revision(&self) -> u64 {
        self.revision
    }

    /// The canvas, CSS pixels.
    pub(crate) fn size(&self) -> Size {
        self.size
    }

    /// Every measure of a glyph. Takes the number as JavaScript has it.
    ///
    /// # Errors
    /// If there is no font, or no such glyph in it.
    pub(crate) fn report(&self, glyph: f64) -> Result<Rc<LetterReport>, Refuse> {
        let sorts = self.sorts.as_ref().ok_or(Refuse::NoFont)?;
        let id = within("glyph's number", glyph, 0.0, f64::from(u16::MAX))? as u16;
        sorts.sort(id).ok_or(Refuse::NoSuchGlyph(id))?;
        Ok(sorts.report(id))
    }
}

#[cfg(test)]
mod tests;
