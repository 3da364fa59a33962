import type { LetterReport } from '../generated/LetterReport'
import type { SpacingReport } from '../generated/SpacingReport'
import type { SuggestionReport } from '../generated/SuggestionReport'
import type { SurveyProgress } from '../generated/SurveyProgress'
import type { Ask, Reply } from './protocol'

/** How far the whole font has been measured. */
export type SurveyState =
  | { readonly kind: 'none' }
  | { readonly kind: 'measuring'; readonly progress: SurveyProgress | null }
  | { readonly kind: 'done'; readonly progress: SurveyProgress; readonly document: Blob | null }
  | { readonly kind: 'stopped'; readonly progress: SurveyProgress | null }
  | { readonly kind: 'failed'; readonly sentence: string }

/** How far the font's spacing has been read. */
export type SpacingState =
  | { readonly kind: 'none' }
  | { readonly kind: 'reading'; readonly share: number }
  | { readonly kind: 'done'; readonly report: SpacingReport; readonly suggestion: SuggestionReport }
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly sentence: string }

export const NO_WORKER =
  'The browser would not start the lab’s helper: only the letters on the stage are measured.'
export const CRASHED =
  'Measuring the whole font stumbled and was given up. The stage works on; to try again, measure it anew.'

/** What a measurer tells the page. */
export interface Listener {
  changed(state: SurveyState): void
  letters(letters: readonly LetterReport[]): void
  spaced(state: SpacingState): void
}

/** As much of a worker as is used, so that a test can stand in for one. */
export type Helper = Pick<Worker, 'postMessage' | 'terminate'> & {
  onmessage: ((event: MessageEvent<Reply>) => void) | null
  onerror: ((event: ErrorEvent) => void) | null
}

/** The worker as the page holds it: one, made once, and made anew only after a crash. */
export class Measurer {
  #helper: Helper | null = null
  #module: WebAssembly.Module | null = null
  #job = 0
  #state: SurveyState = { kind: 'none' }
  #spacing: SpacingState = { kind: 'none' }
  /** A survey that was asked for before there was a worker to do it. */
  #ready = false

  constructor(
    private readonly make: () => Helper,
    private readonly listener: Listener,
  ) {}

  get state(): SurveyState {
    return this.#state
  }

  /** Starts the worker on the page's own compiled module. */
  start(module: WebAssembly.Module): void {
    this.#module = module
    this.#ready = false
    try {
      const helper = this.make()
      this.#helper = helper
      helper.onmessage = ({ data }) => this.#hear(helper, data)
      helper.onerror = (event) => {
        event.preventDefault?.()
        this.#lose(helper)
      }
      this.#ask({ kind: 'start', module })
    } catch (error) {
      console.error(error)
      this.#helper = null
    }
  }

  /** Measures a whole font; whatever was measured before is given up. */
  survey(bytes: Uint8Array<ArrayBuffer>, fileName: string, first: Uint16Array): void {
    this.#job += 1
    if (!this.#helper && this.#module) this.start(this.#module)
    if (!this.#helper) {
      this.#set({ kind: 'failed', sentence: NO_WORKER })
      return
    }
    this.#set({ kind: 'measuring', progress: null })
    // The page keeps its own bytes: after a crash it opens them again.
    const copy = bytes.slice().buffer
    this.#ask({ kind: 'survey', job: this.#job, bytes: copy, fileName, first }, [copy])
  }

  /** Reads the spacing of some letters of a font that has been surveyed. */
  space(bytes: Uint8Array<ArrayBuffer>, characters: string, tolerance: number): void {
    if (!this.#helper) {
      this.#setSpacing({ kind: 'failed', sentence: NO_WORKER })
      return
    }
    this.#job += 1
    this.#setSpacing({ kind: 'reading', share: 0 })
    const copy = bytes.slice().buffer
    this.#ask({ kind: 'space', job: this.#job, bytes: copy, characters, tolerance }, [copy])
  }

  /** Stops at once: what the worker still says of this job is not heard. */
  cancel(): void {
    const [measuring, reading] = [this.#state.kind === 'measuring', this.#spacing.kind === 'reading']
    if (!measuring && !reading) return
    this.#ask({ kind: 'cancel', job: this.#job })
    this.#job += 1
    if (reading) this.#setSpacing({ kind: 'stopped' })
    if (this.#state.kind === 'measuring') this.#set({ kind: 'stopped', progress: this.#state.progress })
  }

  /** Forgets what was measured, as another font comes. */
  forget(): void {
    this.cancel()
    this.#setSpacing({ kind: 'none' })
    this.#set({ kind: 'none' })
  }

  #ask(ask: Ask, transfer: Transferable[] = []): void {
    this.#helper?.postMessage(ask, transfer)
  }

  #set(state: SurveyState): void {
    this.#state = state
    this.listener.changed(state)
  }

  #setSpacing(state: SpacingState): void {
    this.#spacing = state
    this.listener.spaced(state)
  }

  #hear(helper: Helper, reply: Reply): void {
    if (helper !== this.#helper) return
    if (reply.kind === 'ready') {
      this.#ready = true
      return
    }
    if (reply.kind === 'crashed') {
      this.#lose(helper)
      return
    }
    if (reply.job !== this.#job) return
    switch (reply.kind) {
      case 'letters':
        this.listener.letters(reply.letters)
        break
      case 'progress':
        this.#set({ kind: 'measuring', progress: reply.progress })
        break
      case 'surveyed':
        this.#set({ kind: 'done', progress: reply.progress, document: reply.document })
        break
      case 'spacing':
        this.#setSpacing({ kind: 'reading', share: reply.share })
        break
      case 'spaced':
        this.#setSpacing({ kind: 'done', report: reply.report, suggestion: reply.suggestion })
        break
      case 'refused':
        if (this.#spacing.kind === 'reading') this.#setSpacing({ kind: 'failed', sentence: reply.sentence })
        else this.#set({ kind: 'failed', sentence: reply.sentence })
        break
    }
  }

  /** The worker is gone, or never came. */
  #lose(helper: Helper): void {
    if (helper !== this.#helper) return
    helper.terminate()
    this.#helper = null
    // One that never came will not come the next time either.
    if (!this.#ready) this.#module = null
    if (this.#spacing.kind === 'reading') {
      this.#job += 1
      this.#setSpacing({ kind: 'failed', sentence: CRASHED })
    }
    if (this.#state.kind === 'measuring' || !this.#ready) {
      this.#job += 1
      this.#set({ kind: 'failed', sentence: this.#ready ? CRASHED : NO_WORKER })
    }
  }
}
