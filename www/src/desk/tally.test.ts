import { describe, expect, it } from 'vitest'
import { digest, inForce, openFindings, standings, tally } from './tally'
import { finding, review } from './testing'

const read = {
  letters: { A: 'aa', B: 'bb', C: 'cc' },
  findings: [finding('A'), finding('B', { byChance: 3 }), finding('C', { cause: 'raised' })],
}

describe('how far a font has come', () => {
  it('counts letters planned, drawn, settled, and findings at the usual strictness', () => {
    expect(tally('ABCD', read, [])).toEqual({ planned: 4, drawn: 3, settled: 1, open: 2 })
  })

  it('counts what is meant so, and what is settled, as settled', () => {
    const meant = review('A', { cause: 'width', verdict: 'meant' })
    const settled = review('C', { verdict: 'settled', drawing: 'cc' })
    expect(tally('ABCD', read, [meant, settled])).toEqual({ planned: 4, drawn: 3, settled: 3, open: 0 })
  })

  it('does not count what is to be redrawn, whatever was found', () => {
    const redraw = review('B', { verdict: 'redraw', drawing: 'bb' })
    expect(standings('ABCD', read, [redraw])).toEqual(
      new Map([
        ['A', 'open'],
        ['B', 'redraw'],
        ['C', 'open'],
        ['D', 'missing'],
      ]),
    )
  })

  it('counts a planned letter once', () => {
    expect(tally('AABBA', read, []).planned).toBe(2)
  })
})

describe('a word is about a drawing', () => {
  it('that was drawn anew: a redraw is one to look at, a finding’s word has lapsed', () => {
    expect(inForce(review('A', { verdict: 'redraw', drawing: 'old' }), read)).toBe('again')
    expect(inForce(review('A', { verdict: 'settled', drawing: 'old' }), read)).toBeNull()
    expect(inForce(review('A', { cause: 'width', verdict: 'redraw', drawing: 'old' }), read)).toBeNull()
    expect(inForce(review('A', { cause: 'width', verdict: 'meant', drawing: 'old' }), read)).toBe('meant')
  })

  it('so that a finding that was settled stands again when the new drawing shows it', () => {
    const settled = review('A', { cause: 'width', verdict: 'settled', drawing: 'aa' })
    expect(openFindings(read, [settled])).toHaveLength(1)
    expect(openFindings({ ...read, letters: { ...read.letters, A: 'new' } }, [settled])).toHaveLength(2)
  })
})

it('tells outlines apart by a short digest', () => {
  expect(digest('')).toBe('811c9dc5')
  expect(digest('a')).toBe('e40c292c')
  expect(digest('foobar')).toBe('bf9cf968')
})
