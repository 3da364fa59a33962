/**
 * A lesson as a teacher hands it on: by a link's fragment or as a file. Neither
 * holds anything of a font. Both are a stranger's, and held to the same rules.
 */

import * as v from 'valibot'
import { lessonNames } from './lesson-words'

export const FORMAT = 'counterpoise-lesson'
export const VERSION = 1

/** A line of letters that one screen shows: as many as the lab takes. */
export const MOST_LETTERS = 12
export const MOST_NOTE = 400
/** A larger file is no lesson. */
const MOST_BYTES = 64 * 1024

const NO_FILE = 'This is no lesson that Counterpoise has saved. Choose a file that ends in “-lesson.json”.'
const TOO_NEW =
  'This lesson was written by a newer Counterpoise. Load this page anew, then open it once more.'
const NO_LINK =
  'The link leads to no lesson that this page knows. Ask for it again, or choose a lesson from the list.'

/** Why a lesson was not taken: a sentence for the person. */
export class Refused extends Error {}

/** Controls, and the marks that turn the direction of text. */
const unseen = /[\p{Cc}\u202a-\u202e\u2066-\u2069\ufeff]/gu

const text = (most: number) =>
  v.pipe(
    v.string(),
    v.maxLength(8 * most),
    v.transform((raw) => [...raw.replaceAll(unseen, '').trim()].slice(0, most).join('')),
  )

const shape = v.object({
  lesson: v.picklist(lessonNames),
  text: v.optional(text(MOST_LETTERS), ''),
  out: v.optional(v.pipe(v.number(), v.finite(), v.minValue(-1), v.maxValue(1)), 1),
  turned: v.optional(v.boolean(), false),
  note: v.optional(text(MOST_NOTE), ''),
})

export type Lesson = v.InferOutput<typeof shape>

/** A lesson as it is given where nobody has set anything. */
export const usual = (lesson: Lesson['lesson']): Lesson => ({
  lesson,
  text: '',
  out: 1,
  turned: false,
  note: '',
})

/** The fragment of a link that opens a lesson. */
export function toLink(lesson: Lesson): string {
  const parts = new URLSearchParams({ lesson: lesson.lesson })
  if (lesson.text) parts.set('text', lesson.text)
  parts.set('out', `${lesson.out}`)
  if (lesson.turned) parts.set('turned', 'yes')
  if (lesson.note) parts.set('note', lesson.note)
  return `#${parts}`
}

export function fromLink(hash: string): Lesson {
  const parts = new URLSearchParams(hash.replace(/^#/, ''))
  const out = parts.get('out')
  const read = v.safeParse(shape, {
    lesson: parts.get('lesson'),
    text: parts.get('text') ?? '',
    ...(out === null || out.trim() === '' ? {} : { out: Number(out) }),
    turned: parts.get('turned') === 'yes',
    note: parts.get('note') ?? '',
  })
  if (!read.success) throw new Refused(NO_LINK)
  return read.output
}

export function toFile(lesson: Lesson): Blob {
  const document = { format: FORMAT, version: VERSION, ...lesson }
  return new Blob([`${JSON.stringify(document, null, 2)}\n`], { type: 'application/json' })
}

export async function fromFile(file: Blob): Promise<Lesson> {
  if (file.size > MOST_BYTES) throw new Refused(NO_FILE)
  let raw: unknown
  try {
    raw = JSON.parse(await file.text())
  } catch {
    throw new Refused(NO_FILE)
  }
  const mark = v.safeParse(v.object({ format: v.literal(FORMAT), version: v.number() }), raw)
  if (!mark.success) throw new Refused(NO_FILE)
  if (mark.output.version > VERSION) throw new Refused(TOO_NEW)
  const read = v.safeParse(shape, raw)
  if (!read.success) throw new Refused(NO_FILE)
  return read.output
}
