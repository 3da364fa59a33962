/**
 * When a font will be whole, from its own history.
 *
 * The model, in a sentence: letters settled grow along a straight line in time,
 * whose slope is the median of the slopes between every two revisions (Theil and
 * Sen), and which passes through the latest one; the spread is Sen's interval of
 * that slope at four fifths, from the ranks of the slopes (Sen, Journal of the
 * American Statistical Association 63, 1968).
 *
 * Its limits: it knows of no holidays, no second artist, and not that the last
 * letters may be the hardest; revisions build on each other, so that the spread
 * is rather too narrow. Of one revision it tells nothing; of two, a date without
 * a spread.
 */

import type { FontRecord, RevisionRecord } from './schema'
import { DAY } from './words'

/** Letters settled at a time, milliseconds. */
export interface Point {
  readonly at: number
  readonly settled: number
}

export type Forecast =
  | { readonly kind: 'whole' }
  /** No revision, or one: a first guess by the trade's rule of thumb. */
  | { readonly kind: 'guess'; readonly from: number; readonly to: number }
  /** The history does not lead to a whole font. */
  | { readonly kind: 'standing' }
  | {
      readonly kind: 'date'
      readonly at: number
      readonly pace: number
      /** Earliest and latest; null of two revisions, `to` null where the spread has no end. */
      readonly spread: { readonly from: number; readonly to: number | null } | null
    }

/**
 * Days that a font takes from its beginning: one to two months for an average
 * face, six months to some years for a richly ornamented one. Common practice,
 * no source; of "some years", three are taken.
 */
export const RULE_OF_THUMB: Record<FontRecord['kind'], readonly [number, number]> = {
  plain: [30, 61],
  ornamented: [183, 1096],
}

/** The normal deviate that leaves a tenth on either side. */
const FOUR_FIFTHS = 1.2816

/** A date further off than this is told as none: no history bears it out. */
const MOST_DAYS = 3653

/** The points of a history: one a day, the day's last. */
export function history(revisions: readonly RevisionRecord[]): Point[] {
  const sorted = revisions.toSorted((a, b) => a.received.localeCompare(b.received))
  const days = new Map<string, Point>()
  for (const { received, settled } of sorted) {
    days.set(received.slice(0, 10), { at: Date.parse(received), settled })
  }
  return [...days.values()]
}

export function forecast(
  font: Pick<FontRecord, 'kind' | 'begun'>,
  planned: number,
  points: readonly Point[],
): Forecast {
  const last = points.at(-1)
  if (last && planned > 0 && last.settled >= planned) return { kind: 'whole' }
  if (!last || points.length < 2) {
    const begun = Date.parse(font.begun)
    const [least, most] = RULE_OF_THUMB[font.kind]
    return { kind: 'guess', from: begun + least * DAY, to: begun + most * DAY }
  }
  const paces = slopes(points)
  const pace = quantile(paces, 0.5)
  const left = planned - last.settled
  const reach = (speed: number): number =>
    speed > 0 ? last.at + (left / speed) * DAY : Number.POSITIVE_INFINITY
  const end = last.at + MOST_DAYS * DAY
  if (!(reach(pace) <= end)) return { kind: 'standing' }
  if (points.length < 3) return { kind: 'date', at: reach(pace), pace, spread: null }
  const [slow, fast] = interval(paces, points.length)
  const latest = reach(slow)
  return {
    kind: 'date',
    at: reach(pace),
    pace,
    spread: { from: reach(fast), to: latest <= end ? latest : null },
  }
}

/** Letters a day between every two points, from the slowest. */
function slopes(points: readonly Point[]): number[] {
  const found: number[] = []
  for (const [at, one] of points.entries()) {
    for (const other of points.slice(at + 1)) {
      const days = (other.at - one.at) / DAY
      if (days > 0) found.push((other.settled - one.settled) / days)
    }
  }
  return found.sort((a, b) => a - b)
}

/** Sen's interval of a slope: as many ranks to either side of the middle as Kendall's statistic wavers. */
function interval(sorted: readonly number[], points: number): [slow: number, fast: number] {
  const ranks = FOUR_FIFTHS * Math.sqrt((points * (points - 1) * (2 * points + 5)) / 18)
  const last = sorted.length - 1
  const low = Math.max(0, Math.floor((sorted.length - ranks) / 2) - 1)
  const high = Math.min(last, Math.ceil((sorted.length + ranks) / 2))
  return [sorted[low] ?? Number.NaN, sorted[high] ?? Number.NaN]
}

function quantile(sorted: readonly number[], share: number): number {
  const place = share * (sorted.length - 1)
  const [low, high] = [sorted[Math.floor(place)] ?? Number.NaN, sorted[Math.ceil(place)] ?? Number.NaN]
  return low === high ? low : low + (place - Math.floor(place)) * (high - low)
}
