//! From font units to the canvas and back.

use super::scene::View;
use kurbo::{Point, Rect, Size, Vec2};

/// The smallest and the largest that an em may be shown, CSS pixels. Below, a
/// letter is a speck; above, a unit is as wide as a finger.
const LEAST_EM: f64 = 6.0;
const MOST_EM: f64 = 60_000.0;

/// How far the place in the middle of the canvas may lie outside of the line,
/// in ems: the letters can be moved aside, not out of reach.
const LEEWAY: f64 = 0.25;

/// White around a fitted line, as a share of the room.
const FIT_MARGIN: f64 = 0.04;

/// How the stage is seen: what a font unit is, and where the line begins.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Camera {
    /// CSS pixels a font unit.
    pub(crate) scale: f64,
    /// Where (0, 0) of the line stands on the canvas, CSS pixels.
    pub(crate) origin: Point,
}

impl Camera {
    /// Where a point of the stage is on the canvas.
    pub(crate) fn to_canvas(self, p: Point) -> Point {
        Point::new(
            self.origin.x + self.scale * p.x,
            self.origin.y - self.scale * p.y,
        )
    }

    /// Which point of the stage is at a place of the canvas.
    pub(crate) fn to_stage(self, p: Point) -> Point {
        Point::new(
            (p.x - self.origin.x) / self.scale,
            (self.origin.y - p.y) / self.scale,
        )
    }

    /// A box of the stage on the canvas.
    pub(crate) fn rect(self, r: Rect) -> Rect {
        Rect::from_points(
            self.to_canvas(Point::new(r.x0, r.y0)),
            self.to_canvas(Point::new(r.x1, r.y1)),
        )
    }
}

/// What a view is seen through: the canvas, the part of it that is left for the
/// letters, and the font's scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Window {
    /// The canvas, CSS pixels.
    pub(crate) size: Size,
    /// The room for a fitted line within it.
    pub(crate) room: Rect,
    /// Units per em.
    pub(crate) units_per_em: f64,
}

impl Window {
    fn middle(&self) -> Point {
        Point::new(0.5 * self.size.width, 0.5 * self.size.height)
    }

    fn clamp_scale(&self, scale: f64) -> f64 {
        let em = (scale * self.units_per_em).clamp(LEAST_EM, MOST_EM);
        em / self.units_per_em
    }

    /// How a view is seen.
    pub(crate) fn camera(&self, view: View) -> Camera {
        match view {
            View::At { scale, centre } => {
                let scale = self.clamp_scale(scale);
                let m = self.middle();
                let origin = Point::new(m.x - scale * centre.x, m.y + scale * centre.y);
                Camera { scale, origin }
            }
            View::Fit(part) => self.fit(part),
        }
    }

    fn fit(&self, part: Rect) -> Camera {
        let inner = 1.0 - 2.0 * FIT_MARGIN;
        // A part without breadth (an empty line, a lone point) still has a place.
        let breadth = part.width().max(0.05 * self.units_per_em);
        let height = part.height().max(0.05 * self.units_per_em);
        let scale = (inner * self.room.width() / breadth).min(inner * self.room.height() / height);
        let scale = self.clamp_scale(scale);
        let (room, part) = (self.room.center(), part.center());
        let origin = Point::new(room.x - scale * part.x, room.y + scale * part.y);
        Camera { scale, origin }
    }

    /// The view that shows what a camera shows.
    fn view(&self, camera: Camera, line: Rect) -> View {
        let centre = camera.to_stage(self.middle());
        let leeway = LEEWAY * self.units_per_em;
        let reach = line.inflate(leeway, leeway);
        View::At {
            scale: camera.scale,
            centre: Point::new(
                centre.x.clamp(reach.x0, reach.x1),
                centre.y.clamp(reach.y0, reach.y1),
            ),
        }
    }

    /// The view moved by some CSS pixels. `line` is what must stay in reach.
    pub(crate) fn pan(&self, view: View, by: Vec2, line: Rect) -> View {
        let mut camera = self.camera(view);
        camera.origin += by;
        self.view(camera, line)
    }

    /// The view brought nearer by a factor, about a place of the canvas.
    pub(crate) fn zoom(&self, view: View, factor: f64, at: Point, line: Rect) -> View {
        let camera = self.camera(view);
        let held = camera.to_stage(at);
        self.hold(camera.scale * factor, held, at, line)
    }

    /// The view of a scale in which a point of the stage is at a place of the canvas.
    pub(crate) fn hold(&self, scale: f64, point: Point, at: Point, line: Rect) -> View {
        let scale = self.clamp_scale(scale);
        let origin = Point::new(at.x - scale * point.x, at.y + scale * point.y);
        self.view(Camera { scale, origin }, line)
    }

    /// The middle of the room for the letters.
    pub(crate) fn room_centre(&self) -> Point {
        self.room.center()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINE: Rect = Rect::new(0.0, -200.0, 4000.0, 800.0);

    fn window() -> Window {
        Window {
            size: Size::new(1200.0, 600.0),
            room: Rect::new(0.0, 0.0, 1200.0, 500.0),
            units_per_em: 1000.0,
        }
    }

    fn near(a: Point, b: Point) -> bool {
        (a - b).hypot() < 1e-6
    }

    #[test]
    fn there_and_back() {
        let c = window().camera(View::Fit(LINE));
        let p = Point::new(123.0, 456.0);
        assert!(near(c.to_stage(c.to_canvas(p)), p));
    }

    #[test]
    fn fit_shows_the_whole_part_in_the_room() {
        let w = window();
        for part in [LINE, Rect::new(0.0, 0.0, 100.0, 5000.0), Rect::ZERO] {
            let shown = w.camera(View::Fit(part)).rect(part);
            assert!(w.room.contains_rect(shown), "{shown:?}");
        }
    }

    #[test]
    fn zoom_holds_the_place_under_the_pointer() {
        let w = window();
        let at = Point::new(700.0, 200.0);
        let before = w.camera(View::Fit(LINE)).to_stage(at);
        let view = w.zoom(View::Fit(LINE), 2.5, at, LINE);
        assert!(near(w.camera(view).to_stage(at), before));
    }

    #[test]
    fn pan_moves_letters_with_the_pointer() {
        let w = window();
        let (before, by) = (w.camera(View::Fit(LINE)), Vec2::new(30.0, -12.0));
        let after = w.camera(w.pan(View::Fit(LINE), by, LINE));
        assert!(near(after.origin, before.origin + by));
    }

    #[test]
    fn the_line_stays_in_reach_whatever_comes() {
        let w = window();
        let mut view = View::Fit(LINE);
        for by in [1e300, -1e300, 1e5] {
            view = w.pan(view, Vec2::new(by, by), LINE);
            let c = w.camera(view);
            assert!(c.origin.is_finite());
            assert!(c.rect(LINE.inflate(260.0, 260.0)).contains(w.middle()));
        }
        for factor in [1e300, 1e-300, 0.5] {
            view = w.zoom(view, factor, Point::new(3.0, 4.0), LINE);
            let em = w.camera(view).scale * 1000.0;
            assert!((LEAST_EM - 1e-6..=MOST_EM + 1e-6).contains(&em), "{em}");
        }
    }

    #[test]
    fn a_canvas_of_no_size_still_has_a_camera() {
        let w = Window {
            size: Size::ZERO,
            room: Rect::ZERO,
            units_per_em: 1000.0,
        };
        let c = w.camera(View::Fit(LINE));
        assert!(c.scale > 0.0 && c.origin.is_finite());
    }
}
