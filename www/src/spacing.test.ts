import { expect, it } from 'vitest'
import type { KerningReport } from './generated/KerningReport'
import type { SpacingReport } from './generated/SpacingReport'
import type { SuggestionReport } from './generated/SuggestionReport'
import {
  basesOf,
  controlStrings,
  fittingOf,
  kernedOf,
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
  const pair = { pair: ['T', 'o'] as [string, string], apart: -60, rules: [] }
  expect(kerningWords({ source: null, pairs: [], rules: [], notes: [] })).toBe('The font has no kerning.')
  expect(kerningWords({ source: 'gpos', pairs: [pair], rules: [], notes: [] })).toContain(
    '1 pair of these letters is kerned',
  )
  expect(kerningWords({ source: 'kernTable', pairs: [pair, pair], rules: [], notes: [] })).toContain(
    'older kern table',
  )
})

it('tells of the kerned pairs of a line which rules kern them', () => {
  const rule = { lookup: 2, subtable: 1, classes: [4, 7] as [number, number], firsts: 'TÝ', seconds: 'oö' }
  const kerning: KerningReport = {
    source: 'gpos',
    pairs: [
      { pair: ['T', 'o'], apart: -60, rules: [0] },
      { pair: ['A', 'V'], apart: -74, rules: [1] },
    ],
    rules: [rule, { lookup: 2, subtable: 0, classes: null, firsts: 'A', seconds: 'V' }],
    notes: [],
  }
  expect(kernedOf('ToTo AV', kerning)).toEqual([
    { pair: 'To', apart: -60, rules: ['lookup 2, subtable 1: class 4 (T Ý) before class 7 (o ö)'] },
    { pair: 'AV', apart: -74, rules: ['lookup 2, subtable 0: this pair alone'] },
  ])
  expect(kernedOf('A V', kerning)).toEqual([])
})

it('tells which letter an accented one is made of', () => {
  expect(basesOf(['é', 'e', 'Ø', 'Å', 'ß'])).toBe('éeÅA')
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
