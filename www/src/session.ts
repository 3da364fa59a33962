import type { Desk } from './commands/command'
import { type Arrival, pick } from './files'
import type { Command } from './generated/Command'
import type { LetterReport } from './generated/LetterReport'
import type { PointerInput } from './generated/PointerInput'
import type { StageState } from './generated/StageState'
import type { Theme } from './generated/Theme'
import { keepSettings, readSettings, storage } from './keep'
import { isRefusal, Lab } from './lab'
import { type PageState, Store } from './state'
import { firstText } from './texts'

const SAMPLE = './sample/sample.ttf'

const BROKEN =
  'The lab could not start in this browser. Reload the page; if that does not help, try a newer browser.'
const STUMBLED =
  'The lab stumbled over that and has set the stage up again. Your font is still here; the steps to undo are not.'
const UNREADABLE = 'could not be read. It may have been moved or is still being written: try again.'

interface Source {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly fileName: string
  readonly sample: boolean
}

/** What the page is doing: the state, and the lab behind it. */
export class Session implements Desk {
  readonly store: Store
  /** Draws the next frame; the stage's component sets it. */
  onChange: () => void = () => {}
  /** Components that can take the focus, by what they are for. */
  readonly focusers: { text?: () => void; stage?: () => void } = {}

  #lab: Lab | undefined
  #canvas: HTMLCanvasElement | undefined
  #size: readonly [number, number, number] = [1, 1, 1]
  #theme: Theme | undefined
  #source: Source | undefined
  #letters = new Map<number, LetterReport | null>()
  #opening = 0
  #faces = 0

  constructor() {
    const { theme, singleKeys, visited } = readSettings(storage())
    this.store = new Store({ ...new Store().state, theme, singleKeys, firstVisit: !visited })
    this.store.subscribe((state, before) => {
      if (
        state.theme === before.theme &&
        state.singleKeys === before.singleKeys &&
        state.firstVisit === before.firstVisit
      )
        return
      keepSettings(storage(), {
        theme: state.theme,
        singleKeys: state.singleKeys,
        visited: !state.firstVisit,
      })
    })
  }

  get state(): PageState {
    return this.store.state
  }

  set(change: Partial<PageState>): void {
    this.store.set(change)
  }

