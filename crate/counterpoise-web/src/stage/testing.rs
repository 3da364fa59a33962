//! A face of plain shapes for the stage's tests. Units per em 1000, cap height
//! 700, x-height 500.

use super::Stage;
use super::command::{Command, ItemId, PointerInput, PointerKind, PointerPhase, Within};
use super::sorts::{Sorts, Supply};
use counterpoise::measure::darkness::Band;
use counterpoise::measure::drawing::{DrawingContext, Redrawn, Tolerance, redrawn};
use counterpoise::outline::Outline;
use counterpoise::report::{
    Cause, FindingReport, Guide, GuideKind, JudgementReport, LetterReport, Stroke, StrokeKind,
    Thickness,
};
use counterpoise::spacing::Grid;
use kurbo::{BezPath, Circle, Point, Rect, Shape};

/// The letters of the face.
pub(crate) const LETTERS: &str = "HILOn ";

struct Shapes {
    guides: Vec<Guide>,
}

fn rects(rects: &[(f64, f64, f64, f64)]) -> BezPath {
    let mut path = BezPath::new();
    for &(x0, y0, x1, y1) in rects {
        path.extend(Rect::new(x0, y0, x1, y1).to_path(0.1));
    }
    path
}

/// Advance and shape of each letter.
fn shape(glyph: u16) -> Option<(f64, BezPath)> {
    const STEM: (f64, f64, f64, f64) = (50.0, 0.0, 150.0, 700.0);
    Some(match glyph {
        1 => (
            600.0,
            rects(&[
                STEM,
                (450.0, 0.0, 550.0, 700.0),
                (100.0, 300.0, 500.0, 400.0),
            ]),
        ),
        2 => (200.0, rects(&[STEM])),
        3 => (500.0, rects(&[STEM, (50.0, 0.0, 450.0, 100.0)])),
        4 => (800.0, Circle::new((400.0, 350.0), 350.0).to_path(1e-6)),
        5 => (
            500.0,
            rects(&[
                (50.0, 0.0, 140.0, 500.0),
                (360.0, 0.0, 450.0, 500.0),
                (50.0, 400.0, 450.0, 500.0),
            ]),
        ),
        6 => (250.0, BezPath::new()),
        _ => return None,
    })
}

impl Supply for Shapes {
    fn units_per_em(&self) -> f64 {
        1000.0
    }

    fn glyph(&self, c: char) -> Option<u16> {
        (1..)
            .zip(LETTERS.chars())
            .find(|(_, l)| *l == c)
            .map(|(g, _)| g)
    }

    fn cast(&self, glyph: u16) -> Option<(f64, Outline)> {
        let (advance, path) = shape(glyph)?;
        Some((advance, Outline::from_path(&path)))
    }

    fn name(&self, glyph: u16) -> Option<String> {
        (glyph == 4).then(|| "ring".to_owned())
    }

    fn guides(&self) -> &[Guide] {
        &self.guides
    }

    fn measure(&self, glyph: u16) -> LetterReport {
        let mut report = report(glyph);
        if matches!(glyph, 1..=3) {
            report.strokes = vec![stem(50.0, 150.0)];
            if glyph == 1 {
                report.strokes.insert(0, stem(450.0, 550.0));
            }
        }
        report
    }

    fn redraw(&self, glyph: u16, within: Within) -> Option<Redrawn> {
        let (_, outline) = self.cast(glyph)?;
        let context = DrawingContext {
            units_per_em: 1000.0,
            format: None,
        };
        let tolerance = match within {
            Within::Half => Tolerance::Half,
            Within::Two => Tolerance::Two,
        };
        (!outline.is_empty()).then(|| redrawn(&outline, &context, tolerance))
    }

    fn band(&self, c: char) -> Option<Band> {
        Band::new(0.0, if c.is_lowercase() { 500.0 } else { 700.0 })
    }

    fn grid(&self) -> Grid {
        Grid {
            height: 700.0,
            x_height: 500.0,
            lean: 0.0,
        }
    }

    fn opening(&self) -> String {
        "HO".to_owned()
    }
}

