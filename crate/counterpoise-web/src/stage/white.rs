//! The white between the letters of the line, and where its rhythm breaks.

use super::Stage;
use super::figure;
use super::line;
use super::scene::Item;
use super::sorts::Sorts;
use super::standing::Standing;
use super::state::RhythmState;
use counterpoise::order::by_number;
use counterpoise::spacing::{Place, Rhythm, Whites, rhythm};
use kurbo::{Affine, BezPath};
use std::collections::HashMap;
use std::rc::Rc;

/// What the white was read from: it is read again only when this changes.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Line {
    items: Vec<Item>,
    places: Vec<f64>,
}

/// The white of the line.
#[derive(Debug)]
pub(crate) struct White {
    /// The whites between neighbours, from left to right.
    pub(crate) pairs: Vec<Between>,
    rhythm: Rhythm,
}

/// The white between two neighbours.
#[derive(Debug)]
pub(crate) struct Between {
    /// Place of the left one, counted from the left.
    pub(crate) first: usize,
    /// Its outline on the stage.
    pub(crate) outline: BezPath,
    /// How it stands to the line's other pairs.
    pub(crate) place: Place,
}

/// Breaks of the rhythm that a sentence tells: more, read aloud, are forgotten.
const MOST_SAID: usize = 3;

impl Stage {
    /// The white of the line as it stands now.
    pub(crate) fn white(&self) -> Rc<White> {
        let all = self.standings();
        // Neighbours are those that stand beside each other, whichever is read first.
        let order = line::order(&self.scene.items);
        let standings: Vec<&Standing> = order.iter().map(|&at| &all[at]).collect();
        let line = Line {
            items: self.scene.items.clone(),
            places: standings.iter().map(|s| s.x).collect(),
        };
        let mut known = self.whites.borrow_mut();
        match &*known {
            Some((of, white)) if *of == line => Rc::clone(white),
            _ => {
                let sorts = self.sorts.as_ref();
                let white = Rc::new(sorts.map_or_else(White::none, |s| read(&standings, s)));
                *known = Some((line, Rc::clone(&white)));
                white
            }
        }
    }

    /// How even the line is, while its white is shown.
    pub(super) fn rhythm_state(&self) -> Option<RhythmState> {
        if !self.scene.setting.layers.white {
            return None;
        }
        let white = self.white();
        Some(RhythmState {
            distance: white.rhythm.middle,
            unevenness: white.rhythm.unevenness,
            sentence: self.white_sentence(),
        })
    }

    /// How even the line is and where it breaks, in words.
    pub(super) fn white_sentence(&self) -> String {
        let white = self.white();
        let Some(unevenness) = white.rhythm.unevenness else {
            return "Too few letters stand beside each other to tell a rhythm.".to_owned();
        };
        let even = format!("The white varies by {:.0}%", 100.0 * unevenness);
        let order = line::order(&self.scene.items);
        let mut breaks: Vec<&Between> = white.pairs.iter().filter(|b| b.place.breaks).collect();
        if breaks.is_empty() {
            return format!("{even}; no pair breaks the rhythm.");
        }
        by_number(&mut breaks, |b| -b.place.off.abs());
        let more = breaks.len().saturating_sub(MOST_SAID);
        let mut told: Vec<String> = breaks
            .iter()
            .take(MOST_SAID)
            .map(|b| {
                let name = |at: usize| self.name(self.scene.items[order[at]].id);
                let word = if b.place.off > 0.0 { "wide" } else { "tight" };
                format!(
                    "{} {} is {} too {word}",
                    name(b.first),
                    name(b.first + 1),
                    figure::length(b.place.off.abs().round())
                )
            })
            .collect();
        if more > 0 {
            told.push(format!("{more} more"));
        }
        format!("{even}; {}.", told.join(", "))
    }
}

impl White {
    fn none() -> Self {
        Self {
            pairs: Vec::new(),
            rhythm: Rhythm {
                middle: 0.0,
                unevenness: None,
                places: Vec::new(),
            },
        }
    }
}

