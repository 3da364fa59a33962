/** The whole desk as one file, and such files read: `schema.ts` says how they are made. */

import { strFromU8, strToU8, type Unzipped, unzip, zip } from 'fflate'
import { safeParse } from 'valibot'
import { oldMeant } from './meant'
import { mergeFonts, mergeReadings, mergeReviews, mergeRevisions } from './merge'
import { type Archive, type FileRecord, FORMAT, now, reviewId, SCHEMA_VERSION } from './schema'
import { archive as archiveShape } from './shape'
import type { Before, DeskStore } from './store'

const DESK = 'desk.json'
const FILES = 'fonts/'

/** Beyond this a file is no desk of anyone's: as much as a browser can hold at once. */
const MOST_BYTES = 1024 * 1024 * 1024
/** Unpacked, of the records alone: thousands of fonts fit into it. */
const MOST_JSON = 256 * 1024 * 1024
/** Entries: 200 fonts with 10 revisions, and as many again. */
const MOST_ENTRIES = 5_000

/** Why a file was not taken in: a sentence for the person. */
export class Refused extends Error {}

const NO_DESK = 'This is no desk that Counterpoise has saved. Choose a file that ends in “-desk.zip”.'
const DAMAGED = 'The file is damaged or was not sent whole. Ask for it again; nothing here was changed.'
const TOO_NEW =
  'The file was written by a newer Counterpoise. Load this page anew, then bring it in; nothing here was changed.'
const TOO_LARGE = 'The file is larger than any desk. Nothing here was changed.'

export async function everything(store: DeskStore): Promise<{ archive: Archive; files: FileRecord[] }> {
  const all = await store.everything()
  return {
    archive: {
      format: FORMAT,
      version: SCHEMA_VERSION,
      written: now(),
      fonts: all.fonts,
      revisions: all.revisions,
      readings: all.readings,
      reviews: all.reviews,
      files: all.files.map(({ fingerprint, name }) => ({ fingerprint, name })),
    },
    files: all.files,
  }
}

/** The desk as a zip. */
export async function pack(archive: Archive, files: readonly FileRecord[]): Promise<Uint8Array<ArrayBuffer>> {
  const entries: Record<string, Uint8Array> = { [DESK]: strToU8(JSON.stringify(archive)) }
  for (const { fingerprint, bytes } of files) entries[`${FILES}${fingerprint}`] = new Uint8Array(bytes)
  return new Promise((resolve, reject) => {
    zip(entries, { level: 6, consume: true }, (error, data) => {
      if (error) reject(error)
      else resolve(data as Uint8Array<ArrayBuffer>)
    })
  })
}

/** Reads a zip; a {@link Refused} says what is wrong with one that is none of ours. */
export async function unpack(bytes: Uint8Array): Promise<{ archive: Archive; files: FileRecord[] }> {
  if (bytes.length > MOST_BYTES) throw new Refused(TOO_LARGE)
  const entries = await open(bytes)
  const text = entries[DESK]
  if (!text) throw new Refused(NO_DESK)
  const archive = parse(strFromU8(text))
  const files = archive.files.flatMap(({ fingerprint, name }): FileRecord[] => {
    const file = entries[`${FILES}${fingerprint}`]
    return file ? [{ fingerprint, name, bytes: file.slice().buffer }] : []
  })
  return { archive, files }
}

function open(bytes: Uint8Array): Promise<Unzipped> {
  if (bytes[0] !== 0x50 || bytes[1] !== 0x4b) throw new Refused(NO_DESK)
  let [count, size] = [0, 0]
  return new Promise((resolve, reject) => {
    try {
      unzip(
        bytes,
        {
          // Only what a desk holds is unpacked, and no more than a desk holds.
          filter: ({ name, originalSize }) => {
            if (name !== DESK && !name.startsWith(FILES)) return false
            count += 1
            size += originalSize
            const most = name === DESK ? MOST_JSON : MOST_BYTES
            if (count > MOST_ENTRIES || originalSize > most || size > MOST_BYTES) throw new Refused(TOO_LARGE)
            return true
          },
        },
        (error, data) => (error ? reject(new Refused(DAMAGED)) : resolve(data)),
      )
    } catch (error) {
      reject(error instanceof Refused ? error : new Refused(DAMAGED))
    }
  })
}

/** The records of a file's JSON, each held to its shape; of older files made into the present one. */
export function parse(text: string): Archive {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    throw new Refused(DAMAGED)
  }
  const upgraded = upgrade(value)
  const read = safeParse(archiveShape, upgraded)
  if (read.success) return sound(read.output)
  const [issue] = read.issues
  const path = issue.path?.map(({ key }) => String(key)).join(' › ') ?? 'the file'
  throw new Refused(
    `The file holds something that no desk holds, at “${path.slice(0, 80)}”. Nothing here was changed.`,
  )
}

/** Older versions, one step each. */
export function upgrade(value: unknown): unknown {
  if (typeof value !== 'object' || value === null) throw new Refused(NO_DESK)
  const { format, version } = value as { format?: unknown; version?: unknown }
  if (format !== FORMAT || typeof version !== 'number') throw new Refused(NO_DESK)
  if (version > SCHEMA_VERSION) throw new Refused(TOO_NEW)
  if (version === SCHEMA_VERSION) return value
  if (version !== 1) throw new Refused(NO_DESK)
  // Version 1 knew what was meant so, by fingerprint, and nothing else.
  const { meant } = value as { meant?: unknown }
  const changed = now()
  const reviews = oldMeant(JSON.stringify(meant ?? [])).map(({ font, letter, cause }) => ({
    id: reviewId(font, letter, cause),
    font,
    letter,
    cause,
    verdict: 'meant',
    note: '',
    marks: [],
    drawing: '',
    changed,
    rev: 1,
  }))
  return {
    format,
    version: SCHEMA_VERSION,
    written: changed,
    fonts: [],
    revisions: [],
    readings: [],
    reviews,
    files: [],
  }
}

/** An id is a key of the database: one that does not follow from its record would hide another's. */
function sound(archive: Archive): Archive {
  const wrong =
    archive.reviews.some((one) => one.id !== reviewId(one.font, one.letter, one.cause)) ||
    archive.revisions.some((one) => one.id !== `${one.font}/${one.fingerprint}`) ||
    archive.readings.some((one) => !one.id.startsWith(`${one.font}/`))
  if (wrong) throw new Refused('The file’s records do not belong together. Nothing here was changed.')
  return archive
}

export interface Brought {
  readonly fonts: number
  readonly reviews: number
  readonly files: number
  /** What was here before, to be made so again. */
  readonly before: Before
}

/** Takes a desk in beside the one that is here: where both have a record, one is made of the two. */
export async function bringIn(store: DeskStore, bytes: Uint8Array): Promise<Brought> {
  const { archive, files } = await unpack(bytes)
  const { fonts, revisions, readings, reviews } = archive
  const before = await store.putAll(
    { fonts, revisions, readings, reviews },
    { fonts: mergeFonts, revisions: mergeRevisions, readings: mergeReadings, reviews: mergeReviews },
    files,
  )
  return { fonts: fonts.length, reviews: reviews.length, files: files.length, before }
}
