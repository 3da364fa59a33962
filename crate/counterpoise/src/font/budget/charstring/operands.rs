//! The operand stack.

use crate::font::budget::Refusal;

/// At most `N` operands.
pub(super) struct Operands<const N: usize> {
    values: [f32; N],
    len: usize,
}

impl<const N: usize> Operands<N> {
    pub(super) fn new() -> Self {
        Self {
            values: [0.0; N],
            len: 0,
        }
    }

    pub(super) fn len(&self) -> usize {
        self.len
    }

    pub(super) fn clear(&mut self) {
        self.len = 0;
    }

    pub(super) fn push(&mut self, value: f32) -> Result<(), Refusal> {
        *self.values.get_mut(self.len).ok_or(Refusal::Broken)? = value;
        self.len += 1;
        Ok(())
    }

    pub(super) fn pop(&mut self) -> Result<f32, Refusal> {
        self.len = self.len.checked_sub(1).ok_or(Refusal::Broken)?;
        self.values.get(self.len).copied().ok_or(Refusal::Broken)
    }

    /// Replaces so many values, and the deltas of each, by the blended values.
    pub(super) fn blend(&mut self, values: usize, deltas: usize) -> Result<(), Refusal> {
        let taken = values * (deltas + 1);
        let start = self.len.checked_sub(taken).ok_or(Refusal::Broken)?;
        self.len = start + values;
        // A blended value names no subroutine: taken for one, it is refused.
        let blended = self.values.get_mut(start..self.len);
        blended.ok_or(Refusal::Broken)?.fill(f32::NAN);
        Ok(())
    }
}
