import type { Desk, Focus } from './commands/command'
import { type Bench, Reviewing } from './desk/reviewing'
import { FigureTimes } from './figure-times'
import { type Arrival, pick } from './files'
import { standing } from './findings'
import type { Handling } from './formats/handling'
import type { Parcel } from './formats/parcel'
import { isUnusual } from './formats/unusual'
import type { Command } from './generated/Command'
import type { ContentsReport } from './generated/ContentsReport'
import type { FindingReport } from './generated/FindingReport'
import type { Fitting } from './generated/Fitting'
import type { LetterDrawing } from './generated/LetterDrawing'
import type { LetterReport } from './generated/LetterReport'
import type { PointCount } from './generated/PointCount'
import type { PointerInput } from './generated/PointerInput'
import type { Spacing } from './generated/Spacing'
import type { Theme } from './generated/Theme'
import { HeldLab } from './held-lab'
import { keepChanged, readSettings, storage } from './keep'
import { Lab, loadLab } from './lab'
import { once } from './once'
import type { Turn } from './pointers'
import { pointsOf } from './points'
import { drawingKind } from './redraw/kinds'
import { isRefusal } from './refusal'
import { BROKEN, GONE, NO_SAMPLE, STUMBLED, sentenceOf, UNJUDGED } from './sentences'
import { fetchSample, makeHelper, noted, type Source, showFace } from './source'
import { initialState, type PageState, Store } from './state'
import { idleTask, nextTask } from './tasks'
import { TextSetting } from './text-setting'
import { wear } from './theme'
import { Turns } from './turns'
import { Surveying } from './worker/surveying'

/** What the page is doing: the state, and the lab behind it. */
export class Session implements Desk, Bench {
  readonly store: Store
  /** Draws the next frame; the stage's component sets it. */
  onChange: () => void = () => {}
  /** Components that can take the focus, by what they are for. */
  readonly focusers: Partial<Record<Focus, () => void>> = {}
  readonly reviewing: Reviewing
  readonly turns = new Turns()
  /** What handles unusual files; fetched when the first of them comes. */
  handling: Handling | undefined

