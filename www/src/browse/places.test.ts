import { expect, test } from 'vitest'
import { Places } from './places'

test('what stays in view keeps its place, what comes takes one that was left', () => {
  const places = new Places()
  expect(places.seat([10, 11, 12])).toEqual([0, 1, 2])
  expect(places.seat([11, 12, 13])).toEqual([1, 2, 0])
  expect(places.free).toEqual([])
})

test('a jump to where nothing was in view before makes no place', () => {
  const places = new Places()
  places.seat([0, 1, 2, 3])
  for (const from of [900, 17, 30_001]) {
    expect([...places.seat([from, from + 1, from + 2, from + 3])].sort()).toEqual([0, 1, 2, 3])
  }
  expect(places.seat([5])).toEqual([0])
  expect(places.free).toEqual([1, 2, 3])
})

test('two never share a place', () => {
  const places = new Places()
  for (let from = 0; from < 500; from += 7) {
    const inView = Array.from({ length: 5 + (from % 11) }, (_, at) => from + at)
    const seated = places.seat(inView)
    expect(new Set(seated).size).toBe(inView.length)
    // As many as were ever in view at once.
    expect(Math.max(...seated)).toBeLessThan(15)
  }
})
