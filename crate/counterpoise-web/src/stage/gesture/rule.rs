//! Drawing and moving the calliper.

use super::{Kind, REACH, TOUCH_REACH};
use crate::stage::command::{PointerInput, PointerKind};
use crate::stage::scene::{Calliper, near};
use crate::stage::{Stage, calliper};
use kurbo::{Line, ParamCurveNearest, Point, Vec2};

/// How near to an end of the calliper a press takes that end, CSS pixels.
const END_REACH: f64 = 9.0;
const TOUCH_END_REACH: f64 = 22.0;

impl Stage {
    /// What a press with the calliper takes hold of.
    pub(super) fn grip(&self, event: &PointerInput, p: Point) -> Kind {
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

    pub(super) fn draw(&mut self, from: Point, to: Point, event: &PointerInput) {
        let from = self.measuring_point(from, event.alt);
        let to = self.calliper_end(from, to, event);
        self.set_calliper(Calliper { from, to });
    }

    pub(super) fn drag_end(&mut self, fixed: Point, is_from: bool, p: Point, event: &PointerInput) {
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

    pub(super) fn carry(&mut self, line: &Calliper, by: Vec2, free: bool) {
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
        self.scene.setting.calliper = Some(Calliper {
            from: near(line.from),
            to: near(line.to),
        });
        self.touch();
    }
}
