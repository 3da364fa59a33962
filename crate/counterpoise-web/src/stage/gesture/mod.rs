//! What pointers do, from pressing to letting go.
//!
//! A gesture changes the scene as it goes and becomes one step when it ends;
//! given up, it leaves the scene as it was. Two fingers take over from one.

mod letters;
mod rule;
mod view;

use super::command::{ItemId, PointerInput, PointerKind, PointerPhase, Tool};
use super::history::{Moment, Run};
use super::scene::{Calliper, Scene};
use super::{Done, Stage};
use kurbo::Point;

/// How far a press may wander before it is a drag, CSS pixels. Fingers roll.
const SLOP: f64 = 3.0;
const TOUCH_SLOP: f64 = 8.0;

/// How near to a letter or to the calliper's line a press counts, CSS pixels.
const REACH: f64 = 4.0;
const TOUCH_REACH: f64 = 14.0;

/// The pointers on the canvas and what they are doing.
#[derive(Debug, Default)]
pub(super) struct Gestures {
    /// Fingers on the canvas, in order of arrival.
    fingers: Vec<(i32, Point)>,
    gesture: Option<Gesture>,
    hover: Hover,
}

/// What a resting pointer is over.
#[derive(Debug, Default, Clone, Copy, PartialEq, Eq)]
enum Hover {
    #[default]
    Nothing,
    Letter,
    PinnedLetter,
}

#[derive(Debug)]
struct Gesture {
    pointer: i32,
    /// Where it was pressed.
    at: Point,
    slop: f64,
    /// The stage when it was pressed.
    scene: Scene,
    chosen: Vec<ItemId>,
    kind: Kind,
}

#[derive(Debug, Clone)]
enum Kind {
    /// A letter is held, and has not been moved yet. On letting go it alone is
    /// chosen, unless the press has added to the choice.
    Press { letter: ItemId, alone: bool },
    /// Letters move; where each stood at the start. The held one comes first.
    Drag { from: Vec<(ItemId, f64)> },
    /// An empty place is held. On letting go nothing is chosen, unless a key
    /// is held that adds to the choice.
    Ground { alone: bool },
    /// The view moves.
    Pan,
    /// Two fingers hold two places of the stage.
    Pinch { fingers: [(i32, Point); 2] },
    /// The calliper is drawn from where it was pressed.
    Draw,
    /// An end of the calliper moves, the other stays.
    End { fixed: Point, from: bool },
    /// The whole calliper moves.
    Carry { line: Calliper },
}

impl Gestures {
    pub(super) fn under_way(&self) -> bool {
        self.gesture.is_some()
    }
}

impl Stage {
    /// Takes a pointer's event; whether anything has changed.
    pub(crate) fn pointer(&mut self, event: &PointerInput) -> bool {
        let p = Point::new(event.x, event.y);
        if !p.is_finite() || self.sorts.is_none() {
            return false;
        }
        let revision = self.revision;
        match event.phase {
            PointerPhase::Down => self.down(event, p),
            PointerPhase::Move => self.moved_to(event, p),
            PointerPhase::Up => self.up(event, p),
            PointerPhase::Cancel => self.lost(event),
        }
        self.revision != revision
    }

