/**
 * What a font is to hold: languages by CLDR's exemplars, character sets by what
 * the browser's own decoder says of them, and lists of one's own; and what of it
 * is missing, in words.
 */

import table from 'virtual:characters'
import { many } from '../figures'
import type { Plan } from './schema'

const names = new Intl.DisplayNames(['en-GB'], { type: 'language', languageDisplay: 'standard' })

export const languageName = (code: string): string => names.of(code) ?? code

/** Every language whose letters are known, by its English name. */
export const languages: readonly { readonly code: string; readonly name: string }[] = Object.keys(table)
  .map((code) => ({ code, name: languageName(code) }))
  .toSorted((a, b) => a.name.localeCompare(b.name))

type SetId = Plan['sets'][number]

export const sets: readonly { readonly id: SetId; readonly name: string }[] = [
  { id: 'iso-8859-1', name: 'ISO 8859-1, Western Europe' },
  { id: 'iso-8859-2', name: 'ISO 8859-2, Central Europe' },
  { id: 'iso-8859-15', name: 'ISO 8859-15, Western Europe with the euro' },
]

/** A language's letters in both cases, its punctuation and its figures. */
export function charactersOfLanguage(code: string): string {
  const [letters, signs] = table[code] ?? ['', '']
  const capitals = [...letters].map((letter) => capital(letter, code))
  return `${capitals.join('')}${letters}${signs}`
}

/** A letter's capital where that is one letter: that of ß is written as two. */
function capital(letter: string, code: string): string {
  let upper = letter
  try {
    upper = letter.toLocaleUpperCase(code)
  } catch {
    upper = letter.toUpperCase()
  }
  return [...upper].length === 1 ? upper : ''
}

/** The printing characters of a set, from its bytes: 0x80 to 0x9F are controls in all three. */
export function charactersOfSet(id: SetId): string {
  const bytes: number[] = []
  for (let byte = 0x21; byte <= 0x7e; byte += 1) bytes.push(byte)
  for (let byte = 0xa1; byte <= 0xff; byte += 1) bytes.push(byte)
  return printing(new TextDecoder(id).decode(Uint8Array.from(bytes)))
}

/** What has a shape: no spaces, no soft hyphen, each once. */
const printing = (text: string): string =>
  [...new Set(text.normalize('NFC'))].filter((sign) => /[^\p{C}\p{Z}]/u.test(sign)).join('')

/** All that is planned, each character once: letters and capitals first, as an alphabet is read. */
export function charactersOf(plan: Plan): string {
  const all = [
    ...plan.languages.map(charactersOfLanguage),
    ...plan.sets.map(charactersOfSet),
    plan.text,
  ].join('')
  const rank = (sign: string): number =>
    /\p{Lu}/u.test(sign) ? 0 : /\p{L}/u.test(sign) ? 1 : /\p{N}/u.test(sign) ? 2 : 3
  return [...printing(all)]
    .toSorted((a, b) => rank(a) - rank(b) || (a.codePointAt(0) ?? 0) - (b.codePointAt(0) ?? 0))
    .join('')
}

export interface Missing {
  readonly name: string
  readonly characters: string
  readonly of: number
}

/** What each part of a plan lacks. */
export function missing(plan: Plan, has: (character: string) => boolean): Missing[] {
  const part = (name: string, characters: string): Missing => {
    const all = [...new Set(characters)]
    return { name, characters: all.filter((one) => !has(one)).join(''), of: all.length }
  }
  return [
    ...plan.languages.map((code) => part(languageName(code), printing(charactersOfLanguage(code)))),
    ...plan.sets.map((id) => part(sets.find((one) => one.id === id)?.name ?? id, charactersOfSet(id))),
    ...(plan.text ? [part('Your own list', printing(plan.text))] : []),
  ]
}

/** "Polish: 3 of 94 missing: ą ę ł." */
export function missingWords({ name, characters, of }: Missing): string {
  const all = [...characters]
  if (all.length === 0) return `${name}: complete.`
  if (all.length === of) return `${name}: nothing is drawn yet.`
  return `${name}: ${all.length} of ${many(of, 'character')} missing: ${all.join(' ')}`
}

/** Features by what they are for, as far as the OpenType specification's list of them says so in a word. */
const featureNames: Record<string, string> = {
  aalt: 'all alternates',
  c2sc: 'small capitals for capitals',
  calt: 'contextual alternates',
  case: 'capital punctuation',
  clig: 'contextual ligatures',
  dlig: 'discretionary ligatures',
  fina: 'forms at the end',
  frac: 'fractions',
  hist: 'historical forms',
  hlig: 'historical ligatures',
  init: 'forms at the beginning',
  liga: 'standard ligatures',
  lnum: 'lining figures',
  locl: 'forms of a language',
  onum: 'old-style figures',
  ordn: 'ordinals',
  pnum: 'proportional figures',
  rlig: 'required ligatures',
  salt: 'stylistic alternates',
  sinf: 'inferiors',
  smcp: 'small capitals',
  subs: 'subscript',
  sups: 'superscript',
  swsh: 'swashes',
  tnum: 'figures of one width',
  titl: 'titling',
  zero: 'slashed nought',
}

/** "liga, standard ligatures: 5 ligatures". */
export function featureWords(feature: {
  tag: string
  ligatures: number
  alternates: number
  contextual: number
}): string {
  const { tag, ligatures, alternates, contextual } = feature
  const numbered = /^ss(\d\d)$/.exec(tag)?.[1]
  const name = numbered ? `stylistic set ${Number(numbered)}` : featureNames[tag]
  const counts = [
    ligatures > 0 && many(ligatures, 'ligature'),
    alternates > 0 && many(alternates, 'other form'),
    contextual > 0 && many(contextual, 'rule by the letters around', 'rules by the letters around'),
  ].filter(Boolean)
  return `${tag}${name ? `, ${name}` : ''}: ${counts.join(', ') || 'nothing of its own'}`
}
