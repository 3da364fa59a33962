import { expect, test } from 'vitest'
import { drawingKind, isSvgText } from './kinds'

test('drawings are known by their names, fonts are none', () => {
  expect(drawingKind('R.SVG')).toBe('drawing')
  expect(drawingKind('R_.glif')).toBe('glyph')
  expect(drawingKind('Brigaroe.ufo.zip')).toBe('folder')
  expect(drawingKind('sketch.jpeg')).toBe('scan')
  for (const name of ['Brigaroe.otf', 'svg', 'notes.txt', 'a.svg.ttf']) expect(drawingKind(name)).toBeNull()
})

test('pasted SVG is told from other text', () => {
  expect(isSvgText('<svg xmlns="http://www.w3.org/2000/svg"></svg>')).toBe(true)
  expect(isSvgText('\n<?xml version="1.0"?>\n<!-- by hand -->\n<svg>')).toBe(true)
  expect(isSvgText('<svgs>')).toBe(false)
  expect(isSvgText('Hamburg <svg')).toBe(false)
})
