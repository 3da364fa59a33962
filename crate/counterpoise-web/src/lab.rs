//! The lab as the page holds it: one font, one stage, one canvas.
//!
//! A refusal is thrown as a plain object `{ code, sentence }` and changes
//! nothing. Lengths on the canvas are CSS pixels.

use crate::boundary::{give, take, throw};
use crate::drawings;
use crate::refuse::Refuse;
use crate::stage::Stage;
use crate::stage::command::{Command, FindingKey, PointCount, PointerInput};
use crate::stage::paint::Painter;
use crate::stage::sorts::Sorts;
use crate::supply::OpenFont;
use crate::theme::Theme;
use counterpoise::judge::Drawn;
use counterpoise::report::MeantSo;
use kurbo::Point;
use std::rc::Rc;
use wasm_bindgen::prelude::*;
use web_sys::HtmlCanvasElement;

/// One font, one stage, one canvas.
#[wasm_bindgen]
#[derive(Debug, Default)]
pub struct Lab {
    font: Option<Rc<OpenFont>>,
    stage: Stage,
    painter: Option<Painter>,
    theme: Theme,
    device_pixels: f64,
}

#[wasm_bindgen]
impl Lab {
    /// A lab with an empty stage.
    #[wasm_bindgen(constructor)]
    #[must_use]
    pub fn new() -> Self {
        console_error_panic_hook::set_once();
        Self {
            device_pixels: 1.0,
            ..Self::default()
        }
    }

    /// Opens a font file, by its first face, and sets the line in it. A file
    /// that cannot be opened leaves the font before as it is.
    ///
    /// # Errors
    /// Throws what is wrong with the file.
    #[wasm_bindgen(js_name = openFont, unchecked_return_type = "FontReport")]
    pub fn open_font(&mut self, bytes: Vec<u8>, file_name: &str) -> Result<JsValue, JsValue> {
        let font = OpenFont::open(bytes, file_name).map_err(|e| throw(&Refuse::from(e)))?;
        let font = Rc::new(font);
        let report = give(font.report())?;
        self.stage.set_sorts(Sorts::new(Box::new(Rc::clone(&font))));
        self.font = Some(font);
        if let Some(painter) = &mut self.painter {
            painter.forget_letters();
        }
        Ok(report)
    }

    /// The open font's file without what was drawn anew, as a shaper reads it;
    /// empty of loose drawings.
    pub fn file(&self) -> Vec<u8> {
        let font = self.font.as_ref();
        font.map(|font| font.file().to_vec()).unwrap_or_default()
    }

    /// What the open font says of itself; `null` before one is open.
    ///
    /// # Errors
    /// Never, unless the engine is out of memory.
    #[wasm_bindgen(unchecked_return_type = "FontReport | null")]
    pub fn font(&self) -> Result<JsValue, JsValue> {
        self.font
            .as_ref()
            .map_or(Ok(JsValue::NULL), |font| give(font.report()))
    }

    /// Every measure of one glyph.
    ///
    /// # Errors
    /// Throws if there is no font, or no such glyph in it.
    #[wasm_bindgen(unchecked_return_type = "LetterReport")]
    pub fn letter(&self, glyph: f64) -> Result<JsValue, JsValue> {
        let report = self.stage.report(glyph).map_err(|e| throw(&e))?;
        give(&*report)
    }

    /// Measures the letters that are held against each other, if that has not
    /// been done: a task of its own between the first picture and the judging,
    /// so that neither holds the page up.
    #[wasm_bindgen(js_name = measureAlphabet)]
    pub fn measure_alphabet(&self) {
        if let Some(font) = &self.font {
            font.alphabet();
        }
    }

