/** Every letter of the open font, as its worker gives them: fetched when the room is first entered. */

import type { Drawing } from '../core/counterpoise_browse.js'
import address from '../core/counterpoise_browse_bg.wasm?url'
import { once } from '../once'
import type { Ask, List, Question, Reply } from './protocol'

/** How long one answer may take, milliseconds; the largest open fonts take a tenth of it. */
const PATIENCE = 20_000

const STUMBLED =
  'The part of the lab that lists letters stumbled over this font. Close this and open it again to try once more.'
const SLOW = 'This font takes longer to list than any that was drawn by hand; the lab gave it up.'
export const AWAY =
  'The part of the lab that lists letters could not be fetched. Close this and open it again to try once more.'

/** A sentence for the person; anything else that is thrown is a mistake of ours. */
export class Untold extends Error {}

const compiled = once(async () => {
  const answer = await fetch(address)
  if (!answer.ok) throw new Error(`${address}: ${answer.status}`)
  return WebAssembly.compile(await answer.arrayBuffer())
})

/** What could be words of a character's name; of fewer letters none is asked for. */
const WORDS = /[a-z]{3}/i

interface Waiting {
  readonly resolve: (value: unknown) => void
  readonly refuse: (sentence: string) => void
}

export class AllLetters {
  readonly #worker: Worker
  readonly #waiting = new Map<number, Waiting>()
  readonly #named = once(async () => {
    const { default: text } = await import('virtual:names')
    await this.#ask({ kind: 'names', text })
  })
  #job = 0

  private constructor(worker: Worker) {
    this.#worker = worker
    worker.onmessage = ({ data }: MessageEvent<Reply>) => {
      const waiting = this.#waiting.get(data.job)
      if (data.kind === 'done') waiting?.resolve(data.value)
      else waiting?.refuse(data.sentence)
    }
    worker.onerror = (event) => {
      event.preventDefault()
      this.#end(STUMBLED)
    }
  }

  /** A font's letters, and the list of them. */
  static async open(bytes: Uint8Array): Promise<[AllLetters, List]> {
    let module: WebAssembly.Module
    try {
      module = await compiled()
    } catch (error) {
      console.warn(error)
      throw new Untold(AWAY)
    }
    const letters = new AllLetters(
      new Worker(new URL('./browse.worker.ts', import.meta.url), { type: 'module', name: 'all letters' }),
    )
    try {
      return [letters, (await letters.#ask({ kind: 'open', module, bytes })) as List]
    } catch (error) {
      letters.close()
      throw error
    }
  }

  async find(typed: string): Promise<Uint32Array> {
    // Without a network the letters are found by all else.
    if (WORDS.test(typed)) await this.#named().catch(console.warn)
    return this.#ask({ kind: 'find', typed }) as Promise<Uint32Array>
  }

  draw(glyphs: Uint16Array): Promise<readonly Drawing[]> {
    return this.#ask({ kind: 'draw', glyphs }) as Promise<readonly Drawing[]>
  }

  /** Lets go of the font, and of all that was read from it. */
  close(): void {
    this.#end(STUMBLED)
  }

  #ask(question: Question): Promise<unknown> {
    this.#job += 1
    const job = this.#job
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => this.#end(SLOW), PATIENCE)
      const settle = () => {
        clearTimeout(timer)
        this.#waiting.delete(job)
      }
      this.#waiting.set(job, {
        resolve: (value) => {
          settle()
          resolve(value)
        },
        refuse: (sentence) => {
          settle()
          reject(new Untold(sentence))
        },
      })
      const ask: Ask = { job, question }
      this.#worker.postMessage(ask)
    })
  }

  #end(sentence: string): void {
    this.#worker.terminate()
    for (const { refuse } of [...this.#waiting.values()]) refuse(sentence)
  }
}
