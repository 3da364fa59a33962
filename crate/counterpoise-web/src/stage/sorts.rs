//! The letters that the stage can set: a sort is one glyph with all that the
//! stage needs of it, read once and measured once.

use super::command::Within;
use counterpoise::measure::darkness::Band;
use counterpoise::measure::drawing::Redrawn;
use counterpoise::outline::Outline;
use counterpoise::report::{Guide, GuideKind, LetterReport};
use counterpoise::spacing::{Grid, Sides, sides};
use kurbo::Rect;
use std::cell::RefCell;
use std::collections::HashMap;
use std::rc::Rc;

/// Where letters come from: a font, or anything else that has outlines.
pub(crate) trait Supply {
    /// Units per em.
    fn units_per_em(&self) -> f64;
    /// The glyph that a character leads to.
    fn glyph(&self, c: char) -> Option<u16>;
    /// A glyph's advance width and outline; `None` if there is no such glyph.
    /// One that cannot be read comes without ink.
    fn cast(&self, glyph: u16) -> Option<(f64, Outline)>;
    /// A glyph's name.
    fn name(&self, glyph: u16) -> Option<String>;
    /// The heights that the letters share.
    fn guides(&self) -> &[Guide];
    /// Every measure of a glyph.
    fn measure(&self, glyph: u16) -> LetterReport;
    /// A glyph's outline redrawn with the fewest points; `None` without ink.
    fn redraw(&self, glyph: u16, within: Within) -> Option<Redrawn>;
    /// The band in which a character's darkness is read.
    fn band(&self, c: char) -> Option<Band>;
    /// The levels at which the letters' sides are read.
    fn grid(&self) -> Grid;
    /// Characters to begin with when nothing has been typed yet.
    fn opening(&self) -> String;
}

/// One glyph as the stage sets it.
#[derive(Debug)]
pub(crate) struct Sort {
    pub(crate) advance: f64,
    pub(crate) outline: Outline,
}

impl Sort {
    /// The box of its ink.
    pub(crate) fn ink(&self) -> Option<Rect> {
        self.outline.bounds()
    }
}

/// The sorts of one font.
pub(crate) struct Sorts {
    supply: Box<dyn Supply>,
    cast: RefCell<HashMap<u16, Option<Rc<Sort>>>>,
    measured: RefCell<HashMap<u16, Rc<LetterReport>>>,
    redrawn: RefCell<Refits>,
    sides: RefCell<HashMap<u16, Option<Rc<Sides>>>>,
}

/// Refits by glyph; `None` of a glyph without ink.
type Refits = HashMap<(u16, Within), Option<Rc<Redrawn>>>;

impl std::fmt::Debug for Sorts {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Sorts").finish_non_exhaustive()
    }
}

impl Sorts {
    /// Sorts cast from a supply as they are asked for.
    pub(crate) fn new(supply: Box<dyn Supply>) -> Self {
        Self {
            supply,
            cast: RefCell::default(),
            measured: RefCell::default(),
            redrawn: RefCell::default(),
            sides: RefCell::default(),
        }
    }

    /// Units per em.
    pub(crate) fn units_per_em(&self) -> f64 {
        self.supply.units_per_em()
    }

    /// The glyph that a character leads to.
    pub(crate) fn glyph(&self, c: char) -> Option<u16> {
        self.supply.glyph(c)
    }

    /// Characters to begin with.
    pub(crate) fn opening(&self) -> String {
        self.supply.opening()
    }

    /// The sort of a glyph.
    pub(crate) fn sort(&self, glyph: u16) -> Option<Rc<Sort>> {
        let mut cast = self.cast.borrow_mut();
        cast.entry(glyph)
            .or_insert_with(|| {
                let (advance, outline) = self.supply.cast(glyph)?;
                Some(Rc::new(Sort { advance, outline }))
            })
            .clone()
    }

    /// Every measure of a glyph, taken when first asked for.
    pub(crate) fn report(&self, glyph: u16) -> Rc<LetterReport> {
        let mut measured = self.measured.borrow_mut();
        Rc::clone(
            measured
                .entry(glyph)
                .or_insert_with(|| Rc::new(self.supply.measure(glyph))),
        )
    }

    /// Every measure of a glyph, if they have been taken.
    pub(crate) fn measured(&self, glyph: u16) -> Option<Rc<LetterReport>> {
        self.measured.borrow().get(&glyph).cloned()
    }

    /// How many glyphs have been measured.
    pub(crate) fn measured_count(&self) -> usize {
        self.measured.borrow().len()
    }

    /// A glyph's refit, if it has been made.
    pub(crate) fn redrawn(&self, glyph: u16, within: Within) -> Option<Rc<Redrawn>> {
        self.redrawn.borrow().get(&(glyph, within))?.clone()
    }

    /// Makes a glyph's refit, if it is not there yet.
    pub(crate) fn redraw(&self, glyph: u16, within: Within) -> Option<Rc<Redrawn>> {
        let mut redrawn = self.redrawn.borrow_mut();
        redrawn
            .entry((glyph, within))
            .or_insert_with(|| self.supply.redraw(glyph, within).map(Rc::new))
            .clone()
    }

    /// The band in which a character's darkness is read.
    pub(crate) fn band(&self, c: char) -> Option<Band> {
        self.supply.band(c)
    }

    /// The levels at which the letters' sides are read.
    pub(crate) fn grid(&self) -> Grid {
        self.supply.grid()
    }

    /// Both sides of a glyph, read when first asked for; `None` of one without ink.
    pub(crate) fn sides(&self, glyph: u16, character: Option<char>) -> Option<Rc<Sides>> {
        let mut known = self.sides.borrow_mut();
        known
            .entry(glyph)
            .or_insert_with(|| {
                let sort = self.sort(glyph)?;
                let grid = self.grid();
                sides(&sort.outline, sort.advance, character, &grid).map(Rc::new)
            })
            .clone()
    }

    /// The heights that the letters share.
    pub(crate) fn guides(&self) -> &[Guide] {
        self.supply.guides()
    }

    /// Height of a guide: as drawn, else as declared.
    pub(crate) fn height(&self, kind: GuideKind) -> Option<f64> {
        let guide = self.guides().iter().find(|g| g.kind == kind)?;
        guide.drawn.or(guide.declared)
    }

    /// The x-height; half the em in a font without small letters.
    pub(crate) fn x_height(&self) -> f64 {
        self.height(GuideKind::XHeight)
            .filter(|h| *h > 0.0)
            .unwrap_or(0.5 * self.units_per_em())
    }

    /// What to call a letter: its character, else its glyph's name or number.
    pub(crate) fn label(&self, character: Option<char>, glyph: Option<u16>) -> String {
        match (character, glyph) {
            (Some(' '), _) => "space".to_owned(),
            (Some(c), _) if c.is_whitespace() || combines(c) => format!("U+{:04X}", u32::from(c)),
            (Some(c), _) => c.to_string(),
            (None, Some(g)) => self.supply.name(g).unwrap_or_else(|| format!("glyph {g}")),
            (None, None) => "no glyph".to_owned(),
        }
    }
}

/// Marks that would hang on the word before them.
fn combines(c: char) -> bool {
    matches!(c, '\u{0300}'..='\u{036F}' | '\u{1AB0}'..='\u{1AFF}' | '\u{1DC0}'..='\u{1DFF}'
        | '\u{20D0}'..='\u{20FF}' | '\u{FE20}'..='\u{FE2F}')
}
