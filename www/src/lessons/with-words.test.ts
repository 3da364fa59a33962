import { expect, it } from 'vitest'
import { pieces, wordsIn } from './with-words'

const words = [
  { id: 'side-bearing', term: 'side bearing', also: ['left side bearing', 'bearings'] },
  { id: 'bar', term: 'bar', also: ['bars'] },
  { id: 'x-height', term: 'x-height', also: [] },
  { id: 'units-per-em', term: 'units per em', also: ['em'] },
]

it('finds words as the page has them, the longest first', () => {
  expect(wordsIn('Left side bearing of the Bars', words)).toEqual(['side-bearing', 'bar'])
  expect(pieces('a bar', words)).toEqual([
    { text: 'a ', id: null },
    { text: 'bar', id: 'bar' },
  ])
})

it('takes no part of a word for a word', () => {
  expect(wordsIn('bare barn them remember x-heights', words)).toEqual([])
  expect(wordsIn('x-height, 1000 units per em.', words)).toEqual(['x-height', 'units-per-em'])
})
