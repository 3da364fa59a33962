/** What the room of all letters and its worker say to each other. */

import type { Section } from '../core/counterpoise_browse.js'

/** No letter has this code point: it stands for a glyph without one. */
export const UNCODED = 0xffffffff

/** Every letter of a font, in the order in which they are shown. */
export interface List {
  /** Code points; `UNCODED` where there is none. */
  readonly codes: Uint32Array
  readonly glyphs: Uint16Array
  /** Advance widths as shares of the em. */
  readonly advances: Float32Array
  readonly sections: readonly Section[]
  /** Letters for which the list had no room. */
  readonly leftOut: number
  readonly unitsPerEm: number
  /** Room above the baseline and below it, as shares of the em. */
  readonly above: number
  readonly below: number
}

export type Question =
  /** Comes first: the compiled module, and the font. */
  | { readonly kind: 'open'; readonly module: WebAssembly.Module; readonly bytes: Uint8Array }
  /** What the Unicode Standard calls characters; before, letters are found by all else. */
  | { readonly kind: 'names'; readonly text: string }
  /** Where in the list the letters are that what was typed leads to. */
  | { readonly kind: 'find'; readonly typed: string }
  | { readonly kind: 'draw'; readonly glyphs: Uint16Array }

/** A question with its number, by which its answer is known. */
export interface Ask {
  readonly job: number
  readonly question: Question
}

export type Reply =
  | { readonly kind: 'done'; readonly job: number; readonly value: unknown }
  | { readonly kind: 'refused'; readonly job: number; readonly sentence: string }
