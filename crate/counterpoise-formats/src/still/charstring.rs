//! A CFF2 charstring run at a position: what is left is the path alone, with
//! every blend worked out and every subroutine written in (OpenType, "CFF2
//! CharString Format").
//!
//! Hints go: they are for the renderer's pixels, and the lab looks at outlines.
//! Fractions stay, to a 65,536th of a unit.

use crate::FormatError;
use crate::sfnt::{i16_at, u16_at};

/// Operators run for one glyph. The most elaborate drawn take some ten thousand.
const MOST_STEPS: usize = 1_000_000;

/// Subroutines within subroutines (OpenType, CFF2: 10).
const DEEPEST: usize = 10;

/// Numbers on the stack (OpenType, CFF2: 513).
const MOST_NUMBERS: usize = 513;

/// What a glyph's charstring may call on.
pub(super) struct Surroundings<'a> {
    pub(super) global: &'a [&'a [u8]],
    pub(super) local: &'a [&'a [u8]],
    /// Of each set of regions (vsindex), how strongly each region counts.
    pub(super) scalars: &'a [Vec<f64>],
    /// The set that holds until another is chosen.
    pub(super) set: usize,
}

struct Run<'a, 'b> {
    around: &'b Surroundings<'a>,
    stack: Vec<f64>,
    set: usize,
    hints: usize,
    steps: &'b mut usize,
    out: Vec<u8>,
}

/// Runs a charstring. `steps` counts over all glyphs of a font.
///
/// # Errors
/// `Variations` if it is damaged (which costs that glyph), `TooMuch` if it has
/// taken too long.
pub(super) fn run(
    code: &[u8],
    around: &Surroundings<'_>,
    steps: &mut usize,
) -> Result<Vec<u8>, FormatError> {
    let mut run = Run {
        around,
        stack: Vec::new(),
        set: around.set,
        hints: 0,
        steps,
        out: Vec::new(),
    };
    run.code(code, 0)?;
    Ok(run.out)
}

impl Run<'_, '_> {
    fn code(&mut self, code: &[u8], deep: usize) -> Result<(), FormatError> {
        const BROKEN: FormatError = FormatError::Variations;
        let mut at = 0;
        while let Some(&byte) = code.get(at) {
            *self.steps += 1;
            if *self.steps > MOST_STEPS * 100 || self.out.len() > MOST_STEPS {
                return Err(FormatError::TooMuch);
            }
            if let Some((number, length)) = number(code.get(at..).unwrap_or_default()) {
                if self.stack.len() >= MOST_NUMBERS {
                    return Err(BROKEN);
                }
                self.stack.push(number);
                at += length;
                continue;
            }
            at += 1;
            match byte {
                // hstem, vstem, hstemhm, vstemhm
                1 | 3 | 18 | 23 => self.stems(),
                // hintmask, cntrmask: as many bits follow as there are hints.
                19 | 20 => {
                    self.stems();
                    at += self.hints.div_ceil(8);
                }
                // callsubr, callgsubr
                10 | 29 => {
                    let list = if byte == 10 {
                        self.around.local
                    } else {
                        self.around.global
                    };
                    let called = called(list, self.stack.pop().ok_or(BROKEN)?).ok_or(BROKEN)?;
                    if deep >= DEEPEST {
                        return Err(BROKEN);
                    }
                    self.code(called, deep + 1)?;
                }
                // vsindex
                15 => self.set = self.stack.pop().ok_or(BROKEN)? as usize,
                16 => self.blend().ok_or(BROKEN)?,
                // hflex, flex, hflex1, flex1
                12 => match code.get(at) {
                    Some(&flex @ 34..=37) => {
                        at += 1;
                        self.write(&[12, flex]);
                    }
                    _ => return Err(BROKEN),
                },
                // moves, lines and curves
                4..=8 | 21 | 22 | 24..=27 | 30 | 31 => self.write(&[byte]),
                _ => return Err(BROKEN),
            }
        }
        Ok(())
    }

    fn stems(&mut self) {
        self.hints += self.stack.len() / 2;
        self.stack.clear();
    }

    /// Of n defaults and their changes in each region, n numbers.
    fn blend(&mut self) -> Option<()> {
        let scalars = self.around.scalars.get(self.set)?;
        let count = self.stack.pop().filter(|n| *n >= 0.0)? as usize;
        let taken = count.checked_mul(scalars.len() + 1)?;
        let from = self.stack.len().checked_sub(taken)?;
        for i in 0..count {
            let changes = from + count + i * scalars.len();
            let steps = self.stack[changes..].iter().zip(scalars);
            let step: f64 = steps.map(|(change, scalar)| change * scalar).sum();
            self.stack[from + i] += step;
        }
        self.stack.truncate(from + count);
        Some(())
    }

