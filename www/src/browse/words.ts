/** What the room of all letters says. */

import type { Section } from '../core/counterpoise_browse.js'
import { count, many } from '../figures'
import { type List, UNCODED } from './protocol'

/** "U+0041": a code point as the Unicode Standard writes it. */
export const codeName = (code: number): string => `U+${code.toString(16).toUpperCase().padStart(4, '0')}`

/** Characters that show nothing, or would join what is written around them. */
const UNSHOWN = /^[\p{C}\p{M}\p{Z}]$/u

/** What a letter is called: by its character and code point, or else its name, or else its number. */
export function letterName(list: List, letter: number, name: string | null): string {
  const code = list.codes[letter] ?? UNCODED
  if (code === UNCODED) return name ?? `glyph ${count(list.glyphs[letter] ?? 0)}`
  const character = String.fromCodePoint(code)
  return UNSHOWN.test(character) ? codeName(code) : `${character} ${codeName(code)}`
}

/** Which heading a letter stands under. */
export function sectionOf(sections: readonly Section[], letter: number): number {
  let [low, high] = [0, sections.length - 1]
  while (low < high) {
    const middle = (low + high + 1) >> 1
    if ((sections[middle]?.start ?? 0) <= letter) low = middle
    else high = middle - 1
  }
  return low
}

/** "U+0000–007F". */
export function blockRange({ block }: Section): string {
  if (!block) return ''
  const [first, last] = block.map((code) => codeName(code).slice(2))
  return `U+${first}–${last}`
}

/** What stands in the list now, for all to read and for a screen reader to hear. */
export function foundWords(list: List, shown: ArrayLike<number> | null, typed: string): string {
  const all = list.glyphs.length
  const rest =
    list.leftOut > 0
      ? ` ${many(list.leftOut, 'more is', 'more are')} left out: the font’s map leads to the same few again and again.`
      : ''
  if (shown === null) return `${many(all, 'letter')}.${rest}`
  if (shown.length === 0) return `Nothing found for “${typed}”.`
  return `${count(shown.length)} of ${many(all, 'letter')}.${rest}`
}

/** Controls, joiners and selectors have no place in the line's text. */
function isUnwritten(code: number): boolean {
  const selects = (code >= 0xfe00 && code <= 0xfe0f) || (code >= 0xe0000 && code <= 0xe0fff)
  return selects || /^[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]$/u.test(String.fromCodePoint(code))
}

/** How letters are asked to stand on the stage's line: by character where one can stand there. */
export function choices(list: List, letters: readonly number[]): ({ text: string } | { glyph: number })[] {
  return letters.map((letter) => {
    const code = list.codes[letter] ?? UNCODED
    return code === UNCODED || isUnwritten(code)
      ? { glyph: list.glyphs[letter] ?? 0 }
      : { text: String.fromCodePoint(code) }
  })
}
