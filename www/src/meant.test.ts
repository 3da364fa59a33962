import { expect, it } from 'vitest'
import { keepMeant, MOST_FONTS, readMeant } from './meant'

function shelf(text: string | null = null) {
  return {
    text,
    getItem() {
      return this.text
    },
    setItem(_: string, value: string) {
      this.text = value
    },
  }
}

it('keeps each font’s own, and drops a font of which nothing is meant any more', () => {
  const it_ = shelf()
  keepMeant(it_, 'one', ['R width'])
  keepMeant(it_, 'two', ['m strokes', 'd raised'])
  expect(readMeant(it_, 'one')).toEqual(['R width'])
  expect(readMeant(it_, 'two')).toEqual(['m strokes', 'd raised'])
  expect(readMeant(it_, 'three')).toEqual([])
  keepMeant(it_, 'one', [])
  expect(readMeant(it_, 'one')).toEqual([])
  expect(it_.text).not.toContain('one')
})

it('forgets the fonts that were not seen for the longest', () => {
  const it_ = shelf()
  for (let at = 0; at <= MOST_FONTS; at += 1) keepMeant(it_, `font ${at}`, ['R width'])
  expect(readMeant(it_, 'font 0')).toEqual([])
  expect(readMeant(it_, 'font 1')).toEqual(['R width'])
})

it('reads nothing from nonsense and foreign values', () => {
  for (const text of ['', 'nonsense', '3', 'null', '{}', '[3,null,{"font":1},{"font":"one","meant":"R"}]']) {
    expect(readMeant(shelf(text), 'one')).toEqual([])
  }
  expect(readMeant(undefined, 'one')).toEqual([])
})

it('bears a browser that keeps nothing', () => {
  const full = {
    getItem: () => {
      throw new Error('forbidden')
    },
    setItem: () => {
      throw new Error('full')
    },
  }
  expect(() => keepMeant(full, 'one', ['R width'])).not.toThrow()
  expect(readMeant(full, 'one')).toEqual([])
})
