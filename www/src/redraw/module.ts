/** Drawings, scans and a second revision beside the font: fetched when something is first redrawn. */

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
import { fetchLearned } from '../lab'
import { once } from '../once'

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

/** The module set up, and what the lab judges by; nothing where that cannot be had. */
const begun = once(async () => {
  const [table] = await Promise.all([fetchLearned(), init({ module_or_path: fetch(address) })])
  return table ?? new Uint8Array()
})

/** Opens the font that letters are drawn anew for. */
export async function openRedraw(bytes: Uint8Array): Promise<Redraw> {
  return new Redraw(bytes, await begun())
}
