import { expect, it } from 'vitest'
import { kernsOf } from './kerns'

/** Glyph, character, advance, right, up of each. */
const line = (...glyphs: [glyph: number, advance: number, right?: number][]): number[] =>
  glyphs.flatMap(([glyph, advance, right = 0], at) => [glyph, at, advance, right, 0])

it('tells what kerning adds between neighbours', () => {
  const plain = line([1, 600], [2, 500], [3, 400])
  expect(kernsOf(line([1, 540], [2, 500], [3, 400]), plain)).toEqual([[1, 2, -60]])
  // Some fonts move the second letter in place of narrowing the first.
  expect(kernsOf(line([1, 600], [2, 480, -20], [3, 400]), plain)).toEqual([[1, 2, -20]])
  expect(kernsOf(plain, plain)).toEqual([])
})

it('says nothing where other glyphs were put in', () => {
  const plain = line([1, 600], [2, 500], [3, 400])
  expect(kernsOf(line([9, 540], [2, 490], [3, 400]), plain)).toEqual([[2, 3, -10]])
  expect(kernsOf(line([9, 540], [3, 400]), plain)).toEqual([])
})

it('tells each pair once', () => {
  const kerned = line([1, 590], [1, 590], [1, 600])
  expect(kernsOf(kerned, line([1, 600], [1, 600], [1, 600]))).toEqual([[1, 1, -10]])
})
