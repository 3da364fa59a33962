import { describe, expect, it } from 'vitest'
import type { FaceReport } from '../generated/FaceReport'
import type { FindingReport } from '../generated/FindingReport'
import { asDrawn, stepOf, styleOf, typedValue, valueWords } from './parcel'
import { countsOf, rowsOf, rowWords, STEPS, valuesAlong, worst } from './walk'

const axis = (tag: string, name: string, min: number, drawn: number, max: number) => ({
  tag,
  name,
  min,
  default: drawn,
  max,
  hidden: false,
  stops: [],
})
const report: FaceReport = {
  axes: [axis('wght', 'Weight', 100, 400, 900), axis('slnt', 'Slant', -10, 0, 0)],
  instances: [{ name: 'Bold', position: [700, 0] }],
  notes: [],
}

it('names a position by its own name, else by the axes that have moved', () => {
  expect(styleOf(report, asDrawn(report))).toBe(null)
  expect(styleOf(report, [700, 0])).toBe('Bold')
  expect(styleOf(report, [543, 0])).toBe('Weight 543')
  expect(styleOf(report, [543, -4.5])).toBe('Weight 543, Slant −4.5')
})

it('reads numbers as people type them', () => {
  expect(typedValue(' 250 ')).toBe(250)
  expect(typedValue('−4,5')).toBe(-4.5)
  expect(typedValue(valueWords(-4.5))).toBe(-4.5)
  for (const none of ['', 'a lot', '12px', 'Infinity']) expect(typedValue(none)).toBe(null)
})

it('steps as finely as an axis is worth', () => {
  expect([stepOf({ min: 100, max: 900 }), stepOf({ min: 0, max: 1 }), stepOf({ min: -10, max: 0 })]).toEqual([
    1, 0.01, 0.1,
  ])
})

const finding = (letter: string, byChance: number, difference = 9): FindingReport => ({
  letter,
  glyph: 1,
  cause: 'width',
  value: 1,
  expected: 1,
  low: 1,
  high: 1,
  difference,
  spreads: 3,
  byChance,
  beside: '',
  sentence: '',
})

describe('a walk along an axis', () => {
  it('goes from end to end and by way of where the font opens', () => {
    const values = valuesAlong(axis('wght', 'Weight', 100, 400, 900))
    expect(values).toHaveLength(STEPS)
    expect([values[0], values.at(-1)]).toEqual([100, 900])
    expect(values).toContain(400)
    expect(values).toEqual(values.toSorted((a, b) => a - b))
    expect(valuesAlong(axis('slnt', 'Slant', -10, 0, 0)).at(-1)).toBe(0)
  })

  it('shows the letters that are listed somewhere, the worst first, and where', () => {
    const values = [100, 300, 500, 700, 900]
    const found = [
      [finding('R', 0.5)],
      [finding('R', 3)],
      [],
      [finding('g', 0.01, -4)],
      [finding('g', 0.2), finding('R', 0.9), finding('x', 5)],
    ]
    const rows = rowsOf(values, found, 1)
    expect(rows.map(({ letter }) => letter)).toEqual(['g', 'R'])
    expect(rows[0]?.spots.map((spot) => spot?.value ?? null)).toEqual([null, null, null, 700, 900])
    expect(rows[0] && worst(rows[0])?.value).toBe(700)
    expect(rows[0] && rowWords(rows[0])).toBe('g, width: stands out from 700 to 900, most at 700')
    expect(rows[1] && rowWords(rows[1])).toBe('R, width: stands out at 100 and at 900, most at 100')
    expect(countsOf([...found.slice(0, 2), undefined], 1)).toEqual([1, 0, null])
  })
})
