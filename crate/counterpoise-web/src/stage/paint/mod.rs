//! The picture: the stage on a 2D canvas, from the ground up.
//!
//! A frame is painted only when something has changed. What stays the same
//! from frame to frame is kept: each glyph's paths in font units, the widths of
//! figures, and where labels go until a letter or the view moves.

mod brush;
mod calliper;
mod chosen;
mod columns;
mod figures;
mod finding;
mod flaws;
mod guides;
mod ink;
mod labels;
mod legend;
mod over;
mod overshoot;
mod points;
mod reading;
mod refit;
mod shapes;
mod strip;
mod strokes;
mod texture;
mod thickness;
mod turn;
mod white;
mod widths;

use super::command::ItemId;
use super::frame::Frame;
use super::scene::{Item, Scene, Setting};
use super::sorts::Sorts;
use super::standing::{self, Standing};
use super::texture::Texture;
use super::view::Camera;
use super::white::White;
use super::{Stage, calliper as reader};
use crate::refuse::Refuse;
use crate::stage::state::CalliperState;
use crate::theme::Theme;
use brush::{Brush, Surface, Widths};
use counterpoise::report::FindingReport;
use figures::Figures;
use ink::Blurred;
use kurbo::{Rect, Size};
use labels::Label;
use shapes::Shapes;
use std::rc::Rc;
use texture::Tone;
use turn::Turn;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::HtmlCanvasElement;

/// What a call on the canvas answers.
type Drawn = Result<(), JsValue>;

/// Device pixels for a CSS pixel that are believed. Browsers give 0.25 to
/// about 5 with the page zoomed in on a dense screen.
const RATIOS: (f64, f64) = (0.25, 8.0);

/// The longest side of a canvas that every browser of the last years can hold.
const MOST_DEVICE_SIDE: f64 = 16_384.0;

/// Draws the stage on one canvas.
#[derive(Debug)]
pub(crate) struct Painter {
    surface: Surface,
    theme: Theme,
    size: Size,
    ratio: f64,
    shapes: Shapes,
    widths: Widths,
    figures: Figures,
    blurred: Option<Blurred>,
    tone: Option<Tone>,
    /// Whether what the canvas should show is still to be worked out in part.
    unfinished: bool,
    /// The stage's revision that the canvas shows; `None` if something else
    /// than the stage has changed since.
    shown: Option<u64>,
}

/// All that one frame shows.
struct Picture<'a> {
    sorts: &'a Sorts,
    scene: &'a Scene,
    setting: &'a Setting,
    /// The white between letters, if it is shown.
    white: Option<Rc<White>>,
    /// The line's texture, if it is shown.
    texture: Option<Rc<Texture>>,
    chosen: &'a [ItemId],
    standings: Vec<Standing>,
    /// Indices of the letters whose ink may be seen, from the lowest up.
    seen: Vec<usize>,
    /// Whether each letter lies over another.
    over: Vec<bool>,
    calliper: Option<CalliperState>,
    /// The finding that stands on the stage.
    finding: Option<&'a FindingReport>,
    /// All that is known of the stage.
    stage: &'a Stage,
    /// The findings that are numbered under their letters.
    marked: Vec<(usize, &'a FindingReport)>,
    camera: Camera,
    frame: Frame,
}

impl Picture<'_> {
    /// CSS pixels that the em is shown at.
    fn em(&self) -> f64 {
        self.camera.scale * self.sorts.units_per_em()
    }

    /// Whether letters are shown so that what is measured may stand on them: marks
    /// are sharp, and would undo a blur.
    fn is_sharp(&self) -> bool {
        self.setting.blur == 0.0 && !self.setting.layers.texture
    }

    fn is_chosen(&self, item: &Item) -> bool {
        self.chosen.contains(&item.id)
    }

    /// Letters whose ink may be seen, from the lowest up.
    fn letters(&self) -> impl Iterator<Item = &Standing> {
        self.seen.iter().map(|&i| &self.standings[i])
    }
}

