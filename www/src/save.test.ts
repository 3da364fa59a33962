import { expect, it } from 'vitest'
import { measuresName } from './save'

it('names the measures after the font’s file', () => {
  expect(measuresName('heros.otf')).toBe('heros-measures.json')
  expect(measuresName('My Font v1.2.ttf')).toBe('My Font v1.2-measures.json')
  expect(measuresName('plain')).toBe('plain-measures.json')
  expect(measuresName('.otf')).toBe('font-measures.json')
})
