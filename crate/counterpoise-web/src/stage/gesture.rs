//! What pointers do, from pressing to letting go.
//!
//! A gesture changes the scene as it goes and becomes one step when it ends;
//! given up, it leaves the scene as it was. Two fingers take over from one.

use super::command::{ItemId, PointerInput, PointerKind, PointerPhase, Tool};
use super::history::{Moment, Run};
use super::scene::{Calliper, FAR, Scene, View};
use super::{Done, Stage, calliper, hit};
use kurbo::{Line, ParamCurveNearest, Point, Vec2};

/// How far a press may wander before it is a drag, CSS pixels. Fingers roll.
const SLOP: f64 = 3.0;
const TOUCH_SLOP: f64 = 8.0;

/// How near to a letter or to the calliper's line a press counts, CSS pixels.
const REACH: f64 = 4.0;
const TOUCH_REACH: f64 = 14.0;

/// How near to an end of the calliper a press takes that end, CSS pixels.
const END_REACH: f64 = 9.0;
const TOUCH_END_REACH: f64 = 22.0;

/// How near to its own place in the line a dragged letter falls into it, CSS pixels.
const HOME_REACH: f64 = 5.0;

/// A wheel's notch in CSS pixels, and how much nearer one notch brings the view.
const NOTCH: f64 = 100.0;
const NOTCH_ZOOM: f64 = 1.25;

