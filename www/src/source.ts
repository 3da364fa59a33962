/** Where the page's own parts and its sample come from, and what it opens. */

import type { Parcel } from './formats/parcel'
import type { FontReport } from './generated/FontReport'
import type { Helper } from './worker/measurer'

const SAMPLE = './sample/sample.ttf'

/** The bytes that are open, and whose. */
export interface Source {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly fileName: string
  readonly sample: boolean
  /** What it was made of, if the file was no plain font. */
  readonly parcel?: Parcel | null
}

/** Vite finds the worker's file by these very words. */
export function makeHelper(): Helper {
  return new Worker(new URL('./worker/measure.worker.ts', import.meta.url), {
    type: 'module',
    name: 'measures',
  })
}

/** The sample that comes with the page; nothing where it cannot be had. */
export async function fetchSample(): Promise<Source | null> {
  const answer = await fetch(SAMPLE).catch(() => null)
  if (!answer?.ok) return null
  return { bytes: new Uint8Array(await answer.arrayBuffer()), fileName: 'sample.ttf', sample: true }
}

/** What is to be known of how a font was made stands with what it says itself. */
export function noted(report: FontReport, parcel: Parcel | null | undefined): FontReport {
  return parcel ? { ...report, notes: [...report.notes, ...parcel.report.notes] } : report
}

/** Bytes of a font that the browser is shown too: it reads some sixteen megabytes in a tenth of a second, at one go. */
const MOST_SHOWN = 4 * 1024 * 1024

/** Hands a font to the browser too, to set single letters of it in tables; whether it took it. */
export async function showFace(
  bytes: Uint8Array<ArrayBuffer>,
  family: string,
  wanted: () => boolean,
): Promise<boolean> {
  if (bytes.length > MOST_SHOWN) return false
  // Letters that were drawn one by one are bytes of the lab's own: no browser takes them, and one complains aloud.
  if (!['\0\x01\0\0', 'OTTO', 'true'].includes(String.fromCharCode(...bytes.subarray(0, 4)))) return false
  // By an address, the browser reads it beside the page: given the bytes, it would hold the page up till it had.
  const address = URL.createObjectURL(new Blob([bytes]))
  try {
    const face = await new FontFace(family, `url(${address})`).load()
    if (!wanted()) return false
    for (const old of [...document.fonts]) {
      if (old.family.startsWith('counterpoise-')) document.fonts.delete(old)
    }
    document.fonts.add(face)
    return true
  } catch {
    // Browsers are stricter than the lab. Tables then use the page's own type.
    return false
  } finally {
    URL.revokeObjectURL(address)
  }
}