impl Painter {
    /// A painter for a canvas.
    ///
    /// # Errors
    /// If the canvas has no 2D context to give.
    pub(crate) fn new(canvas: HtmlCanvasElement) -> Result<Self, Refuse> {
        Ok(Self {
            surface: Surface::of(canvas).map_err(refuse)?,
            theme: Theme::default(),
            size: Size::ZERO,
            ratio: 1.0,
            shapes: Shapes::default(),
            widths: Widths::default(),
            figures: Figures::default(),
            blurred: None,
            tone: None,
            unfinished: false,
            shown: None,
        })
    }

    /// Takes colours and type.
    pub(crate) fn set_theme(&mut self, theme: &Theme) {
        self.theme = theme.clone();
        // A colour is handed to the canvas hundreds of times a frame: the
        // browser's own string of it is kept.
        for colour in theme.colours() {
            wasm_bindgen::intern(colour);
        }
        self.widths = Widths::default();
        self.figures = Figures::default();
        self.tone = None;
        self.shown = None;
    }

    /// Takes the canvas's size in CSS pixels and the device's pixels for each.
    pub(crate) fn resize(&mut self, size: Size, ratio: f64) {
        let ratio = if ratio.is_finite() {
            ratio.clamp(RATIOS.0, RATIOS.1)
        } else {
            1.0
        };
        let longest = size.width.max(size.height).max(1.0);
        self.size = size;
        self.ratio = ratio.min(MOST_DEVICE_SIDE / longest);
        self.shown = None;
    }

    /// Drops what was kept of the letters of another font.
    pub(crate) fn forget_letters(&mut self) {
        self.shapes = Shapes::default();
        self.figures = Figures::default();
        self.shown = None;
    }

    /// Draws the stage if it has changed since it was drawn last; whether it did.
    ///
    /// # Errors
    /// If the browser refuses a call on the canvas.
    pub(crate) fn paint(&mut self, stage: &Stage) -> Result<bool, Refuse> {
        if self.shown == Some(stage.revision()) && !self.unfinished {
            return Ok(false);
        }
        self.frame(stage).map_err(refuse)?;
        self.shown = Some(stage.revision());
        Ok(true)
    }

    /// Works on what the canvas should show and does not yet, for as long as a
    /// task may take: the next frame shows it.
    ///
    /// # Errors
    /// If the browser refuses to make a path.
    pub(crate) fn work(&mut self, stage: &Stage) -> Result<(), Refuse> {
        let Some(picture) = picture(stage) else {
            return Ok(());
        };
        let turn = Turn::begin();
        for glyph in unmeasured(&picture) {
            if turn.is_over() {
                return Ok(());
            }
            picture.sorts.report(glyph);
        }
        self.shapes.learn_refits(&picture, turn).map_err(refuse)
    }

    /// Whether there is such work.
    pub(crate) fn is_unfinished(&self) -> bool {
        self.unfinished
    }

