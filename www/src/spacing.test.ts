import { expect, it } from 'vitest'
import type { SpacingReport } from './generated/SpacingReport'
import type { SuggestionReport } from './generated/SuggestionReport'
import {
  controlStrings,
  fittingOf,
  kerningWords,
  spacedCharacters,
  suggestionWords,
  toleranceOf,
} from './spacing'

const suggestion: SuggestionReport = {
  tolerance: 10,
  bearings: [
    { character: 'T', glyph: 5, right: true, is: 30, suggested: 20 },
    { character: 'T', glyph: 5, right: false, is: 30, suggested: 35 },
  ],
  kerns: [{ firsts: ['T', 'Y'], seconds: ['o', 'ø'], apart: -60 }],
  asked: 40,
  left: 2,
  featureFile: '',
  unnamed: '',
}

it('turns a suggestion into what is added to the font’s own', () => {
  const letters = [
    { character: 'T', glyph: 5 },
    { character: 'Y', glyph: 6 },
    { character: 'o', glyph: 7 },
  ] as SpacingReport['letters']
  const report = { letters, findings: [] } as unknown as SpacingReport
  expect(fittingOf(report, suggestion)).toEqual({
    sides: [[5, 5, -10]],
    // ø was not read: the font may lack it.
    pairs: [
      [5, 7, -60],
      [6, 7, -60],
    ],
  })
})

it('says what the suggestion comes to', () => {
  expect(suggestionWords(suggestion)).toBe(
    '2 bearings first, then 1 kern, bring all but 2 pairs of the 40 pairs that asked for more within 10 units.',
  )
  expect(suggestionWords({ ...suggestion, left: 0 })).toContain('bring every pair within')
  expect(suggestionWords({ ...suggestion, bearings: [], kerns: [] })).toContain('Nothing:')
})

it('says where kerning comes from', () => {
  const pair = { pair: ['T', 'o'] as [string, string], apart: -60 }
  expect(kerningWords({ source: null, pairs: [], notes: [] })).toBe('The font has no kerning.')
  expect(kerningWords({ source: 'gpos', pairs: [pair], notes: [] })).toContain(
    '1 pair of these letters is kerned',
  )
  expect(kerningWords({ source: 'kernTable', pairs: [pair, pair], notes: [] })).toContain('older kern table')
})

it('reads no character twice, and the tolerance goes with the em', () => {
  const all = spacedCharacters(['a', 'é', 'H'])
  expect(new Set(all).size).toBe([...all].length)
  expect([...all].length).toBeLessThanOrEqual(200)
  expect(toleranceOf(1000)).toBe(10)
  expect(toleranceOf(16)).toBe(1)
})

it('stands letters among the straight and the round of their case', () => {
  expect(controlStrings(['A'])).toBe('HHAHHOAOO')
  expect(controlStrings(['a', 'a'])).toBe('nnannoaoo')
  expect(controlStrings(['7', 'ß'])).toBe('HH7HHO7OO nnßnnoßoo')
  expect(controlStrings([...'abcdefgh']).split(' ')).toHaveLength(4)
})
