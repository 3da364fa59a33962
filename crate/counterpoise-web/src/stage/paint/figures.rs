//! The figures and words written on the letters, of every layer, placed
//! together so that none covers another. Kept until a letter, the view or a
//! layer changes, or another letter has been measured.

use super::brush::{Brush, Hang};
use super::labels::{self, Label, Taken};
use super::{Drawn, Picture, finding, flaws, overshoot, refit, texture, thickness, white};
use crate::stage::command::{FindingKey, ItemId, Layer, Layers, Within};
use crate::stage::frame::Frame;
use crate::stage::scene::Item;
use crate::stage::view::Camera;
use crate::theme::Theme;
use kurbo::Rect;

/// From this size of the em on, CSS pixels: below, figures would hide the letters.
pub(super) const LEAST_WRITTEN: f64 = 64.0;

/// Where the labels are.
#[derive(Debug, Default)]
pub(super) struct Figures {
    key: Option<Key>,
    placed: Vec<(Layer, Vec<Label>)>,
}

#[derive(Debug, PartialEq)]
struct Key {
    camera: Camera,
    frame: Frame,
    layers: Layers,
    within: Within,
    finding: Option<FindingKey>,
    sharp: bool,
    /// Where each letter stands.
    places: Vec<f64>,
    items: Vec<Item>,
    chosen: Vec<ItemId>,
    obstacles: Vec<Rect>,
    /// How many letters there are figures of.
    measured: usize,
}

impl Figures {
    /// Writes the figures of the layers that are shown, off the obstacles.
    pub(super) fn paint(
        &mut self,
        brush: &Brush<'_>,
        picture: &Picture<'_>,
        sharp: bool,
        obstacles: Vec<Rect>,
    ) -> Drawn {
        let key = Key {
            camera: picture.camera,
            frame: picture.frame,
            layers: picture.setting.layers,
            within: picture.setting.refit_within,
            finding: picture.setting.finding,
            sharp,
            places: picture.standings.iter().map(|s| s.x).collect(),
            items: picture.scene.items.clone(),
            chosen: picture.chosen.to_vec(),
            obstacles,
            measured: picture.sorts.measured_count(),
        };
        if self.key.as_ref() != Some(&key) {
            self.placed = place(brush, picture, &key);
            self.key = Some(key);
        }
        brush.css()?;
        for (layer, labels) in &self.placed {
            let colour = colour(picture, brush.theme, *layer);
            for label in labels {
                brush.tag(&label.text, label.at, Hang::Middle, colour)?;
            }
        }
        Ok(())
    }
}

/// What is rarest and most asked for has the first choice of places.
fn place(brush: &Brush<'_>, picture: &Picture<'_>, key: &Key) -> Vec<(Layer, Vec<Label>)> {
    let mut taken = Taken::of(&key.obstacles);
    let mut placed = Vec::new();
    let bounds = picture.frame.letters;
    let mut settle = |layer, wishes, taken: &mut Taken| {
        placed.push((layer, labels::settle(wishes, bounds, taken)));
    };
    if key.layers.texture {
        let wishes = texture::wish(brush, picture).into_iter().collect();
        settle(Layer::Texture, wishes, &mut taken);
    }
    if !key.sharp || picture.em() < LEAST_WRITTEN {
        return placed;
    }
    for r in finding::boxes(brush, picture) {
        taken.put(r);
    }
    settle(Layer::Findings, finding::wishes(brush, picture), &mut taken);
    if key.layers.white {
        settle(Layer::White, white::wishes(brush, picture), &mut taken);
    }
    if key.layers.overshoot {
        for r in overshoot::marks(picture) {
            taken.put(r);
        }
    }
    if key.layers.flaws {
        settle(Layer::Flaws, flaws::wishes(brush, picture), &mut taken);
    }
    if key.layers.overshoot {
        let wishes = overshoot::wishes(brush, picture);
        settle(Layer::Overshoot, wishes, &mut taken);
    }
    if key.layers.refit {
        settle(Layer::Refit, refit::wishes(brush, picture), &mut taken);
    }
    if key.layers.strokes {
        settle(
            Layer::Strokes,
            thickness::wishes(brush, picture),
            &mut taken,
        );
    }
    placed
}

fn colour<'a>(picture: &Picture<'_>, theme: &'a Theme, layer: Layer) -> &'a str {
    match layer {
        Layer::Findings => &theme.label,
        Layer::Flaws => &theme.flaw,
        Layer::Overshoot => &theme.overshoot,
        Layer::Refit => &theme.refit,
        Layer::Texture => texture::colour(picture, theme),
        Layer::White => &theme.label,
        _ => &theme.stroke,
    }
}