/// A wheel turned faster than this is not believed, CSS pixels an event.
const MOST_WHEEL: f64 = 2000.0;

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

    /// Takes a wheel's turn; whether anything has changed. Moves the view, or
    /// with Control brings it nearer. Does nothing in the middle of a gesture.
    pub(crate) fn wheel(&mut self, dx: f64, dy: f64, at: Point, ctrl: bool) -> bool {
        let sane = |v: f64| v.is_finite() && v.abs() <= MOST_WHEEL;
        if !(sane(dx) && sane(dy) && at.is_finite())
            || self.sorts.is_none()
            || self.gestures.under_way()
        {
            return false;
        }
        let (window, line, view) = (self.window(), self.extent(), self.scene.setting.view);
        let to = if ctrl {
            window.zoom(view, NOTCH_ZOOM.powf(-dy / NOTCH), at, line)
        } else {
            window.pan(view, Vec2::new(-dx, -dy), line)
        };
        let before = self.scene.clone();
        let done = self.look(to);
        if self.scene == before {
            return false;
        }
        let chosen = self.chosen.clone();
        let moment = Moment {
            scene: &before,
            chosen: &chosen,
        };
        self.keep(moment, done);
        true
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
        if event.kind == PointerKind::Touch {
            let fingers = &mut self.gestures.fingers;
            fingers.retain(|f| f.0 != event.id);
            fingers.push((event.id, p));
            if let [a, b] = fingers[..] {
                self.abandon_gesture();
                let fingers = [a, b];
                self.begin(event, p, Kind::Pinch { fingers });
            }
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

    fn press(&mut self, event: &PointerInput, p: Point) -> Kind {
        let alone = !(event.shift || event.ctrl);
        match self.letter_under(event, p) {
            Some(letter) => Kind::Press { letter, alone },
            None => Kind::Ground { alone },
        }
    }

    fn letter_under(&self, event: &PointerInput, p: Point) -> Option<ItemId> {
        let camera = self.camera();
        let touch = event.kind == PointerKind::Touch;
        let reach = if touch { TOUCH_REACH } else { REACH } / camera.scale;
        let standings = self.standings();
        if !self.frame().letters.contains(p) {
            return None;
        }
        hit::letter_at(&standings, camera.to_stage(p), reach).map(|i| standings[i].item.id)
    }

    fn choose_pressed(&mut self, letter: ItemId, alone: bool) {
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

    /// What a press with the calliper takes hold of.
    fn grip(&self, event: &PointerInput, p: Point) -> Kind {
        let Some(line) = self.scene.setting.calliper else {
            return Kind::Draw;
        };
        let camera = self.camera();
        let (from, to) = (camera.to_canvas(line.from), camera.to_canvas(line.to));
        let touch = event.kind == PointerKind::Touch;
        let end = if touch { TOUCH_END_REACH } else { END_REACH };
        let reach = if touch { TOUCH_REACH } else { REACH };
        let (to_from, to_to) = ((p - from).hypot(), (p - to).hypot());
        if to_from.min(to_to) <= end {
            let take_from = to_from < to_to;
            Kind::End {
                fixed: if take_from { line.to } else { line.from },
                from: take_from,
            }
        } else if Line::new(from, to).nearest(p, 0.1).distance_sq <= reach * reach {
            Kind::Carry { line }
        } else {
            Kind::Draw
        }
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

    /// Where the letters that a drag moves stand, the held one first; `None` if
    /// the held one is pinned or was just taken out of the choice.
    fn drag_from(&mut self, held: ItemId) -> Option<Vec<(ItemId, f64)>> {
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
        from.sort_by_key(|(id, _)| *id != held);
        Some(from)
    }

    /// Moves letters along the baseline by whole units. The held letter falls
    /// into its own place when near, and takes the others with it.
    fn drag(&mut self, from: &[(ItemId, f64)], by: Vec2, free: bool) {
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

    fn pan_from(&mut self, view: View, by: Vec2) {
        self.scene.setting.view = self.window().pan(view, by, self.extent());
        self.touch();
    }

    /// Keeps the two places of the stage that were touched under the fingers:
    /// the middle exactly, the distance by the scale.
    fn pinch(&mut self, before: &Scene, start: &[(i32, Point); 2]) {
        let now = |id: i32| {
            self.gestures
                .fingers
                .iter()
                .find(|f| f.0 == id)
                .map(|f| f.1)
        };
        let (Some(a), Some(b)) = (now(start[0].0), now(start[1].0)) else {
            return;
        };
        let window = self.window();
        let camera = window.camera(before.setting.view);
        let apart = (start[1].1 - start[0].1).hypot().max(1.0);
        let scale = camera.scale * (b - a).hypot().max(1.0) / apart;
        let held = camera.to_stage(start[0].1.midpoint(start[1].1));
        self.scene.setting.view = window.hold(scale, held, a.midpoint(b), self.extent());
        self.touch();
    }

    fn draw(&mut self, from: Point, to: Point, event: &PointerInput) {
        let from = self.measuring_point(from, event.alt);
        let to = self.calliper_end(from, to, event);
        self.set_calliper(Calliper { from, to });
    }

    fn drag_end(&mut self, fixed: Point, is_from: bool, p: Point, event: &PointerInput) {
        let end = self.calliper_end(fixed, p, event);
        self.set_calliper(if is_from {
            Calliper {
                from: end,
                to: fixed,
            }
        } else {
            Calliper {
                from: fixed,
                to: end,
            }
        });
    }

    fn carry(&mut self, line: &Calliper, by: Vec2, free: bool) {
        let scale = self.camera().scale;
        let by = Vec2::new(by.x / scale, -by.y / scale);
        let by = if free { by } else { by.round() };
        self.set_calliper(Calliper {
            from: line.from + by,
            to: line.to + by,
        });
    }

    /// Where the calliper's moving end is: on whole units, snapped to level or
    /// upright, unless Alt leaves it free.
    fn calliper_end(&self, fixed: Point, p: Point, event: &PointerInput) -> Point {
        let end = self.measuring_point(p, event.alt);
        if event.alt {
            end
        } else {
            calliper::snapped(fixed, end, event.shift)
        }
    }

    fn measuring_point(&self, p: Point, free: bool) -> Point {
        let p = self.camera().to_stage(p);
        if free { p } else { p.round() }
    }

    fn set_calliper(&mut self, line: Calliper) {
        let near = |p: Point| Point::new(p.x.clamp(-FAR, FAR), p.y.clamp(-FAR, FAR));
        self.scene.setting.calliper = Some(Calliper {
            from: near(line.from),
            to: near(line.to),
        });
        self.touch();
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
