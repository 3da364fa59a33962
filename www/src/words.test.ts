import { describe, expect, it } from 'vitest'
import type { Deviation } from './generated/Deviation'
import type { Drawing } from './generated/Drawing'
import {
  codePoint,
  deviationWords,
  drawingRows,
  extremityWords,
  flawWords,
  isUsual,
  listed,
  rightsWords,
  versionWords,
} from './words'

const deviation = (change: Partial<Deviation>): Deviation => ({
  measure: 'weight',
  value: 96,
  expected: 88,
  spread: 3,
  beside: 'BDPR',
  ...change,
})

describe('deviations', () => {
  it('say how far, which way, and beside what', () => {
    expect(deviationWords(deviation({}))).toBe('8 heavier (9.1%) than B D P R suggest, 88')
    expect(deviationWords(deviation({ measure: 'width', value: 480, expected: 520, beside: 'BPK' }))).toBe(
      '40 narrower (7.7%) than B P K suggest, 520',
    )
    expect(deviationWords(deviation({ measure: 'height', value: 700, expected: 698 }))).toContain(
      '2 taller (0.3%)',
    )
    expect(deviationWords(deviation({ value: 88 }))).toBe('just what B D P R suggest, 88')
  })

  it('are usual within the spread of the font', () => {
    expect(isUsual(deviation({ value: 91 }))).toBe(true)
    expect(isUsual(deviation({ value: 84.9 }))).toBe(false)
  })
})

it('counts the tail of a long class', () => {
  expect(listed('ABCDEFGHIJ')).toBe('A B C D E F G H and 2 more')
  expect(listed('A, B, C')).toBe('A B C')
})

it('describes tops and feet', () => {
  const end = { form: 'round', y: 712, x: 300, breadth: 0, overshoot: 12 } as const
  expect(extremityWords(end)).toBe('round at 712, 12 past its guide')
  expect(extremityWords({ ...end, overshoot: -4 })).toBe('round at 712, 4 short of its guide')
  expect(extremityWords({ ...end, form: 'flat', overshoot: 0 })).toBe('flat at 712, on its guide')
  expect(extremityWords({ ...end, form: 'pointed', overshoot: null })).toBe('pointed at 712')
  expect(extremityWords(null)).toBe('no ink')
})

it('says how far a font may be embedded', () => {
  const rights = (bits: number, restricted = false) => rightsWords({ bits, restricted, sentence: '' })
  expect(rights(0)).toBe('May be embedded')
  expect(rights(2, true)).toBe('May not be embedded')
  expect(rights(4)).toBe('May be embedded to read and print')
  expect(rights(8)).toBe('May be embedded and edited')
  expect(rights(12)).toBe('May be embedded and edited')
  expect(rightsWords(null)).toBe('Embedding not stated')
})

it('keeps the version and drops the tools', () => {
  expect(versionWords('Version 1.200;hotconv 1.0.88')).toBe('Version 1.200')
  expect(versionWords('001.002')).toBe('Version 001.002')
  expect(versionWords(' ; ')).toBeNull()
  expect(versionWords(null)).toBeNull()
})

it('writes code points', () => {
  expect(codePoint('R')).toBe('U+0052')
  expect(codePoint('𝒜')).toBe('U+1D49C')
})

describe('a drawing', () => {
  const flaw = (at: number): Drawing['flaws'][number] => ({
    kind: 'stub',
    name: 'stub',
    at: [at, 0],
    size: 1,
    contour: 0,
    basis: 'practice',
    sentence: `A stub 1 unit long, at ${at}, 0.`,
  })
  const drawing = (change: Partial<Drawing>): Drawing => ({
    drawn: 42,
    withinHalf: { points: 18, complete: true },
    withinTwo: { points: 15, complete: false },
    flaws: [],
    flawsLeftOut: 0,
    notLookedFor: [],
    ...change,
  })

  it('has its points beside what a refit needs', () => {
    expect(drawingRows(drawing({})).map(([, value]) => value)).toEqual(['42', '18', '15 at most'])
  })

  it('has its flaws told, the tail of a long list counted', () => {
    expect(flawWords(drawing({}))).toEqual(['Nothing in the drawing asks for a look.'])
    expect(flawWords(drawing({ flaws: [flaw(3)] }))).toEqual(['A stub 1 unit long, at 3, 0.'])
    const many = flawWords(drawing({ flaws: [...Array(20).keys()].map(flaw), flawsLeftOut: 5 }))
    expect(many.length).toBe(13)
    expect(many.at(-1)).toBe('And 13 more places.')
    expect(flawWords(drawing({ notLookedFor: ['overlap'] }))).toEqual([
      'The outline is too large to look for overlaps and crossings in.',
    ])
  })
})
