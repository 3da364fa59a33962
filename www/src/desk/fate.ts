/** What became of a revision's findings in the next one. */

import type { FindingReport } from '../generated/FindingReport'

export type Fate = 'settled' | 'better' | 'same' | 'worse' | 'new'

export const fateName: Record<Fate, string> = {
  settled: 'Settled',
  better: 'Better',
  same: 'As before',
  worse: 'Worse',
  new: 'New',
}

export interface Fated {
  readonly fate: Fate
  readonly letter: string
  readonly cause: FindingReport['cause']
  /** As it was; absent of a new one. */
  readonly before?: FindingReport
  /** As it is; absent of a settled one. */
  readonly after?: FindingReport
}

/**
 * A difference that changed by less is told as before. A quarter of itself:
 * common practice, no source; less is within what redrawing a neighbour does to
 * the expectation.
 */
const CHANGED = 0.25

/**
 * Findings are the same matter where letter and cause are. `before` holds those
 * that were told to the artist; of `after` all are needed, as one that has become
 * too faint to be told is better, not new and not gone, and is settled once it
 * is fainter than `told`, the number of false alarms that was allowed.
 */
export function fate(
  before: readonly FindingReport[],
  after: readonly FindingReport[],
  told: number,
): Fated[] {
  const key = (one: FindingReport) => `${one.letter} ${one.cause}`
  const now = new Map(after.map((one) => [key(one), one]))
  const known = new Set(before.map(key))
  const old = before.map((was): Fated => {
    const is = now.get(key(was))
    const base = { letter: was.letter, cause: was.cause, before: was }
    if (!is || is.byChance > told) return { ...base, fate: 'settled' }
    const [from, to] = [Math.abs(was.difference), Math.abs(is.difference)]
    const change = from === 0 ? 0 : (to - from) / from
    const became = change < -CHANGED ? 'better' : change > CHANGED ? 'worse' : 'same'
    return { ...base, fate: became, after: is }
  })
  const fresh = after
    .filter((one) => one.byChance <= told && !known.has(key(one)))
    .map((one): Fated => ({ fate: 'new', letter: one.letter, cause: one.cause, after: one }))
  return [...old, ...fresh]
}
