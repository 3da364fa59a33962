/** Who sets the open font's lines by its own rules. What does it is fetched when the first is asked for. */

import type { Shaper } from './shaping'

export class Shapers {
  #asked: object | undefined
  #last: { readonly of: object; readonly shaper: Shaper } | undefined

  /** The shaper of what is open, the one before let go; none where another was asked for meanwhile. */
  async of(open: object, file: () => Uint8Array): Promise<Shaper | null> {
    this.#asked = open
    if (this.#last?.of === open) return this.#last.shaper
    const { openShaper } = await import('./shaping')
    const shaper = await openShaper(file())
    if (this.#asked !== open || this.#last?.of === open) {
      shaper.free()
      return this.#last?.of === open ? this.#last.shaper : null
    }
    this.#last?.shaper.free()
    this.#last = { of: open, shaper }
    return shaper
  }
}
