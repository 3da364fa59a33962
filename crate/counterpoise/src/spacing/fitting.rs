//! A font's letters with their sides, each held against what the handbook, the
//! control letters and the font's own other sides make one expect. Font units.
//!
//! *From the controls*: what well-spaced families set a side to whose control
//! letters (H and O, or n and o) are these. *Implied*: the same, moved by what
//! the font's own sides of the same kind and case are moved by, in the middle;
//! the letter itself has no part in it. A control letter is expected from its
//! shape in place of its bearings. The *spread* is how far the same side of
//! well-spaced families commonly strays, wider in a font that strays more.

use super::control::{Controls, handbook};
use super::features::{SIDE_FIGURES, side_figures};
use super::grid::Grid;
use super::model::{Case, Model, Reference};
use super::side::{Side, Sides, sides};
use super::white::Whites;
use crate::font::{Font, GlyphId, Reader};
use crate::measure::{self, Context, MAD_TO_SD, main_weight, median};

/// Sides of one kind that outweigh what the control letters say.
const KIND_COUNTS_FROM: f64 = 3.0;

/// A font's scatter widens or narrows the spreads by no more than this.
const FONT_SCATTER: std::ops::RangeInclusive<f64> = 0.6..=3.0;

/// How far a side of a glyph without a rule of its own commonly strays, as a
/// share of the cap height: of all letters' spreads, a wide one.
const UNRULED_SPREAD: f64 = 0.02;

/// A letter and its sides.
#[derive(Debug, Clone, PartialEq)]
pub struct Spaced {
    /// The character.
    pub character: char,
    /// Its glyph.
    pub glyph: GlyphId,
    /// Its sides.
    pub sides: Sides,
    /// What its left and right bearing are expected to be.
    pub expected: [Expected; 2],
}

impl Spaced {
    /// A side: 0 the left, 1 the right.
    pub fn side(&self, side: usize) -> &Side {
        if side == 0 {
            &self.sides.left
        } else {
            &self.sides.right
        }
    }
}

/// What a bearing is expected to be; `None` where nothing says.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Expected {
    /// By the handbook's table.
    pub handbook: Option<f64>,
    /// From the control letters, by what was learned.
    pub controls: Option<f64>,
    /// From its shape alone, up to one value for the whole font.
    pub shape: Option<f64>,
    /// By the font's other sides.
    pub implied: Option<f64>,
    /// How far such a side commonly strays from what is implied.
    pub spread: Option<f64>,
}

/// A font's letters, spaced.
#[derive(Debug, Clone, PartialEq)]
pub struct Spacing {
    /// The levels at which they were read.
    pub grid: Grid,
    /// The letters that could be read, in the order asked for.
    pub letters: Vec<Spaced>,
    /// Their sides, laid out for pairs; a letter's place is that in `letters`.
    pub whites: Whites,
}

impl Spacing {
    /// Reads some characters of a font; those that it lacks, that have no ink or
    /// whose outlines are broken are left out.
    pub fn of(font: &Font, context: &Context, characters: impl IntoIterator<Item = char>) -> Self {
        Self::by(font, context, characters, Model::shipped().as_ref())
    }

    /// As [`Spacing::of`], by another model than the build carries, or by none.
    pub fn by(
        font: &Font,
        context: &Context,
        characters: impl IntoIterator<Item = char>,
        model: Option<&Model>,
    ) -> Self {
        let grid = Grid::of(context);
        let reader = font.reader();
        let letters = characters
            .into_iter()
            .filter_map(|c| Self::letter(&reader, c, &grid))
            .collect();
        Self::put_together(font, context, grid, letters, model)
    }

    /// Reads one character's sides; what is expected of them is not yet known.
    pub fn letter(reader: &Reader<'_>, c: char, grid: &Grid) -> Option<Spaced> {
        let glyph = reader.glyph(c)?;
        let outline = reader.outline(glyph).ok()?;
        Some(Spaced {
            character: c,
            glyph,
            sides: sides(&outline, reader.advance(glyph), Some(c), grid)?,
            expected: [Expected::default(); 2],
        })
    }

    /// Holds letters that were read one by one against each other.
    pub fn put_together(
        font: &Font,
        context: &Context,
        grid: Grid,
        mut letters: Vec<Spaced>,
        model: Option<&Model>,
    ) -> Self {
        let references = [Case::Lower, Case::Capital].map(|c| reference(font, context, &grid, c));
        if let Some(model) = model {
            expect(&mut letters, &references, model, &grid);
        }
        Self {
            whites: Whites::of(letters.iter().map(|l| &l.sides), &grid),
            grid,
            letters,
        }
    }

    /// Where a character stands in `letters`.
    pub fn place(&self, c: char) -> Option<usize> {
        self.letters.iter().position(|l| l.character == c)
    }
}

