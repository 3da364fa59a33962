//! Sets and classes of glyphs: coverage and class definition tables (OpenType
//! specification, chapter on common table formats).

use crate::font::bytes::u16_at;
use crate::order::by_number;

/// A set of glyphs.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Coverage {
    /// First and last glyph of each stretch, in order.
    ranges: Vec<(u16, u16)>,
    /// The same glyphs in the table's own order, which numbers them.
    order: Vec<u16>,
}

impl Coverage {
    /// Reads a table; what it takes is taken off the budget, and `None` is also
    /// said where that is spent.
    pub(super) fn read(data: &[u8], budget: &mut usize) -> Option<Self> {
        let count = usize::from(u16_at(data, 2)?);
        let mut order = Vec::new();
        match u16_at(data, 0)? {
            1 => {
                spend(budget, count)?;
                for i in 0..count {
                    order.push(u16_at(data, 4 + 2 * i)?);
                }
            }
            2 => {
                for i in 0..count {
                    let (from, to) = (u16_at(data, 4 + 6 * i)?, u16_at(data, 6 + 6 * i)?);
                    // Stretches that run backwards hold nothing, as in a shaper.
                    if from <= to {
                        spend(budget, usize::from(to - from) + 1)?;
                        order.extend(from..=to);
                    }
                }
            }
            _ => return None,
        }
        Some(Self::of(order))
    }

    pub(super) fn of(order: Vec<u16>) -> Self {
        let mut sorted = order.clone();
        by_number(&mut sorted, |&glyph| f64::from(glyph));
        sorted.dedup();
        let mut ranges: Vec<(u16, u16)> = Vec::new();
        for glyph in sorted {
            match ranges.last_mut() {
                Some(last) if last.1.checked_add(1) == Some(glyph) => last.1 = glyph,
                _ => ranges.push((glyph, glyph)),
            }
        }
        Self { ranges, order }
    }

    pub(super) fn has(&self, glyph: u16) -> bool {
        let at = self.ranges.partition_point(|r| r.1 < glyph);
        self.ranges.get(at).is_some_and(|r| r.0 <= glyph)
    }

    /// Every glyph, in the table's order.
    pub(super) fn glyphs(&self) -> impl Iterator<Item = u16> {
        self.order.iter().copied()
    }
}

/// A class for each glyph; 0 for those not named.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct ClassMap {
    /// First and last glyph of each stretch, and its class; in order.
    ranges: Vec<(u16, u16, u16)>,
}

impl ClassMap {
    pub(super) fn read(data: &[u8], budget: &mut usize) -> Option<Self> {
        let mut ranges = Vec::new();
        match u16_at(data, 0)? {
            1 => {
                let (start, count) = (u16_at(data, 2)?, u16_at(data, 4)?);
                spend(budget, usize::from(count))?;
                for i in 0..count {
                    let glyph = start.checked_add(i)?;
                    ranges.push((glyph, glyph, u16_at(data, 6 + 2 * usize::from(i))?));
                }
            }
            2 => {
                let count = usize::from(u16_at(data, 2)?);
                spend(budget, count)?;
                for i in 0..count {
                    let at = 4 + 6 * i;
                    let (from, to) = (u16_at(data, at)?, u16_at(data, at + 2)?);
                    if from <= to {
                        ranges.push((from, to, u16_at(data, at + 4)?));
                    }
                }
            }
            _ => return None,
        }
        by_number(&mut ranges, |r| f64::from(r.0));
        Some(Self { ranges })
    }

    pub(super) fn of(&self, glyph: u16) -> u16 {
        let at = self.ranges.partition_point(|r| r.0 <= glyph);
        match at.checked_sub(1).map(|i| self.ranges[i]) {
            Some((_, to, class)) if glyph <= to => class,
            _ => 0,
        }
    }

    /// The glyphs of a class other than 0.
    pub(super) fn members(&self, class: u16) -> impl Iterator<Item = u16> {
        self.ranges
            .iter()
            .filter(move |r| class != 0 && r.2 == class)
            .flat_map(|r| r.0..=r.1)
    }

    /// The glyphs whose class answers.
    pub(super) fn glyphs_where(&self, answers: impl Fn(u16) -> bool) -> Vec<u16> {
        self.ranges
            .iter()
            .filter(|r| answers(r.2))
            .flat_map(|r| r.0..=r.1)
            .collect()
    }
}

/// GDEF's glyph classes: 1 base, 2 ligature, 3 mark, 4 component. A font has at
/// most 65,536 glyphs, and so has this.
pub(super) fn glyph_classes(gdef: &[u8]) -> Option<ClassMap> {
    let at = usize::from(u16_at(gdef, 4)?);
    let mut budget = usize::from(u16::MAX);
    (at != 0)
        .then(|| ClassMap::read(gdef.get(at..)?, &mut budget))
        .flatten()
}

/// Takes entries off the budget; `None` if there are not so many left.
pub(super) fn spend(budget: &mut usize, entries: usize) -> Option<()> {
    *budget = budget.checked_sub(entries)?;
    Some(())
}