    /// The CSS cursor that says what a press would do.
    pub(crate) fn cursor(&self) -> &'static str {
        match (&self.gestures.gesture, self.tool, self.gestures.hover) {
            (Some(g), _, _) => match g.kind {
                Kind::Press { .. } | Kind::Drag { .. } => "ew-resize",
                Kind::Ground { .. } | Kind::Pan | Kind::Pinch { .. } | Kind::Carry { .. } => {
                    "grabbing"
                }
                Kind::Draw | Kind::End { .. } => "crosshair",
            },
            (None, Tool::Calliper, _) => "crosshair",
            (None, Tool::Letters, Hover::Letter) => "ew-resize",
            (None, Tool::Letters, Hover::PinnedLetter) => "pointer",
            (None, Tool::Letters, Hover::Nothing) => "grab",
        }
    }

    fn down(&mut self, event: &PointerInput, p: Point) {
        let fingers = &mut self.gestures.fingers;
        if event.kind == PointerKind::Touch {
            fingers.retain(|f| f.0 != event.id);
            fingers.push((event.id, p));
            if let [a, b] = fingers[..] {
                self.abandon_gesture();
                let fingers = [a, b];
                self.begin(event, p, Kind::Pinch { fingers });
            }
        } else {
            // Should the system have kept a finger's end to itself.
            fingers.clear();
        }
        if self.gestures.under_way() || self.gestures.fingers.len() > 1 {
            return;
        }
        let kind = match (event.button, self.tool) {
            (0, Tool::Letters) => self.press(event, p),
            (0, Tool::Calliper) => self.grip(event, p),
            (1, _) => Kind::Pan,
            _ => return,
        };
        self.begin(event, p, kind);
    }

    fn begin(&mut self, event: &PointerInput, at: Point, kind: Kind) {
        // The choice before the press is what undo goes back to; a press that
        // chooses is taken below, after it has been noted.
        let chosen = self.chosen.clone();
        if let Kind::Press { letter, alone } = kind {
            self.choose_pressed(letter, alone);
        }
        let touch = event.kind == PointerKind::Touch;
        self.gestures.gesture = Some(Gesture {
            pointer: event.id,
            at,
            slop: if touch { TOUCH_SLOP } else { SLOP },
            scene: self.scene.clone(),
            chosen,
            kind,
        });
        self.touch();
    }

    fn moved_to(&mut self, event: &PointerInput, p: Point) {
        if let Some(finger) = self.gestures.fingers.iter_mut().find(|f| f.0 == event.id) {
            finger.1 = p;
        }
        let Some(gesture) = self.gestures.gesture.take() else {
            self.hover(event, p);
            return;
        };
        let gesture = self.advance(gesture, event, p);
        self.gestures.gesture = Some(gesture);
    }

    fn hover(&mut self, event: &PointerInput, p: Point) {
        let pinned = |id| self.scene.item(id).is_some_and(|i| i.pinned);
        self.gestures.hover = match self.letter_under(event, p) {
            Some(id) if pinned(id) => Hover::PinnedLetter,
            Some(_) => Hover::Letter,
            None => Hover::Nothing,
        };
    }

    /// Carries a gesture on to where its pointer is now.
    fn advance(&mut self, mut gesture: Gesture, event: &PointerInput, p: Point) -> Gesture {
        if let Kind::Pinch { fingers } = &gesture.kind {
            if fingers.iter().any(|f| f.0 == event.id) {
                self.pinch(&gesture.scene, fingers);
            }
            return gesture;
        }
        if event.id != gesture.pointer {
            return gesture;
        }
        let far = (p - gesture.at).hypot() > gesture.slop;
        match &gesture.kind {
            Kind::Press { letter, .. } if far => {
                if let Some(from) = self.drag_from(*letter) {
                    self.drag(&from, p - gesture.at, event.alt);
                    gesture.kind = Kind::Drag { from };
                }
            }
            Kind::Ground { .. } if far => {
                gesture.kind = Kind::Pan;
                self.pan_from(gesture.scene.setting.view, p - gesture.at);
            }
            Kind::Draw if far => self.draw(gesture.at, p, event),
            Kind::Press { .. } | Kind::Ground { .. } | Kind::Draw => {}
            Kind::Drag { from } => self.drag(from, p - gesture.at, event.alt),
            Kind::Pan => self.pan_from(gesture.scene.setting.view, p - gesture.at),
            Kind::End { fixed, from } => self.drag_end(*fixed, *from, p, event),
            Kind::Carry { line } => self.carry(line, p - gesture.at, event.alt),
            Kind::Pinch { .. } => {}
        }
        gesture
    }

    fn up(&mut self, event: &PointerInput, p: Point) {
        self.moved_to(event, p);
        self.gestures.fingers.retain(|f| f.0 != event.id);
        let ends = self
            .gestures
            .gesture
            .as_ref()
            .is_some_and(|g| match &g.kind {
                Kind::Pinch { fingers } => fingers.iter().any(|f| f.0 == event.id),
                _ => g.pointer == event.id,
            });
        if ends {
            self.finish_gesture();
        }
    }

    fn lost(&mut self, event: &PointerInput) {
        self.gestures.fingers.retain(|f| f.0 != event.id);
        let ours = self
            .gestures
            .gesture
            .as_ref()
            .is_some_and(|g| g.pointer == event.id || matches!(g.kind, Kind::Pinch { .. }));
        if ours {
            self.abandon_gesture();
        }
    }

    /// Ends the gesture under way as if the pointer had been let go.
    pub(super) fn finish_gesture(&mut self) {
        let Some(gesture) = self.gestures.gesture.take() else {
            return;
        };
        let done = match &gesture.kind {
            Kind::Press { letter, alone } => {
                if *alone {
                    self.chosen = vec![*letter];
                    self.say(self.chosen_sentence());
                }
                self.touch();
                return;
            }
            Kind::Ground { alone } => {
                if *alone {
                    self.chosen.clear();
                    self.say("Nothing chosen.");
                }
                self.touch();
                return;
            }
            Kind::Drag { from } => {
                let ids: Vec<ItemId> = from.iter().map(|f| f.0).collect();
                self.moved(&ids)
            }
            Kind::Pan | Kind::Pinch { .. } => Done::new("Move the view", "").in_run(Run::View),
            Kind::Draw => Done::new("Lay the calliper", self.calliper_sentence()),
            Kind::End { .. } | Kind::Carry { .. } => {
                Done::new("Move the calliper", self.calliper_sentence())
            }
        };
        let before = Moment {
            scene: &gesture.scene,
            chosen: &gesture.chosen,
        };
        self.keep(before, done);
    }

    /// Gives up the gesture under way: everything is as it was before.
    pub(super) fn abandon_gesture(&mut self) {
        if let Some(gesture) = self.gestures.gesture.take() {
            self.scene = gesture.scene;
            self.chosen = gesture.chosen;
            self.touch();
        }
    }
}
