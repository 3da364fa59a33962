//! The operand stack.

use super::number;
use crate::font::budget::Refusal;

/// At most `N` operands, each the place where it is written: few are ever read.
pub(super) struct Operands<const N: usize> {
    places: [usize; N],
    len: usize,
}

/// The place of an operand that was blended. It is written nowhere, and nothing that
/// decides the course may be blended: taken for such, it is refused.
const NOWHERE: usize = usize::MAX;

impl<const N: usize> Operands<N> {
    pub(super) fn new() -> Self {
        Self {
            places: [NOWHERE; N],
            len: 0,
        }
    }

    pub(super) fn len(&self) -> usize {
        self.len
    }

    pub(super) fn clear(&mut self) {
        self.len = 0;
    }

    /// Pushes every number from a place on, and says where the next operator is.
    pub(super) fn push_all(&mut self, code: &[u8], mut at: usize) -> Result<usize, Refusal> {
        let mut len = self.len;
        while let Some(&first) = code.get(at) {
            let length = number::length(first);
            if length == 0 {
                break;
            }
            *self.places.get_mut(len).ok_or(Refusal::Broken)? = at;
            len += 1;
            at += length;
            if at > code.len() {
                return Err(Refusal::Broken);
            }
        }
        self.len = len;
        Ok(at)
    }

    pub(super) fn pop(&mut self) -> Result<usize, Refusal> {
        self.len = self.len.checked_sub(1).ok_or(Refusal::Broken)?;
        self.places.get(self.len).copied().ok_or(Refusal::Broken)
    }

    /// Replaces so many values, and the deltas of each, by the blended values.
    pub(super) fn blend(&mut self, values: usize, deltas: usize) -> Result<(), Refusal> {
        let taken = values * (deltas + 1);
        let start = self.len.checked_sub(taken).ok_or(Refusal::Broken)?;
        self.len = start + values;
        let blended = self.places.get_mut(start..self.len);
        blended.ok_or(Refusal::Broken)?.fill(NOWHERE);
        Ok(())
    }
}