    fn write(&mut self, operator: &[u8]) {
        for value in std::mem::take(&mut self.stack) {
            write_number(value, &mut self.out);
        }
        self.out.extend(operator);
    }
}

/// A subroutine by its number, which counts from the middle of the list.
fn called<'a>(list: &[&'a [u8]], number: f64) -> Option<&'a [u8]> {
    let bias = match list.len() {
        0..1240 => 107,
        1240..33900 => 1131,
        _ => 32768,
    };
    let index = usize::try_from(number as i64 + bias).ok()?;
    list.get(index).copied()
}

/// A number and the bytes that it takes; `None` at an operator.
fn number(code: &[u8]) -> Option<(f64, usize)> {
    let first = *code.first()?;
    let second = || code.get(1).map(|&b| i32::from(b));
    Some(match first {
        28 => (f64::from(i16_at(code, 1)?), 3),
        32..=246 => (f64::from(i32::from(first) - 139), 1),
        247..=250 => (
            f64::from((i32::from(first) - 247) * 256 + second()? + 108),
            2,
        ),
        251..=254 => (
            f64::from(-(i32::from(first) - 251) * 256 - second()? - 108),
            2,
        ),
        255 => {
            let whole = f64::from(i16_at(code, 1)?);
            (whole + f64::from(u16_at(code, 3)?) / 65536.0, 5)
        }
        _ => return None,
    })
}

/// Writes a number of a charstring.
pub(super) fn write_number(value: f64, out: &mut Vec<u8>) {
    let bits = (value * 65536.0)
        .round()
        .clamp(f64::from(i32::MIN), f64::from(i32::MAX)) as i32;
    let whole = bits >> 16;
    if bits & 0xFFFF != 0 {
        out.push(255);
        out.extend(bits.to_be_bytes());
        return;
    }
    match whole {
        -107..=107 => out.push((whole + 139) as u8),
        108..=1131 => {
            let rest = whole - 108;
            out.extend([(rest / 256 + 247) as u8, (rest % 256) as u8]);
        }
        -1131..=-108 => {
            let rest = -whole - 108;
            out.extend([(rest / 256 + 251) as u8, (rest % 256) as u8]);
        }
        _ => {
            out.push(28);
            out.extend((whole as i16).to_be_bytes());
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_read_as_they_were_written() {
        for value in [
            0.0, 1.0, -1.0, 107.0, -107.0, 108.0, -108.0, 363.0, 364.0, 1131.0, -1131.0, 1132.0,
            -1132.0, 32767.0, -32768.0, 0.5, -0.5, 12.25, -300.125,
        ] {
            let mut bytes = Vec::new();
            write_number(value, &mut bytes);
            assert_eq!(number(&bytes), Some((value, bytes.len())), "{value}");
        }
    }

    #[test]
    fn a_blend_is_worked_out_and_a_subroutine_written_in() {
        let mut sub = Vec::new();
        write_number(10.0, &mut sub);
        sub.push(5); // rlineto
        let mut code = Vec::new();
        // 100 and 0, moved by 40 and 8 in the first region, 0 and 2 in the second.
        for value in [100.0, 0.0, 40.0, 0.0, 8.0, 2.0, 2.0] {
            write_number(value, &mut code);
        }
        code.extend([16, 21]); // blend, rmoveto
        write_number(7.0, &mut code);
        write_number(-107.0, &mut code);
        code.push(29); // callgsubr
        let around = Surroundings {
            global: &[&sub],
            local: &[],
            scalars: &[vec![0.5, 1.0]],
            set: 0,
        };
        let mut expected = Vec::new();
        for (values, operator) in [([120.0, 6.0], 21), ([7.0, 10.0], 5)] {
            values.iter().for_each(|&v| write_number(v, &mut expected));
            expected.push(operator);
        }
        assert_eq!(run(&code, &around, &mut 0).unwrap(), expected);
    }

    #[test]
    fn a_subroutine_that_calls_itself_is_damaged() {
        let mut sub = Vec::new();
        write_number(-107.0, &mut sub);
        sub.push(29);
        let around = Surroundings {
            global: &[&sub],
            local: &[],
            scalars: &[],
            set: 0,
        };
        assert_eq!(run(&sub, &around, &mut 0), Err(FormatError::Variations));
    }
}
