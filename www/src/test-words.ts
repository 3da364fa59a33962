/** A line of words that holds the pairs most in need of a look. */

import type { SpacingReport } from './generated/SpacingReport'
import type { SuggestionReport } from './generated/SuggestionReport'

export type LetterPair = readonly [first: string, second: string]

/** Words of one line: more are not looked at one by one. */
const MOST = 6

/** Pairs asked for at once: the first findings, then what most kerns would move. */
const ASKED = 60

const isSmall = (letter: string): boolean => /^[a-z]$/.test(letter)
const isCapital = (letter: string): boolean => /^[A-Z]$/.test(letter)
const STOPS = '.,:;!?'

/** Pairs that stand out, worst first, then those that the suggestion moves furthest. */
export function pairsInNeed({ findings }: SpacingReport, { kerns }: SuggestionReport): LetterPair[] {
  const found = findings.flatMap(({ pairs }) => pairs as LetterPair[]).filter(([a, b]) => a !== b || a === '')
  const moved = kerns
    .toSorted((a, b) => Math.abs(b.apart) - Math.abs(a.apart))
    .flatMap(({ firsts, seconds }) => firsts.flatMap((a) => seconds.map((b): LetterPair => [a, b])))
  const all = new Map([...found, ...moved].map((pair) => [pair.join(''), pair]))
  return [...all.values()].slice(0, ASKED)
}

/** How a word would have to be written to hold a pair; nothing if it cannot. */
function writing(word: string, [first, second]: LetterPair): string | null {
  if (isSmall(first) && isSmall(second)) return word.includes(first + second) ? word : null
  if (isCapital(first) && isSmall(second)) {
    return word.startsWith(first.toLowerCase() + second) ? capital(word) : null
  }
  if (isCapital(first) && isCapital(second)) {
    return word.includes((first + second).toLowerCase()) ? word.toUpperCase() : null
  }
  if (isSmall(first) && STOPS.includes(second)) return word.endsWith(first) ? word + second : null
  return null
}

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1)

/**
 * The fewest words for the most pairs, taken one by one: each time the writing of
 * a word that holds most of what is still asked for, where a pair counts the more
 * the earlier it was named.
 */
export function wordsFor(pairs: readonly LetterPair[], words: readonly string[], most = MOST): string[] {
  const left = new Map(pairs.map((pair, at) => [pair.join(''), { pair, weight: 1 / (2 + at) }]))
  const line: string[] = []
  while (line.length < most && left.size > 0) {
    let best = { text: '', weight: 0 }
    for (const word of words) {
      const ways = new Set([...left.values()].flatMap(({ pair }) => writing(word, pair) ?? []))
      for (const text of ways) {
        let weight = 0
        for (const [key, { weight: own }] of left) if (text.includes(key)) weight += own
        // Of words that hold as much the shorter says it more plainly.
        weight /= 1 + text.length / 100
        if (weight > best.weight) best = { text, weight }
      }
    }
    if (best.text === '') break
    line.push(best.text)
    for (const key of [...left.keys()]) if (best.text.includes(key)) left.delete(key)
  }
  return line
}
