/** What has been brought to be held against the font, read as far as it can be without a question. */

import type { DrawingReport } from '../generated/DrawingReport'
import type { LooseLetters } from '../generated/LooseLetters'
import type { ScanReport } from '../generated/ScanReport'
import { drawingKind } from './kinds'
import { Drawing, openGlif, openUfo, ScanSheet } from './module'

/** What the page hands to the redraw: a file, or an earlier revision from the shelf. */
export type Bringing =
  | { readonly kind: 'file'; readonly file: File }
  | { readonly kind: 'earlier'; readonly name: string; readonly bytes: Uint8Array }

export type Brought =
  | {
      readonly kind: 'drawing'
      readonly name: string
      readonly drawing: Drawing
      readonly report: DrawingReport
    }
  | { readonly kind: 'scan'; readonly name: string; readonly scan: ScanSheet; readonly report: ScanReport }
  | { readonly kind: 'letters'; readonly name: string; readonly loose: LooseLetters }

/** A file is refused before it is read if it is larger. Scans are the largest. */
const MOST_BYTES = 64 << 20
const TOO_LARGE = 'This file is too large for a drawing (over 64 MB). Save the letter in a smaller one.'

export class TooLarge extends Error {
  readonly sentence = TOO_LARGE
}

export async function read(file: File): Promise<Brought> {
  if (file.size > MOST_BYTES) throw new TooLarge(TOO_LARGE)
  const { name } = file
  switch (drawingKind(name)) {
    case 'glyph':
      return { kind: 'letters', name, loose: openGlif(await file.text()) }
    case 'folder':
      return { kind: 'letters', name, loose: openUfo(new Uint8Array(await file.arrayBuffer())) }
    case 'scan': {
      const scan = new ScanSheet(new Uint8Array(await file.arrayBuffer()))
      return { kind: 'scan', name, scan, report: scan.report() }
    }
    default: {
      const drawing = new Drawing(await file.text())
      return { kind: 'drawing', name, drawing, report: drawing.report() }
    }
  }
}

export function release(brought: Brought | null): void {
  if (brought?.kind === 'drawing') brought.drawing.free()
  if (brought?.kind === 'scan') brought.scan.free()
}

/** What a file's name says of its letters: "R-redraw.svg" is an R, "HOn.svg" three letters. */
export function guessNames(name: string, count: number): string {
  const stem = name.replace(/\.[^.]*$/, '')
  const first = [...(stem.split(/[-_ .]/)[0] ?? '')]
  return first.length === count ? first.join('') : ''
}
