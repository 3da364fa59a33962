/**
 * The records of the review desk, as rules that a stranger's file is held to.
 * `schema.ts` says what they mean. Loaded with what reads such files, and not
 * before: the page itself needs the types alone.
 *
 * Each limit is far above what anyone's work comes to, and low enough that a
 * hostile file cannot fill the browser.
 */

import * as v from 'valibot'

/** A longer note is no note. */
const MOST_NOTE = 20_000
const MOST_MARKS = 60
/** Of planned characters: more than any set of letters that is drawn one by one. */
const MOST_CHARACTERS = 40_000
/** As many findings as a judgement ever lists, many times over. */
const MOST_FINDINGS = 2_000

/**
 * Characters that no name needs and that can make it read as another: controls,
 * and the marks that turn the direction of text.
 */
const unseen = /[\p{Cc}\u202a-\u202e\u2066-\u2069\ufeff]/gu
const line = (most: number) =>
  v.pipe(
    v.string(),
    v.maxLength(most),
    v.transform((text) => text.replaceAll(unseen, ' ').trim()),
  )
const note = v.pipe(v.string(), v.maxLength(MOST_NOTE))
const id = v.pipe(v.string(), v.minLength(1), v.maxLength(400))
const characters = v.pipe(v.string(), v.maxLength(MOST_CHARACTERS))
const day = v.pipe(v.string(), v.isoDate())
const instant = v.pipe(v.string(), v.isoTimestamp())
const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(1e7))
const figure = v.pipe(v.number(), v.finite())
const point = v.tuple([figure, figure])

/** What every record carries: when it last changed, and how often it has. */
const kept = { changed: instant, rev: count }

export const plan = v.object({
  languages: v.pipe(v.array(line(40)), v.maxLength(400)),
  sets: v.pipe(v.array(v.picklist(['iso-8859-1', 'iso-8859-2', 'iso-8859-15'])), v.maxLength(3)),
  text: characters,
})

export const font = v.object({
  ...kept,
  id,
  family: line(200),
  title: line(200),
  contributor: line(200),
  plan,
  planned: characters,
  due: v.nullable(day),
  kind: v.picklist(['plain', 'ornamented']),
  begun: day,
  note,
  removed: v.nullable(instant),
})

export const revision = v.object({
  ...kept,
  id,
  font: id,
  fingerprint: line(64),
  fileName: line(300),
  received: instant,
  answered: v.nullable(instant),
  planned: count,
  drawn: count,
  settled: count,
  open: count,
})

export const cause = v.picklist([
  'width',
  'strokes',
  'uprights',
  'levels',
  'overshoot',
  'left',
  'right',
  'pair',
  'raised',
  'points',
])

export const finding = v.object({
  letter: v.pipe(v.string(), v.minLength(1), v.maxLength(8)),
  glyph: count,
  cause,
  value: figure,
  expected: figure,
  low: figure,
  high: figure,
  difference: figure,
  spreads: figure,
  byChance: figure,
  beside: v.pipe(v.string(), v.maxLength(200)),
  sentence: v.pipe(v.string(), v.maxLength(1000)),
})

/** Numbers and the commands of path data, and nothing else. */
const path = v.pipe(v.string(), v.maxLength(400_000), v.regex(/^[MLHVQCZmlhvqcz0-9eE+\-., ]*$/))

export const drawing = v.object({ advance: figure, path })

export const reading = v.object({
  ...kept,
  id,
  font: id,
  unitsPerEm: v.pipe(v.number(), v.minValue(1), v.maxValue(1e6)),
  heights: v.array(v.object({ name: line(40), y: figure })),
  letters: v.record(v.pipe(v.string(), v.maxLength(8)), line(16)),
  findings: v.pipe(v.array(finding), v.maxLength(MOST_FINDINGS)),
  drawings: v.record(v.pipe(v.string(), v.maxLength(8)), drawing),
  features: v.pipe(
    v.array(v.object({ tag: line(8), ligatures: count, alternates: count, contextual: count })),
    v.maxLength(2_000),
  ),
})

export const mark = v.object({ kind: v.picklist(['circle', 'arrow', 'line']), from: point, to: point })

export const review = v.object({
  ...kept,
  id,
  font: id,
  letter: v.pipe(v.string(), v.minLength(1), v.maxLength(200)),
  cause: v.nullable(cause),
  verdict: v.nullable(v.picklist(['settled', 'redraw', 'again', 'meant'])),
  note,
  marks: v.pipe(v.array(mark), v.maxLength(MOST_MARKS)),
  drawing: v.pipe(v.string(), v.maxLength(16)),
})

export const file = v.object({ fingerprint: line(64), name: line(300) })

export const archive = v.object({
  format: v.literal('counterpoise-desk'),
  version: count,
  written: instant,
  fonts: v.array(font),
  revisions: v.array(revision),
  readings: v.array(reading),
  reviews: v.array(review),
  files: v.array(file),
})
