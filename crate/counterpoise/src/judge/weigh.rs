//! A font's letters against what the others make one expect: how far each
//! figure is off, in spreads, and which cause would explain it best.
//!
//! # Method
//! A figure's spread is what the model leaves unexplained, times how loosely
//! this font keeps that kind of figure (its own scatter, robustly), and never
//! less than a floor under which nothing is seen. A cause is a direction in the
//! letter's figures; its strength is the size of the figures' departure along
//! it beside what is left across it (a matched filter in the noise of a
//! t-distribution), so that a letter that is odd in every way, as an ornament,
//! is not taken for a plain fault.

use super::cause::Cause;
use super::linear::Factor;
use super::meant::Meant;
use super::own;
use super::relations::{Expected, FIGURES, LETTERS, Row};
use super::table::Table;
use super::traits::{Trait, Traits};
use crate::measure::{MAD_TO_SD, median};

/// Figures of one kind, whose scatter a font has as a habit.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Widths.
    Widths,
    /// Thicknesses.
    Strokes,
    /// Areas.
    Area,
    /// Tops and feet.
    Heights,
    /// Side bearings.
    Bearings,
    /// Shapes of the sides.
    Hollows,
}

impl Kind {
    /// Every kind.
    pub const ALL: [Self; 6] = [
        Self::Widths,
        Self::Strokes,
        Self::Area,
        Self::Heights,
        Self::Bearings,
        Self::Hollows,
    ];

    /// The kind of a trait.
    pub fn of(t: Trait) -> Self {
        use Trait::*;
        match t {
            Width | Body | Counter => Self::Widths,
            Stem | Bowl | Thick | Slender | Bar | Side | Arch | Mean | Pair | CutLeft
            | CutRight | CutTop | CutMiddle | CutFoot => Self::Strokes,
            Area => Self::Area,
            TopFlat | TopRound | TopPointed | FootFlat | FootRound | FootPointed => Self::Heights,
            Left | Right => Self::Bearings,
            LeftHollow | RightHollow => Self::Hollows,
        }
    }

    /// Differences under this are never seen: about a third of what is just
    /// noticed in a length (2% to 3%, Weber's fraction, textbook value from
    /// memory), and in heights one unit or two of rounding.
    fn floor(self) -> f64 {
        match self {
            Self::Widths | Self::Strokes | Self::Area => 0.008,
            Self::Heights => 0.0015,
            Self::Bearings | Self::Hollows => 0.003,
        }
    }
}

/// How loosely a font may keep a kind of figure beside fonts at large.
const LOOSENESS: (f64, f64) = (0.3, 6.0);

/// A font's own scatter counts against fonts at large as so many figures.
const PRIOR: f64 = 6.0;

/// Heaviness of the tails of a letter's departures: degrees of freedom.
const TAILS: f64 = 20.0;

/// No figure counts as more than this many spreads off.
const FARTHEST: f64 = 12.0;

/// Figures that a cause does not touch are companions: they tell what to expect
/// of those that it does, but no more than this many spreads of theirs.
const COMPANION: f64 = 1.5;

/// A cause touches a figure if it moves it by this share of the most.
const TOUCHED: f64 = 0.2;

/// Shares of a font's letters at which is read how strongly they show a cause.
pub const SHOWN: [f64; 3] = [0.3, 0.2, 0.1];

/// How many times as strongly as in fonts at large a cause shows all over a
/// font: what is a habit of the font is no fault of a letter. A font in which it
/// shows less gains nothing by it.
fn slack(shown: &[f64; SHOWN.len()], at_large: &[f64; SHOWN.len()]) -> f64 {
    /// A font's letters count against fonts at large by this share.
    const TRUST: f64 = 0.7;
    /// No habit is taken to be looser than e to this.
    const MOST: f64 = 1.5;
    if at_large.iter().any(|&s| s <= 0.0) {
        return 1.0;
    }
    let ratios = shown.iter().zip(at_large);
    let sum: f64 = ratios
        .map(|(own, usual)| (own / usual).max(0.01).ln())
        .sum();
    (TRUST * sum / SHOWN.len() as f64).clamp(0.0, MOST).exp()
}

/// One letter's figures against expectation.
#[derive(Debug, Clone, PartialEq)]
pub struct Standing {
    /// Place of the letter in [`LETTERS`].
    pub letter: usize,
    /// Figures of the model.
    pub variables: Vec<usize>,
    /// How far each is off, in spreads.
    pub off: Vec<f64>,
    /// The spreads.
    pub spread: Vec<f64>,
    /// How the departures go together; the same whatever the cause.
    among: Option<Factor>,
}

