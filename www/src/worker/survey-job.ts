import type { SurveyProgress } from '../generated/SurveyProgress'
import type { Reply } from './protocol'

/** What a job needs of the module's `Survey`. */
export interface Surveyor {
  measureFirst(glyphs: Uint16Array): string
  measure(count: number): boolean
  take(): string
  head(): string
  tail(): string
  progress(): SurveyProgress
  free(): void
}

/** The worker's surroundings, so that a test can stand in for them. */
export interface Surroundings {
  now(): number
  /** Lets messages in: a job can be cancelled between slices and nowhere else. */
  breathe(): Promise<void>
  post(reply: Reply): void
}

/** Milliseconds between two breaths: a cancel is heard within that and one glyph's time. */
export const SLICE = 30

/** Milliseconds between two words about the progress: the eye follows no faster. */
export const TELL_EVERY = 100

/** Letters in sight that are measured between two breaths. */
const FIRST_SLICE = 8

/**
 * Bytes of a document that are kept. A face of 65,000 signs has some hundreds
 * of megabytes: more than a person who only dropped a font would want held.
 */
export const MOST_DOCUMENT = 256 * 1024 * 1024

/** Measures a whole font in slices, until it is done or stopped. */
export async function survey(
  job: number,
  surveyor: Surveyor,
  first: Uint16Array,
  stopped: () => boolean,
  around: Surroundings,
  most = MOST_DOCUMENT,
): Promise<void> {
  let pieces: Blob[] | null = [new Blob([surveyor.head()])]
  let size = 0
  let told = around.now()
  const tell = () => {
    if (around.now() - told < TELL_EVERY) return
    told = around.now()
    around.post({ kind: 'progress', job, progress: surveyor.progress() })
  }
  try {
    for (let at = 0; at < first.length; at += FIRST_SLICE) {
      const letters = JSON.parse(surveyor.measureFirst(first.subarray(at, at + FIRST_SLICE)))
      around.post({ kind: 'letters', job, letters })
      tell()
      await around.breathe()
      if (stopped()) return
    }
    let more = true
    while (more) {
      const end = around.now() + SLICE
      while (more && around.now() < end) more = surveyor.measure(1)
      const piece = new Blob([surveyor.take()])
      size += piece.size
      // Blobs are the browser's to keep, on disk if it likes: the module's own memory stays small.
      if (size > most) pieces = null
      else pieces?.push(piece)
      tell()
      await around.breathe()
      if (stopped()) return
    }
    const document = pieces && new Blob([...pieces, surveyor.tail()], { type: 'application/json' })
    around.post({ kind: 'surveyed', job, progress: surveyor.progress(), document })
  } finally {
    surveyor.free()
  }
}
