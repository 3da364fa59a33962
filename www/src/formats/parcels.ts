/** The worker of unusual formats as the page holds it: made when the first such file comes. */

import learned from '../../../crate/counterpoise/src/judge/table/learned.bin?url'
import formatsAddress from '../core/counterpoise_formats_bg.wasm?url'
import labAddress from '../core/counterpoise_web_bg.wasm?url'
import type { FaceReport } from '../generated/FaceReport'
import type { FileReport } from '../generated/FileReport'
import type { FindingReport } from '../generated/FindingReport'
import type { Ask, Cut, Reply } from './protocol'

/** How long one thing may take, milliseconds; the largest open files take a tenth of it. */
export const PATIENCE = 20_000

const SLOW =
  'This font takes longer to work out than any that was drawn by hand; the lab gave it up. Ask for it to be generated again.'
const CRASHED =
  'The part of the lab that reads such files stumbled over this one and was set up again. Ask for the font to be generated again.'
const AWAY =
  'The part of the lab that reads such files could not be fetched. Try again, or load the page anew.'

/** What the page shows as a refusal. */
const refusal = (sentence: string) => ({ code: 'formats', sentence })

/** As much of a worker as is used, so that a test can stand in for one. */
export type Helper = Pick<Worker, 'postMessage' | 'terminate'> & {
  onmessage: ((event: MessageEvent<Reply>) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
}

interface Waiting {
  readonly resolve: (value: unknown) => void
  readonly reject: (reason: unknown) => void
  readonly judged: ((index: number, findings: readonly FindingReport[]) => void) | undefined
  timer: ReturnType<typeof setTimeout>
}

type Question = Exclude<Ask, { kind: 'start' | 'stop' }>
/** A question before it has its number. */
type Unnumbered<T> = T extends { job: number } ? Omit<T, 'job'> : never

export class Parcels {
  #helper: Helper | undefined
  #job = 0
  readonly #waiting = new Map<number, Waiting>()
  #start: Promise<Helper> | undefined

  constructor(private readonly make: () => Promise<Helper> = makeHelper) {}

  open(bytes: Uint8Array<ArrayBuffer>): Promise<FileReport> {
    const copy = bytes.slice().buffer
    return this.#ask({ kind: 'open', bytes: copy }, [copy]) as Promise<FileReport>
  }

  face(face: number): Promise<FaceReport> {
    return this.#ask({ kind: 'face', face }) as Promise<FaceReport>
  }

  cut(cut: Cut): Promise<Uint8Array<ArrayBuffer>> {
    return this.#ask({ kind: 'cut', cut }) as Promise<Uint8Array<ArrayBuffer>>
  }

  /** Judges the letters cut by cut; the promise is kept when all are judged, or it was stopped. */
  along(
    cuts: readonly Cut[],
    judged: (index: number, findings: readonly FindingReport[]) => void,
  ): { done: Promise<unknown>; stop: () => void } {
    const done = this.#ask({ kind: 'along', cuts }, [], judged)
    const job = this.#job
    return { done, stop: () => this.#helper?.postMessage({ kind: 'stop', job }) }
  }

  /** Lets go of what is open, and of the worker. */
  end(): void {
    this.#helper?.terminate()
    this.#helper = undefined
    this.#start = undefined
  }

  async #ask(
    ask: Unnumbered<Question>,
    transfer: Transferable[] = [],
    judged?: Waiting['judged'],
  ): Promise<unknown> {
    this.#job += 1
    const job = this.#job
    const helper = await this.#helperFor()
    return new Promise((resolve, reject) => {
      this.#waiting.set(job, { resolve, reject, judged, timer: this.#patience(helper) })
      helper.postMessage({ ...ask, job }, transfer)
    })
  }

  #patience(helper: Helper): ReturnType<typeof setTimeout> {
    return setTimeout(() => this.#lose(helper, SLOW), PATIENCE)
  }

  async #helperFor(): Promise<Helper> {
    this.#start ??= this.make()
    try {
      const helper = await this.#start
      if (this.#helper !== helper) {
        this.#helper = helper
        helper.onmessage = ({ data }) => this.#hear(helper, data)
        helper.onerror = (event) => {
          event.preventDefault?.()
          this.#lose(helper, CRASHED)
        }
      }
      return helper
    } catch (error) {
      console.warn(error)
      this.#start = undefined
      throw refusal(AWAY)
    }
  }

  #hear(helper: Helper, reply: Reply): void {
    if (helper !== this.#helper) return
    if (reply.kind === 'crashed') {
      this.#lose(helper, CRASHED)
      return
    }
    const waiting = this.#waiting.get(reply.job)
    if (!waiting) return
    clearTimeout(waiting.timer)
    if (reply.kind === 'judged') {
      // Each step has its own time.
      waiting.timer = this.#patience(helper)
      waiting.judged?.(reply.index, reply.findings)
      return
    }
    this.#waiting.delete(reply.job)
    if (reply.kind === 'done') waiting.resolve(reply.value)
    else waiting.reject(refusal(reply.sentence))
  }

  /** The worker is ended; what waits for it is told why, and the next file makes another. */
  #lose(helper: Helper, sentence: string): void {
    if (helper !== this.#helper) return
    helper.terminate()
    this.#helper = undefined
    this.#start = undefined
    const waiting = [...this.#waiting.values()]
    this.#waiting.clear()
    for (const { reject, timer } of waiting) {
      clearTimeout(timer)
      reject(refusal(sentence))
    }
  }
}

async function makeHelper(): Promise<Helper> {
  const [formats, lab, table] = await Promise.all([
    compiled(formatsAddress),
    compiled(labAddress),
    fetch(learned).then((answer) => (answer.ok ? answer.arrayBuffer() : null)),
  ])
  const helper: Helper = new Worker(new URL('./formats.worker.ts', import.meta.url), {
    type: 'module',
    name: 'formats',
  })
  const start: Ask = { kind: 'start', formats, lab, table: table && new Uint8Array(table) }
  helper.postMessage(start)
  return helper
}

/** The lab's own module comes from the browser's cache: the page has fetched it before. */
async function compiled(address: string): Promise<WebAssembly.Module> {
  const answer = await fetch(address)
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`)
  return WebAssembly.compile(await answer.arrayBuffer())
}
