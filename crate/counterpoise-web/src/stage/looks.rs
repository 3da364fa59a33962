//! How the line is looked at: layers, blur, reading sizes, calliper, view.

use super::command::{CalliperPart, Layer, Lie, Step, Tool, Within};
use super::history::Run;
use super::scene::{Calliper, FAR, View, near};
use super::standing;
use super::{Done, Stage, calliper, figure};
use crate::refuse::{Refuse, finite, within};
use kurbo::{Point, Vec2};

const MOST_BLUR: f64 = 0.4;
const LEAST_READING: f64 = 6.0;
const MOST_READING: f64 = 96.0;
const MOST_READING_ROWS: usize = 6;

/// Lengths that the calliper's sentence tells: more, read aloud, are forgotten.
const MOST_SAID: usize = 9;

impl Stage {
    pub(super) fn show_layer(&mut self, layer: Layer, shown: bool) -> Done {
        self.scene.setting.layers.set(layer, shown);
        let name = match layer {
            Layer::Fill => "ink",
            Layer::Outline => "outlines",
            Layer::Points => "points",
            Layer::Strokes => "strokes",
            Layer::Guides => "guides",
            Layer::Strip => "deviations",
            Layer::Overshoot => "overshoots",
            Layer::Widths => "widths",
            Layer::Refit => "refit",
            Layer::Flaws => "flaws of drawing",
            Layer::Texture => "texture",
            Layer::Findings => "findings",
            Layer::White => "white between the letters",
        };
        let (verb, done) = if shown {
            ("Show", "shown")
        } else {
            ("Hide", "hidden")
        };
        let mut status = format!("The {name}: {done}.");
        if layer == Layer::Texture && shown {
            status = format!("{status} {}", self.texture_sentence());
        }
        if layer == Layer::White && shown {
            status = format!("{status} {}", self.white_sentence());
        }
        Done::new(format!("{verb} {name}"), status)
    }

    pub(super) fn set_refit(&mut self, within: Within) -> Done {
        self.scene.setting.refit_within = within;
        let units = match within {
            Within::Half => "half a unit",
            Within::Two => "two units",
        };
        Done::new(
            "Choose the refit",
            format!("The refit keeps within {units} of the outline, at 1000 units per em."),
        )
    }

    pub(super) fn set_blur(&mut self, share: f64) -> Result<Done, Refuse> {
        self.scene.setting.blur = within("blur as a share of the x-height", share, 0.0, MOST_BLUR)?;
        let percent = (100.0 * share).round();
        let status = if share == 0.0 {
            "Sharp.".to_owned()
        } else {
            format!("Blurred by {percent} per cent of the x-height.")
        };
        Ok(Done::new("Blur", status).in_run(Run::Blur))
    }

    pub(super) fn set_reading(&mut self, sizes: Vec<f64>) -> Result<Done, Refuse> {
        if sizes.len() > MOST_READING_ROWS {
            return Err(Refuse::OutOfRange {
                what: "number of reading sizes",
                least: 0.0,
                most: MOST_READING_ROWS as f64,
            });
        }
        for size in &sizes {
            within("reading size in pixels", *size, LEAST_READING, MOST_READING)?;
        }
        let names: Vec<String> = sizes.iter().map(|s| figure::length(*s)).collect();
        let status = if names.is_empty() {
            "Reading sizes hidden.".to_owned()
        } else {
            format!("The line at {} pixels.", names.join(", "))
        };
        self.scene.setting.reading = sizes;
        Ok(Done::new("Reading sizes", status).in_run(Run::Reading))
    }

    pub(super) fn set_tool(&mut self, tool: Tool) -> Done {
        self.tool = tool;
        Done::new(
            "",
            match tool {
                Tool::Letters => "The pointer moves letters.",
                Tool::Calliper => "The pointer draws the calliper.",
            },
        )
    }

    pub(super) fn lay_calliper(&mut self, from: [f64; 2], to: [f64; 2]) -> Result<Done, Refuse> {
        for value in from.into_iter().chain(to) {
            within("calliper's place", value, -FAR, FAR)?;
        }
        self.scene.setting.calliper = Some(Calliper {
            from: Point::new(from[0], from[1]),
            to: Point::new(to[0], to[1]),
        });
        Ok(Done::new("Lay the calliper", self.calliper_sentence()))
    }

