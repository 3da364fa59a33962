/** Text set by the font's own rules: fetched when kerned text, or one from right to left, is first asked for. */

import init, { directions, TextShaper } from './core/counterpoise_shaping.js'
import address from './core/counterpoise_shaping_bg.wasm?url'
import { kernsOf } from './kerns'
import { once } from './once'

const ready = once(() => init({ module_or_path: fetch(address) }))

/** Sets lines of one font. */
export interface Shaper {
  /** Pairs of neighbours in a text, each with what the font's kerning adds between them. */
  kerns(text: string): [left: number, right: number, apart: number][]
  /** Of each character which way it is read and which form it takes, five numbers as the module tells them. */
  read(text: string): Int32Array
  free(): void
}

export async function openShaper(bytes: Uint8Array): Promise<Shaper> {
  await ready()
  // Loose drawings are no file: they have no rules, but their line is read all the same.
  if (bytes.length === 0) return { kerns: () => [], read: directions, free: () => {} }
  const shaper = new TextShaper(bytes, 0)
  return {
    kerns: (text) => kernsOf(shaper.shape(text, true), shaper.shape(text, false)),
    read: (text) => shaper.read(text),
    free: () => shaper.free(),
  }
}
