import { expect, it } from 'vitest'
import type { FontReport } from './generated/FontReport'
import { quickTexts, textFor } from './texts'

const font = (xHeight: number | null): FontReport =>
  ({
    guides: [{ kind: 'xHeight', drawn: xHeight, from: '', declared: null, round: null }],
  }) as unknown as FontReport

it('sets small letters as capitals in a font that has none', () => {
  const small = { text: 'nnonoo', small: true }
  expect(textFor(font(500), small)).toBe('nnonoo')
  expect(textFor(font(null), small)).toBe('NNONOO')
})

it('has every letter in the sentence that says so', () => {
  const pangram = quickTexts.find((quick) => quick.label === 'Pangram')?.text.toLowerCase() ?? ''
  expect([...'abcdefghijklmnopqrstuvwxyz'].filter((letter) => !pangram.includes(letter))).toEqual([])
})
