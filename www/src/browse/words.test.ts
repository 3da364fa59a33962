import { expect, test } from 'vitest'
import { type List, UNCODED } from './protocol'
import { blockRange, choices, codeName, foundWords, letterName, sectionOf } from './words'

const list: List = {
  codes: Uint32Array.of(0x41, 0x300, 0x200d, 0x5b57, UNCODED),
  glyphs: Uint16Array.of(4, 5, 6, 7, 1234),
  advances: Float32Array.of(0.7, 0, 0, 1, 0.5),
  sections: [
    { name: 'Basic Latin', block: [0, 0x7f], start: 0 },
    { name: 'Combining Diacritical Marks', block: [0x300, 0x36f], start: 1 },
    { name: 'Without a code point', block: null, start: 4 },
  ],
  leftOut: 0,
  unitsPerEm: 1000,
  above: 0.8,
  below: 0.2,
}

test('a letter is called by its character, its code point, its name or its number', () => {
  expect(codeName(0x1f600)).toBe('U+1F600')
  expect(letterName(list, 0, 'A')).toBe('A U+0041')
  expect(letterName(list, 1, 'gravecomb')).toBe('U+0300')
  expect(letterName(list, 3, null)).toBe('字 U+5B57')
  expect(letterName(list, 4, 'a.alt')).toBe('a.alt')
  expect(letterName(list, 4, null)).toBe('glyph 1,234')
})

test('a letter stands under the last heading before it', () => {
  expect([0, 1, 2, 3, 4].map((letter) => sectionOf(list.sections, letter))).toEqual([0, 1, 1, 1, 2])
  expect(list.sections.map(blockRange)).toEqual(['U+0000–007F', 'U+0300–036F', ''])
})

test('how many are found is told, and that nothing is', () => {
  expect(foundWords(list, null, '')).toBe('5 letters.')
  expect(foundWords(list, [1, 2], 'x')).toBe('2 of 5 letters.')
  expect(foundWords(list, [], 'x')).toBe('Nothing found for “x”.')
  expect(foundWords({ ...list, leftOut: 2 }, null, '')).toMatch(/^5 letters\. 2 more are left out/)
})

test('what has no place in a text stands by its glyph', () => {
  expect(choices(list, [0, 2, 4, 1])).toEqual([
    { text: 'A' },
    { glyph: 6 },
    { glyph: 1234 },
    { text: '\u0300' },
  ])
})
