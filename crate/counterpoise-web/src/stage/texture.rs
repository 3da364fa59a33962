//! The line's texture: what an eye sees of it that does not make out the
//! strokes, and the letter that stands out of it.

use super::Stage;
use super::command::ItemId;
use super::figure;
use super::scene::Item;
use super::sorts::Sorts;
use super::standing::Standing;
use super::state::Standout;
use counterpoise::measure::darkness::{Eye, LineLetter, Shade, Sight, look};
use counterpoise::outline::Outline;
use counterpoise::report::GuideKind;
use kurbo::{Affine, Rect};
use std::borrow::Cow;
use std::rc::Rc;

/// What a texture was read from: it is read again only when this changes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    items: Vec<Item>,
    /// Where each stands, from side to side.
    bodies: Vec<(f64, f64)>,
}

/// The line's texture.
#[derive(Debug)]
pub(crate) struct Texture {
    /// What the eye sees; `None` of a line without ink.
    pub(crate) sight: Option<Sight>,
    /// The letter that stands out.
    pub(crate) standout: Option<Outlier>,
}

/// The letter that stands out most.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Outlier {
    /// Its place in the line.
    pub(crate) index: usize,
    pub(crate) item: ItemId,
    /// Its body on the stage: advance width by band.
    pub(crate) body: Rect,
    /// How much darker than the line's median it looks, as a share of it.
    pub(crate) share: f64,
    /// The same in spreads.
    pub(crate) spreads: f64,
}

impl Stage {
    /// The line's texture as it stands now.
    pub(crate) fn texture(&self) -> Rc<Texture> {
        let standings = self.standings();
        let line = Line {
            items: self.scene.items.clone(),
            bodies: standings.iter().map(Standing::breadth).collect(),
        };
        let mut seen = self.seen.borrow_mut();
        match &*seen {
            Some((of, texture)) if *of == line => Rc::clone(texture),
            _ => {
                let texture = Rc::new(self.sorts.as_ref().map_or(
                    Texture {
                        sight: None,
                        standout: None,
                    },
                    |sorts| read(&standings, sorts),
                ));
                *seen = Some((line, Rc::clone(&texture)));
                texture
            }
        }
    }

    pub(super) fn standout(&self) -> Option<Standout> {
        if !self.scene.setting.layers.texture {
            return None;
        }
        let outlier = self.texture().standout?;
        Some(Standout {
            item: outlier.item,
            share: outlier.share,
            spreads: outlier.spreads,
            sentence: self.texture_sentence(),
        })
    }

    /// Which letter stands out, and by how much.
    pub(super) fn texture_sentence(&self) -> String {
        match self.texture().standout {
            Some(o) => format!(
                "{} stands out most: it looks {} than the middle of the line, {} times its usual spread.",
                self.name(o.item),
                amount(o.share),
                figure::length(o.spreads.abs()),
            ),
            None => "No letter stands out of the line.".to_owned(),
        }
    }
}

/// "7% darker".
pub(crate) fn amount(share: f64) -> String {
    let percent = (100.0 * share.abs()).round();
    let way = if share < 0.0 { "lighter" } else { "darker" };
    format!("{percent}% {way}")
}

