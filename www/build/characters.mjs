/**
 * Which characters a language is written with, from the Unicode Common Locale
 * Data Repository (npm `cldr-misc-full`, its version pinned in package.json;
 * licence Unicode-3.0, whose notice goes with the data). The page's build reads
 * the package and gives the page one compact table as the module
 * `virtual:characters`; nothing of it lies in the repository.
 */

import { readdirSync, readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'

const NAME = 'virtual:characters'
const RESOLVED = `\0${NAME}`

/** Languages and scripts, without the regions that share their letters. */
const LOCALE = /^[a-z]{2,3}(?:-[A-Z][a-z]{3})?$/

/** Nobody plans more letter by letter: Chinese, Japanese and Korean are left out. */
const MOST_LETTERS = 1000

/** The characters of a UnicodeSet as CLDR writes exemplars: listed, in ranges, or in groups. */
export function charactersOf(set) {
  const signs = [...set.replace(/^\[/, '').replace(/\]$/, '')]
  const found = []
  for (let at = 0; at < signs.length; at += 1) {
    let sign = signs[at]
    if (sign === ' ' || sign === '{' || sign === '}') continue
    if (sign === '-' && found.length > 0 && at + 1 < signs.length) {
      const last = found.at(-1)?.codePointAt(0) ?? 0
      const end = signs[at + 1].codePointAt(0) ?? 0
      for (let code = last + 1; code <= end; code += 1) found.push(String.fromCodePoint(code))
      at += 1
      continue
    }
    if (sign === '\\') {
      at += 1
      sign = signs[at]
      if (sign === 'u') {
        const hex = signs.slice(at + 1, at + 5).join('')
        sign = String.fromCodePoint(Number.parseInt(hex, 16))
        at += 4
      }
    }
    found.push(sign)
  }
  return found
}

const sorted = (characters) =>
  [...new Set(characters)].toSorted((a, b) => (a.codePointAt(0) ?? 0) - (b.codePointAt(0) ?? 0)).join('')

/** Where the package lies. */
const home = () => dirname(createRequire(import.meta.url).resolve('cldr-misc-full/package.json'))

/** Letters as they are written small, and punctuation with figures, of each language. */
export function table() {
  const folder = join(home(), 'main')
  const all = {}
  for (const locale of readdirSync(folder).filter((name) => LOCALE.test(name))) {
    const file = JSON.parse(readFileSync(join(folder, locale, 'characters.json'), 'utf8'))
    const { exemplarCharacters, punctuation, numbers } = file.main[locale].characters
    const letters = charactersOf((exemplarCharacters ?? '[]').normalize('NFC'))
    if (letters.length === 0 || letters.length > MOST_LETTERS) continue
    const figures = charactersOf(numbers ?? '[]').filter((sign) => /\p{Nd}/u.test(sign))
    const visible = [...charactersOf(punctuation ?? '[]'), ...figures].filter((sign) =>
      /[^\p{C}\p{Z}]/u.test(sign),
    )
    all[locale] = [sorted(letters.filter((sign) => /[^\p{C}\p{Z}]/u.test(sign))), sorted(visible)]
  }
  return all
}

export function characters() {
  return {
    name: 'characters',
    resolveId: (id) => (id === NAME ? RESOLVED : undefined),
    load: (id) =>
      id === RESOLVED ? `export default JSON.parse(${JSON.stringify(JSON.stringify(table()))})` : undefined,
    // The licence asks that its notice goes with the data.
    generateBundle() {
      const source = readFileSync(join(home(), 'LICENSE'), 'utf8')
      this.emitFile({ type: 'asset', fileName: 'assets/cldr-licence.txt', source })
    },
  }
}
