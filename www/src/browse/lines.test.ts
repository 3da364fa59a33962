import { expect, test } from 'vitest'
import { type Cell, type Copy, cells, lineBeside, type Measure, nearest, rowOf, set } from './lines'

const copy: Copy = {
  advances: [0.5, 0.5, 1, 0, 3, 0.5],
  sections: [
    { name: 'Basic Latin', block: [0, 127], start: 0 },
    { name: 'Latin-1 Supplement', block: [128, 255], start: 2 },
    { name: 'Without a code point', block: null, start: 5 },
  ],
  shown: null,
}
const measure: Measure = { width: 200, size: 100, gap: 10, least: 24 }

const told = (rows: ReturnType<typeof set>) =>
  rows.map(({ kind, section, start, end }) => `${kind} ${section} ${start}-${end}`)

test('lines hold what their width takes, under headings', () => {
  expect(told(set(copy, measure))).toEqual([
    'heading 0 0-2',
    'line 0 0-2',
    'heading 1 2-5',
    // 110 and 34 of 200; the wide one has a line of its own.
    'line 1 2-4',
    'line 1 4-5',
    'heading 2 5-6',
    'line 2 5-6',
  ])
})

test('of some letters only their headings stand', () => {
  const some = { ...copy, shown: [1, 5] }
  expect(told(set(some, measure))).toEqual(['heading 0 0-1', 'line 0 0-1', 'heading 2 1-2', 'line 2 1-2'])
  expect(set({ ...copy, shown: [] }, measure)).toEqual([])
})

test('every letter has its place in one line, however narrow', () => {
  for (const width of [1, 30, 120, 333, 5000]) {
    const rows = set(copy, { ...measure, width })
    const lines = rows.filter((row) => row.kind === 'line')
    const places = lines.flatMap((row) => cells(copy, row, { ...measure, width }).map((cell) => cell.at))
    expect(places).toEqual([0, 1, 2, 3, 4, 5])
    for (const at of places) {
      const row = rows[rowOf(rows, at)]
      expect(row?.kind).toBe('line')
      expect(at >= (row?.start ?? 9) && at < (row?.end ?? 0)).toBe(true)
    }
  }
})

test('cells stand one behind another, and no letter is too small to press', () => {
  const rows = set(copy, measure)
  const line = rows[3]
  if (!line) throw new Error('no line')
  expect(cells(copy, line, measure)).toEqual([
    { at: 2, x: 0, width: 110 },
    { at: 3, x: 110, width: 34 },
  ])
})

test('what is nowhere is on no line', () => {
  const rows = set(copy, measure)
  expect(rowOf(rows, -1)).toBe(-1)
  expect(rowOf(rows, 6)).toBe(-1)
  expect(rowOf([], 0)).toBe(-1)
})

test('up and down pass over headings and end at the ends', () => {
  const rows = set(copy, measure)
  expect(lineBeside(rows, 1, 1)).toBe(3)
  expect(lineBeside(rows, 3, -1)).toBe(1)
  expect(lineBeside(rows, 1, -1)).toBe(1)
  expect(lineBeside(rows, 6, 1)).toBe(6)
})

test('the nearest letter above or below is the one whose middle is', () => {
  const line: Cell[] = [
    { at: 7, x: 0, width: 100 },
    { at: 8, x: 100, width: 20 },
  ]
  expect(nearest(line, 60)).toBe(7)
  expect(nearest(line, 90)).toBe(8)
  expect(nearest(line, 900)).toBe(8)
})

test('the list of the largest font is set in a moment', () => {
  const advances = new Float32Array(65_535).fill(1)
  const sections = [{ name: 'CJK', block: null, start: 0 }]
  const start = performance.now()
  const rows = set({ advances, sections, shown: null }, { ...measure, width: 1000 })
  // An order of magnitude above what it takes, so that no busy machine fails it.
  expect(performance.now() - start).toBeLessThan(500)
  expect(rows.length).toBe(1 + Math.ceil(65_535 / 9))
})