fn read(standings: &[Standing], sorts: &Sorts) -> Texture {
    let empty = Outline::default();
    let outlines: Vec<Cow<'_, Outline>> = standings
        .iter()
        .map(|s| match &s.sort {
            // The place along the line is told apart from the shape.
            Some(sort) => {
                let own = Affine::translate((-s.breadth().0, 0.0)) * s.map;
                if own == Affine::IDENTITY {
                    Cow::Borrowed(&sort.outline)
                } else {
                    Cow::Owned(sort.outline.transformed(own))
                }
            }
            None => Cow::Borrowed(&empty),
        })
        .collect();
    let letters: Vec<LineLetter<'_>> = standings
        .iter()
        .zip(&outlines)
        .map(|(s, outline)| {
            let (left, right) = s.breadth();
            LineLetter {
                outline,
                x: left,
                advance: right - left,
                band: s.item.character.and_then(|c| sorts.band(c)),
            }
        })
        .collect();
    let sight = Eye::new(letter_size(standings, sorts)).and_then(|eye| look(&letters, eye));
    let standout = sight.as_ref().and_then(|sight| {
        let (index, spreads) = sight.standout()?;
        let (letter, shade) = (&letters[index], sight.shades[index]?);
        let band = letter.band?;
        Some(Outlier {
            index,
            item: standings[index].item.id,
            body: Rect::new(letter.x, band.from(), letter.x + letter.advance, band.to()),
            share: share(&shade, &sight.shades)?,
            spreads,
        })
    });
    Texture { sight, standout }
}

/// How much darker than the line's median a letter looks. The library tells it
/// in spreads, from the same median.
fn share(shade: &Shade, all: &[Option<Shade>]) -> Option<f64> {
    let mut darkness: Vec<f64> = all.iter().flatten().map(|s| s.darkness).collect();
    darkness.sort_unstable_by(f64::total_cmp);
    let n = darkness.len();
    let middle = 0.5 * (darkness.get(n / 2)? + darkness.get((n - 1) / 2)?);
    (middle > 0.0).then(|| shade.darkness / middle - 1.0)
}

/// The size of the line's letters: the x-height of a line that is mostly lower
/// case, else the cap height.
fn letter_size(standings: &[Standing], sorts: &Sorts) -> f64 {
    let characters = || standings.iter().filter_map(|s| s.item.character);
    let lower = characters().filter(|c| c.is_lowercase()).count();
    let upper = characters()
        .filter(|c| c.is_uppercase() || c.is_ascii_digit())
        .count();
    match sorts.height(GuideKind::CapHeight) {
        Some(height) if upper > lower => height,
        _ => sorts.x_height(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stage::command::{Command, Layer};
    use crate::stage::testing::stage;
    use counterpoise::measure::darkness::STANDS_OUT;

    fn shown(text: &str) -> Stage {
        let mut stage = stage(text);
        let shown = Command::ShowLayer {
            layer: Layer::Texture,
            shown: true,
        };
        stage.run(shown).unwrap();
        stage
    }

    #[test]
    fn the_dark_letter_of_a_light_line_is_told() {
        let stage = shown("OOOIOOO");
        let standout = stage.state().standout.unwrap();
        assert_eq!(standout.item, stage.state().items[3].id);
        assert_eq!(standout.share < 0.0, standout.spreads < 0.0);
        assert!(standout.spreads.abs() >= STANDS_OUT);
        assert!(
            standout.sentence.starts_with("I stands out"),
            "{standout:?}"
        );
        assert!(stage.state().status.contains(&standout.sentence));
    }

    #[test]
    fn an_even_line_has_none_and_says_so() {
        let stage = shown("HHHHH");
        assert_eq!(stage.state().standout, None);
        assert!(stage.state().status.contains("No letter stands out"));
    }

    #[test]
    fn hidden_it_is_not_told() {
        let stage = stage("OOOIOOO");
        assert_eq!(stage.state().standout, None);
    }

    #[test]
    fn a_letter_moved_is_seen_where_it_stands() {
        let mut stage = shown("HHHH");
        let before = stage.texture();
        stage.run(Command::SelectAll).unwrap();
        let step = crate::stage::command::Step::TenthEm;
        stage.run(Command::Nudge { steps: 3, step }).unwrap();
        let after = stage.texture();
        let (a, b) = (
            before.sight.as_ref().unwrap(),
            after.sight.as_ref().unwrap(),
        );
        assert!((b.blurred.origin.x - a.blurred.origin.x - 300.0).abs() < 1e-6);
    }

    #[test]
    fn amounts_in_words() {
        assert_eq!(amount(0.072), "7% darker");
        assert_eq!(amount(-0.126), "13% lighter");
    }
}
