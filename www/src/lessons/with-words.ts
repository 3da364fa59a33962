/** Trade words in a text, each a way to its picture. */

import { html, type TemplateResult } from 'lit'
import type { WordReport } from '../generated/WordReport'
import { go } from './place'

type Known = Pick<WordReport, 'id' | 'term' | 'also'>

const forms = (words: readonly Known[]): { form: string; id: string }[] =>
  words
    .flatMap(({ id, term, also }) => [term, ...also].map((form) => ({ form: form.toLowerCase(), id })))
    // The longest first: a left side bearing is a side bearing, and not a side.
    .sort((a, b) => b.form.length - a.form.length)

const escaped = (form: string): string => form.replaceAll(/[.*+?^${}()|[\]\\]/g, String.raw`\$&`)

export interface Piece {
  readonly text: string
  /** The word that it is, if it is one. */
  readonly id: string | null
}

/** A text cut at its trade words. */
export function pieces(text: string, words: readonly Known[]): Piece[] {
  const all = forms(words)
  if (all.length === 0) return [{ text, id: null }]
  const find = new RegExp(
    `(?<![\\p{L}-])(?:${all.map((one) => escaped(one.form)).join('|')})(?![\\p{L}-])`,
    'giu',
  )
  const found: Piece[] = []
  let at = 0
  for (const match of text.matchAll(find)) {
    if (match.index > at) found.push({ text: text.slice(at, match.index), id: null })
    const id = all.find((one) => one.form === match[0].toLowerCase())?.id ?? null
    found.push({ text: match[0], id })
    at = match.index + match[0].length
  }
  if (at < text.length) found.push({ text: text.slice(at), id: null })
  return found
}

/** The words in a text, each once, in its order. */
export const wordsIn = (text: string, words: readonly Known[]): string[] => [
  ...new Set(pieces(text, words).flatMap(({ id }) => (id === null ? [] : [id]))),
]

/** A text in which each trade word, the first time, leads to its picture; `seen` are those that do so already. */
export function withWords(
  text: string,
  words: readonly Known[],
  seen: Set<string> = new Set(),
): (string | TemplateResult)[] {
  return pieces(text, words).map(({ text, id }) => {
    if (id === null || seen.has(id)) return text
    seen.add(id)
    return html`<button class="word" type="button" title="What this word means" @click=${() => go({ page: 'words', asked: [text] })}>${text}</button>`
  })
}
