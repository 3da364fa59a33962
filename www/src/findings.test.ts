import { describe, expect, it } from 'vitest'
import {
  allowances,
  allowanceWords,
  countWords,
  deviationsOf,
  emptyWords,
  everyFinding,
  isSame,
  type Judgement,
  meantSo,
  rarityWords,
  standing,
} from './findings'
import type { FindingReport } from './generated/FindingReport'
import type { LetterStanding } from './generated/LetterStanding'

const finding = (
  letter: string,
  byChance: number,
  cause: FindingReport['cause'] = 'width',
): FindingReport => ({
  letter,
  glyph: 1,
  cause,
  value: 500,
  expected: 538,
  low: 520,
  high: 545,
  difference: -38,
  spreads: -4,
  byChance,
  beside: 'BPK',
  sentence: `${letter} is narrow.`,
})

const standsWide: LetterStanding = {
  letter: 'W',
  glyph: 7,
  deviations: [{ measure: 'width', value: 900, expected: 850, spread: 20, beside: 'MVw' }],
}

const judged = (...findings: FindingReport[]): Judgement => ({
  kind: 'done',
  report: { findings, letters: [standsWide], meant: [], familiar: true, note: null },
})

const judgement = judged(finding('R', 0.01), finding('m', 0.4, 'strokes'), finding('R', 3, 'left'))
const letters = (listed: readonly FindingReport[]) => listed.map(({ letter, cause }) => `${letter} ${cause}`)

it('tells how a letter stands once the font is judged', () => {
  expect(deviationsOf(judgement, 7)).toEqual(standsWide.deviations)
  expect(deviationsOf(judgement, 8)).toEqual([])
  expect(deviationsOf({ kind: 'judging' }, 7)).toEqual([])
})

describe('what is listed', () => {
  it('is what is rare enough, in the judgement’s own order', () => {
    expect(letters(standing(judgement, 0.1))).toEqual(['R width'])
    expect(letters(standing(judgement, 1))).toEqual(['R width', 'm strokes'])
    expect(letters(standing(judgement, 8))).toEqual(['R width', 'm strokes', 'R left'])
  })

  it('leaves out what is meant so, which is told apart', () => {
    const said = judged(finding('m', 0.4, 'strokes'))
    if (said.kind !== 'done') throw new Error('it is judged')
    const with_: Judgement = { kind: 'done', report: { ...said.report, meant: [finding('R', 0.01)] } }
    expect(letters(standing(with_, 8))).toEqual(['m strokes'])
    expect(letters(meantSo(with_))).toEqual(['R width'])
    expect(letters(everyFinding(with_))).toEqual(['m strokes', 'R width'])
  })

  it('is nothing before the letters have been judged', () => {
    for (const kind of ['none', 'judging'] as const) expect(standing({ kind }, 8)).toEqual([])
    expect(standing({ kind: 'failed', sentence: 'No.' }, 8)).toEqual([])
  })

  it('knows a finding by its letter and its cause', () => {
    const one = finding('R', 0.01)
    expect(isSame(one, { glyph: one.glyph, cause: 'width' })).toBe(true)
    expect(isSame(one, { glyph: one.glyph, cause: 'left' })).toBe(false)
    expect(isSame(one, null)).toBe(false)
  })
})

describe('the words', () => {
  it('say what a setting means', () => {
    expect(allowanceWords(1)).toBe(
      'At this setting a sound alphabet of 52 letters shows about 1 false alarm.',
    )
    expect(allowanceWords(8)).toContain('about 8 false alarms.')
    expect(allowanceWords(0.25)).toContain('about 0.25 false alarms: one in 4 such alphabets.')
    expect(new Set(allowances.map(allowanceWords)).size).toBe(allowances.length)
  })

  it('say how rare a finding is', () => {
    expect(rarityWords(0)).toBe('fewer than one such in 1000 sound alphabets')
    expect(rarityWords(0.002)).toBe('one such in 500 sound alphabets')
    expect(rarityWords(0.05)).toBe('one such in 20 sound alphabets')
    expect(rarityWords(0.0123)).toBe('one such in 81 sound alphabets')
    expect(rarityWords(0.6)).toBe('one such in 2 sound alphabets')
    expect(rarityWords(0.7)).toBe('about one such in every sound alphabet')
    expect(rarityWords(1)).toBe('about one such in every sound alphabet')
    expect(rarityWords(3.6)).toBe('about 4 such in every sound alphabet')
  })

  it('count the findings', () => {
    expect(countWords(judgement, 2)).toBe('2 findings')
    expect(countWords(judgement, 1)).toBe('1 finding')
    expect(countWords(judgement, 0)).toBe('No findings')
    expect(countWords({ kind: 'judging' }, 0)).toBe('Judging the letters…')
    expect(countWords({ kind: 'none' }, 0)).toBe('')
  })

  it('say why the list is empty', () => {
    expect(emptyWords(judged(), 1)).toBe(
      'No letter is farther from what the others suggest than letters of sound alphabets are.',
    )
    expect(emptyWords(judged(finding('R', 3)), 1)).toContain('With more doubt one letter shows')
    const { report } = judged() as Extract<Judgement, { kind: 'done' }>
    expect(emptyWords({ kind: 'done', report: { ...report, meant: [finding('R', 0.1)] } }, 1)).toBe(
      'What stands out at this strictness is meant so.',
    )
  })
})