  /** Sets the lab up on a canvas and opens the sample. */
  async start(canvas: HTMLCanvasElement): Promise<void> {
    this.#canvas = canvas
    try {
      const sample = fetchSample()
      await Lab.load()
      this.#build(canvas)
      this.set({ phase: 'ready' })
      const opening = this.#opening
      const source = await sample
      // Whoever dropped a font meanwhile wants that one.
      if (opening === this.#opening) this.#open(source)
    } catch (error) {
      console.error(error)
      this.set({ phase: 'broken', notice: { kind: 'refused', fileName: '', sentence: BROKEN } })
    }
  }

  /** Opens what was dropped, picked or pasted. What cannot be opened leaves all as it is. */
  async arrive(arrival: Arrival): Promise<void> {
    const { file, sentence } = arrival
    if (!file) {
      if (sentence) this.set({ notice: { kind: 'refused', fileName: '', sentence } })
      return
    }
    if (this.state.phase !== 'ready') return
    this.#opening += 1
    const opening = this.#opening
    this.set({ opening: file.name, notice: null })
    try {
      const bytes = new Uint8Array(await file.arrayBuffer())
      if (opening !== this.#opening) return
      this.#open({ bytes, fileName: file.name, sample: false })
      if (sentence) this.set({ notice: { kind: 'told', fileName: '', sentence } })
    } catch (error) {
      if (opening !== this.#opening) return
      this.set({ notice: { kind: 'refused', fileName: file.name, sentence: this.#sentence(error) } })
    } finally {
      if (opening === this.#opening) this.set({ opening: null })
    }
  }

  apply(command: Command): void {
    this.#try((lab) => lab.apply(command))
  }

  /** A pointer on the canvas. Dragging refuses nothing, so that nothing is told of it. */
  pointer(input: PointerInput): void {
    this.#try((lab) => lab.pointer(input))
  }

  /** Every measure of one letter; null where the font has no such glyph. */
  letter(glyph: number): LetterReport | null {
    const known = this.#letters.get(glyph)
    if (known !== undefined) return known
    let report: LetterReport | null = null
    try {
      report = this.#lab?.letter(glyph) ?? null
    } catch (error) {
      if (!isRefusal(error)) this.#mend(error)
    }
    this.#letters.set(glyph, report)
    return report
  }

  setTheme(theme: Theme): void {
    this.#theme = theme
    this.#lab?.setTheme(theme)
    this.onChange()
  }

  resize(width: number, height: number, ratio: number): void {
    this.#size = [width, height, ratio]
    if (!this.#lab) return
    this.set({ stage: this.#lab.resize(width, height, ratio) })
    this.onChange()
  }

  draw(): void {
    if (!this.#lab) return
    try {
      this.#lab.draw()
    } catch (error) {
      this.#mend(error)
    }
  }

  async pickFile(): Promise<void> {
    const arrival = await pick(document)
    if (arrival) await this.arrive(arrival)
  }

  async openSample(): Promise<void> {
    this.#opening += 1
    try {
      this.#open(await fetchSample())
    } catch (error) {
      this.set({ notice: { kind: 'refused', fileName: '', sentence: this.#sentence(error) } })
    }
  }

  editText(): void {
    this.focusers.text?.()
  }

  focusStage(): void {
    this.focusers.stage?.()
  }

  #build(canvas: HTMLCanvasElement): void {
    const lab = new Lab(canvas)
    if (this.#theme) lab.setTheme(this.#theme)
    lab.resize(...this.#size)
    this.#lab = lab
  }

  #open(source: Source): void {
    const lab = this.#lab
    if (!lab) return
    const first = this.#source === undefined
    const report = this.#trapped(() => lab.open(source.bytes, source.fileName))
    this.#source = source
    this.#letters.clear()
    if (first) lab.apply({ type: 'setText', text: firstText })
    this.#faces += 1
    const face = `counterpoise-${this.#faces}`
    this.set({
      font: { report, fileName: source.fileName, face: null, sample: source.sample },
      stage: lab.state(),
      notice: null,
      ...(source.sample ? {} : { firstVisit: false }),
    })
    this.onChange()
    void this.#show(source.bytes, face)
  }

  /** Hands the font to the browser too, to set single letters of it in tables. */
  async #show(bytes: Uint8Array<ArrayBuffer>, family: string): Promise<void> {
    try {
      const face = await new FontFace(family, bytes.buffer).load()
      if (this.#source?.bytes !== bytes) return
      for (const old of [...document.fonts]) {
        if (old.family.startsWith('counterpoise-')) document.fonts.delete(old)
      }
      document.fonts.add(face)
      const font = this.state.font
      if (font) this.set({ font: { ...font, face: family } })
    } catch {
      // Browsers are stricter than the lab. Tables then use the page's own type.
    }
  }

  #try(ask: (lab: Lab) => StageState): void {
    if (!this.#lab) return
    try {
      this.set({ stage: ask(this.#lab), remark: null })
    } catch (error) {
      if (isRefusal(error)) this.set({ remark: error.sentence })
      else this.#mend(error)
    }
    this.onChange()
  }

  /** Lets a refusal through; a crash of the module is mended first. */
  #trapped<T>(ask: () => T): T {
    try {
      return ask()
    } catch (error) {
      if (!isRefusal(error)) this.#mend(error)
      throw error
    }
  }

  /**
   * After a crash inside the module, what it held cannot be trusted: a new
   * stage is built, the font that was open is opened again, with its line.
   */
  #mend(error: unknown): void {
    console.error(error)
    const canvas = this.#canvas
    const text = this.state.stage?.text
    try {
      if (!canvas) throw error
      this.#build(canvas)
      if (this.#source) {
        this.#lab?.open(this.#source.bytes, this.#source.fileName)
        if (text) this.#lab?.apply({ type: 'setText', text })
        this.set({ stage: this.#lab?.state() ?? null })
      }
      this.set({ notice: { kind: 'refused', fileName: '', sentence: STUMBLED } })
    } catch (again) {
      console.error(again)
      this.#lab = undefined
      this.set({ phase: 'broken', notice: { kind: 'refused', fileName: '', sentence: BROKEN } })
    }
  }

  #sentence(error: unknown): string {
    if (isRefusal(error)) return error.sentence
    if (error instanceof DOMException) return `This file ${UNREADABLE}`
    return STUMBLED
  }
}

export const session = new Session()

async function fetchSample(): Promise<Source> {
  const answer = await fetch(SAMPLE)
  if (!answer.ok) throw new Error(`the sample is not there (${answer.status})`)
  return { bytes: new Uint8Array(await answer.arrayBuffer()), fileName: 'sample.ttf', sample: true }
}
