import { describe, expect, it } from 'vitest'
import { finding, review } from '../testing'
import { type Given, sheetCsv, sheetData, sheetJson, summary } from './sheet-data'

const given = (change: Partial<Given> = {}): Given => ({
  title: 'Brigaroe',
  style: '',
  contributor: 'Ines',
  revision: 2,
  day: '2026-05-20',
  fileName: 'a.otf',
  unitsPerEm: 1000,
  heights: [],
  shelved: null,
  planned: 'ABCDE',
  read: {
    letters: { A: 'aa', B: 'bb', C: 'cc', D: 'dd' },
    findings: [finding('A'), finding('B', { byChance: 5 })],
  },
  drawings: new Map(),
  reviews: [],
  before: {},
  fates: [],
  ...change,
})

describe('what stands on the sheet', () => {
  it('is each open finding, then what the reviewer alone has said, numbered', () => {
    const reviews = [
      review('C', { verdict: 'redraw', drawing: 'cc', note: 'Open it.' }),
      review('A', { cause: 'width', verdict: 'redraw', drawing: 'aa', note: 'Narrower.' }),
      review('D', { verdict: 'settled', drawing: 'dd' }),
    ]
    const data = sheetData(given({ reviews }))
    expect(data.entries.map(({ number, letter, verdict, note }) => [number, letter, verdict, note])).toEqual([
      [1, 'A', 'redraw', 'Narrower.'],
      [2, 'C', 'redraw', 'Open it.'],
    ])
    expect(data.letters).toBe('ABCD')
    expect(summary(data)).toBe('2 letters settled, 2 letters to redraw, 1 still to draw.')
  })

  it('says what is meant so, and leaves it out above', () => {
    const data = sheetData(given({ reviews: [review('A', { cause: 'width', verdict: 'meant' })] }))
    expect(data.entries).toEqual([])
    expect(data.meant).toEqual(['A (width)'])
    expect(summary(data)).toContain('Nothing below needs your pen.')
  })
})

it('goes into a table that no spreadsheet takes for formulas', () => {
  const reviews = [review('C', { verdict: 'redraw', drawing: 'cc', note: '=HYPERLINK("x")\nand "more"' })]
  const csv = sheetCsv(sheetData(given({ reviews })))
  const lines = csv.split('\r\n')
  expect(lines[0]).toBe(
    '\ufeff"number","letter","matter","word","finding","note","measured","expected","from","to"',
  )
  expect(lines[1]).toContain('"1","A","width","","A is 50 units too wide.","","500","450","440","460"')
  expect(lines[2]).toContain('"\'=HYPERLINK(""x"")\nand ""more"""')
})

it('goes into JSON that says what it is', () => {
  const json = JSON.parse(sheetJson(sheetData(given())))
  expect(json).toMatchObject({
    format: 'counterpoise-sheet',
    version: 1,
    letters: { A: 'open', E: 'missing' },
  })
  expect(json.entries[0]).toMatchObject({ number: 1, letter: 'A', finding: { value: 500 } })
})
