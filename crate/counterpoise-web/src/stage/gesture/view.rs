//! Moving the view: by hand, by two fingers, by wheel.

use crate::stage::Stage;
use crate::stage::history::Moment;
use crate::stage::scene::{Scene, View};
use kurbo::{Point, Vec2};

/// A wheel's notch in CSS pixels, and how much nearer one notch brings the view.
const NOTCH: f64 = 100.0;
const NOTCH_ZOOM: f64 = 1.25;

/// A wheel turned faster than this is not believed, CSS pixels an event.
const MOST_WHEEL: f64 = 2000.0;

impl Stage {
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

    pub(super) fn pan_from(&mut self, view: View, by: Vec2) {
        self.scene.setting.view = self.window().pan(view, by, self.extent());
        self.touch();
    }

    /// Keeps the two places of the stage that were touched under the fingers:
    /// the middle exactly, the distance by the scale.
    pub(super) fn pinch(&mut self, before: &Scene, start: &[(i32, Point); 2]) {
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
}
