//! Drawing in CSS pixels, sharp on any screen.

use super::Drawn;
use crate::theme::Theme;
use js_sys::Array;
use kurbo::{Affine, Point, Rect, Size};
use std::cell::RefCell;
use std::collections::HashMap;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// Different texts whose widths are kept; beyond, all are measured again.
const MOST_WIDTHS: usize = 4000;

/// A canvas and its context.
#[derive(Debug)]
pub(super) struct Surface {
    pub(super) canvas: HtmlCanvasElement,
    pub(super) context: CanvasRenderingContext2d,
}

impl Surface {
    /// Takes a canvas for drawing.
    pub(super) fn of(canvas: HtmlCanvasElement) -> Result<Self, JsValue> {
        let context = canvas
            .get_context("2d")?
            .ok_or_else(|| JsValue::from_str("no 2D context"))?
            .dyn_into()?;
        Ok(Self { canvas, context })
    }

    /// A canvas of its own, on no page.
    pub(super) fn aside() -> Result<Self, JsValue> {
        let document = web_sys::window()
            .and_then(|w| w.document())
            .ok_or_else(|| JsValue::from_str("no document"))?;
        Self::of(document.create_element("canvas")?.dyn_into()?)
    }

    /// Gives the canvas its size in device pixels. Setting it clears the canvas,
    /// so it is set only where it differs.
    pub(super) fn fit(&self, size: Size, ratio: f64) {
        let (w, h) = (
            (size.width * ratio).round() as u32,
            (size.height * ratio).round() as u32,
        );
        if self.canvas.width() != w {
            self.canvas.set_width(w);
        }
        if self.canvas.height() != h {
            self.canvas.set_height(h);
        }
    }
}

/// Widths of texts, so that a figure is measured once.
#[derive(Debug, Default)]
pub(super) struct Widths(RefCell<HashMap<String, f64>>);

/// Where a text hangs from its point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Hang {
    /// To the right of it.
    Right,
    /// To the left of it.
    Left,
    /// About it.
    Middle,
}

/// A context with the page's colours and type.
pub(super) struct Brush<'a> {
    pub(super) context: &'a CanvasRenderingContext2d,
    pub(super) theme: &'a Theme,
    pub(super) ratio: f64,
    widths: &'a Widths,
}

impl<'a> Brush<'a> {
    pub(super) fn new(
        context: &'a CanvasRenderingContext2d,
        theme: &'a Theme,
        ratio: f64,
        widths: &'a Widths,
    ) -> Self {
        Self {
            context,
            theme,
            ratio,
            widths,
        }
    }

    /// The same brush on another canvas.
    pub(super) fn on(&self, context: &'a CanvasRenderingContext2d) -> Self {
        Self::new(context, self.theme, self.ratio, self.widths)
    }

    /// Height of the labels, CSS pixels.
    pub(super) fn label(&self) -> f64 {
        let size = self.theme.font_size;
        if size.is_finite() {
            size.clamp(9.0, 24.0)
        } else {
            12.0
        }
    }

    /// Sets the context up for a frame.
    pub(super) fn begin(&self) -> Drawn {
        self.css()?;
        let c = self.context;
        c.set_global_alpha(1.0);
        c.set_line_join("round");
        c.set_text_baseline("middle");
        c.set_text_align("left");
        c.set_font(&format!("{}px {}", self.label(), self.theme.font));
        self.solid()
    }

    /// Drawing is in CSS pixels from here on.
    pub(super) fn css(&self) -> Drawn {
        let r = self.ratio;
        self.context.set_transform(r, 0.0, 0.0, r, 0.0, 0.0)
    }

    /// Drawing is in the units of a map to CSS pixels from here on.
    pub(super) fn through(&self, map: Affine) -> Drawn {
        let [a, b, c, d, e, f] = (Affine::scale(self.ratio) * map).as_coeffs();
        self.context.set_transform(a, b, c, d, e, f)
    }