fn stem(left: f64, right: f64) -> Stroke {
    let mark = Thickness {
        value: right - left,
        from: [left, 350.0],
        to: [right, 350.0],
    };
    Stroke {
        kind: StrokeKind::Stem,
        median: right - left,
        least: mark,
        greatest: mark,
        marks: vec![mark],
        length: 700.0,
        angle: Some(90.0),
        axis: vec![[0.5 * (left + right), 0.0], [0.5 * (left + right), 700.0]],
    }
}

fn report(glyph: u16) -> LetterReport {
    LetterReport {
        glyph,
        name: None,
        character: None,
        advance: 0.0,
        left_bearing: None,
        right_bearing: None,
        bounds: None,
        area: 0.0,
        top: None,
        foot: None,
        strokes: Vec::new(),
        sides: None,
        drawing: None,
        figures: Default::default(),
        trouble: None,
    }
}

fn guide(kind: GuideKind, height: f64) -> Guide {
    Guide {
        kind,
        drawn: Some(height),
        from: String::new(),
        declared: None,
        round: None,
    }
}

/// A finding of a letter of the face, held against letters of it.
pub(crate) fn finding(letter: char, beside: &str, cause: Cause) -> FindingReport {
    let glyph = (1..).zip(LETTERS.chars()).find(|(_, l)| *l == letter);
    FindingReport {
        letter: letter.to_string(),
        glyph: glyph.map_or(0, |(g, _)| g),
        cause,
        value: 400.0,
        expected: 440.0,
        low: 420.0,
        high: 460.0,
        difference: -40.0,
        spreads: -4.0,
        by_chance: 0.05,
        beside: beside.to_owned(),
        sentence: format!("{letter} is narrow."),
    }
}

/// What is found in the face.
pub(crate) fn judgement() -> JudgementReport {
    JudgementReport {
        findings: vec![
            finding('L', "HIO", Cause::Width),
            finding('I', "H", Cause::Strokes),
            finding('n', "", Cause::Left),
        ],
        letters: Vec::new(),
        meant: Vec::new(),
        familiar: true,
        note: None,
    }
}

/// The plain shapes as sorts.
pub(crate) fn sorts() -> Sorts {
    Sorts::new(Box::new(Shapes {
        guides: vec![
            guide(GuideKind::Baseline, 0.0),
            guide(GuideKind::XHeight, 500.0),
            guide(GuideKind::CapHeight, 700.0),
        ],
    }))
}

/// A stage of 1200 by 700 pixels with a text, letters numbered from 0, and
/// nothing to undo but that text.
pub(crate) fn stage(text: &str) -> Stage {
    let mut stage = Stage::default();
    stage.resize(1200.0, 700.0);
    stage.set_sorts(sorts());
    stage.set_judgement(judgement());
    stage.scene.items.clear();
    stage.next_id = 0;
    stage
        .run(Command::SetText {
            text: text.to_owned(),
        })
        .unwrap();
    stage
}

/// Stands a letter at a place.
pub(crate) fn place(item: ItemId, x: f64) -> Command {
    Command::Place { item, x }
}

/// A pointer's event at a point of the stage's letters.
pub(crate) fn at(stage: &Stage, phase: PointerPhase, x: f64, y: f64) -> PointerInput {
    let p = stage.camera().to_canvas(Point::new(x, y));
    PointerInput {
        phase,
        id: 1,
        x: p.x,
        y: p.y,
        kind: PointerKind::Mouse,
        button: 0,
        shift: false,
        ctrl: false,
        alt: false,
    }
}

/// Drags by mouse from one point to another, by way of the middle.
pub(crate) fn drag(stage: &mut Stage, from: (f64, f64), to: (f64, f64)) {
    let middle = (0.5 * (from.0 + to.0), 0.5 * (from.1 + to.1));
    // All placed before the first is sent: a drag of the view moves the camera.
    let events = [
        at(stage, PointerPhase::Down, from.0, from.1),
        at(stage, PointerPhase::Move, middle.0, middle.1),
        at(stage, PointerPhase::Move, to.0, to.1),
        at(stage, PointerPhase::Up, to.0, to.1),
    ];
    for event in &events {
        stage.pointer(event);
    }
}
