import { describe, expect, it } from 'vitest'
import { changedOnly, mergeFonts, mergeNotes, mergeReviews } from './merge'
import { font, review } from './testing'

const early = '2026-05-01T10:00:00.000Z'
const late = '2026-05-02T10:00:00.000Z'

describe('a step taken beside another tab', () => {
  const circle = { kind: 'circle', from: [1, 2], to: [3, 4] } as const
  const line = { kind: 'line', from: [5, 6], to: [7, 8] } as const
  const marks = (...all: (typeof circle | typeof line)[]) => all as never
  const { verdict, note, drawing } = review('R')
  const nothing = { verdict, note, drawing, marks: [] }

  it('leaves the verdict that was given there', () => {
    const said = changedOnly({ ...nothing, verdict: 'redraw', note: 'There.' }, nothing, {
      ...nothing,
      note: 'Here.',
      drawing: 'd',
    })
    expect(said).toEqual({ verdict: 'redraw', note: 'Here.\n\nThere.', marks: [], drawing: 'd' })
  })

  it('gives its own verdict, and leaves the note and the marks', () => {
    const there = { ...nothing, verdict: 'settled' as const, note: 'There.', marks: marks(circle) }
    expect(changedOnly(there, nothing, { ...nothing, verdict: 'redraw' })).toEqual({
      ...there,
      verdict: 'redraw',
    })
  })

  it('brings its mark to theirs, and takes only its own away', () => {
    const here = { ...nothing, marks: marks(line) }
    const there = { ...nothing, marks: marks(circle) }
    expect(changedOnly(there, nothing, here).marks).toEqual([circle, line])
    expect(changedOnly({ ...nothing, marks: marks(circle, line) }, here, nothing).marks).toEqual([circle])
    // Alone, a step leads exactly where it led, an equal mark twice included.
    const twice = { ...nothing, marks: marks(line, line) }
    expect(changedOnly(here, here, twice).marks).toEqual([line, line])
  })
})

describe('two accounts made one', () => {
  it('keep both notes, and neither twice', () => {
    expect(mergeNotes('one', 'other')).toBe('one\n\nother')
    expect(mergeNotes('one and other', 'other')).toBe('one and other')
    expect(mergeNotes('', 'other')).toBe('other')
    expect(mergeNotes('same', 'same')).toBe('same')
  })

  it('keep the later verdict, tell the earlier one, and have all marks', () => {
    const circle = { kind: 'circle', from: [1, 2], to: [3, 4] } as const
    const line = { kind: 'line', from: [1, 2], to: [3, 4] } as const
    const mark = (kind: typeof circle | typeof line) =>
      [{ ...kind, from: [...kind.from], to: [...kind.to] }] as never
    const here = review('R', {
      verdict: 'redraw',
      note: 'Bowl.',
      marks: mark(circle),
      changed: early,
      rev: 4,
    })
    const there = review('R', { verdict: 'settled', note: 'Leg.', marks: mark(line), changed: late, rev: 2 })
    for (const merged of [mergeReviews(here, there), mergeReviews(there, here)]) {
      expect(merged.verdict).toBe('settled')
      for (const part of ['Bowl.', 'Leg.', 'redraw']) expect(merged.note).toContain(part)
      expect(merged.marks).toHaveLength(2)
      expect(merged.rev).toBe(4)
    }
  })

  it('are the same when merged once more', () => {
    const here = review('R', { verdict: 'redraw', note: 'Bowl.', changed: early })
    const there = review('R', { verdict: 'settled', note: 'Leg.', changed: late })
    const once = mergeReviews(here, there)
    expect(mergeReviews(once, there)).toEqual(once)
    expect(mergeReviews(once, once)).toEqual(once)
  })

  it('keep on the shelf what either still works on, and fill in what one left blank', () => {
    const here = font('f', { due: '2026-06-01', contributor: '', changed: late, removed: late })
    const there = font('f', { due: null, contributor: 'Ines', changed: early })
    const merged = mergeFonts(here, there)
    expect(merged.removed).toBeNull()
    expect([merged.due, merged.contributor]).toEqual(['2026-06-01', 'Ines'])
  })

  it('tell what was overruled', () => {
    const merged = mergeFonts(
      font('f', { due: '2026-06-01', changed: late }),
      font('f', { due: '2026-05-20', changed: early }),
    )
    expect(merged.due).toBe('2026-06-01')
    expect(merged.note).toContain('2026-05-20')
  })
})