  readonly #lab = new HeldLab({
    make: () => new Lab(),
    restore: (lab) => this.#restore(lab),
    refused: (remark) => this.set({ remark }),
    mended: () => this.set({ notice: { kind: 'refused', fileName: '', sentence: STUMBLED } }),
    broken: () => this.#broken(),
  })
  #source: Source | undefined
  #letters = new Map<number, LetterReport | null>()
  #opening = 0
  #faces = 0
  #begin: () => void = () => {}
  /** Fulfilled once fonts can be opened. */
  readonly started = new Promise<void>((resolve) => {
    this.#begin = resolve
  })
  readonly surveying = new Surveying(makeHelper, {
    state: () => this.state,
    set: (change) => this.set(change),
    source: () => this.#source,
    measured: (letters) => {
      for (const letter of letters) this.#letters.set(letter.glyph, letter)
      this.#countPoints()
    },
    // The desk waits for the points of the letters, but not for ever.
    ended: () => this.#tellDesk(),
    suggested: (fitting) => this.#fit('suggested', fitting),
  })
  readonly #figures = new FigureTimes(() => this.onChange())
  /** A font was opened and has not been drawn yet. */
  #awaited = false
  /** How many points each letter of the alphabet has and needs; nothing until all are counted. */
  #points: PointCount[] = []
  #judging = false
  /** What comes behind the first picture: the worker, and what letters are judged by. */
  #behind: () => Promise<void> = async () => {}
  /** Whether the desk has been told of the open font. */
  #told = true
  readonly #text = new TextSetting({
    state: () => this.state,
    remark: (remark) => this.set({ remark }),
    source: () => this.#source,
    file: () => this.#lab.ask((lab) => lab.file()) ?? new Uint8Array(),
    kern: (pairs) => this.#fit('kerned', { sides: [], pairs }),
    read: (reader) => {
      this.#lab.tell((lab) => lab.setReader(reader))
      this.#moved(true)
    },
  })

  constructor() {
    const { visited, ...settings } = readSettings(storage())
    const { theme } = settings
    this.store = new Store({ ...initialState, ...settings, firstVisit: !visited })
    this.reviewing = new Reviewing(this)
    wear(theme, document.documentElement)
    // The first to hear of a change: the stage takes its colours from what the document wears.
    this.store.subscribe((state, before) => {
      if (state.theme !== before.theme) wear(state.theme, document.documentElement)
      this.#markFindings(before)
      const [line, lineBefore] = [state.stage, before.stage]
      if (line && (line.text !== lineBefore?.text || line.spacing !== lineBefore.spacing)) {
        queueMicrotask(() => this.#text.follow())
      }
      // What is meant so weighs on no other letter.
      if (state.meant !== before.meant) queueMicrotask(() => this.#judgeAnew())
      keepChanged(storage(), state, before)
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
    const opening = this.#opening
    this.set({ opening: 'the sample' })
    void this.reviewing.start(storage())
    try {
      const sample = fetchSample()
      const { module, learned } = await loadLab()
      this.#lab.stand(canvas)
      this.#behind = once(() => {
        this.surveying.start(module)
        return learned
      })
      this.set({ phase: 'ready' })
      this.#begin()
      const source = await sample
      await nextTask()
      // Whoever dropped a font meanwhile wants that one.
      if (this.#source === undefined) this.#openOwn(source)
      if (opening === this.#opening) this.set({ opening: null })
      if (!source) {
        this.turns.pictured()
        void this.#behind()
      }
    } catch (error) {
      this.#lab.giveUp(error)
    }
  }

  /** Opens what was dropped, picked or pasted. What cannot be opened leaves all as it is. */
  async arrive(arrival: Arrival): Promise<void> {
    const { file, sentence } = arrival
    if (!file) {
      if (sentence) this.set({ notice: { kind: 'refused', fileName: '', sentence } })
      return
    }
    if (this.state.phase === 'broken') return
    if (drawingKind(file.name)) {
      // A drawing is held against the font that is open: it takes nobody's place on the stage.
      await this.started
      this.set({ bringing: { kind: 'file', file } })
      this.reviewing.set({ room: 'redraw' })
      return
    }
    await this.open(file, sentence)
  }

  /** Opens a file as a font; what to say of it once it is open. */
  async open(file: File, sentence: string | null = null): Promise<void> {
    this.#opening += 1
    const opening = this.#opening
    this.set({ opening: file.name, notice: null })
    try {
      const [buffer] = await Promise.all([file.arrayBuffer(), this.started])
      const bytes = new Uint8Array(buffer)
      const plain = isUnusual(bytes) ? await this.#unpack(bytes, file.name) : { bytes, parcel: null }
      if (opening !== this.#opening || !plain) return
      this.#open({ ...plain, fileName: file.name, sample: false })
      const told = [sentence, ...(plain.parcel?.report.notes ?? [])].filter((one) => one !== null)
      if (told.length > 0) this.set({ notice: { kind: 'told', fileName: '', sentence: told.join(' ') } })
    } catch (error) {
      // A lab that was given up has said so.
      if (opening !== this.#opening || this.state.phase === 'broken') return
      this.set({ notice: { kind: 'refused', fileName: file.name, sentence: sentenceOf(error) } })
    } finally {
      if (opening === this.#opening) this.set({ opening: null })
    }
  }

  async #unpack(bytes: Uint8Array<ArrayBuffer>, fileName: string) {
    const { Handling } = await import('./formats/handling')
    this.handling ??= new Handling(this)
    return this.handling.open(bytes, fileName)
  }

  /** Puts another cut of the open file on the stage; one that rests is judged and measured too. */
  recut(bytes: Uint8Array<ArrayBuffer>, parcel: Parcel, resting: boolean): void {
    const { font } = this.state
    if (!this.#source || !font) return
    const { fileName } = this.#source
    if (resting) this.#open({ bytes, fileName, sample: false, parcel })
    else {
      this.#lab.tell((lab) => {
        const shown = { ...font, report: noted(lab.openFont(bytes, fileName), parcel) }
        this.#source = { bytes, fileName, sample: false, parcel }
        this.#letters.clear()
        this.#points = []
        const judgement = { kind: 'judging' } as const
        this.set({ font: shown, parcel, judgement, rules: null, stage: lab.state() })
        this.onChange()
      })
    }
  }

  apply(command: Command): void {
    this.#lab.tell((lab) => {
      this.set({ stage: lab.run(command), remark: null })
      // Whoever looks at a finding speaks of it, until they say otherwise.
      if (command.type === 'standFinding') this.reviewing.set({ about: 'finding' })
      this.onChange()
    })
  }

  /** A pointer on the canvas; the CSS cursor that it should have there. */
  pointer(input: PointerInput): string {
    this.#lab.tell((lab) => this.#moved(lab.pointer(input), input.phase === 'move'))
    return this.#lab.ask((lab) => lab.cursor()) ?? 'default'
  }

  /** A turn of the wheel at a place of the canvas, in CSS pixels. */
  wheel(turn: Turn, x: number, y: number): void {
    this.#lab.tell((lab) => this.#moved(lab.wheel(turn.dx, turn.dy, x, y, turn.zooms)))
  }

  /** Draws the stage anew, and reads its state then, if the time for that has come. */
  #moved(changed: boolean, dragged = false): void {
    if (!changed) return
    this.#figures.changed(dragged)
    this.onChange()
  }

  /** Every measure of one letter; null where the font has no such glyph. */
  letter(glyph: number): LetterReport | null {
    const known = this.#letters.get(glyph)
    if (known !== undefined) return known
    const report = this.#lab.ask((lab) => lab.letter(glyph))
    this.#letters.set(glyph, report)
    return report
  }

  stageWidth(): number {
    return this.#lab.width
  }

  setTheme(theme: Theme): void {
    this.#lab.setTheme(theme)
    this.onChange()
  }

  resize(width: number, height: number, ratio: number): void {
    this.#lab.resize(width, height, ratio)
    this.#moved(true)
  }

  /** Draws the stage; whether another frame would show more, since not all of it has been measured. */
  draw(): boolean {
    let unfinished = false
    this.#lab.tell((lab) => {
      lab.draw()
      unfinished = lab.isUnfinished()
      if (this.#figures.isDue()) this.set({ stage: lab.state() })
    })
    if (this.#awaited) void this.#readOn()
    return unfinished
  }

  /** A font's first picture is there: what comes behind it, and behind all that the page is asked meanwhile. */
  async #readOn(): Promise<void> {
    this.#awaited = false
    performance.mark('font-drawn')
    const source = this.#source
    for (const step of [
      () => this.turns.pictured(),
      () => void this.#behind(),
      () => this.#lab.tell((lab) => lab.measureAlphabet()),
      () => this.#behind(),
      () => this.#judge(),
      () => this.#readRules(),
      () => this.surveying.all(),
    ]) {
      await idleTask()
      // Another font that was opened meanwhile is read on by itself.
      if (this.#source !== source) return
      await step()
    }
  }

  /** Works on what the stage lacks, for some milliseconds. */
  work(): void {
    this.#lab.tell((lab) => lab.work())
  }

  async pickFile(): Promise<void> {
    const arrival = await pick(document)
    if (arrival) await this.arrive(arrival)
  }

  async openSample(): Promise<void> {
    this.#opening += 1
    const opening = this.#opening
    this.set({ notice: null })
    const source = await fetchSample()
    if (opening === this.#opening) this.#openOwn(source)
  }

  #openOwn(source: Source | null): void {
    if (source) this.#open(source)
    else this.set({ notice: { kind: 'refused', fileName: '', sentence: NO_SAMPLE } })
  }

  #fit(spacing: Spacing, fitting: Fitting): void {
    this.#lab.tell((lab) => {
      lab.setFitting(spacing, fitting)
      this.set({ stage: lab.state() })
      this.onChange()
    })
  }

  /** What stands out of the font, as far as its letters have been measured. */
  #judge(): void {
    // A lab that is mended after it could not judge is not asked once more.
    if (!this.#source || this.#judging) return
    this.#judging = true
    try {
      const report = this.#lab.demand((lab) => lab.judge([...this.state.meant], this.#points))
      if (!report) return
      this.turns.tookLong()
      this.set({ judgement: { kind: 'done', report } })
    } catch (error) {
      const sentence = isRefusal(error) ? error.sentence : UNJUDGED
      this.set({ judgement: { kind: 'failed', sentence } })
      this.#tellDesk()
    } finally {
      this.#judging = false
    }
  }

  /** Judges once more what has been judged; a font that was opened meanwhile waits for its own time. */
  #judgeAnew(): void {
    if (this.state.judgement.kind === 'done') this.#judge()
  }

  /** How the font keeps the optical rules. */
  #readRules(): void {
    if (this.state.judgement.kind === 'done') this.set({ rules: this.#lab.ask((lab) => lab.rules()) })
  }

  /** Judges the drawing too, once every letter of the alphabet has been measured. */
  #countPoints(): void {
    const { judgement } = this.state
    if (this.#points.length > 0 || judgement.kind !== 'done') return
    const points = pointsOf(judgement.report, this.#letters)
    if (!points) return
    this.#points = points
    if (points.length > 0) this.#judge()
    this.#tellDesk()
  }

  /** Asks the desk, once, what has been said of the open font. */
  #tellDesk(): void {
    const { font } = this.state
    if (this.#told || !this.#source || !font) return
    const fingerprint = this.#lab.ask((lab) => lab.fingerprint())
    if (fingerprint === null) return
    this.#told = true
    const { bytes, fileName } = this.#source
    void this.reviewing.opened({
      fingerprint,
      fileName,
      bytes: bytes.buffer,
      report: font.report,
    })
  }

  /** What the open font holds; null before there is one. */
  contents(): ContentsReport | null {
    return this.#lab.ask((lab) => lab.contents())
  }

  /** The letters of a text that the open font has, as drawings. */
  drawings(text: string): LetterDrawing[] {
    return this.#lab.ask((lab) => lab.drawings(text)) ?? []
  }

  /** Says that a finding is meant so in this font, or takes that back. */
  async setMeant({ letter, cause }: FindingReport, meant: boolean): Promise<void> {
    this.reviewing.say(
      { letter, cause },
      { verdict: meant ? 'meant' : null },
      meant ? 'Meant so' : 'No verdict',
    )
    // The others are judged anew in the turn that this one ends.
    await null
  }

  /** Tells the stage which findings to number under their letters, where those have changed. */
  #markFindings(before: PageState): void {
    const { judgement, allowance } = this.state
    if (judgement === before.judgement && allowance === before.allowance) return
    const listed = standing(judgement, allowance)
    this.#lab.tell((lab) => lab.markFindings(listed.map(({ glyph, cause }) => ({ glyph, cause }))))
    this.onChange()
  }

  /** The open font's bytes, for modules that open it themselves; null before there is one. */
  fontBytes(): Uint8Array<ArrayBuffer> | null {
    return this.#source?.bytes ?? null
  }

  positionBack(): void {
    this.handling?.back()
  }

  focus(on: Focus): void {
    this.focusers[on]?.()
  }

  #open(source: Source): void {
    const opened = this.#lab.demand((lab) => ({
      report: lab.openFont(source.bytes, source.fileName),
      stage: lab.state(),
    }))
    if (!opened) return
    this.surveying.forget()
    this.#source = source
    this.#letters.clear()
    this.#points = []
    this.#told = false
    this.reviewing.forget()
    this.turns.awaitPicture()
    this.#faces += 1
    const face = `counterpoise-${this.#faces}`
    this.set({
      font: {
        report: noted(opened.report, source.parcel),
        fileName: source.fileName,
        face: null,
        sample: source.sample,
      },
      parcel: source.parcel ?? null,
      judgement: { kind: 'judging' },
      rules: null,
      stage: opened.stage,
      ...(source.sample ? {} : { firstVisit: false }),
    })
    this.#awaited = true
    this.onChange()
    void this.#text.readLine()
    void this.#show(source.bytes, face)
  }

  async #show(bytes: Uint8Array<ArrayBuffer>, family: string): Promise<void> {
    const shown = await showFace(bytes, family, () => this.#source?.bytes === bytes)
    const { font } = this.state
    if (shown && font) this.set({ font: { ...font, face: family } })
  }

  /** Opens on a new lab the font that was open on one that has crashed, with its line. */
  #restore(lab: Lab): void {
    this.#text.forget()
    if (!this.#source) return
    const text = this.state.stage?.text
    lab.openFont(this.#source.bytes, this.#source.fileName)
    if (text) lab.run({ type: 'setText', text })
    this.set({ stage: lab.state() })
    void this.#text.readLine()
    // Last: a crash of this too has yet another lab take the new one's place.
    this.#judge()
  }

  /** Nothing can be drawn any more. */
  #broken(): void {
    const sentence = this.state.phase === 'starting' ? BROKEN : GONE
    this.set({ phase: 'broken', opening: null, notice: { kind: 'refused', fileName: '', sentence } })
    this.turns.pictured()
  }
}

export const session = new Session()