    /// Lines are whole from here on.
    pub(super) fn solid(&self) -> Drawn {
        self.context.set_line_dash(&Array::new()).map(drop)
    }

    /// Lines are dashed from here on.
    pub(super) fn dashed(&self, ink: f64, white: f64) -> Drawn {
        let dashes = Array::of(&[JsValue::from_f64(ink), JsValue::from_f64(white)]);
        self.context.set_line_dash(&dashes).map(drop)
    }

    /// The nearest place where a line of a device pixel's width is sharp.
    pub(super) fn crisp(&self, v: f64) -> f64 {
        ((v * self.ratio).floor() + 0.5) / self.ratio
    }

    pub(super) fn rect(&self, r: Rect, colour: &str) {
        self.context.set_fill_style_str(colour);
        self.context.fill_rect(r.x0, r.y0, r.width(), r.height());
    }

    pub(super) fn line(&self, a: Point, b: Point, width: f64, colour: &str) {
        let c = self.context;
        c.set_stroke_style_str(colour);
        c.set_line_width(width);
        c.begin_path();
        c.move_to(a.x, a.y);
        c.line_to(b.x, b.y);
        c.stroke();
    }

    /// A level line, sharp.
    pub(super) fn level(&self, x0: f64, x1: f64, y: f64, colour: &str) {
        let y = self.crisp(y);
        self.line(Point::new(x0, y), Point::new(x1, y), self.hair(), colour);
    }

    /// The finest line that is a whole number of device pixels, about a CSS pixel.
    pub(super) fn hair(&self) -> f64 {
        self.ratio.round().max(1.0) / self.ratio
    }

    /// Width of a text.
    pub(super) fn width(&self, text: &str) -> f64 {
        if let Some(width) = self.widths.0.borrow().get(text) {
            return *width;
        }
        let width = self.context.measure_text(text).map_or(0.0, |m| m.width());
        let mut widths = self.widths.0.borrow_mut();
        if widths.len() >= MOST_WIDTHS {
            widths.clear();
        }
        widths.insert(text.to_owned(), width);
        width
    }

    /// A text by its middle height.
    pub(super) fn text(&self, text: &str, at: Point, hang: Hang, colour: &str) -> Drawn {
        let width = self.width(text);
        let x = match hang {
            Hang::Right => at.x,
            Hang::Left => at.x - width,
            Hang::Middle => at.x - 0.5 * width,
        };
        self.context.set_fill_style_str(colour);
        // On whole device pixels, letters of this size are not smeared.
        let snap = |v: f64| (v * self.ratio).round() / self.ratio;
        self.context.fill_text(text, snap(x), snap(at.y))
    }

    /// A text on a ground of its own, so that it reads over ink.
    pub(super) fn tag(&self, text: &str, at: Point, hang: Hang, colour: &str) -> Drawn {
        let r = self.tag_rect(text, at, hang);
        self.context.set_global_alpha(TAG_ALPHA);
        self.rect(r, &self.theme.halo);
        self.context.set_global_alpha(1.0);
        self.text(text, at, hang, colour)
    }

    /// The box of a tag.
    pub(super) fn tag_rect(&self, text: &str, at: Point, hang: Hang) -> Rect {
        let size = self.tag_size(text);
        let x0 = match hang {
            Hang::Right => at.x - TAG_PAD,
            Hang::Left => at.x - size.width + TAG_PAD,
            Hang::Middle => at.x - 0.5 * size.width,
        };
        Rect::from_origin_size((x0, at.y - 0.5 * size.height), size)
    }

    /// The size of a tag.
    pub(super) fn tag_size(&self, text: &str) -> Size {
        Size::new(self.width(text) + 2.0 * TAG_PAD, 1.25 * self.label())
    }
}

/// White at each side of a tag's text, CSS pixels.
const TAG_PAD: f64 = 3.0;

/// The ground under a tag: strong enough to read by, with a trace of what it hides.
const TAG_ALPHA: f64 = 0.9;