    /// What stands out of the open font, and why, but for what is meant so. Of
    /// the letters whose points have been counted, those with too many are told
    /// too. Takes a few milliseconds.
    ///
    /// # Errors
    /// Throws if there is no font.
    #[wasm_bindgen(unchecked_return_type = "JudgementReport")]
    pub fn judge(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "MeantSo[]")] meant: JsValue,
        #[wasm_bindgen(unchecked_param_type = "PointCount[]")] points: JsValue,
    ) -> Result<JsValue, JsValue> {
        let font = self.font.as_ref().ok_or_else(|| throw(&Refuse::NoFont))?;
        let meant: Vec<MeantSo> = take(meant)?;
        let points: Vec<PointCount> = take(points)?;
        let drawn: Vec<Drawn> = points.iter().filter_map(PointCount::drawn).collect();
        let report = font.judge(&meant, &drawn);
        let told = give(&report)?;
        self.stage.set_judgement(report);
        Ok(told)
    }

    /// How the open font keeps the optical rules.
    ///
    /// # Errors
    /// Throws if there is no font.
    #[wasm_bindgen(unchecked_return_type = "RulesReport")]
    pub fn rules(&self) -> Result<JsValue, JsValue> {
        let font = self.font.as_ref().ok_or_else(|| throw(&Refuse::NoFont))?;
        give(&font.rules())
    }

    /// Marks these findings under their letters, numbered in this order; any that
    /// the judgement does not hold is passed over.
    ///
    /// # Errors
    /// Throws if it is no list of findings.
    #[wasm_bindgen(js_name = markFindings)]
    pub fn mark_findings(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "FindingKey[]")] findings: JsValue,
    ) -> Result<(), JsValue> {
        let findings: Vec<FindingKey> = take(findings)?;
        self.stage.mark_findings(&findings);
        Ok(())
    }

    /// Takes what a spacing adds to the font's own side bearings: kerning as a
    /// shaper applies it, or what the lab suggests. It holds until it is given
    /// anew, or another font is opened.
    ///
    /// # Errors
    /// Throws if it holds what is no length, or is for the font's own spacing.
    #[wasm_bindgen(js_name = setFitting)]
    pub fn set_fitting(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "Spacing")] spacing: JsValue,
        #[wasm_bindgen(unchecked_param_type = "Fitting")] fitting: JsValue,
    ) -> Result<(), JsValue> {
        let (spacing, fitting) = (take(spacing)?, take(fitting)?);
        self.stage
            .set_fitting(spacing, &fitting)
            .map_err(|e| throw(&e))
    }

    /// Takes what tells how a line is read: of a text five numbers for each
    /// character, as the shaping module's `read` gives them. It holds until another
    /// font is opened, and must not ask anything of this lab.
    #[wasm_bindgen(js_name = setReader)]
    pub fn set_reader(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "(text: string) => Int32Array")]
        reader: js_sys::Function,
    ) {
        self.stage.set_reader(Box::new(move |text| {
            let told = reader.call1(&JsValue::NULL, &text.into());
            told.map_or_else(
                |_| Vec::new(),
                |told| js_sys::Int32Array::new(&told).to_vec(),
            )
        }));
    }

    /// A name for the open file that its bytes alone lead to, to keep a person's
    /// word about it by; empty before one is open.
    #[must_use]
    pub fn fingerprint(&self) -> String {
        let font = self.font.as_ref();
        font.map_or_else(String::new, |font| font.fingerprint())
    }

    /// What the open font holds: its characters and its substitutions.
    ///
    /// # Errors
    /// Throws if there is no font.
    #[wasm_bindgen(unchecked_return_type = "ContentsReport")]
    pub fn contents(&self) -> Result<JsValue, JsValue> {
        let font = self.font.as_ref().ok_or_else(|| throw(&Refuse::NoFont))?;
        give(&font.contents())
    }

    /// The letters of a text that the open font has as drawings, each once, in
    /// the text's order.
    ///
    /// # Errors
    /// Throws if there is no font.
    #[wasm_bindgen(unchecked_return_type = "LetterDrawing[]")]
    pub fn drawings(&self, text: &str) -> Result<JsValue, JsValue> {
        let font = self.font.as_ref().ok_or_else(|| throw(&Refuse::NoFont))?;
        give(&drawings::of(font, text))
    }

    /// Draws on this canvas from now on.
    ///
    /// # Errors
    /// Throws if the canvas has no 2D context to give.
    pub fn attach(&mut self, canvas: HtmlCanvasElement) -> Result<(), JsValue> {
        let mut painter = Painter::new(canvas).map_err(|e| throw(&e))?;
        painter.set_theme(&self.theme);
        painter.resize(self.stage.size(), self.device_pixels);
        self.painter = Some(painter);
        Ok(())
    }

    /// Takes the canvas's size in CSS pixels and the device's pixels for each.
    /// The canvas's own width and height are set when the next frame is drawn,
    /// so that it never shows empty.
    pub fn resize(&mut self, css_width: f64, css_height: f64, device_pixel_ratio: f64) {
        self.stage.resize(css_width, css_height);
        self.device_pixels = device_pixel_ratio;
        if let Some(painter) = &mut self.painter {
            painter.resize(self.stage.size(), device_pixel_ratio);
        }
    }

    /// Takes colours and type.
    ///
    /// # Errors
    /// Throws if it is no theme.
    #[wasm_bindgen(js_name = setTheme)]
    pub fn set_theme(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "Theme")] theme: JsValue,
    ) -> Result<(), JsValue> {
        self.theme = take(theme)?;
        self.stage.set_label(self.theme.font_size);
        if let Some(painter) = &mut self.painter {
            painter.set_theme(&self.theme);
        }
        Ok(())
    }

    /// Does what a command asks, and gives the stage's state after it.
    ///
    /// # Errors
    /// Throws why it was not done; nothing has changed then.
    #[wasm_bindgen(unchecked_return_type = "StageState")]
    pub fn run(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "Command")] command: JsValue,
    ) -> Result<JsValue, JsValue> {
        let command: Command = take(command)?;
        self.stage.run(command).map_err(|e| throw(&e))?;
        self.state()
    }

    /// The stage's state.
    ///
    /// # Errors
    /// Never, unless the engine is out of memory.
    #[wasm_bindgen(unchecked_return_type = "StageState")]
    pub fn state(&self) -> Result<JsValue, JsValue> {
        give(&self.stage.state())
    }

    /// Takes a pointer's event; whether anything has changed. While a letter is
    /// dragged the page need not ask for the state at every move.
    ///
    /// # Errors
    /// Throws if it is no pointer's event.
    pub fn pointer(
        &mut self,
        #[wasm_bindgen(unchecked_param_type = "PointerInput")] event: JsValue,
    ) -> Result<bool, JsValue> {
        let event: PointerInput = take(event)?;
        Ok(self.stage.pointer(&event))
    }

    /// Takes a wheel's turn at a place of the canvas, in pixels: moves the view,
    /// or with Control brings it nearer; whether anything has changed.
    pub fn wheel(&mut self, dx: f64, dy: f64, x: f64, y: f64, ctrl: bool) -> bool {
        self.stage.wheel(dx, dy, Point::new(x, y), ctrl)
    }

    /// The CSS cursor that says what a press would do where the pointer is.
    #[must_use]
    pub fn cursor(&self) -> String {
        self.stage.cursor().to_owned()
    }

    /// Works on what the stage should show and does not yet, for some milliseconds:
    /// the next drawing shows it.
    ///
    /// # Errors
    /// Throws if the browser refuses to make a path.
    pub fn work(&mut self) -> Result<(), JsValue> {
        let Some(painter) = &mut self.painter else {
            return Ok(());
        };
        painter.work(&self.stage).map_err(|e| throw(&e))
    }

    /// Whether there is such work: letters are drawn before they are measured.
    #[wasm_bindgen(js_name = isUnfinished)]
    #[must_use]
    pub fn is_unfinished(&self) -> bool {
        self.painter.as_ref().is_some_and(Painter::is_unfinished)
    }

    /// Draws the stage if anything has changed since it was drawn last; whether
    /// it did.
    ///
    /// # Errors
    /// Throws if the browser refuses to draw.
    pub fn draw(&mut self) -> Result<bool, JsValue> {
        let Some(painter) = &mut self.painter else {
            return Ok(false);
        };
        painter.paint(&self.stage).map_err(|e| throw(&e))
    }
}
