/**
 * What the person has said is meant so, font by font. Kept by the browser under
 * a fingerprint of the file: letters and causes, nothing of the font itself.
 */

const KEY = 'counterpoise.meant'

/** Fonts remembered, the latest first: a browser keeps some megabytes in all. */
export const MOST_FONTS = 200

interface Kept {
  readonly font: string
  readonly meant: readonly string[]
}

function readAll(storage: Pick<Storage, 'getItem'> | undefined): Kept[] {
  try {
    const value: unknown = JSON.parse(storage?.getItem(KEY) ?? '[]')
    return Array.isArray(value) ? value.filter(isKept) : []
  } catch {
    // Another page's writing, or a browser that forbids: nothing is meant.
    return []
  }
}

function isKept(value: unknown): value is Kept {
  if (typeof value !== 'object' || value === null) return false
  const { font, meant } = value as Partial<Record<keyof Kept, unknown>>
  return typeof font === 'string' && Array.isArray(meant) && meant.every((one) => typeof one === 'string')
}

export function readMeant(storage: Pick<Storage, 'getItem'> | undefined, font: string): readonly string[] {
  return readAll(storage).find((kept) => kept.font === font)?.meant ?? []
}

export function keepMeant(
  storage: Pick<Storage, 'getItem' | 'setItem'> | undefined,
  font: string,
  meant: readonly string[],
): void {
  const others = readAll(storage).filter((kept) => kept.font !== font)
  const all = meant.length > 0 ? [{ font, meant }, ...others] : others
  try {
    storage?.setItem(KEY, JSON.stringify(all.slice(0, MOST_FONTS)))
  } catch {
    // Full or forbidden: it is remembered as long as the page.
  }
}
