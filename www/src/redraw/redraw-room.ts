import { css, html, LitElement, nothing } from 'lit'
import { customElement, state } from 'lit/decorators.js'
import { iconStyle } from '../components/icons'
import { PartOf } from '../components/part-of'
import { fontEnding } from '../files'
import { standing } from '../findings'
import { isPacked } from '../formats/unusual'
import type { CompareReport } from '../generated/CompareReport'
import type { FindingReport } from '../generated/FindingReport'
import type { LooseLetter } from '../generated/LooseLetter'
import { isRefusal } from '../refusal'
import { session } from '../session'
import { base, button } from '../styles/shared'
import './before-after'
import { type Bringing, type Brought, guessNames, read, release, TooLarge } from './brought'
import { drawingEndings, isSvgText } from './kinds'
import { looseFont, openRedraw, type Redraw } from './module'
import './place-drawing'
import './place-scan'
import { placeStyle } from './place-style'
import type { Placing } from './placer'
import { type Line, linesOf } from './sheet-lines'
import './try-change'

type Task = 'try' | 'new' | 'compare'

const tasks: readonly (readonly [Task, string])[] = [
  ['try', 'Try a change'],
  ['new', 'A new drawing'],
  ['compare', 'Before and after'],
]

const LOST = 'This part of the lab could not be fetched. Close it and try again, or load the page anew.'
const STUMBLED = 'The lab stumbled over that. What was here before is still here; try another file.'
const NOT_SVG = 'That text is no SVG drawing. Copy the drawing’s whole text, from <svg to </svg>.'