impl Standing {
    /// 0 of a letter, 1 of a figure or the &: what is tabled of the two apart.
    pub fn kin(&self) -> usize {
        usize::from(self.letter >= FIGURES)
    }
}

/// A cause that would explain how a letter stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sign {
    /// The cause.
    pub cause: Cause,
    /// How much of it: a logarithm of a ratio or a share of the cap height.
    pub size: f64,
    /// How strongly it shows, in spreads.
    pub strength: f64,
    /// How far the size is told, one spread.
    pub spread: f64,
}

/// How far one figure is off, on its trait's scale.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Departure {
    /// The figure.
    pub value: f64,
    /// Measured less expected.
    pub by: f64,
    /// The spread.
    pub spread: f64,
}

/// A font's figures with what is expected of them.
#[derive(Debug, Clone, PartialEq)]
pub struct Weighed<'t> {
    table: &'t Table,
    row: Row,
    expected: Vec<Expected>,
    looseness: [f64; Kind::ALL.len()],
    slack: [f64; Cause::ALL.len()],
    meant: Meant,
    own: bool,
}

/// A font's figures without those that are meant so.
fn heeded(table: &Table, row: &Row, meant: &Meant) -> Row {
    let mut heeded = row.clone();
    for (letter, c) in LETTERS.chars().enumerate() {
        if meant.whole(c) {
            heeded[table.relations.of_letter(letter)].fill(None);
        }
        for cause in meant.causes(c) {
            table.touched(letter, cause).for_each(|i| heeded[i] = None);
        }
    }
    heeded
}

impl<'t> Weighed<'t> {
    /// Weighs a font's figures.
    pub fn of(table: &'t Table, row: Row) -> Self {
        Self::but_for(table, row, &Meant::nothing())
    }

    /// Weighs a font's figures, those that are meant so given no weight.
    pub fn but_for(table: &'t Table, row: Row, meant: &Meant) -> Self {
        let heeded = heeded(table, &row, meant);
        let expected = table.relations.expect(&heeded);
        let mut weighed = Self {
            table,
            row,
            expected,
            looseness: [1.0; Kind::ALL.len()],
            slack: [1.0; Cause::ALL.len()],
            meant: meant.clone(),
            own: false,
        };
        for _ in 0..3 {
            weighed.look_at_scatter(&heeded);
        }
        let shown = weighed.shown();
        for (cause, slack) in weighed.slack.iter_mut().enumerate() {
            *slack = self::slack(&shown[cause], &table.shown[cause]);
        }
        weighed
    }

    /// Weighs a font's figures by its own like letters, without the model.
    pub fn by_own(table: &'t Table, mut row: Row, meant: &Meant) -> Self {
        let own = own::expect(&table.relations, &heeded(table, &row, meant));
        let expected = own
            .iter()
            .zip(&table.relations.variables)
            .enumerate()
            .map(|(i, (own, v))| match own {
                // What the model leaves has no part in this.
                Some(e) => Expected {
                    value: e.value,
                    variance: e.variance / table.noise[i].powi(2),
                },
                None => {
                    row[i] = None;
                    Expected {
                        value: v.mean,
                        variance: v.noise,
                    }
                }
            })
            .collect();
        Self {
            table,
            row,
            expected,
            looseness: [1.0; Kind::ALL.len()],
            slack: [1.0; Cause::ALL.len()],
            meant: meant.clone(),
            own: true,
        }
    }

    /// Whether the font is weighed by its own like letters, without the model.
    pub fn is_by_own(&self) -> bool {
        self.own
    }

    /// The same font with one letter drawn anew: what is expected of that letter
    /// and how loosely the font is drawn stay as they were.
    pub fn with_letter(&self, letter: usize, traits: &Traits) -> Self {
        let mut other = self.clone();
        self.table
            .relations
            .set_letter(&mut other.row, letter, traits);
        other
    }

