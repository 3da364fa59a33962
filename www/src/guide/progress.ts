/** How far the reviewer came with the guide, kept by the browser. A browser that keeps nothing is no error. */

const KEY = 'counterpoise.guide'

/** Where it goes on, the first being 0; as long as the page where nothing is kept. */
let here = 0

export function begunAt(storage: Pick<Storage, 'getItem'> | undefined, steps: number): number {
  try {
    const kept = Number(storage?.getItem(KEY) ?? here)
    return Number.isInteger(kept) && kept > 0 && kept < steps ? kept : 0
  } catch {
    return here
  }
}

export function keepAt(storage: Pick<Storage, 'setItem'> | undefined, step: number): void {
  here = step
  try {
    storage?.setItem(KEY, String(step))
  } catch {
    // Full or forbidden: it is known as long as the page.
  }
}