/// Reads a case's control letters; `None` if the font lacks one of them.
pub fn reference(font: &Font, context: &Context, grid: &Grid, case: Case) -> Option<Reference> {
    let reader = font.reader();
    let read = |c: char| {
        let glyph = reader.glyph(c)?;
        let outline = reader.outline(glyph).ok()?;
        let letter = measure::of_outline(&outline, reader.advance(glyph), context);
        let sides = sides(&outline, letter.advance, Some(c), grid)?;
        Some((letter, sides))
    };
    let [straight, round] = case.controls();
    let ((straight, of_straight), (round, of_round)) = (read(straight)?, read(round)?);
    let share = |length: f64| length / grid.height;
    let bearings = |s: &Sides| [share(s.left.bearing), share(s.right.bearing)];
    let figures = |s: &Sides| {
        [
            side_figures(&s.left, s, grid),
            side_figures(&s.right, s, grid),
        ]
    };
    let counter = |l: &measure::Letter| {
        let sides = measure::sides(&l.strokes, context.slant);
        share(sides.and_then(|s| s.counter).unwrap_or(0.0))
    };
    Some(Reference {
        straight: bearings(&of_straight),
        round: bearings(&of_round),
        straight_figures: figures(&of_straight),
        round_figures: figures(&of_round),
        stem: share(main_weight(&straight.strokes).unwrap_or(0.0)),
        counter: counter(&straight),
        round_counter: counter(&round),
        x_height: share(grid.x_height),
    })
}

/// Of each side: what its case and kind are, and what the rules say, shares of
/// the cap height.
struct Told {
    figures: [f64; SIDE_FIGURES],
    case: Case,
    /// What the letter is expected from before its fellows are heard.
    prior: f64,
    is_control: bool,
    shape: f64,
    bearing: f64,
}

fn expect(letters: &mut [Spaced], references: &[Option<Reference>; 2], model: &Model, grid: &Grid) {
    let height = grid.height;
    let told: Vec<[Option<Told>; 2]> = letters
        .iter_mut()
        .map(|letter| {
            let case = Case::of(Some(letter.character));
            let Some(reference) = &references[case as usize] else {
                return [None, None];
            };
            let controls = Controls {
                straight: reference.straight.map(|b| b * height),
                round: reference.round.map(|b| b * height),
            };
            let book = handbook(letter.character, &controls);
            [0, 1].map(|side| {
                let t = tell(letter, side, case, reference, model, height);
                letter.expected[side] = Expected {
                    handbook: book.map(|b| b[side]),
                    controls: Some(from_controls(letter, side, &t, reference, model) * height),
                    shape: Some(t.shape * height),
                    implied: None,
                    spread: None,
                };
                Some(t)
            })
        })
        .collect();
    imply(letters, &told, model, height);
}

fn tell(
    letter: &Spaced,
    side: usize,
    case: Case,
    reference: &Reference,
    model: &Model,
    height: f64,
) -> Told {
    let grid = Grid {
        height,
        x_height: reference.x_height * height,
        lean: 0.0,
    };
    let figures = side_figures(letter.side(side), &letter.sides, &grid);
    let shape = model.shapes[case as usize].says(&reference.of_shapes(&figures));
    let is_control = case.controls().contains(&letter.character);
    let mut told = Told {
        figures,
        case,
        prior: shape,
        is_control,
        shape,
        bearing: letter.side(side).bearing / height,
    };
    if !is_control {
        told.prior = from_controls(letter, side, &told, reference, model);
    }
    told
}

fn from_controls(
    letter: &Spaced,
    side: usize,
    told: &Told,
    reference: &Reference,
    model: &Model,
) -> f64 {
    match Model::ruled(letter.character, side) {
        Some(_) if told.is_control => told.bearing,
        Some(at) => model.letters[at].says(&reference.of_letters(&told.figures, side)),
        None => {
            model.controls[told.case as usize].says(&reference.of_controls(&told.figures, side))
        }
    }
}

fn imply(letters: &mut [Spaced], told: &[[Option<Told>; 2]], model: &Model, height: f64) {
    let spread = |letter: &Spaced, side| {
        Model::ruled(letter.character, side).map_or(UNRULED_SPREAD, |at| model.spreads[at])
    };
    // What each side's fellows are off by, this letter left out.
    let moved = |at: usize, side: usize| -> Option<f64> {
        let own = told[at][side].as_ref()?;
        let kind = letters[at].side(side).kind;
        let off = |t: &Told| t.bearing - if own.is_control { t.shape } else { t.prior };
        let (mut of_case, mut of_kind) = (Vec::new(), Vec::new());
        for (other, both) in told.iter().enumerate().filter(|(o, _)| *o != at) {
            for (s, t) in both.iter().enumerate() {
                let Some(t) = t.as_ref().filter(|t| t.case == own.case) else {
                    continue;
                };
                if t.is_control && !own.is_control {
                    continue;
                }
                of_case.push(off(t));
                if letters[other].side(s).kind == kind {
                    of_kind.push(off(t));
                }
            }
        }
        let count = of_kind.len() as f64;
        let weight = count / (count + KIND_COUNTS_FROM);
        Some(weight * median(&mut of_kind) + (1.0 - weight) * median(&mut of_case))
    };
    let implied: Vec<[Option<f64>; 2]> = (0..letters.len())
        .map(|at| [0, 1].map(|side| Some(told[at][side].as_ref()?.prior + moved(at, side)?)))
        .collect();
    let mut strays: Vec<f64> = letters
        .iter()
        .zip(&implied)
        .flat_map(|(l, i)| {
            [0, 1].map(|s| Some((l.side(s).bearing / height - i[s]?).abs() / spread(l, s)))
        })
        .flatten()
        .collect();
    let scatter =
        (MAD_TO_SD * median(&mut strays)).clamp(*FONT_SCATTER.start(), *FONT_SCATTER.end());
    for (letter, implied) in letters.iter_mut().zip(implied) {
        for side in [0, 1] {
            let wide = spread(letter, side) * scatter * height;
            let expected = &mut letter.expected[side];
            expected.implied = implied[side].map(|share| share * height);
            expected.spread = implied[side].map(|_| wide);
        }
    }
}
