/** Where along an axis letters fall out of balance: findings at some positions, letter by letter. */

import { causeName } from '../findings'
import type { AxisReport } from '../generated/AxisReport'
import type { Cause } from '../generated/Cause'
import type { FindingReport } from '../generated/FindingReport'
import { valueWords } from './parcel'

/** Positions that are judged, the ends among them: close enough to see where a letter turns. */
export const STEPS = 13

/** Letters that are shown, the worst first; more would be read by nobody. */
export const MOST_ROWS = 12

/** How a letter stands out at one position. */
export interface Spot {
  readonly value: number
  /** From 0, as faint as is ever listed, to 1. */
  readonly strength: number
  /** Measured less expected: above 0 there is more than the others suggest. */
  readonly difference: number
  /** Whether it is listed at the strictness that is set. */
  readonly listed: boolean
  readonly sentence: string
}

/** A letter with one cause, along the axis. */
export interface Row {
  readonly letter: string
  readonly cause: Cause
  /** One for each position that was judged; null where it does not stand out. */
  readonly spots: readonly (Spot | null)[]
}

/** Values from one end of an axis to the other; its default is one of them. */
export function valuesAlong({ min, max, default: drawn }: AxisReport): number[] {
  const values = Array.from({ length: STEPS }, (_, step) => min + (step / (STEPS - 1)) * (max - min))
  const nearest = values.reduce(
    (best, value, index) => (Math.abs(value - drawn) < Math.abs((values[best] ?? 0) - drawn) ? index : best),
    0,
  )
  // The ends stay ends.
  if (nearest > 0 && nearest < STEPS - 1) values[nearest] = drawn
  return values.map((value) => Number(value.toFixed(3)))
}

/** Chances from a finding that nobody would list to one in a thousand alphabets. */
const FAINT = 8
const DECADES = 4

export function rowsOf(
  values: readonly number[],
  found: readonly (readonly FindingReport[] | undefined)[],
  allowance: number,
): Row[] {
  const rows = new Map<string, { letter: string; cause: Cause; spots: (Spot | null)[]; least: number }>()
  for (const [index, findings] of found.entries()) {
    for (const { letter, cause, byChance, difference, sentence } of findings ?? []) {
      const key = `${letter} ${cause}`
      let row = rows.get(key)
      if (!row) {
        row = { letter, cause, spots: values.map(() => null), least: byChance }
        rows.set(key, row)
      }
      row.least = Math.min(row.least, byChance)
      const strength = Math.log10(FAINT / Math.max(byChance, 1e-9)) / DECADES
      row.spots[index] = {
        value: values[index] ?? 0,
        strength: Math.min(1, Math.max(0.08, strength)),
        difference,
        listed: byChance <= allowance,
        sentence,
      }
    }
  }
  return [...rows.values()]
    .filter(({ least }) => least <= allowance)
    .toSorted((a, b) => a.least - b.least)
    .slice(0, MOST_ROWS)
}

/** The position at which a letter stands out most. */
export const worst = ({ spots }: Row): Spot | null =>
  spots.reduce((best, spot) => (spot && spot.strength > (best?.strength ?? -1) ? spot : best), null)

/** A row in words: where the letter stands out, and where most. */
export function rowWords(row: Row): string {
  const ranges: string[] = []
  let from: Spot | null = null
  let to: Spot | null = null
  for (const spot of [...row.spots, null]) {
    if (spot?.listed) {
      from ??= spot
      to = spot
    } else if (from && to) {
      ranges.push(
        from === to
          ? `at ${valueWords(from.value)}`
          : `from ${valueWords(from.value)} to ${valueWords(to.value)}`,
      )
      from = null
    }
  }
  const most = worst(row)
  const at = most && ranges.length > 0 ? `, most at ${valueWords(most.value)}` : ''
  return `${row.letter}, ${causeName[row.cause]}: stands out ${ranges.join(' and ')}${at}`
}

/** How many letters are listed at each position. */
export const countsOf = (
  found: readonly (readonly FindingReport[] | undefined)[],
  allowance: number,
): (number | null)[] =>
  found.map((findings) => findings?.filter(({ byChance }) => byChance <= allowance).length ?? null)
