/**
 * What the page and its worker say to each other. Every job has a number: a
 * reply to a job that the page has given up is dropped.
 */

import type { LetterReport } from '../generated/LetterReport'
import type { SpacingReport } from '../generated/SpacingReport'
import type { SuggestionReport } from '../generated/SuggestionReport'
import type { SurveyProgress } from '../generated/SurveyProgress'

/** What the page asks. */
export type Ask =
  /** Comes first: the compiled module, so that nothing is fetched or compiled twice. */
  | { readonly kind: 'start'; readonly module: WebAssembly.Module }
  /** Measure a whole font, the letters in sight first. A new survey ends the one before. */
  | {
      readonly kind: 'survey'
      readonly job: number
      readonly bytes: ArrayBuffer
      readonly fileName: string
      readonly first: Uint16Array
    }
  /** Read the spacing and the kerning of some letters. */
  | {
      readonly kind: 'space'
      readonly job: number
      readonly bytes: ArrayBuffer
      readonly characters: string
      /** Within which the white is to be brought, font units. */
      readonly tolerance: number
    }
  | { readonly kind: 'cancel'; readonly job: number }

/** What the worker answers. */
export type Reply =
  | { readonly kind: 'ready' }
  /** The letters in sight, measured. */
  | { readonly kind: 'letters'; readonly job: number; readonly letters: readonly LetterReport[] }
  | { readonly kind: 'progress'; readonly job: number; readonly progress: SurveyProgress }
  /** All is measured. The document is null where it was too large to keep. */
  | {
      readonly kind: 'surveyed'
      readonly job: number
      readonly progress: SurveyProgress
      readonly document: Blob | null
    }
  /** The share of the spacing that is read. */
  | { readonly kind: 'spacing'; readonly job: number; readonly share: number }
  | {
      readonly kind: 'spaced'
      readonly job: number
      readonly report: SpacingReport
      readonly suggestion: SuggestionReport
    }
  /** The lab will not do it, and says why. */
  | { readonly kind: 'refused'; readonly job: number; readonly sentence: string }
  /** The worker is of no use any more. */
  | { readonly kind: 'crashed' }
