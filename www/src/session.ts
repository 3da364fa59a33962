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
import { keepChanged, readSettings, storage } from './keep'
import { Lab, loadLab } from './lab'
import { once } from './once'
import type { Turn } from './pointers'
import { pointsOf } from './points'
import { drawingKind } from './redraw/kinds'
import { isRefusal } from './refusal'
import { measuresName, save } from './save'
import { BROKEN, NO_SAMPLE, STUMBLED, sentenceOf, TOO_LARGE, UNJUDGED } from './sentences'
import { fetchSample, makeHelper, noted, type Source, showFace } from './source'
import { fittingOf, spacedCharacters, toleranceOf } from './spacing'
import { initialState, type PageState, Store } from './state'
import { idleTask, nextTask } from './tasks'
import { testLine } from './test-line'
import { TextSetting } from './text-setting'
import { wear } from './theme'
import { Turns } from './turns'
import { Measurer, type SpacingState, type SurveyState } from './worker/measurer'

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

  #lab: Lab | undefined
  #canvas: HTMLCanvasElement | undefined
  #size: readonly [number, number, number] = [1, 1, 1]
  #theme: Theme | undefined
  #source: Source | undefined
  #letters = new Map<number, LetterReport | null>()
  #opening = 0
  #faces = 0
  #begin: () => void = () => {}
  /** Fulfilled once fonts can be opened. */
  readonly started = new Promise<void>((resolve) => {
    this.#begin = resolve
  })
  readonly #measurer = new Measurer(makeHelper, {
    changed: (survey) => this.#surveyed(survey),
    spaced: (spacing) => this.#spaced(spacing),
    letters: (letters) => {
      for (const letter of letters) this.#letters.set(letter.glyph, letter)
      this.#countPoints()
    },
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
    file: () => this.#lab?.file() ?? new Uint8Array(),
    kern: (pairs) => this.#try((lab) => this.#fit(lab, 'kerned', { sides: [], pairs })),
    read: (reader) =>
      this.#try((lab) => {
        lab.setReader(reader)
        this.#moved(true)
      }),
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
      if (state.meant !== before.meant && state.judgement.kind === 'done') queueMicrotask(() => this.#judge())
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
    this.#canvas = canvas
    const opening = this.#opening
    this.set({ opening: 'the sample' })
    void this.reviewing.start(storage())
    try {
      const sample = fetchSample()
      const { module, learned } = await loadLab()
      this.#build(canvas)
      this.#behind = once(() => {
        this.#measurer.start(module)
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
      console.error(error)
      this.#break()
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
      if (opening !== this.#opening) return
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
      this.#try((lab) => {
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
    this.#try((lab) => {
      this.set({ stage: lab.run(command), remark: null })
      // Whoever looks at a finding speaks of it, until they say otherwise.
      if (command.type === 'standFinding') this.reviewing.set({ about: 'finding' })
      this.onChange()
    })
  }

  /** A pointer on the canvas; the CSS cursor that it should have there. */
  pointer(input: PointerInput): string {
    this.#try((lab) => this.#moved(lab.pointer(input), input.phase === 'move'))
    return this.#lab?.cursor() ?? 'default'
  }

  /** A turn of the wheel at a place of the canvas, in CSS pixels. */
  wheel(turn: Turn, x: number, y: number): void {
    this.#try((lab) => this.#moved(lab.wheel(turn.dx, turn.dy, x, y, turn.zooms)))
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
    const report = this.#ask((lab) => lab.letter(glyph))
    this.#letters.set(glyph, report)
    return report
  }

  stageWidth(): number {
    return this.#size[0]
  }

  setTheme(theme: Theme): void {
    this.#theme = theme
    this.#lab?.setTheme(theme)
    this.onChange()
  }

  resize(width: number, height: number, ratio: number): void {
    this.#size = [width, height, ratio]
    this.#try((lab) => {
      lab.resize(width, height, ratio)
      this.#moved(true)
    })
  }

  /** Draws the stage; whether another frame would show more, since not all of it has been measured. */
  draw(): boolean {
    let unfinished = false
    this.#try((lab) => {
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
      () => this.#try((lab) => lab.measureAlphabet()),
      () => this.#behind(),
      () => this.#judge(),
      () => this.#readRules(),
      () => this.measureAll(),
    ]) {
      await idleTask()
      // Another font that was opened meanwhile is read on by itself.
      if (this.#source !== source) return
      await step()
    }
  }

  /** Works on what the stage lacks, for some milliseconds. */
  work(): void {
    this.#try((lab) => lab.work())
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

  measureAll(): void {
    const source = this.#source
    if (!source) return
    const { stage, judgement } = this.state
    const inSight = stage?.items.map((item) => item.glyph).filter((glyph) => glyph != null) ?? []
    const alphabet = judgement.kind === 'done' ? judgement.report.letters.map((letter) => letter.glyph) : []
    const glyphs = new Set([...inSight, ...alphabet])
    this.#measurer.survey(source.bytes, source.fileName, Uint16Array.from(glyphs))
  }

  stopMeasuring(): void {
    this.#measurer.cancel()
  }

  saveMeasures(): void {
    this.set({ saving: true })
    const { kind } = this.#measurer.state
    if (kind === 'done') this.#surveyed(this.#measurer.state)
    else if (kind !== 'measuring') this.measureAll()
  }

  /** Takes in how far the whole font is measured; saves it if that was asked for. */
  #surveyed(survey: SurveyState): void {
    const { saving, font } = this.state
    const still = saving && survey.kind === 'measuring'
    this.set({ survey, saving: still })
    // The desk waits for the points of the letters, but not for ever.
    if (survey.kind !== 'measuring' && survey.kind !== 'none') this.#tellDesk()
    if (survey.kind === 'done' && this.state.spacing.kind === 'none') this.readSpacing()
    if (!saving || survey.kind !== 'done') return
    if (survey.document && font) save(document, survey.document, measuresName(font.fileName))
    else this.set({ notice: { kind: 'refused', fileName: font?.fileName ?? '', sentence: TOO_LARGE } })
  }

  /** Reads the spacing of the alphabet and of what stands beside it in text. */
  readSpacing(): void {
    const { judgement, font } = this.state
    if (!this.#source || !font || judgement.kind !== 'done') return
    const alphabet = judgement.report.letters.map((letter) => letter.letter)
    const tolerance = toleranceOf(font.report.unitsPerEm)
    this.#measurer.space(this.#source.bytes, spacedCharacters(alphabet), tolerance)
  }

  #spaced(spacing: SpacingState): void {
    this.set({ spacing })
    if (spacing.kind !== 'done') return
    const fitting = fittingOf(spacing.report, spacing.suggestion)
    this.#try((lab) => this.#fit(lab, 'suggested', fitting))
  }

  #fit(lab: Lab, spacing: Spacing, fitting: Fitting): void {
    lab.setFitting(spacing, fitting)
    this.set({ stage: lab.state() })
    this.onChange()
  }

  /** Sets words that hold the pairs most in need; the list of words is fetched when it is first asked for. */
  async setTestWords(): Promise<void> {
    const { spacing } = this.state
    if (spacing.kind !== 'done') return
    const { text, remark } = await testLine(spacing.report, spacing.suggestion)
    if (text === null) this.set({ remark })
    else this.apply({ type: 'setText', text })
  }

  /** What stands out of the font, as far as its letters have been measured. */
  #judge(): void {
    const lab = this.#lab
    // A lab that is mended after it could not judge is not asked once more.
    if (!lab || !this.#source || this.#judging) return
    this.#judging = true
    try {
      const report = this.#trapped(() => lab.judge([...this.state.meant], this.#points))
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

  /** How the font keeps the optical rules. */
  #readRules(): void {
    if (this.state.judgement.kind === 'done') this.set({ rules: this.#ask((lab) => lab.rules()) })
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
    if (this.#told || !this.#lab || !this.#source || !font) return
    this.#told = true
    const { bytes, fileName } = this.#source
    void this.reviewing.opened({
      fingerprint: this.#lab.fingerprint(),
      fileName,
      bytes: bytes.buffer,
      report: font.report,
    })
  }

  /** What the open font holds; null before there is one. */
  contents(): ContentsReport | null {
    return this.#ask((lab) => lab.contents())
  }

  /** The letters of a text that the open font has, as drawings. */
  drawings(text: string): LetterDrawing[] {
    return this.#ask((lab) => lab.drawings(text)) ?? []
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
  #markFindings(before?: PageState): void {
    const { judgement, allowance } = this.state
    if (before && judgement === before.judgement && allowance === before.allowance) return
    const listed = standing(judgement, allowance)
    this.#lab?.markFindings(listed.map(({ glyph, cause }) => ({ glyph, cause })))
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

  #build(canvas: HTMLCanvasElement): void {
    const lab = new Lab()
    lab.attach(canvas)
    if (this.#theme) lab.setTheme(this.#theme)
    lab.resize(...this.#size)
    this.#lab = lab
    this.#text.forget()
  }

  #open(source: Source): void {
    const lab = this.#lab
    if (!lab) return
    const report = this.#trapped(() => lab.openFont(source.bytes, source.fileName))
    this.#measurer.forget()
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
        report: noted(report, source.parcel),
        fileName: source.fileName,
        face: null,
        sample: source.sample,
      },
      parcel: source.parcel ?? null,
      judgement: { kind: 'judging' },
      rules: null,
      stage: lab.state(),
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

  /** What the lab answers; null where it cannot. After a crash it is mended, and asked once more. */
  #ask<T>(ask: (lab: Lab) => T, again = true): T | null {
    if (!this.#lab) return null
    try {
      return ask(this.#lab)
    } catch (error) {
      if (isRefusal(error)) return null
      this.#mend(error)
      return again ? this.#ask(ask, false) : null
    }
  }

  /** Asks the lab. What it will not do is told; after a crash it is mended. */
  #try(ask: (lab: Lab) => void): void {
    if (!this.#lab) return
    try {
      ask(this.#lab)
    } catch (error) {
      if (isRefusal(error)) this.set({ remark: error.sentence })
      else this.#mend(error)
    }
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
        this.#lab?.openFont(this.#source.bytes, this.#source.fileName)
        if (text) this.#lab?.run({ type: 'setText', text })
        void this.#text.readLine()
        this.#judge()
        this.#markFindings()
        this.set({ stage: this.#lab?.state() ?? null })
      }
      this.set({ notice: { kind: 'refused', fileName: '', sentence: STUMBLED } })
    } catch (again) {
      console.error(again)
      this.#break()
    }
  }

  /** Nothing can be drawn any more. */
  #break(): void {
    this.#lab = undefined
    this.set({ phase: 'broken', opening: null, notice: { kind: 'refused', fileName: '', sentence: BROKEN } })
    this.turns.pictured()
  }
}

export const session = new Session()
