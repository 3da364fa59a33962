/** Where in the room of the lessons one is: kept while the page lives, and led to by links. */

import type { ReviewState } from '../desk/review-state'
import { fromLink, type Lesson, Refused, usual } from './plan'

type Room = ReviewState['room']

export interface Place {
  readonly page: 'lesson' | 'eye' | 'words'
  readonly lesson: Lesson
  /** Words that were asked about: texts of the page, the nearest to what was pointed at first. */
  readonly asked: readonly string[]
  /** The room that a word was asked about in, to lead back there. */
  readonly from: Room
  /** Why a link or a file was not followed. */
  readonly trouble: string
}

let place: Place = { page: 'lesson', lesson: usual('overshoot'), asked: [], from: null, trouble: '' }
const listeners = new Set<() => void>()

export const current = (): Place => place

export function go(change: Partial<Place>): void {
  place = { ...place, trouble: '', ...change }
  for (const listener of [...listeners]) listener()
}

export function follow(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}

/** Follows the page's own address, where it names a lesson; it then names it no longer. */
export function followAddress(): void {
  const { hash, pathname, search } = location
  if (!hash.startsWith('#lesson')) return
  history.replaceState(null, '', pathname + search)
  try {
    go({ page: 'lesson', lesson: fromLink(hash) })
  } catch (error) {
    if (!(error instanceof Refused)) throw error
    go({ page: 'lesson', trouble: error.message })
  }
}