    pub(super) fn move_calliper(
        &mut self,
        part: CalliperPart,
        right: i32,
        up: i32,
        step: Step,
    ) -> Result<Done, Refuse> {
        let Some(mut line) = self.scene.setting.calliper else {
            self.scene.setting.calliper = Some(self.first_calliper()?);
            return Ok(Done::new("Lay the calliper", self.calliper_sentence()));
        };
        let step = step.length(self.sorts()?.units_per_em());
        let by = step * Vec2::new(f64::from(right), f64::from(up));
        if part != CalliperPart::To {
            line.from = near(line.from + by);
        }
        if part != CalliperPart::From {
            line.to = near(line.to + by);
        }
        self.scene.setting.calliper = Some(line);
        Ok(Done::new("Move the calliper", self.calliper_sentence()).in_run(Run::Calliper))
    }

    /// Across the chosen letters, or all of them, at half the x-height.
    fn first_calliper(&self) -> Result<Calliper, Refuse> {
        let sorts = self.sorts()?;
        let standings = self.standings();
        let all = self.chosen.is_empty();
        let ink = standing::ink_extent(
            standings
                .iter()
                .filter(|s| all || self.chosen.contains(&s.item.id)),
        )
        .unwrap_or_else(|| self.extent());
        let (y, beyond) = (
            (0.5 * sorts.x_height()).round(),
            0.05 * sorts.units_per_em(),
        );
        Ok(Calliper {
            from: near(Point::new((ink.x0 - beyond).round(), y)),
            to: near(Point::new((ink.x1 + beyond).round(), y)),
        })
    }

    pub(super) fn turn_calliper(&mut self, to: Lie) -> Result<Done, Refuse> {
        let line = self.scene.setting.calliper.ok_or(Refuse::NoCalliper)?;
        let turned = line.turned(to);
        self.scene.setting.calliper = Some(Calliper {
            from: near(turned.from),
            to: near(turned.to),
        });
        Ok(Done::new("Turn the calliper", self.calliper_sentence()))
    }

    pub(super) fn lift_calliper(&mut self) -> Done {
        self.scene.setting.calliper = None;
        Done::new("Lift the calliper", "Calliper taken away.")
    }

    /// What the calliper reads, in a sentence.
    pub(super) fn calliper_sentence(&self) -> String {
        let Some(line) = &self.scene.setting.calliper else {
            return String::new();
        };
        let read = calliper::read(line, &self.standings());
        let words: Vec<String> = read
            .intervals
            .iter()
            .filter(|i| !i.open)
            .map(|i| {
                let what = if i.ink { "ink" } else { "white" };
                format!("{what} {}", figure::length(i.length))
            })
            .collect();
        match words.get(..MOST_SAID) {
            _ if words.is_empty() => {
                format!("Calliper, {} long.", figure::length(read.length))
            }
            Some(first) if words.len() > MOST_SAID => {
                let more = words.len() - MOST_SAID;
                format!("Calliper: {} and {more} more.", first.join(", "))
            }
            _ => format!("Calliper: {}.", words.join(", ")),
        }
    }

    pub(super) fn pan(&mut self, dx: f64, dy: f64) -> Result<Done, Refuse> {
        let by = Vec2::new(
            finite("distance to the right", dx)?,
            finite("distance down", dy)?,
        );
        let view = self
            .window()
            .pan(self.scene.setting.view, by, self.extent());
        Ok(self.look(view))
    }

    pub(super) fn zoom(&mut self, factor: f64, at: Option<[f64; 2]>) -> Result<Done, Refuse> {
        let factor = within("factor", factor, f64::MIN_POSITIVE, f64::MAX)?;
        let window = self.window();
        let at = match at {
            None => window.room_centre(),
            Some([x, y]) => Point::new(finite("place", x)?, finite("place", y)?),
        };
        let view = window.zoom(self.scene.setting.view, factor, at, self.extent());
        Ok(self.look(view))
    }

    /// Takes a view that was chosen by hand.
    pub(super) fn look(&mut self, view: View) -> Done {
        self.scene.setting.view = view;
        Done::new("Move the view", "").in_run(Run::View)
    }

    pub(super) fn fit(&mut self) -> Done {
        self.scene.setting.view = View::Fit(self.extent());
        Done::new("Show the whole line", "The whole line is shown.")
    }

    pub(super) fn fit_chosen(&mut self) -> Result<Done, Refuse> {
        self.some_chosen()?;
        let standings = self.standings();
        let chosen: Vec<_> = standings
            .into_iter()
            .filter(|s| self.chosen.contains(&s.item.id))
            .collect();
        let sorts = self.sorts()?;
        let part =
            standing::ink_extent(chosen.iter()).unwrap_or_else(|| standing::extent(&chosen, sorts));
        let names = self.names(&self.chosen);
        // By hand from here on: it does not follow the text.
        let window = self.window();
        self.scene.setting.view = window.pan(View::Fit(part), Vec2::ZERO, self.extent());
        Ok(Done::new(
            format!("Look at {names}"),
            format!("{names} fills the stage."),
        ))
    }
}
