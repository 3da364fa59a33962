/** What the page and the worker of unusual formats say to each other. */

import type { FindingReport } from '../generated/FindingReport'

/** A cut of the file: a face, and where it stands. */
export interface Cut {
  readonly face: number
  /** Null for a face that is left to vary, or does not. */
  readonly position: readonly number[] | null
  readonly style: string | null
}

export type Ask =
  /** Comes first: the compiled modules, and what letters are judged by. */
  | {
      readonly kind: 'start'
      readonly formats: WebAssembly.Module
      readonly lab: WebAssembly.Module
      readonly table: Uint8Array | null
    }
  | { readonly kind: 'open'; readonly job: number; readonly bytes: ArrayBuffer }
  | { readonly kind: 'face'; readonly job: number; readonly face: number }
  | { readonly kind: 'cut'; readonly job: number; readonly cut: Cut }
  /** Judge the letters at each of these positions, in turn. */
  | { readonly kind: 'along'; readonly job: number; readonly cuts: readonly Cut[] }
  | { readonly kind: 'stop'; readonly job: number }

export type Reply =
  | { readonly kind: 'done'; readonly job: number; readonly value: unknown }
  /** What stands out at one of the positions. */
  | {
      readonly kind: 'judged'
      readonly job: number
      readonly index: number
      readonly findings: readonly FindingReport[]
    }
  | { readonly kind: 'refused'; readonly job: number; readonly sentence: string }
  | { readonly kind: 'crashed' }
