/** Drawings, scans and a second revision beside the font: fetched when something is first redrawn. */

import learned from '../../../crate/counterpoise/src/judge/table/learned.bin?url'
import init, {
  Drawing,
  fates as fatesIn,
  looseFont,
  openGlif,
  openUfo,
  quantities,
  Redraw,
  ScanSheet,
} from '../core/counterpoise_redraw.js'
import address from '../core/counterpoise_redraw_bg.wasm?url'
import type { FatedFinding } from '../generated/FatedFinding'
import type { FindingReport } from '../generated/FindingReport'

export type { Redraw }
/** What became of findings that were kept as they were told. */
export async function fates(
  before: readonly FindingReport[],
  after: readonly FindingReport[],
  told: number,
): Promise<FatedFinding[]> {
  await begun()
  return fatesIn([...before], [...after], told)
}

export { Drawing, looseFont, openGlif, openUfo, quantities, ScanSheet }

let ready: Promise<Uint8Array> | undefined

/** Opens the font that letters are drawn anew for. */
export async function openRedraw(bytes: Uint8Array): Promise<Redraw> {
  return new Redraw(bytes, await begun())
}

/** The module set up, and what the lab judges by. */
async function begun(): Promise<Uint8Array> {
  ready ??= load()
  try {
    return await ready
  } catch (error) {
    // What could not be fetched once may be another time.
    ready = undefined
    throw error
  }
}

async function load(): Promise<Uint8Array> {
  const [table] = await Promise.all([
    fetch(learned).then(
      async (answer) => (answer.ok ? new Uint8Array(await answer.arrayBuffer()) : new Uint8Array()),
      () => new Uint8Array(),
    ),
    init({ module_or_path: fetch(address) }),
  ])
  return table
}