    /// What it was weighed by.
    pub fn table(&self) -> &'t Table {
        self.table
    }

    /// What is meant so.
    pub fn meant(&self) -> &Meant {
        &self.meant
    }

    /// The causes of a letter that are.
    pub fn meant_causes(&self, letter: usize) -> impl Iterator<Item = Cause> {
        let c = LETTERS.chars().nth(letter);
        c.into_iter().flat_map(|c| self.meant.causes(c))
    }

    /// How loosely the font keeps a kind of figure: 1 as fonts at large do.
    pub fn looseness(&self, kind: Kind) -> f64 {
        self.looseness[kind as usize]
    }

    /// The spread of a figure in this font.
    pub fn spread(&self, variable: usize) -> f64 {
        let kind = Kind::of(self.table.relations.variables[variable].of);
        let own = self.expected[variable].variance
            * self.table.noise[variable].powi(2)
            * self.looseness(kind).powi(2);
        (own + kind.floor().powi(2)).sqrt()
    }

    /// How far one of a letter's figures is off; `None` where it does not have it.
    pub fn departure(&self, letter: usize, of: Trait) -> Option<Departure> {
        let relations = &self.table.relations;
        let own = |&i: &usize| relations.variables[i].of == of;
        let i = relations.of_letter(letter).find(own)?;
        let value = self.row[i]?;
        Some(Departure {
            value,
            by: value - self.expected[i].value,
            spread: self.spread(i),
        })
    }

    fn look_at_scatter(&mut self, heeded: &Row) {
        for kind in Kind::ALL {
            let variables = &self.table.relations.variables;
            let mut off: Vec<f64> = heeded
                .iter()
                .enumerate()
                .filter(|(i, _)| variables[*i].letter < FIGURES)
                .filter(|(i, _)| Kind::of(variables[*i].of) == kind)
                .filter_map(|(i, x)| Some(((*x)? - self.expected[i].value).abs() / self.spread(i)))
                .collect();
            let n = off.len() as f64;
            if off.is_empty() {
                continue;
            }
            let scatter = (MAD_TO_SD * median(&mut off)).clamp(0.2, 5.0);
            let now = self.looseness[kind as usize] * (scatter.ln() * n / (n + PRIOR)).exp();
            self.looseness[kind as usize] = now.clamp(LOOSENESS.0, LOOSENESS.1);
        }
    }

    /// How strongly each cause shows in this font's letters, figures aside, those left out that
    /// are meant so: what a tenth, two and three tenths of them pass.
    pub fn shown(&self) -> [[f64; SHOWN.len()]; Cause::ALL.len()] {
        let mut all: [Vec<f64>; Cause::ALL.len()] = Default::default();
        for (letter, c) in LETTERS.chars().enumerate().take(FIGURES) {
            if self.meant.whole(c) {
                continue;
            }
            let standing = self.standing(letter);
            if standing.variables.is_empty() {
                continue;
            }
            for cause in Cause::ALL {
                if !self.meant_causes(letter).any(|m| m == cause) {
                    let sign = self.sign(&standing, cause);
                    all[cause as usize].push(sign.map_or(0.0, |s| s.strength));
                }
            }
        }
        all.map(|mut strengths| {
            strengths.sort_unstable_by(f64::total_cmp);
            strengths.reverse();
            let at = |share| strengths.get((share * strengths.len() as f64) as usize);
            SHOWN.map(|share| at(share).copied().unwrap_or(0.0))
        })
    }

    /// How what two figures are off goes together. What the model leaves of them
    /// tells nothing of how far they lie from medians.
    fn correlation(&self, i: usize, j: usize) -> f64 {
        if !self.own {
            return self.table.correlation(i, j);
        }
        if i == j { 1.0 } else { 0.0 }
    }

    /// How a letter's figures stand.
    pub fn standing(&self, letter: usize) -> Standing {
        let variables: Vec<usize> = self
            .table
            .relations
            .of_letter(letter)
            .filter(|&i| self.row[i].is_some())
            .collect();
        let spread: Vec<f64> = variables.iter().map(|&i| self.spread(i)).collect();
        let off = variables
            .iter()
            .zip(&spread)
            .map(|(&i, s)| (self.row[i].unwrap_or(0.0) - self.expected[i].value) / s)
            .collect();
        let n = variables.len();
        let mut among = vec![0.0; n * n];
        for (a, &i) in variables.iter().enumerate() {
            for (b, &j) in variables.iter().enumerate().take(a + 1) {
                among[a * n + b] = self.correlation(i, j);
            }
        }
        Standing {
            letter,
            variables,
            off,
            spread,
            among: Factor::of(among, n),
        }
    }

    /// How strongly a cause shows in a standing; `None` where the letter has no
    /// figure that it would move.
    pub fn sign(&self, standing: &Standing, cause: Cause) -> Option<Sign> {
        let effect = &self.table.effects[cause as usize];
        let direction: Vec<f64> = standing
            .variables
            .iter()
            .zip(&standing.spread)
            .map(|(&i, s)| effect[i] / s)
            .collect();
        let most = direction.iter().fold(0.0, |m: f64, d| m.max(d.abs()));
        if most <= 0.0 || (self.own && !self.has_its_main(standing, effect)) {
            return None;
        }
        let n = direction.len();
        let factor = standing.among.as_ref()?;
        let filter = factor.solve(&direction);
        let power: f64 = filter.iter().zip(&direction).map(|(f, d)| f * d).sum();
        // How far they repeat one another is not known without the model: all that
        // a cause moves are then worth one figure, so that it errs on the side of silence.
        let worth = if self.own {
            power / direction.iter().map(|d| d.powi(4)).sum::<f64>() * power
        } else {
            1.0
        };
        let seen: Vec<f64> = standing
            .off
            .iter()
            .zip(&direction)
            .map(|(&z, d)| {
                let most = if d.abs() > TOUCHED * most {
                    FARTHEST
                } else {
                    COMPANION
                };
                z.clamp(-most, most)
            })
            .collect();
        let size = filter.iter().zip(&seen).map(|(f, z)| f * z).sum::<f64>() / power;
        let left: Vec<f64> = seen
            .iter()
            .zip(&direction)
            .map(|(z, d)| z - size * d)
            .collect();
        let across = factor.form(&left);
        let slack = self.slack[cause as usize];
        let even = match cause {
            Cause::Width => self.table.evened[standing.letter],
            _ => 1.0,
        };
        let doubt = ((TAILS + across) / (TAILS + n as f64)).sqrt();
        Some(Sign {
            cause,
            size,
            strength: even * size.abs() * (power / worth).sqrt() / (doubt * slack),
            spread: doubt * slack / (power / worth).sqrt(),
        })
    }

    /// Whether the letter has a figure that is moved about as much as any of its
    /// could be: without the model, what a cause only brushes is no sign of it.
    fn has_its_main(&self, standing: &Standing, effect: &[f64]) -> bool {
        let most = |all: &mut dyn Iterator<Item = usize>| {
            all.fold(0.0, |most: f64, i| most.max(effect[i].abs()))
        };
        let mut own = self.table.relations.of_letter(standing.letter);
        most(&mut standing.variables.iter().copied()) > 0.5 * most(&mut own)
    }

    /// A standing with a cause taken out of it.
    pub fn without(&self, standing: &Standing, sign: &Sign) -> Standing {
        let effect = &self.table.effects[sign.cause as usize];
        let mut rest = standing.clone();
        for ((off, &i), s) in rest
            .off
            .iter_mut()
            .zip(&standing.variables)
            .zip(&standing.spread)
        {
            *off -= sign.size * effect[i] / s;
        }
        rest
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::judge::finding::Matter;

    /// A font that is as the middle of fonts, but for its R, all of whose figures
    /// are off.
    fn with_odd_r(table: &Table, by: f64) -> Row {
        let r = LETTERS.find('R').unwrap();
        let figure = |v: &crate::judge::Variable| v.mean + if v.letter == r { by } else { 0.0 };
        let all = table.relations.variables.iter();
        all.map(|v| Some(figure(v))).collect()
    }

    #[test]
    fn what_is_meant_so_weighs_on_no_other_letter() {
        let table = Table::shipped().unwrap();
        let (p, r) = (LETTERS.find('P').unwrap(), LETTERS.find('R').unwrap());
        let standing =
            |by, meant: &Meant| Weighed::but_for(&table, with_odd_r(&table, by), meant).standing(p);
        let nothing = Meant::nothing();
        assert_ne!(standing(0.0, &nothing), standing(0.2, &nothing));
        let whole: Meant = [('R', None)].into_iter().collect();
        assert_eq!(standing(0.0, &whole), standing(0.2, &whole));
        // Of a letter that is wide on purpose the strokes still count.
        let wide: Meant = [('R', Some(Matter::Shape(Cause::Width)))]
            .into_iter()
            .collect();
        assert_ne!(standing(0.0, &wide), standing(0.2, &wide));
        let row = |by: f64| {
            let mut row = with_odd_r(&table, 0.0);
            for i in table.touched(r, Cause::Width) {
                row[i] = row[i].map(|v| v + by);
            }
            Weighed::but_for(&table, row, &wide).standing(p)
        };
        assert_eq!(row(0.0), row(0.2));
    }
}
