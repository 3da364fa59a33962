/**
 * All letters as a specimen sets them: lines of letters by their own advances,
 * under the headings of their blocks. Nothing is boxed; a line holds as many as
 * its width takes.
 */

import type { Section } from '../core/counterpoise_browse.js'

/** What lines are set of. */
export interface Copy {
  /** Advance widths as shares of the em, of all letters. */
  readonly advances: ArrayLike<number>
  readonly sections: readonly Section[]
  /** Which letters are shown, in order; all of them if null. */
  readonly shown: ArrayLike<number> | null
}

/** How they are set, CSS pixels. */
export interface Measure {
  readonly width: number
  /** The em. */
  readonly size: number
  /** White beside each letter, on both sides together. */
  readonly gap: number
  /** No letter has less room: it could not be pressed. */
  readonly least: number
}

export interface Row {
  readonly kind: 'heading' | 'line'
  readonly section: number
  /** Places among the letters that are shown: of the line, or of all under the heading. */
  readonly start: number
  readonly end: number
}

/** A letter's part of its line, CSS pixels. */
export interface Cell {
  /** Place among the letters that are shown. */
  readonly at: number
  readonly x: number
  readonly width: number
}

export const countOf = ({ advances, shown }: Copy): number => shown?.length ?? advances.length

/** Which of all letters stands at a place. */
export const letterAt = ({ shown }: Copy, at: number): number => shown?.[at] ?? (shown ? -1 : at)

/** The room that a letter takes in a line. */
function roomOf(copy: Copy, at: number, { width, size, gap, least }: Measure): number {
  const advance = copy.advances[letterAt(copy, at)] ?? 0
  return Math.min(width, Math.max(least, advance * size) + gap)
}

/** Sets every line. */
export function set(copy: Copy, measure: Measure): Row[] {
  const rows: Row[] = []
  const count = countOf(copy)
  let section = 0
  for (let start = 0; start < count; ) {
    const first = letterAt(copy, start)
    const begins = (at: number) => copy.sections[at]?.start ?? Number.POSITIVE_INFINITY
    while (begins(section + 1) <= first) section += 1
    const until = begins(section + 1)
    let end = start + 1
    while (end < count && letterAt(copy, end) < until) end += 1
    rows.push({ kind: 'heading', section, start, end })
    let x = 0
    let from = start
    for (let at = start; at < end; at += 1) {
      const room = roomOf(copy, at, measure)
      // A hundredth of a pixel is lost in adding up.
      if (at > from && x + room > measure.width + 0.01) {
        rows.push({ kind: 'line', section, start: from, end: at })
        from = at
        x = 0
      }
      x += room
    }
    rows.push({ kind: 'line', section, start: from, end })
    start = end
  }
  return rows
}

/** Where the letters of a line stand. */
export function cells(copy: Copy, row: Row, measure: Measure): Cell[] {
  let x = 0
  const line: Cell[] = []
  for (let at = row.start; at < row.end; at += 1) {
    const width = roomOf(copy, at, measure)
    line.push({ at, x, width })
    x += width
  }
  return line
}

/** The line on which a place is; -1 if there is none. */
export function rowOf(rows: readonly Row[], at: number): number {
  let [low, high] = [0, rows.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((rows[middle]?.start ?? 0) <= at) low = middle
    else high = middle - 1
  }
  const row = rows[low]
  if (!row || at < row.start || at >= row.end) return -1
  return row.kind === 'heading' ? low + 1 : low
}

/** The line after or before another, over the headings; the same where there is none. */
export function lineBeside(rows: readonly Row[], index: number, step: 1 | -1): number {
  let next = index + step
  while (rows[next]?.kind === 'heading') next += step
  return rows[next] ? next : index
}

/** The letter of a line whose middle is nearest to a place along it. */
export function nearest(line: readonly Cell[], x: number): number {
  let [best, far] = [line[0]?.at ?? 0, Number.POSITIVE_INFINITY]
  for (const cell of line) {
    const away = Math.abs(cell.x + cell.width / 2 - x)
    if (away < far) [best, far] = [cell.at, away]
  }
  return best
}
