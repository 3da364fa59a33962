/**
 * The worker of unusual formats: unpacks, takes faces out, brings fonts to
 * positions, and judges letters along an axis. A file that would take for ever
 * holds this worker up and not the page, which ends it.
 */

import '../worker/no-network'
import { Parcel, initSync as startFormats } from '../core/counterpoise_formats.js'
import { Lab, learn, initSync as startLab } from '../core/counterpoise_web.js'
import { isRefusal } from '../refusal'
import type { Ask, Cut, Reply } from './protocol'

interface Scope {
  postMessage(reply: Reply, transfer?: Transferable[]): void
  onmessage: ((event: MessageEvent<Ask>) => void) | null
}

const scope = globalThis as unknown as Scope

let parcel: Parcel | undefined
/** The walk along an axis that is wanted; another number ends it at its next step. */
let walking = 0

const open = (): Parcel => {
  if (!parcel) throw new Error('No file is open.')
  return parcel
}

const cutOf = ({ face, position, style }: Cut): Uint8Array<ArrayBuffer> =>
  open().plain(face, position && Float64Array.from(position), style) as Uint8Array<ArrayBuffer>

scope.onmessage = ({ data: ask }) => {
  if (ask.kind === 'start') {
    startFormats({ module: ask.formats })
    startLab({ module: ask.lab })
    if (ask.table) learn(ask.table)
    return
  }
  if (ask.kind === 'stop') {
    if (ask.job === walking) walking = 0
    return
  }
  void work(ask)
}

async function work(ask: Exclude<Ask, { kind: 'start' | 'stop' }>): Promise<void> {
  const done = (value: unknown, transfer: Transferable[] = []) =>
    scope.postMessage({ kind: 'done', job: ask.job, value }, transfer)
  try {
    switch (ask.kind) {
      case 'open': {
        walking = 0
        // The file before is let go of first: both at once may be more than a tab holds.
        parcel?.free()
        parcel = undefined
        parcel = new Parcel(new Uint8Array(ask.bytes))
        done(JSON.parse(parcel.report()))
        break
      }
      case 'face':
        done(JSON.parse(open().face(ask.face)))
        break
      case 'cut': {
        const cut = cutOf(ask.cut)
        done(cut, [cut.buffer])
        break
      }
      case 'along':
        walking = ask.job
        await along(ask.job, ask.cuts)
        done(null)
        break
    }
  } catch (error) {
    // A trap is a crash; what the modules throw on purpose is a sentence.
    if (isRefusal(error)) scope.postMessage({ kind: 'refused', job: ask.job, sentence: error.sentence })
    else if (error instanceof Error && !(error instanceof WebAssembly.RuntimeError)) {
      scope.postMessage({ kind: 'refused', job: ask.job, sentence: error.message })
    } else {
      console.error(error)
      scope.postMessage({ kind: 'crashed' })
    }
  }
}

async function along(job: number, cuts: readonly Cut[]): Promise<void> {
  const lab = new Lab()
  try {
    for (const [index, cut] of cuts.entries()) {
      lab.openFont(cutOf(cut), '')
      const { findings } = lab.judge([], [])
      scope.postMessage({ kind: 'judged', job, index, findings })
      // Lets a word to stop in.
      await new Promise((resolve) => setTimeout(resolve, 0))
      if (walking !== job) return
    }
  } finally {
    lab.free()
  }
}
