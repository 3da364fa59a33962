/** Text set by the font's own rules: fetched when kerned text is first asked for. */

import init, { TextShaper } from './core/counterpoise_shaping.js'
import address from './core/counterpoise_shaping_bg.wasm?url'
import { kernsOf } from './kerns'
import { once } from './once'

const ready = once(() => init({ module_or_path: fetch(address) }))

/** Sets lines of one font. */
export interface Shaper {
  /** Pairs of neighbours in a text, each with what the font's kerning adds between them. */
  kerns(text: string): [left: number, right: number, apart: number][]
  free(): void
}

export async function openShaper(bytes: Uint8Array): Promise<Shaper> {
  await ready()
  const shaper = new TextShaper(bytes, 0)
  return {
    kerns: (text) => kernsOf(shaper.shape(text, true), shaper.shape(text, false)),
    free: () => shaper.free(),
  }
}
