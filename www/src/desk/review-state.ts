/** What of the desk the page around the stage shows. */

import type { FindingReport } from '../generated/FindingReport'
import type { Fated } from './fate'
import type { FontRecord, ReviewRecord, RevisionRecord, Verdict } from './schema'

export interface ReviewState {
  /** Whether words are kept: not known yet, written as they are said, or lost with the page. */
  readonly kept: 'opening' | 'kept' | 'unkept'
  /** How often another tab has written. */
  readonly elsewhere: number
  /** Words that are on their way to the disk. */
  readonly writing: number
  /** Why the last word could not be kept. */
  readonly failed: string | null
  /** Under which words about the open file are kept; empty before it has been read. */
  readonly font: string
  /** The open file's own fingerprint. */
  readonly fingerprint: string
  /** The font on the shelf that the open file belongs to. */
  readonly shelved: FontRecord | null
  /** Which of its revisions the open file is, from 1; 0 if it is on no shelf. */
  readonly number: number
  readonly revision: RevisionRecord | null
  /** Fingerprint of the revision before, if its file was kept. */
  readonly earlier: string | null
  /** A font on the shelf whose next revision the open file may be. */
  readonly offer: FontRecord | null
  readonly reviews: readonly ReviewRecord[]
  /** Planned letters that are drawn, each with its outline's digest. */
  readonly letters: Readonly<Record<string, string>>
  /** What became of the findings of the revision before; null if there is none. */
  readonly fates: readonly Fated[] | null
  /** On a finding, whether the word is about it or about its letter. */
  readonly about: 'finding' | 'letter'
  /** What Take back would take back, and Give again give. */
  readonly back: string | null
  readonly again: string | null
  /** What was done last, for the live region. */
  readonly said: string
  /** What lies over the sheet. */
  readonly room: 'shelf' | 'handback' | 'redraw' | 'lessons' | 'browse' | null
}

/** What there is to say of a file before the desk has looked it up. */
export const nothingSaid = {
  font: '',
  fingerprint: '',
  shelved: null,
  number: 0,
  revision: null,
  earlier: null,
  offer: null,
  reviews: [],
  letters: {},
  fates: null,
  back: null,
  again: null,
  said: '',
} as const satisfies Partial<ReviewState>

export const initialReview: ReviewState = {
  ...nothingSaid,
  kept: 'opening',
  elsewhere: 0,
  writing: 0,
  failed: null,
  about: 'finding',
  room: null,
}

/** What a word is about. */
export interface Subject {
  readonly letter: string
  readonly cause: FindingReport['cause'] | null
}

export const reviewOf = (
  reviews: readonly ReviewRecord[],
  { letter, cause }: Subject,
): ReviewRecord | undefined => reviews.find((one) => one.letter === letter && one.cause === cause)

/**
 * The word on a subject as it is drawn now. Said of an earlier drawing it is a
 * word no more, save that what stands out on purpose does so in every drawing.
 */
export function wordOn(
  { reviews, letters }: Pick<ReviewState, 'reviews' | 'letters'>,
  on: Subject,
): Verdict | null {
  const review = reviewOf(reviews, on)
  if (!review) return null
  const { verdict, drawing } = review
  const same = drawing === '' || (letters[on.letter] ?? '') === drawing
  return same || verdict === 'meant' ? verdict : null
}