/// Reads the white between letters that stand upright and the right way round;
/// any other parts the line, as a space does.
fn read(standings: &[&Standing], sorts: &Sorts) -> White {
    let grid = sorts.grid();
    let mut sides = Vec::new();
    let mut known = HashMap::new();
    let line: Vec<(Option<usize>, f64)> = standings
        .iter()
        .enumerate()
        .map(|(i, s)| {
            let apart = standings
                .get(i + 1)
                .map_or(0.0, |next| next.x - s.x - s.item.advance);
            let glyph = s.item.glyph.filter(|_| !s.item.mirrored && !s.item.turned);
            let place = glyph.and_then(|g| {
                *known.entry(g).or_insert_with(|| {
                    sides.push(sorts.sides(g, s.item.character)?);
                    Some(sides.len() - 1)
                })
            });
            (place, apart)
        })
        .collect();
    let whites = Whites::of(sides.iter().map(Rc::as_ref), &grid);
    let rhythm = rhythm(&line, &whites, grid.height);
    let pairs = rhythm
        .places
        .iter()
        .filter_map(|&place| {
            let ((Some(a), apart), (Some(b), _)) = (line[place.at], line[place.at + 1]) else {
                return None;
            };
            let s = &standings[place.at];
            let corners = whites.polygon(a, b, s.item.advance, apart);
            let mut outline = BezPath::new();
            for (i, corner) in corners.into_iter().enumerate() {
                if i == 0 {
                    outline.move_to(corner);
                } else {
                    outline.line_to(corner);
                }
            }
            outline.close_path();
            Some(Between {
                first: place.at,
                outline: Affine::translate((s.x, 0.0)) * outline,
                place,
            })
        })
        .collect();
    White { pairs, rhythm }
}

#[cfg(test)]
mod tests {
    use crate::stage::command::{Command, Fitting, Layer, Spacing};
    use crate::stage::testing::stage;
    use kurbo::Shape;

    #[test]
    fn a_pair_that_is_set_wide_breaks_the_rhythm() {
        let mut stage = stage("HHHHHHH");
        stage
            .run(Command::ShowLayer {
                layer: Layer::White,
                shown: true,
            })
            .unwrap();
        let state = stage.state().rhythm.unwrap();
        assert_eq!(state.unevenness, Some(0.0));
        assert!((state.distance - 100.0).abs() < 1e-6);
        assert!(state.sentence.contains("no pair breaks"));
        let third = stage.state().items[3].id;
        stage
            .run(Command::Place {
                item: third,
                x: 1840.0,
            })
            .unwrap();
        let white = stage.white();
        let out: Vec<_> = white.pairs.iter().filter(|b| b.place.breaks).collect();
        assert_eq!(out.len(), 2);
        assert_eq!((out[0].first, out[1].first), (2, 3));
        assert!((out[0].place.off - 40.0).abs() < 1e-6);
        let said = stage.state().rhythm.unwrap().sentence;
        assert!(said.contains("H H is 40 too wide"), "{said}");
    }

    #[test]
    fn the_white_follows_the_spacing() {
        let mut stage = stage("HO");
        let spacing = Spacing::Kerned;
        stage.run(Command::SetSpacing { spacing }).unwrap();
        let before = stage.white().pairs[0].outline.area().abs();
        let kern = Fitting {
            pairs: vec![(1, 4, 30.0)],
            ..Fitting::default()
        };
        stage.set_fitting(Spacing::Kerned, &kern).unwrap();
        let after = stage.white().pairs[0].outline.area().abs();
        // Both stand in the band from the baseline to the cap height.
        assert!((after - before - 30.0 * 700.0).abs() < 1.0);
    }

    #[test]
    fn letters_turned_about_part_the_line() {
        let mut stage = stage("HHH");
        let middle = stage.state().items[1].id;
        stage
            .run(Command::Select {
                items: vec![middle],
            })
            .unwrap();
        stage.run(Command::Mirror).unwrap();
        assert!(stage.white().pairs.is_empty());
    }
}
