/** An unusual file as the page holds it: what it is, and which cut of it stands on the stage. */

import type { AxisReport } from '../generated/AxisReport'
import type { FaceReport } from '../generated/FaceReport'
import type { FileReport } from '../generated/FileReport'

export interface Parcel {
  readonly file: FileReport
  /** Which face is open, from 0. */
  readonly face: number
  readonly report: FaceReport
  /** A value for each axis; empty for a face that does not vary. */
  readonly position: readonly number[]
  /** Positions that a step back leads to, the nearest last. */
  readonly before: readonly (readonly number[])[]
  /** What is wrong with its variations, if they could not be worked out. */
  readonly trouble: string | null
}

/** What there is to choose of a file, or to tell of it: axes of a face, else faces; null of a plain font. */
export function choiceOf({ file, position, trouble }: Parcel): 'axes' | 'faces' | null {
  if (position.length > 0) return 'axes'
  return file.faces.length > 1 || trouble !== null ? 'faces' : null
}

export const asDrawn = (report: FaceReport): number[] => report.axes.map((axis) => axis.default)

export const samePosition = (one: readonly number[], other: readonly number[]): boolean =>
  one.length === other.length && one.every((value, index) => value === other[index])

/** As finely as an axis is worth moving: whole units of a weight, hundredths of a switch. */
export function stepOf({ min, max }: Pick<AxisReport, 'min' | 'max'>): number {
  const range = max - min
  return range >= 100 ? 1 : range >= 10 ? 0.1 : 0.01
}

/** A value as it is written beside its slider. */
export const valueWords = (value: number): string => String(Number(value.toFixed(2))).replace('-', '−')

/** A number as someone types it; null if it is none. */
export function typedValue(text: string): number | null {
  const plain = text.trim().replace('−', '-').replace(',', '.')
  const value = Number(plain)
  return plain === '' || !Number.isFinite(value) ? null : value
}

/** The named position that stands here, if one does. */
export const instanceAt = (report: FaceReport, position: readonly number[]) =>
  report.instances.find((one) => samePosition(one.position, position))

/** The style that a position is given; null where it is the one that the file names itself. */
export function styleOf(report: FaceReport, position: readonly number[]): string | null {
  const named = instanceAt(report, position)
  if (named) return named.name
  const moved = report.axes.flatMap((axis, index) => {
    const value = position[index] ?? axis.default
    return value === axis.default ? [] : [`${axis.name} ${valueWords(value)}`]
  })
  return moved.length === 0 ? null : moved.join(', ')
}
