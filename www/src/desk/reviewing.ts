/** The reviewer at work: words about the open font, kept as they are said. */

import { causeName } from '../findings'
import type { Command } from '../generated/Command'
import type { ContentsReport } from '../generated/ContentsReport'
import type { LetterDrawing } from '../generated/LetterDrawing'
import type { PageState } from '../state'
import { takeOver } from './meant'
import { changedOnly } from './merge'
import { nothingSaid, type ReviewState, reviewOf, type Subject, wordOn } from './review-state'
import { type Mark, now, type ReviewRecord, reviewId, type Said, type Verdict } from './schema'
import { type Intake, Shelving } from './shelving'
import type { AnyChange, Change } from './store'
import { DeskStore } from './store'
import { subject } from './subject'
import { markName, verdictName } from './words'

/** What the desk needs of the page. */
export interface Bench {
  readonly state: PageState
  set(change: Partial<PageState>): void
  apply(command: Command): void
  contents(): ContentsReport | null
  drawings(text: string): LetterDrawing[]
  /** CSS pixels. */
  stageWidth(): number
}

/** The open file, once it has been judged. */
export type Opened = Omit<Intake, 'findings'>

/** The letters that a word is taken to be about where nothing is planned. */
export const ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789'

const UNKEPT =
  'This browser keeps nothing for this page (private windows often do not). What you say here is lost with the page: save the desk to a file from the shelf.'
const FULL =
  'The browser did not keep that: its disk is full, or this site may use no more of it. Save the desk to a file from the shelf.'

/** A line of more letters than this is not read at the size at which it fits the stage. */
const FEW = 12
/** CSS pixels an em at which a letter can be judged among its neighbours. */
const NEAR = 150

const NOTE = 'Note'
/** Whoever stops typing for longer has ended a thought; milliseconds. */
const PAUSE = 10_000

interface Step {
  readonly name: string
  readonly subject: Subject
  readonly before: Said
  readonly after: Said
}

const NOTHING: Said = { verdict: null, note: '', marks: [], drawing: '' }

export class Reviewing {
  store: DeskStore | null = null
  readonly shelving: Shelving
  readonly ready: Promise<void>

  #done: Step[] = []
  #undone: Step[] = []
  #ready: () => void = () => {}
  /** One write after another: a word said twice in a breath is kept in that order. */
  #queue: Promise<unknown> = Promise.resolve()
  /** Counts the files that have lain on the stage. */
  #lying = 0
  #persistent = false
  #typed = 0

  constructor(private readonly bench: Bench) {
    this.ready = new Promise((resolve) => {
      this.#ready = resolve
    })
    this.shelving = new Shelving(this, bench)
  }

  get state(): ReviewState {
    return this.bench.state.review
  }

  set(change: Partial<ReviewState>): void {
    this.bench.set({ review: { ...this.state, ...change } })
  }

