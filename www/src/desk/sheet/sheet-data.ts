/** What stands on the sheet for the artist, from what the lab found and the reviewer said. */

import { causeName, usualAllowance } from '../../findings'
import type { FindingReport } from '../../generated/FindingReport'
import type { Fated } from '../fate'
import { type Missing, missing } from '../plan'
import type { Drawing, FontRecord, Mark, ReviewRecord, Verdict } from '../schema'
import { inForce, openFindings, type Read, type Standing, standings } from '../tally'

/** One matter of one letter. */
export interface Entry {
  readonly number: number
  readonly letter: string
  readonly finding: FindingReport | null
  readonly verdict: Verdict | null
  readonly note: string
  readonly marks: readonly Mark[]
  /** The letter as it was in the revision before, where that is known. */
  readonly before: Drawing | null
}

export interface SheetData {
  readonly title: string
  readonly style: string
  readonly contributor: string
  /** Which revision, from 1; 0 of a font that is on no shelf. */
  readonly revision: number
  readonly day: string
  readonly fileName: string
  readonly unitsPerEm: number
  readonly heights: readonly { readonly name: string; readonly y: number }[]
  /** The drawn letters, in order. */
  readonly letters: string
  readonly drawings: ReadonlyMap<string, Drawing>
  readonly standing: ReadonlyMap<string, Standing>
  readonly entries: readonly Entry[]
  readonly meant: readonly string[]
  readonly missing: readonly (Missing & { readonly language: string | null })[]
  readonly fates: readonly Fated[]
  /** Letters of the revision before that have been drawn anew since, as they were. */
  readonly before: Readonly<Record<string, Drawing>>
  readonly note: string
}

export interface Given {
  readonly title: string
  readonly style: string
  readonly contributor: string
  readonly revision: number
  readonly day: string
  readonly fileName: string
  readonly unitsPerEm: number
  readonly heights: SheetData['heights']
  readonly shelved: FontRecord | null
  /** Characters that are planned, or the alphabet. */
  readonly planned: string
  readonly read: Read
  readonly drawings: ReadonlyMap<string, Drawing>
  readonly reviews: readonly ReviewRecord[]
  readonly before: Readonly<Record<string, Drawing>>
  readonly fates: readonly Fated[]
}

export function sheetData(given: Given): SheetData {
  const { read, reviews, planned, shelved } = given
  const letters = [...planned].filter((letter) => read.letters[letter] !== undefined).join('')
  const plan = shelved?.plan
  return {
    ...given,
    letters,
    standing: standings(planned, read, reviews),
    entries: entries(given),
    meant: meantWords(reviews),
    missing: plan
      ? missing(plan, (one) => read.letters[one] !== undefined).map((part, at) => ({
          ...part,
          language: plan.languages[at] ?? null,
        }))
      : [],
    note: shelved?.note ?? '',
  }
}

/** Findings first, the worst first, then letters of which the reviewer alone has said something. */
function entries({ read, reviews, before }: Given): Entry[] {
  const said = new Map(reviews.map((one) => [`${one.letter} ${one.cause ?? ''}`, one]))
  const used = new Set<ReviewRecord>()
  const all: Omit<Entry, 'number'>[] = []
  const add = (letter: string, finding: FindingReport | null, review: ReviewRecord | undefined): void => {
    if (review) used.add(review)
    all.push({
      letter,
      finding,
      verdict: review ? inForce(review, read) : null,
      note: review?.note ?? '',
      marks: review?.marks ?? [],
      before: before[letter] ?? null,
    })
  }
  for (const finding of openFindings(read, reviews, usualAllowance)) {
    add(finding.letter, finding, said.get(`${finding.letter} ${finding.cause}`))
  }
  for (const review of reviews) {
    if (used.has(review)) continue
    const word = inForce(review, read)
    const asks = word === 'redraw' || word === 'again'
    // What is settled or meant needs no entry, unless something was written to it.
    if (!asks && review.note === '' && review.marks.length === 0) continue
    const finding = read.findings.find((one) => one.letter === review.letter && one.cause === review.cause)
    add(review.letter, finding ?? null, review)
  }
  return all.map((entry, at) => ({ number: at + 1, ...entry }))
}

const meantWords = (reviews: readonly ReviewRecord[]): string[] =>
  reviews
    .filter((one) => one.verdict === 'meant')
    .map(({ letter, cause }) => (cause === null ? letter : `${letter} (${causeName[cause]})`))

/** How many letters ask for what, in a sentence. */
export function summary({ standing, entries }: SheetData): string {
  const count = (...of: Standing[]): number => [...standing.values()].filter((one) => of.includes(one)).length
  const [settled, open, redraw, again, lacking] = [
    count('settled'),
    count('open'),
    count('redraw'),
    count('again'),
    count('missing'),
  ]
  const letters = (many: number): string => `${many} ${many === 1 ? 'letter' : 'letters'}`
  const parts = [
    `${letters(settled)} settled`,
    redraw > 0 && `${letters(redraw)} to redraw`,
    again > 0 && `${letters(again)} to look at again`,
    open > 0 && `${letters(open)} that ${open === 1 ? 'stands' : 'stand'} out`,
    lacking > 0 && `${lacking} still to draw`,
  ].filter(Boolean)
  return `${parts.join(', ')}. ${entries.length === 0 ? 'Nothing below needs your pen.' : ''}`.trim()
}

/** "Measured 512, expected 468; anything from 450 to 486 would sit with the others." */
export function figuresWords({ value, expected, low, high, cause }: FindingReport): string {
  const round = (one: number): string => `${Math.round(one)}`.replace('-', '−')
  const unit = cause === 'points' ? 'points' : 'units'
  return `Measured ${round(value)}, expected ${round(expected)} ${unit}; from ${round(low)} to ${round(high)} it would sit with the others.`
}

/** A cell that no spreadsheet takes for a formula. */
function cell(value: string | number): string {
  const text = `${value}`
  const safe = typeof value === 'string' && /^[=+\-@\t\r]/.test(text) ? `'${text}` : text
  return `"${safe.replaceAll('"', '""')}"`
}

export function sheetCsv(data: SheetData): string {
  const head = ['number', 'letter', 'matter', 'word', 'finding', 'note', 'measured', 'expected', 'from', 'to']
  const rows = data.entries.map(({ number, letter, finding, verdict, note }) => [
    number,
    letter,
    finding ? causeName[finding.cause] : 'letter',
    verdict ?? '',
    finding?.sentence ?? '',
    note,
    ...(finding
      ? [finding.value, finding.expected, finding.low, finding.high].map((one) => Math.round(10 * one) / 10)
      : ['', '', '', '']),
  ])
  // The mark at the start tells spreadsheets that the letters are Unicode.
  return `\ufeff${[head, ...rows].map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`
}

export function sheetJson(data: SheetData): string {
  const {
    title,
    style,
    contributor,
    revision,
    day,
    fileName,
    entries,
    meant,
    missing: lacking,
    fates,
    standing,
  } = data
  const plain = {
    format: 'counterpoise-sheet',
    version: 1,
    title,
    style,
    contributor,
    revision,
    day,
    fileName,
    letters: Object.fromEntries(standing),
    entries: entries.map(({ before: _, ...entry }) => entry),
    meant,
    missing: lacking.map(({ name, characters }) => ({ name, characters })),
    sinceLastRevision: fates.map(({ fate, letter, cause }) => ({ fate, letter, cause })),
  }
  return `${JSON.stringify(plain, null, 2)}\n`
}
