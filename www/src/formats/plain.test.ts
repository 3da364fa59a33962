import { expect, test } from 'vitest'
import type { AxisReport } from '../generated/AxisReport'
import type { FaceReport } from '../generated/FaceReport'
import type { Parcel } from './parcel'
import { beside } from './plain'

const face = (...axes: [tag: string, min: number, drawn: number, max: number][]) =>
  ({
    axes: axes.map(([tag, min, drawn, max]) => ({ tag, min, default: drawn, max }) as AxisReport),
  }) as FaceReport
const open = (report: FaceReport, ...position: number[]) => ({ report, position }) as unknown as Parcel

test('a font that does not vary has no position', () => {
  expect(beside(face(), open(face(['wght', 100, 400, 900]), 700))).toBeNull()
})

test('one with the open font’s axes stands where that does, as far as it goes', () => {
  const later = face(['wght', 200, 400, 800], ['wdth', 75, 100, 100])
  const before = face(['wght', 100, 400, 900], ['wdth', 50, 100, 150])
  expect(beside(later, open(before, 700, 90))).toEqual([700, 90])
  expect(beside(later, open(before, 900, 60))).toEqual([800, 75])
})

test('one with other axes stands as it was drawn', () => {
  const later = face(['wght', 200, 400, 800])
  expect(beside(later, open(face(['opsz', 8, 14, 72]), 20))).toEqual([400])
  expect(beside(later, open(face()))).toEqual([400])
  expect(beside(later, null)).toEqual([400])
})