  /** Opens the store. A browser that keeps nothing is told of, and no more. */
  async start(storage: Pick<Storage, 'getItem' | 'removeItem'> | undefined): Promise<void> {
    try {
      this.store = await DeskStore.open()
      this.store.heard((font) => void this.#heard(font))
      await takeOver(storage, this.store)
      this.set({ kept: 'kept' })
    } catch (error) {
      console.warn(error)
      this.set({ kept: 'unkept', failed: UNKEPT })
    }
    this.#ready()
  }

  /** Another file lies on the stage: what was said of it before is brought out. */
  forget(): void {
    this.#lying += 1
    this.shelving.forget()
    this.#done = []
    this.#undone = []
    this.bench.set({ meant: [], review: { ...this.state, ...nothingSaid } })
  }

  async opened(file: Opened): Promise<void> {
    const lying = this.#lying
    await this.ready
    if (lying === this.#lying) await this.shelving.opened(file)
  }

  /** Says what the word on the subject is; a word that is given twice is taken back. */
  give(verdict: Verdict, on = subject(this.bench.state)): void {
    if (!on) return
    const next = wordOn(this.state, on) === verdict ? null : verdict
    this.say(on, { verdict: next }, next === null ? 'No verdict' : verdictName[next])
  }

  note(on: Subject, note: string): void {
    if ((reviewOf(this.state.reviews, on)?.note ?? '') !== note) this.say(on, { note }, NOTE)
  }

  /** Puts a mark on a letter, where its owner can find and move it. */
  addMark(on: Subject, kind: Mark['kind']): void {
    const report = this.bench.state.font?.report
    if (!report) return
    const item = this.bench.state.stage?.items.find((one) => one.character === on.letter)
    const height = report.guides.find((one) => one.kind === 'xHeight')?.drawn ?? 0.5 * report.unitsPerEm
    const [x, y] = [(item?.advance ?? 0.5 * report.unitsPerEm) / 2, height / 2]
    const reach = 0.15 * report.unitsPerEm
    const from: [number, number] =
      kind === 'circle' ? [x, y] : [Math.round(x - 2 * reach), Math.round(y + 2 * reach)]
    const to: [number, number] = kind === 'circle' ? [Math.round(x + reach), y] : [x, y]
    const marks = reviewOf(this.state.reviews, on)?.marks ?? []
    this.marks(on, [...marks, { kind, from, to }], markName[kind])
  }

  marks(on: Subject, marks: readonly Mark[], what: string): void {
    this.say(on, { marks: [...marks] }, what)
  }

  say(on: Subject, change: Partial<Said>, what: string): void {
    const before = this.#said(on)
    const drawing = this.state.letters[on.letter] ?? ''
    const after = { ...before, ...change, drawing }
    const name = `${nameOf(on)}: ${what.toLowerCase()}`
    const last = this.#done.at(-1)
    // A note is written through while it is typed, and taken back as one.
    const typed = what === NOTE && last?.name === name && Date.now() - this.#typed < PAUSE
    if (what === NOTE) this.#typed = Date.now()
    if (typed) this.#done.pop()
    this.#done.push({ name, subject: on, before: typed ? last.before : before, after })
    this.#undone = []
    this.#put(on, before, after, name)
  }

  takeBack(): void {
    const step = this.#done.pop()
    if (!step) return
    this.#undone.push(step)
    this.#put(step.subject, step.after, step.before, `Taken back: ${step.name}`)
  }

  giveAgain(): void {
    const step = this.#undone.pop()
    if (!step) return
    this.#done.push(step)
    this.#put(step.subject, step.before, step.after, step.name)
  }

  /** Stands the whole alphabet on the stage, its first letter without a word chosen. */
  walk(): void {
    const letters = this.letters()
    if (letters === '') return
    this.bench.apply({ type: 'setText', text: letters })
    const all = [...letters]
    const first = Math.max(
      0,
      all.findIndex((letter) => wordOn(this.state, { letter, cause: null }) === null),
    )
    for (let at = 0; at <= first; at += 1) this.bench.apply({ type: 'selectNext' })
    this.set({ about: 'letter' })
    this.follow()
  }

  /** Brings the chosen letter near enough to judge, and into the stage's middle where it has left it. */
  follow(): void {
    const near = this.bench.state.stage
    if (near && near.items.length > FEW && near.view.em < NEAR) {
      this.bench.apply({ type: 'zoom', factor: NEAR / near.view.em })
    }
    const stage = this.bench.state.stage
    const item = stage?.items.find((one) => one.selected)
    if (!stage || !item) return
    const width = this.bench.stageWidth()
    const at = stage.view.origin[0] + stage.view.scale * (item.x + item.advance / 2)
    if (Math.abs(at - width / 2) > width / 3) this.bench.apply({ type: 'pan', dx: width / 2 - at, dy: 0 })
  }

  /** The drawn letters of the plan, or of the alphabet where there is none. */
  letters(): string {
    const planned = this.state.shelved?.planned || ALPHABET
    return [...planned].filter((letter) => this.state.letters[letter] !== undefined).join('')
  }

  /** Writes after all that was asked before. True once it is on the disk. */
  write(work: (store: DeskStore) => Promise<unknown>): Promise<boolean> {
    const store = this.store
    if (!store) return Promise.resolve(false)
    this.set({ writing: this.state.writing + 1 })
    const result = this.#queue
      .then(() => work(store))
      .then(
        () => {
          this.set({ failed: null })
          return true
        },
        (error: unknown) => {
          console.error(error)
          this.set({ failed: FULL })
          return false
        },
      )
      .finally(() => this.set({ writing: this.state.writing - 1 }))
    this.#queue = result
    void this.#persist()
    return result
  }

  /** Takes what was said of the font, and what of it is meant so. */
  take(reviews: readonly ReviewRecord[], more: Partial<ReviewState> = {}): void {
    const meant = reviews
      .filter((one) => one.verdict === 'meant')
      .map(({ letter, cause }) => ({ letter, cause }))
    const same = JSON.stringify(meant) === JSON.stringify(this.bench.state.meant)
    this.bench.set({
      ...(same ? {} : { meant }),
      review: { ...this.state, ...more, reviews },
    })
  }

  #said(on: Subject): Said {
    const known = reviewOf(this.state.reviews, on)
    if (!known) return NOTHING
    const { verdict, note, marks, drawing } = known
    return { verdict, note, marks, drawing }
  }

  #put(on: Subject, before: Said, after: Said, said: string): void {
    const { font, reviews } = this.state
    if (font === '') return
    const id = reviewId(font, on.letter, on.cause)
    const fresh = (current: ReviewRecord | undefined): ReturnType<Change<ReviewRecord>> => {
      const base = current ?? { id, font, ...on, ...NOTHING }
      return { ...base, ...changedOnly(base, before, after) }
    }
    const known = reviewOf(reviews, on)
    const local = { ...fresh(known), changed: now(), rev: (known?.rev ?? 0) + 1 } as ReviewRecord
    const all = known ? reviews.map((one) => (one === known ? local : one)) : [...reviews, local]
    this.take(all, { said, back: this.#done.at(-1)?.name ?? null, again: this.#undone.at(-1)?.name ?? null })
    const changes: AnyChange[] = [{ store: 'reviews', id, change: fresh }, ...this.shelving.retold()]
    void this.write((store) => store.changeAll(changes))
  }

  /** Another tab has said something of this font, or brought in a file of many. */
  async #heard(font: string): Promise<void> {
    this.set({ elsewhere: this.state.elsewhere + 1 })
    const own = this.state.font
    if (!this.store || own === '' || (font !== own && font !== '')) return
    await this.#queue
    const [reviews, shelved] = await Promise.all([this.store.reviewsOf(own), this.store.font(own)])
    if (this.state.font !== own) return
    this.take(reviews, { shelved: shelved?.removed === null ? shelved : null })
  }

  /** Asks once, with the first word that is worth keeping. */
  async #persist(): Promise<void> {
    if (this.#persistent) return
    this.#persistent = true
    try {
      await navigator.storage?.persist?.()
    } catch {
      // It may still be kept; the shelf says whether.
    }
  }
}

/** "R", or "R, width" of a finding. */
export const nameOf = ({ letter, cause }: Subject): string =>
  cause === null ? letter : `${letter}, ${causeName[cause]}`
