/** The white between letters in words, and what is suggested as the stage takes it. */

import { figure, many } from './figures'
import type { Fitting } from './generated/Fitting'
import type { KerningReport } from './generated/KerningReport'
import type { KernMatter } from './generated/KernMatter'
import type { KernRule } from './generated/KernRule'
import type { KernSource } from './generated/KernSource'
import type { SideKind } from './generated/SideKind'
import type { SpacingReport } from './generated/SpacingReport'
import type { SuggestionReport } from './generated/SuggestionReport'

export const sideName: Record<SideKind, string> = {
  straight: 'straight',
  round: 'round',
  diagonal: 'diagonal',
  open: 'open',
  stepped: 'stepped',
}

export const kernMatter: Record<KernMatter, string> = {
  missing: 'no kern',
  wrongWay: 'kerned the wrong way',
  tooFar: 'kerned too far',
  notEnough: 'kerned too little',
  rightBearing: 'right bearing',
  leftBearing: 'left bearing',
  firstClass: 'class of first letters',
  secondClass: 'class of second letters',
}

/** White is brought within this share of the em: a hundredth can be seen in text. */
const TOLERANCE = 0.01

export const toleranceOf = (unitsPerEm: number): number => Math.max(1, TOLERANCE * unitsPerEm)

/** The letters whose pairs are read beside the alphabet: what stands in text next to letters. */
const BESIDE = '.,:;-!?&ÀÁÂÃÄÅÆÇÈÉÊËÌÍÎÏÑÒÓÔÕÖØÙÚÛÜÝàáâãäåæçèéêëìíîïñòóôõöøùúûüýÿß‘’“”–'

/** Every character whose spacing is read: at most 200, so at most 40,000 pairs. */
export const spacedCharacters = (alphabet: readonly string[]): string =>
  [...new Set([...alphabet, ...BESIDE])].slice(0, 200).join('')

/** Accented letters, each followed by the letter that it is made of: é is kerned with e. */
export const basesOf = (characters: readonly string[]): string =>
  characters
    .map((character) => [character, [...character.normalize('NFD')][0] ?? character])
    .filter(([character, base]) => character !== base)
    .flat()
    .join('')

/** What is suggested, as what is to be added to the font's own. */
export function fittingOf(report: SpacingReport, suggestion: SuggestionReport): Fitting {
  const glyphs = new Map(report.letters.map((letter) => [letter.character, letter.glyph]))
  const sides = new Map<number, [number, number, number]>()
  for (const { glyph, right, is, suggested } of suggestion.bearings) {
    const own = sides.get(glyph) ?? [glyph, 0, 0]
    own[right ? 2 : 1] = suggested - is
    sides.set(glyph, own)
  }
  const of = (characters: readonly string[]): number[] =>
    characters.flatMap((character) => glyphs.get(character) ?? [])
  const pairs = suggestion.kerns.flatMap(({ firsts, seconds, apart }) =>
    of(firsts).flatMap((left) => of(seconds).map((right): [number, number, number] => [left, right, apart])),
  )
  return { sides: [...sides.values()], pairs }
}

/** "1,204 pairs of these letters are kerned, by GPOS." */
export function kerningWords({ source, pairs }: KerningReport): string {
  if (source === null) return 'The font has no kerning.'
  const table = source === 'gpos' ? 'by pair adjustments (GPOS)' : 'by the older kern table'
  return `${many(pairs.length, 'pair')} of these letters ${pairs.length === 1 ? 'is' : 'are'} kerned, ${table}.`
}

/** A pair of the line with what kerns it, each rule in words. */
export interface KernedPair {
  readonly pair: string
  readonly apart: number
  readonly rules: readonly string[]
}

/** The pairs of a line that are kerned, each once, in the order of the line. */
export function kernedOf(text: string, { pairs, rules, source }: KerningReport): readonly KernedPair[] {
  const known = new Map(pairs.map((one) => [one.pair.join(''), one]))
  const letters = [...text]
  const met = new Set(letters.slice(1).map((letter, at) => `${letters[at]}${letter}`))
  return [...met].flatMap((pair) => {
    const kerned = known.get(pair)
    if (!kerned) return []
    const told = kerned.rules.flatMap((place) => {
      const rule = rules[place]
      return rule ? [ruleWords(rule, source)] : []
    })
    return [{ pair, apart: kerned.apart, rules: told }]
  })
}

function ruleWords(
  { lookup, subtable, classes, firsts, seconds }: KernRule,
  source: KernSource | null,
): string {
  const place = source === 'kernTable' ? `part ${lookup}` : `lookup ${lookup}, subtable ${subtable}`
  if (!classes) return `${place}: this pair alone`
  const named = (letters: string): string => [...letters].join(' ')
  return `${place}: class ${classes[0]} (${named(firsts)}) before class ${classes[1]} (${named(seconds)})`
}

/** What a suggestion comes to. */
export function suggestionWords({ bearings, kerns, asked, left, tolerance }: SuggestionReport): string {
  if (bearings.length === 0 && kerns.length === 0) {
    return `Nothing: the white of every pair is within ${figure(tolerance)} units already.`
  }
  const rest =
    left === 0
      ? 'every pair'
      : `all but ${many(left, 'pair')} of the ${many(asked, 'pair')} that asked for more`
  return `${many(bearings.length, 'bearing')} first, then ${many(kerns.length, 'kern')}, bring ${rest} within ${figure(tolerance)} units.`
}

/** More letters than this make a line too long to be looked at. */
const MOST_CONTROLLED = 4

/**
 * Each letter among the straight and the round letter of its case, as the trade
 * sets them to judge its bearings: HHAHHOAOO, nnannoaoo (common practice, no source).
 */
export function controlStrings(letters: readonly string[]): string {
  const one = (letter: string): string => {
    const [straight, round] = letter !== letter.toLowerCase() || /\d/u.test(letter) ? ['H', 'O'] : ['n', 'o']
    return `${straight}${straight}${letter}${straight}${straight}${round}${letter}${round}${round}`
  }
  return [...new Set(letters)].slice(0, MOST_CONTROLLED).map(one).join(' ')
}
