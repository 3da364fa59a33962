import { expect, it } from 'vitest'
import { font, revision } from './testing'
import { arrange, shelve } from './urgency'

const today = '2026-05-20'
const board = (...given: Parameters<typeof shelve>) => {
  const { board: of, reason } = shelve(...given)
  return `${of}: ${reason}`
}
const planned = { planned: [...Array(60).keys()].map((at) => String.fromCodePoint(0x4e00 + at)).join('') }

it('says who needs a word, and why', () => {
  const a = font('a', planned)
  expect(board(a, [revision('a', '2026-05-17', { answered: null })], today)).toBe(
    'answer: It came in 3 days ago and has no answer yet.',
  )
  expect(board({ ...a, due: '2026-05-13' }, [revision('a', '2026-05-10')], today)).toBe(
    'late: It was due 7 days ago.',
  )
  const two = [revision('a', '2026-05-01', { settled: 10 }), revision('a', '2026-05-11', { settled: 20 })]
  expect(board({ ...a, due: '2026-05-31' }, two, today)).toMatch(
    /^late: At its pace it will be whole 3 weeks after/,
  )
  expect(board(a, two, today)).toBe('underway: 40 letters from whole; the artist has your word.')
  expect(board(a, two, '2026-06-20')).toMatch(/^silent: Nothing has come for 6 weeks/)
  expect(board(a, [revision('a', '2026-05-10', { drawn: 60, settled: 60, open: 0 })], today)).toBe(
    'whole: Every letter that is planned is drawn and settled.',
  )
  expect(board({ ...a, begun: '2026-05-18' }, [], today)).toBe(
    'underway: Begun 2 days ago; nothing has come in yet.',
  )
})

it('puts whoever needs a word on top, the longest waiting first, and leaves out what is off the shelf', () => {
  const fonts = ['a', 'b', 'c', 'd'].map((id) => font(id, { ...planned, title: id }))
  fonts[3] = font('d', { removed: '2026-05-01T00:00:00.000Z' })
  const all = [
    revision('a', '2026-05-10'),
    revision('b', '2026-05-19', { answered: null }),
    revision('c', '2026-05-12', { answered: null }),
  ]
  expect(arrange(fonts, all, today).map(({ font: { id } }) => id)).toEqual(['c', 'b', 'a'])
})
