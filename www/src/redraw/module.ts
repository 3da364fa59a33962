/** Drawings, scans and a second revision beside the font: fetched when something is first redrawn. */

import learned from '../../../crate/counterpoise/src/judge/table/learned.bin?url'
import init, {
  Drawing,
  looseFont,
  openGlif,
  openUfo,
  quantities,
  Redraw,
  ScanSheet,
} from '../core/counterpoise_redraw.js'
import address from '../core/counterpoise_redraw_bg.wasm?url'

export type { Redraw }
export { Drawing, looseFont, openGlif, openUfo, quantities, ScanSheet }

let ready: Promise<Uint8Array> | undefined

/** Opens the font that letters are drawn anew for. */
export async function openRedraw(bytes: Uint8Array): Promise<Redraw> {
  ready ??= load()
  try {
    return new Redraw(bytes, await ready)
  } catch (error) {
    // What could not be fetched once may be another time.
    if (error instanceof Error) ready = undefined
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
