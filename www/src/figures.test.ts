import { expect, it } from 'vitest'
import { figure, many, percent, signed } from './figures'

it('writes one decimal at most, and a real minus sign', () => {
  expect([12, 12.04, 12.06, -12.06, -0.01, 0].map((value) => figure(value))).toEqual([
    '12',
    '12',
    '12.1',
    '−12.1',
    '0',
    '0',
  ])
})

it('says so where there is no figure', () => {
  expect([null, undefined, Number.NaN, Number.POSITIVE_INFINITY].map((value) => figure(value))).toEqual([
    '–',
    '–',
    '–',
    '–',
  ])
  expect(signed(null)).toBe('–')
})

it('signs differences', () => {
  expect([8, -8, 0].map((value) => signed(value))).toEqual(['+8', '−8', '0'])
})

it('counts', () => {
  expect(many(1, 'glyph')).toBe('1 glyph')
  expect(many(65535, 'glyph')).toBe('65,535 glyphs')
})

it('keeps a decimal where a whole per cent would be coarse', () => {
  expect([0.123, 0.0234, -0.0234].map(percent)).toEqual(['12%', '2.3%', '−2.3%'])
})
