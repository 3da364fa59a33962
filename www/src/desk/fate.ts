/** What became of a revision's findings in the next one. */

import type { FindingFate } from '../generated/FindingFate'
import type { FindingReport } from '../generated/FindingReport'

export const fateName: Record<FindingFate, string> = {
  settled: 'Settled',
  better: 'Better',
  same: 'As before',
  worse: 'Worse',
  new: 'New',
}

export interface Fated {
  readonly fate: FindingFate
  readonly letter: string
  readonly cause: FindingReport['cause']
  /** As it was; absent of a new one. */
  readonly before?: FindingReport
  /** As it is; absent where nothing like it is found. */
  readonly after?: FindingReport
}

/**
 * `before` holds what was told to the artist; of `after` all is needed, also what
 * is too faint to be told at `told` false alarms. The rule is the library's.
 */
export async function fatesOf(
  before: readonly FindingReport[],
  after: readonly FindingReport[],
  told: number,
): Promise<Fated[]> {
  const { fates } = await import('../redraw/module')
  return (await fates(before, after, told)).flatMap(({ fate, old, new: now }): Fated[] => {
    const known = now ?? old
    if (!known) return []
    const { letter, cause } = old ?? known
    return [{ fate, letter, cause, ...(old ? { before: old } : {}), ...(now ? { after: now } : {}) }]
  })
}