/** A new letter beside the font's own: brought, placed, held against the others, or tried before it is drawn. */
@customElement('redraw-room')
export class RedrawRoom extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    placeStyle,
    css`
      :host {
        gap: var(--gap-4);
        padding: var(--gap-4) var(--gap-5) var(--gap-6);
      }

      nav {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-2);
      }

      nav button {
        border-color: var(--edge);
      }

      nav button[aria-current="true"] {
        color: var(--paper);
        background: var(--ink);
        forced-color-adjust: none;
      }

      .bring {
        display: grid;
        gap: var(--gap-3);
        padding: var(--gap-4);
        border: var(--hair) dashed var(--edge);
        border-radius: var(--corner);
      }

      textarea {
        width: 100%;
        min-height: 5rem;
        padding: var(--gap-2);
        font: var(--type-1) / 1.4 ui-monospace, monospace;
      }

      .wait {
        color: var(--soft);
      }

      @media (width < 44rem) {
        :host {
          padding-inline: var(--gap-4);
        }
      }
    `,
  ]

  readonly #bringing = new PartOf(this, session.store, (page) => page.bringing)
  readonly #font = new PartOf(this, session.store, (page) => page.font)

  @state() private task: Task = 'try'
  @state() private redraw: Redraw | null = null
  @state() private trouble: string | null = null
  @state() private waiting = true
  @state() private brought: Brought | null = null
  @state() private report: CompareReport | null = null
  /** The font with the later one beside it: the open one, or an earlier revision that the open one is held against. */
  @state() private compared: Redraw | null = null
  @state() private earlier = ''
  @state() private later = ''

  #heard: Bringing | null = null
  #earlier: Redraw | null = null
  #about: { letter: string; width: number | null } = { letter: 'n', width: null }

  override connectedCallback(): void {
    super.connectedCallback()
    this.#about = aboutNow()
    void this.#open()
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    release(this.brought)
    this.compared = null
    this.#earlier?.free()
    this.redraw?.free()
    this.redraw = null
  }

  override updated(): void {
    const bringing = this.#bringing.value
    if (this.redraw && bringing !== null && bringing !== this.#heard) {
      this.#heard = bringing
      void this.#take(bringing)
    }
  }

  override render() {
    const { redraw } = this
    if (this.trouble && !redraw) return html`<p class="alert" role="alert">${this.trouble}</p>`
    if (!redraw) return html`<p class="wait" role="status">Opening the font for the redraw…</p>`
    return html`
      <nav aria-label="The redraw">
        ${tasks.map(
          ([task, name]) => html`<button
            type="button"
            aria-current=${task === this.task}
            aria-disabled=${task === 'compare' && !this.report}
            @click=${() => this.#go(task)}
          >${name}</button>`,
        )}
      </nav>
      ${this.trouble ? html`<p class="alert" role="alert">${this.trouble}</p>` : nothing}
      ${this.waiting ? html`<p class="wait" role="status">Reading…</p>` : this.#content(redraw)}`
  }

  #content(redraw: Redraw) {
    const lines = this.#lines()
    const report = this.#font.value?.report
    if (this.task === 'try') {
      return html`<try-change
        .redraw=${redraw}
        .lines=${lines}
        .unitsPerEm=${report?.unitsPerEm ?? 1000}
        .family=${report?.family ?? ''}
        .character=${this.#about.letter}
        .suggestedWidth=${this.#about.width}
      ></try-change>`
    }
    if (this.task === 'compare' && this.report && this.compared) {
      return html`<before-after
          .redraw=${this.compared}
          .report=${this.report}
          .lines=${lines}
          .text=${this.#text(this.report)}
          .earlier=${this.earlier}
          .later=${this.later}
        ></before-after>
        ${
          this.compared !== redraw
            ? nothing
            : html`<div class="row">
                <button class="framed main" type="button" @click=${this.#stand}>Stand the later one on the stage</button>
              </div>`
        }`
    }
    return html`${this.#place(redraw, lines)} ${this.#bring()}`
  }

  #place(redraw: Redraw, lines: readonly Line[]) {
    const { brought } = this
    if (brought?.kind === 'drawing') {
      return html`<place-drawing
        .report=${brought.report}
        .lines=${lines.filter((line) => line.y > 0)}
        .names=${guessNames(brought.name, brought.report.letters.length)}
        @placed=${(event: CustomEvent) => this.#placed(event.detail.how, event.detail.placing)}
      ></place-drawing>`
    }
    if (brought?.kind === 'scan') {
      return html`<place-scan
        .scan=${brought.scan}
        .report=${brought.report}
        .redraw=${redraw}
        .lines=${lines.filter((line) => line.y > 0)}
        .names=${guessNames(brought.name, brought.report.letters.length)}
        @straighten=${(event: CustomEvent) => this.#straighten(event.detail)}
        @placed=${(event: CustomEvent) => this.#placed(event.detail.how, event.detail.placing)}
      ></place-scan>`
    }
    if (brought?.kind === 'letters') {
      const { letters, family, notes } = brought.loose
      return html`<div class="bring">
        <p>${family ? `${family}: ` : ''}${letters.length === 1 ? 'one letter' : `${letters.length} letters`} in ${brought.name}.</p>
        ${notes.map((note) => html`<p class="note">${note}</p>`)}
        <div class="row">
          <button class="framed main" type="button" @click=${() => this.#letters('against')}>Hold against the font</button>
          <button class="framed" type="button" @click=${() => this.#letters('alone')}>Open as a font of its own</button>
        </div>
      </div>`
    }
    return nothing
  }

  #bring() {
    return html`<div class="bring">
      <p>Bring a new drawing: an SVG file with one letter or a row of letters, a glyph file or a zipped folder of them (.glif, .ufo), or a scan (PNG, JPEG). Another revision of the font, as a font file, is held against this one.</p>
      <div class="row">
        <label>A file
          <input type="file" accept=${`${drawingEndings},.otf,.ttf,.otc,.ttc,.woff,.woff2`} @change=${this.#pick} />
        </label>
      </div>
      <label>Or paste a drawing’s SVG text
        <textarea spellcheck="false" autocomplete="off" @input=${this.#paste}></textarea>
      </label>
    </div>`
  }

  #lines(): Line[] {
    const report = this.#font.value?.report
    return report ? linesOf(report.guides, report.unitsPerEm) : []
  }

  #go(task: Task): void {
    if (task === 'compare' && !this.report) return
    this.task = task
    this.trouble = null
  }

  /** The stage's own line if it shows what changed, else what changed among letters that everyone knows. */
  #text(report: CompareReport): string {
    const line = session.state.stage?.text ?? ''
    const changed = [...report.changed.map((one) => one.new), ...report.added]
      .flatMap(({ character }) => (character?.trim() ? [character] : []))
      .slice(0, 12)
    if (changed.some((one) => line.includes(one))) return line
    return changed.map((one) => (one === one.toUpperCase() ? `H${one}O` : `n${one}o`)).join('') || line
  }

  async #open(): Promise<void> {
    const bytes = session.fontBytes()
    this.waiting = true
    try {
      if (!bytes) throw new Error('no font is open')
      this.redraw = await openRedraw(bytes)
      this.trouble = null
    } catch (error) {
      console.warn(error)
      this.trouble = isRefusal(error) ? error.sentence : LOST
    }
    this.waiting = false
  }

  async #take(bringing: Bringing): Promise<void> {
    if (bringing.kind === 'file') {
      await this.#file(bringing.file)
      return
    }
    this.waiting = true
    try {
      const [earlier, bytes] = [await openRedraw(bringing.bytes), session.fontBytes()]
      this.#earlier?.free()
      this.#earlier = earlier
      if (bytes)
        this.#compare(bringing.name, this.#font.value?.fileName ?? '', earlier, () => earlier.bring(bytes))
    } catch (error) {
      this.#fail(error)
    }
    this.waiting = false
  }

  async #file(file: File): Promise<void> {
    this.waiting = true
    this.trouble = null
    try {
      if (fontEnding.test(file.name)) {
        const bytes = await this.#plain(file)
        if (bytes) this.#against(file.name, (redraw) => redraw.bring(bytes))
      } else {
        const brought = await read(file)
        release(this.brought)
        this.brought = brought
        this.task = 'new'
      }
    } catch (error) {
      this.#fail(error)
    }
    this.waiting = false
  }

  /** A font's bytes, unpacked where they are packed; nothing where none of its faces is wanted. */
  async #plain(file: File): Promise<Uint8Array | null> {
    const bytes = new Uint8Array(await file.arrayBuffer())
    if (!isPacked(bytes)) return bytes
    const { plainOf } = await import('../formats/plain')
    return plainOf(bytes, file.name, session.state.parcel)
  }

  #fail(error: unknown): void {
    this.task = this.report && this.task === 'compare' ? 'compare' : 'new'
    if (isRefusal(error) || error instanceof TooLarge) this.trouble = error.sentence
    else {
      console.warn(error)
      this.trouble = STUMBLED
    }
  }

  /** Holds something later against the open font. */
  #against(later: string, bring: (redraw: Redraw) => void): void {
    const { redraw } = this
    if (redraw) this.#compare(this.#font.value?.fileName ?? '', later, redraw, () => bring(redraw))
  }

  #compare(earlier: string, later: string, redraw: Redraw, bring: () => void): void {
    try {
      bring()
      this.compared = redraw
      this.report = redraw.compare([...session.state.meant], session.state.allowance)
      this.earlier = earlier
      this.later = later
      this.task = 'compare'
      this.trouble = null
    } catch (error) {
      this.#fail(error)
    }
  }

  #placed(how: 'against' | 'alone', placing: Placing): void {
    const { brought } = this
    if (brought?.kind !== 'drawing' && brought?.kind !== 'scan') return
    const { names, baseline, height, reaches } = placing
    const em = this.#font.value?.report.unitsPerEm ?? 1000
    try {
      if (brought.kind === 'scan') {
        this.#use(how, brought.scan.place(names, baseline, height, reaches), em, false)
      } else {
        const { letters } = brought.drawing.place(names, baseline, height, reaches, em)
        this.#use(how, letters, em, brought.report.unitsPerEm != null)
      }
    } catch (error) {
      this.#fail(error)
    }
  }

  #letters(how: 'against' | 'alone'): void {
    const { brought } = this
    if (brought?.kind !== 'letters') return
    const { letters, unitsPerEm, family } = brought.loose
    const em = this.#font.value?.report.unitsPerEm ?? 1000
    try {
      // A glyph file does not say its units: they are the font's.
      if (unitsPerEm == null || unitsPerEm === em) this.#use(how, letters, em, true, family ?? '')
      else if (how === 'alone') this.#alone(letters, unitsPerEm, family ?? '')
      else {
        const bytes = looseFont(letters, unitsPerEm, family ?? '')
        this.#against(brought.name, (redraw) => redraw.bring(bytes))
      }
    } catch (error) {
      this.#fail(error)
    }
  }

  #use(
    how: 'against' | 'alone',
    letters: LooseLetter[],
    em: number,
    withBearings: boolean,
    family = '',
  ): void {
    if (how === 'alone') this.#alone(letters, em, family)
    else this.#against(this.brought?.name ?? '', (redraw) => redraw.bringLetters(letters, withBearings))
  }

  #alone(letters: LooseLetter[], em: number, family: string): void {
    const name = this.brought?.name ?? 'Drawing'
    const bytes = looseFont(letters, em, family || name.replace(/\.[^.]*$/, ''))
    void this.#leave(bytes, name)
  }

  #stand = (): void => {
    const bytes = this.redraw?.later()
    if (bytes && bytes.length > 0) void this.#leave(bytes, this.later)
  }

  /** Opens a font that was made here on the stage. */
  async #leave(bytes: Uint8Array, name: string): Promise<void> {
    const file = new File([new Uint8Array(bytes)], name)
    session.reviewing.set({ room: null })
    await session.open(file)
  }

  #straighten([a, b]: [[number, number], [number, number]]): void {
    const { brought } = this
    if (brought?.kind !== 'scan') return
    try {
      brought.scan.straighten(...a, ...b)
      this.brought = { ...brought, report: brought.scan.report() }
    } catch (error) {
      this.#fail(error)
    }
  }

  #pick = (event: Event): void => {
    const file = (event.target as HTMLInputElement).files?.[0]
    if (file) void this.#file(file)
  }

  #paste = (event: Event): void => {
    const box = event.target as HTMLTextAreaElement
    const text = box.value
    if (text.trim() === '') return
    if (!isSvgText(text)) {
      this.trouble = NOT_SVG
      return
    }
    void this.#file(new File([text], 'pasted.svg'))
  }
}

/** The letter that the reviewer looks at, and the width that its neighbours suggest. */
function aboutNow(): { letter: string; width: number | null } {
  const { stage, judgement, allowance } = session.state
  const all = standing(judgement, allowance)
  const shown = all.find((one) => one.glyph === stage?.finding?.glyph && one.cause === stage?.finding?.cause)
  const chosen = stage?.items.find((one) => one.selected)
  const letter = shown?.letter ?? chosen?.character?.trim() ?? all[0]?.letter ?? 'n'
  const wide = (one: FindingReport) => one.letter === letter && one.cause === 'width'
  return { letter: letter || 'n', width: all.find(wide)?.expected ?? null }
}
