/** How far a font has come: letters planned, drawn, settled, and findings open. */

import { usualAllowance } from '../findings'
import type { FindingReport } from '../generated/FindingReport'
import type { ReviewRecord } from './schema'

/** What of a reading the count needs. */
export interface Read {
  /** Each drawn letter with a digest of its outline. */
  readonly letters: Readonly<Record<string, string>>
  readonly findings: readonly FindingReport[]
}

export interface Tally {
  readonly planned: number
  /** Of those planned. */
  readonly drawn: number
  /** Of those drawn. */
  readonly settled: number
  /** Findings at the usual strictness that nobody has answered. */
  readonly open: number
}

/** How a letter stands, once all that was said of it is weighed. */
export type Standing = 'missing' | 'settled' | 'open' | 'redraw' | 'again'

/**
 * A word is about a drawing. Of a letter that has been drawn anew since, a word
 * about a finding has lapsed: the finding is gone or stands anew; a letter that
 * was to be redrawn, or looked at again, is now one to look at; and that it was
 * settled says nothing about the new drawing.
 */
export function inForce(review: ReviewRecord, read: Read): ReviewRecord['verdict'] {
  const { verdict, letter, cause, drawing } = review
  if (verdict === null || verdict === 'meant') return verdict
  const same = drawing === '' || read.letters[letter] === drawing
  if (same) return verdict
  if (cause !== null || verdict === 'settled') return null
  return 'again'
}

/** The findings that are open: rare enough, not meant so, not answered as settled. */
export function openFindings(
  read: Read,
  reviews: readonly ReviewRecord[],
  allowance = usualAllowance,
): FindingReport[] {
  const words = new Map(reviews.map((one) => [`${one.letter} ${one.cause ?? ''}`, inForce(one, read)]))
  const answered = (word: ReviewRecord['verdict'] | undefined) => word === 'meant' || word === 'settled'
  return read.findings.filter(
    ({ letter, cause, byChance }) =>
      byChance <= allowance &&
      !answered(words.get(`${letter} ${cause}`)) &&
      // What is settled or meant of the letter as a whole is so of each of its findings.
      !answered(words.get(`${letter} `)),
  )
}

/** How each planned letter stands. */
export function standings(
  planned: string,
  read: Read,
  reviews: readonly ReviewRecord[],
): Map<string, Standing> {
  const open = new Set(openFindings(read, reviews).map((one) => one.letter))
  const all = new Map<string, Standing>()
  for (const letter of new Set(planned)) {
    if (read.letters[letter] === undefined) all.set(letter, 'missing')
    else all.set(letter, open.has(letter) ? 'open' : 'settled')
  }
  for (const review of reviews) {
    const at = all.get(review.letter)
    if (at === undefined || at === 'missing') continue
    const word = inForce(review, read)
    if (word === 'redraw') all.set(review.letter, 'redraw')
    else if (word === 'again' && at !== 'redraw') all.set(review.letter, 'again')
  }
  return all
}

export function tally(planned: string, read: Read, reviews: readonly ReviewRecord[]): Tally {
  const all = [...standings(planned, read, reviews).values()]
  const settled = all.filter((one) => one === 'settled').length
  const missing = all.filter((one) => one === 'missing').length
  return {
    planned: all.length,
    drawn: all.length - missing,
    settled,
    open: openFindings(read, reviews).length,
  }
}

/** A short digest of an outline: the 32-bit hash of Fowler, Noll and Vo, variant 1a (RFC 9923). */
export function digest(path: string): string {
  let hash = 0x811c9dc5
  for (let at = 0; at < path.length; at += 1) {
    hash = Math.imul(hash ^ path.charCodeAt(at), 0x01000193)
  }
  return (hash >>> 0).toString(16).padStart(8, '0')
}