    fn frame(&mut self, stage: &Stage) -> Drawn {
        self.surface.fit(self.size, self.ratio);
        let brush = Brush::new(&self.surface.context, &self.theme, self.ratio, &self.widths);
        let canvas = self.size.to_rect();
        brush.begin()?;
        brush.rect(canvas, &self.theme.paper);
        self.unfinished = false;
        let Some(picture) = picture(stage) else {
            return Ok(());
        };
        let layers = picture.setting.layers;
        let sharp = picture.is_sharp();
        // The letters themselves come at once, what is measured of them when it is there.
        self.unfinished =
            unmeasured(&picture).next().is_some() || self.shapes.lack_refits(&picture);
        self.shapes.learn(&picture)?;
        let figures = calliper::figures(&brush, &picture);
        let notes = if layers.guides {
            guides::notes(&brush, &picture)
        } else {
            Vec::new()
        };
        if layers.guides {
            guides::paint(&brush, &picture)?;
        }
        white::paint(&brush, &picture)?;
        if layers.texture {
            texture::paint(&brush, &picture, &mut self.tone)?;
        } else {
            ink::paint(&brush, &picture, &self.shapes, &mut self.blurred)?;
        }
        if sharp {
            if layers.points {
                points::paint(&brush, &picture)?;
            }
            if layers.refit {
                refit::paint(&brush, &picture, &self.shapes)?;
            }
            if layers.strokes {
                strokes::paint(&brush, &picture, &self.shapes)?;
            }
            if layers.overshoot {
                overshoot::paint(&brush, &picture)?;
            }
            if layers.flaws {
                flaws::paint(&brush, &picture)?;
            }
            finding::paint(&brush, &picture)?;
        }
        let mut taken: Vec<Rect> = notes.iter().map(|n| n.rect).collect();
        taken.extend(figures.iter().map(Label::rect));
        taken.extend(chosen::pins(&picture));
        taken.push(picture.frame.legend);
        self.figures.paint(&brush, &picture, sharp, taken)?;
        legend::paint(&brush, &picture)?;
        chosen::paint(&brush, &picture)?;
        guides::paint_notes(&brush, &notes)?;
        calliper::paint(&brush, &picture, &figures)?;
        widths::paint(&brush, &picture)?;
        reading::paint(&brush, &picture, &self.shapes)?;
        strip::paint(&brush, &picture)
    }
}

/// The letters that may be seen and are still to be measured, if what is shown
/// needs that.
fn unmeasured(picture: &Picture<'_>) -> impl Iterator<Item = u16> {
    let layers = picture.setting.layers;
    let marks = layers.strokes || layers.overshoot || layers.flaws || layers.refit;
    let needed = layers.widths || picture.is_sharp() && marks;
    picture
        .letters()
        .filter_map(|s| s.item.glyph)
        .filter(move |&glyph| needed && picture.sorts.measured(glyph).is_none())
}

fn picture(stage: &Stage) -> Option<Picture<'_>> {
    let sorts = stage.sorts.as_ref()?;
    let (camera, frame) = (stage.camera(), stage.frame());
    let standings = stage.standings();
    let setting = &stage.scene.setting;
    let white = setting.layers.white.then(|| stage.white());
    let texture = setting.layers.texture.then(|| stage.texture());
    let order = standing::painting_order(&standings);
    let over = over::laid_over(&standings, &order);
    // A blurred letter, its outline and its marks reach past its ink a little.
    let margin = 24.0 + 3.0 * setting.blur * camera.scale * sorts.x_height();
    let view = frame.letters.inflate(margin, margin);
    let seen = |i: &usize| shown(&standings[*i], camera).overlaps(view);
    let seen = order.iter().copied().filter(seen).collect();
    let calliper = setting
        .calliper
        .as_ref()
        .map(|c| reader::read(c, &standings));
    Some(Picture {
        sorts,
        scene: &stage.scene,
        setting,
        white,
        texture,
        chosen: &stage.chosen,
        seen,
        over,
        standings,
        calliper,
        finding: stage.finding(),
        stage,
        marked: stage.marked(),
        camera,
        frame,
    })
}

/// The box on the canvas of all that is drawn of a letter.
fn shown(s: &Standing, camera: Camera) -> Rect {
    let (left, right) = s.breadth();
    let own = Rect::new(left, 0.0, right.max(left), 1.0);
    camera.rect(s.ink.map_or(own, |ink| ink.union(own)))
}

fn refuse(e: JsValue) -> Refuse {
    let why = e
        .dyn_ref::<js_sys::Error>()
        .map(|e| String::from(e.message()))
        .or_else(|| e.as_string());
    Refuse::Canvas(why.unwrap_or_else(|| "no reason given".to_owned()))
}
