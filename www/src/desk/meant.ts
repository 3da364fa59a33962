/**
 * What was said to be meant so before there was a desk: letters and causes under
 * a file's fingerprint, in local storage. It is taken over once, and the old
 * entry is gone when it stands in the desk's store.
 */

import { cause as causes } from './causes'
import type { ReviewRecord } from './schema'
import { reviewId } from './schema'
import type { AnyChange, DeskStore } from './store'

const KEY = 'counterpoise.meant'

interface Kept {
  readonly font: string
  readonly meant: readonly string[]
}

function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false
  const { font, meant } = value as Partial<Record<keyof Kept, unknown>>
  return typeof font === 'string' && Array.isArray(meant) && meant.every((one) => typeof one === 'string')
}

/** The old entries as reviews; nothing of nonsense and of other pages' writing. */
export function oldMeant(text: string | null): Pick<ReviewRecord, 'font' | 'letter' | 'cause'>[] {
  let value: unknown
  try {
    value = JSON.parse(text ?? '[]')
  } catch {
    return []
  }
  if (!Array.isArray(value)) return []
  return value.filter(isKept).flatMap(({ font, meant }) =>
    meant.flatMap((key) => {
      const at = key.lastIndexOf(' ')
      const letter = key.slice(0, at)
      const cause = causes.find((one) => one === key.slice(at + 1))
      return at > 0 && cause ? [{ font, letter, cause }] : []
    }),
  )
}

export async function takeOver(
  storage: Pick<Storage, 'getItem' | 'removeItem'> | undefined,
  store: DeskStore,
): Promise<void> {
  let text: string | null = null
  try {
    text = storage?.getItem(KEY) ?? null
  } catch {
    return
  }
  if (text === null) return
  const changes = oldMeant(text).map(({ font, letter, cause }): AnyChange => {
    const id = reviewId(font, letter, cause)
    return {
      store: 'reviews',
      id,
      change: (current) =>
        current ? null : { id, font, letter, cause, verdict: 'meant', note: '', marks: [], drawing: '' },
    }
  })
  await store.changeAll(changes)
  storage?.removeItem(KEY)
}
