/**
 * What the Unicode Standard calls each character, from the npm package `unicode-name` (its version pinned in
 * package.json; the names are the Unicode Character Database's, licence Unicode-3.0, whose notice goes with the data).
 * The page's build reads the package and gives the page one long text as the module `virtual:names`; nothing of it lies
 * in the repository.
 */

import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import { unicodeBaseName, unicodeCorrectName } from 'unicode-name'

const NAME = 'virtual:names'
const RESOLVED = `\0${NAME}`

/** Where names are that say more than the code point: between lie ideographs, and places that nothing is assigned to. */
const NAMED = [
  [0x20, 0x33ff],
  [0xa000, 0xabff],
  [0xf900, 0x1ffff],
  [0xe0000, 0xe01ff],
]

/** Names that say no more than the code point does, and those of Hangul syllables, which follow from their letters. */
const TOLD = /-[0-9A-F]{4,6}$|^HANGUL SYLLABLE /

const nameOf = (code) => {
  const character = String.fromCodePoint(code)
  const name = unicodeCorrectName(character) ?? unicodeBaseName(character)
  return name && !TOLD.test(name) ? name.toLowerCase() : null
}

/** A name a line, in the order of code points; where one is not the next, a line with `@` and its hexadecimal before it. */
export function text() {
  const lines = []
  let next = -1
  for (const [first, last] of NAMED) {
    for (let code = first; code <= last; code += 1) {
      const name = nameOf(code)
      if (name === null) continue
      if (code !== next) lines.push(`@${code.toString(16)}`)
      lines.push(name)
      next = code + 1
    }
  }
  return lines.join('\n')
}

export function names() {
  return {
    name: 'names',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: (id) => (id === RESOLVED ? `export default ${JSON.stringify(text())}` : undefined),
    // The package's own licence; the notice of the data is the one that goes with CLDR's.
    generateBundle() {
      const home = dirname(createRequire(import.meta.url).resolve('unicode-name'))
      const source = readFileSync(join(home, '..', 'MIT-LICENSE.txt'), 'utf8')
      this.emitFile({ type: 'asset', fileName: 'assets/names-licence.txt', source })
    },
  }
}
