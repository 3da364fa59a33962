import { html, LitElement, nothing } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import { PartOf } from '../components/part-of'
import { count, many } from '../figures'
import { session } from '../session'
import { base, button, field } from '../styles/shared'
import { AllLetters, AWAY, Untold } from './all-letters'
import { roomStyle } from './browse-style'
import type { LetterLines } from './letter-lines'
import './letter-lines'
import './one-letter'
import { Outlines } from './outlines'
import { type List, UNCODED } from './protocol'
import { choices, foundWords, letterName, sectionOf } from './words'

const WAIT = 'The letters of the font are being listed.'
const LOST =
  'Letters that come into view can no longer be drawn. Close this and open it again to try once more.'

/** Whoever types is waited for so long, milliseconds. */
const PAUSE = 120

/** Sizes of the letters, as shares of the reader's own large type. */
const SIZES = { min: 1.75, max: 7.5, step: 0.25, usual: 2.75 }

/** The room of all letters: browsed as a specimen, found by what is typed, stood on the stage. */
@customElement('browse-room')
export class BrowseRoom extends LitElement {
  static override styles = [base, button, field, roomStyle]

  readonly #font = new PartOf(this, session.store, (page) => page.font?.report ?? null)
  readonly #theme = new PartOf(this, session.store, (page) => page.theme)

  @state() private list: List | null = null
  @state() private trouble = ''
  /** Which letters are shown; all of them if null. */
  @state() private shown: Uint32Array | null = null
  @state() private typed = ''
  @state() private at = 0
  @state() private chosen: ReadonlySet<number> = new Set()
  @state() private come = 0
  @state() private head = 0
  @state() private scale: number = SIZES.usual
  /** What was done last, and whether it can be taken back from here. */
  @state() private said = ''
  @state() private stood = false

  @query('letter-lines') private readonly lines!: LetterLines | null
  @query('input[type="search"]') private readonly search!: HTMLInputElement | null

  #letters: AllLetters | undefined
  #outlines: Outlines<Path2D> | undefined
  #of: unknown = null
  #wait: ReturnType<typeof setTimeout> | undefined
  #asked = ''
  #wore = this.#theme.value

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    clearTimeout(this.#wait)
    this.#letters?.close()
    this.#letters = undefined
    this.#of = null
  }

  override willUpdate(): void {
    if (this.#of !== this.#font.value) void this.#open()
  }

  override updated(): void {
    if (this.#wore === this.#theme.value) return
    this.#wore = this.#theme.value
    this.lines?.recolour()
  }

  async #open(): Promise<void> {
    const font = this.#font.value
    this.#of = font
    this.#letters?.close()
    this.#letters = undefined
    this.list = null
    this.trouble = ''
    const bytes = session.fontBytes()
    if (!font || !bytes) return
    try {
      const [letters, list] = await AllLetters.open(bytes)
      if (this.#of !== font || !this.isConnected) return letters.close()
      this.#letters = letters
      this.#outlines = new Outlines(
        (glyphs) => letters.draw(glyphs),
        (path) => new Path2D(path),
        (error) => {
          this.come += 1
          if (error !== undefined && this.#letters === letters) this.trouble = LOST
        },
      )
      Object.assign(this, {
        list,
        shown: null,
        typed: '',
        at: firstOf(list),
        chosen: new Set(),
        head: 0,
        said: '',
        stood: false,
      })
      await this.updateComplete
      this.search?.focus()
    } catch (error) {
      if (this.#of !== font) return
      if (!(error instanceof Untold)) console.error(error)
      this.trouble = error instanceof Untold ? error.message : AWAY
    }
  }

  override render() {
    if (!this.list) {
      return this.trouble
        ? html`<p class="wait trouble" role="alert">${this.trouble}</p>`
        : html`<p class="wait" role="status">${WAIT}</p>`
    }
    const nothingThere = this.shown?.length === 0
    return html`<div class="room" @keydown=${this.#key}>
      ${this.#top(this.list)}
      ${
        nothingThere
          ? this.#none()
          : html`<letter-lines
              .list=${this.list}
              .shown=${this.shown}
              .outlines=${this.#outlines}
              .come=${this.come}
              .size=${this.scale * rem()}
              .at=${this.at}
              .chosen=${this.chosen}
              @letter=${this.#letter}
              @head=${(event: CustomEvent<number>) => {
                this.head = event.detail
              }}
            ></letter-lines>`
      }
      ${this.#foot(this.list, nothingThere)}
    </div>`
  }

  #top(list: List) {
    return html`<div class="top">
      <label class="find"
        ><span>Find</span
        ><input
          type="search"
          autocomplete="off"
          autocapitalize="off"
          spellcheck="false"
          placeholder="g, U+0067, a name, a block"
          aria-describedby="how"
          .value=${this.typed}
          @input=${this.#type}
          @keydown=${this.#searchKey}
      /></label>
      <p id="how" class="unseen">
        A letter, a code point such as U+0067, a glyph’s name or a part of it, or a Unicode block’s name or a part of it.
      </p>
      <p class="found" role="status">${foundWords(list, this.shown, this.typed)}</p>
      <label class="block" ?hidden=${this.shown?.length === 0}><span>Block</span>${this.#blocks(list)}</label>
      <label class="size"
        ><span>Size</span
        ><input
          type="range"
          min=${SIZES.min}
          max=${SIZES.max}
          step=${SIZES.step}
          .value=${String(this.scale)}
          aria-valuetext="${Math.round(this.scale * rem())} pixels"
          @input=${(event: Event) => {
            this.scale = Number((event.target as HTMLInputElement).value)
          }}
      /></label>
    </div>`
  }

  /** The blocks that letters are shown of: where the list stands now, and where it may go. */
  #blocks(list: List) {
    const counts = this.#counts(list)
    return html`<select aria-label="Block that is in view" @change=${this.#go}>
      ${counts.map(
        ([section, letters]) =>
          html`<option value=${section} .selected=${section === this.head}>
            ${list.sections[section]?.name} (${count(letters)})
          </option>`,
      )}
    </select>`
  }

  #counted: { of: unknown; counts: [number, number][] } = { of: undefined, counts: [] }

  #counts(list: List): [number, number][] {
    const of = this.shown ?? list
    if (this.#counted.of === of) return this.#counted.counts
    const totals = new Map<number, number>()
    if (this.shown) {
      for (const letter of this.shown) {
        const section = sectionOf(list.sections, letter)
        totals.set(section, (totals.get(section) ?? 0) + 1)
      }
    } else {
      for (const [section, { start }] of list.sections.entries()) {
        totals.set(section, (list.sections[section + 1]?.start ?? list.glyphs.length) - start)
      }
    }
    this.#counted = { of, counts: [...totals] }
    return this.#counted.counts
  }

  #none() {
    return html`<div class="none">
      <p class="line" aria-hidden="true"></p>
      <p>No letter of this font answers to “${this.typed}”.</p>
      <p class="quiet">
        Try the letter itself (ß), its code point (U+00DF), its glyph’s name or a part of it (germandbls), or a block
        (Latin-1, Hiragana).
      </p>
      <button type="button" class="framed" @click=${() => this.#find('')}>Show every letter</button>
    </div>`
  }

  #foot(list: List, bare: boolean) {
    const together = this.chosen.size
    if (bare && together === 0 && !this.stood && !this.trouble) return nothing
    return html`<div class="foot">
      ${
        bare
          ? nothing
          : html`<one-letter
              .list=${list}
              .letter=${this.at}
              .outlines=${this.#outlines}
              .come=${this.come}
              .theme=${this.#theme.value}
            ></one-letter>`
      }
      <div class="doing">
        <p class="said" role="status">${this.trouble || this.said}</p>
        <div class="row">
          ${
            bare
              ? nothing
              : html`<button type="button" aria-pressed=${this.chosen.has(this.at)} @click=${() => this.#choose(this.at)}>
                  Choose
                </button>`
          }
          ${
            together > 0
              ? html`<button
                  type="button"
                  @click=${() => {
                    this.chosen = new Set()
                    this.lines?.focus()
                  }}
                >
                  Choose none
                </button>`
              : nothing
          }
          ${
            bare && together === 0
              ? nothing
              : html`<button type="button" class="framed" @click=${() => this.#stand(together > 0 ? [...this.chosen] : [this.at])}>
                  ${together > 0 ? `Stand ${many(together, 'letter')} on the line` : 'Stand it on the line'}
                </button>`
          }
          ${this.stood ? html`<button type="button" @click=${this.#back}>Take back</button>` : nothing}
        </div>
      </div>
    </div>`
  }

  #type = (event: Event): void => {
    const { value } = event.target as HTMLInputElement
    this.typed = value
    clearTimeout(this.#wait)
    this.#wait = setTimeout(() => void this.#find(value), PAUSE)
  }

  async #find(typed: string): Promise<void> {
    clearTimeout(this.#wait)
    this.typed = typed
    this.#asked = typed
    const wanted = typed.trim()
    try {
      const shown = wanted === '' ? null : await this.#letters?.find(wanted)
      // Another word has been typed meanwhile.
      if (this.#asked !== typed || shown === undefined) return
      this.shown = shown
      this.at = shown === null ? this.at : (shown[0] ?? this.at)
      this.said = ''
      this.stood = false
    } catch (error) {
      if (error instanceof Untold) this.trouble = error.message
      else console.error(error)
    }
  }

  /** From the field the keys lead into the letters: down to the first, Enter to stand it. */
  #searchKey = async (event: KeyboardEvent): Promise<void> => {
    if (event.isComposing) return
    if (event.key === 'ArrowDown') {
      event.preventDefault()
      this.lines?.focus()
    } else if (event.key === 'Enter') {
      event.preventDefault()
      if (this.#asked !== this.typed) await this.#find(this.typed)
      if (this.typed.trim() !== '' && this.shown?.length !== 0) this.#stand([this.at])
    } else if (event.key === 'Escape' && this.typed !== '') {
      // The first press empties the field, the second leaves the room.
      event.preventDefault()
      event.stopPropagation()
      void this.#find('')
    }
  }

  /** What was done from here is taken back by the key that takes back everywhere. */
  #key = (event: KeyboardEvent): void => {
    const typing = event.composedPath()[0] instanceof HTMLInputElement
    if (typing || event.key.toLowerCase() !== 'z' || !(event.ctrlKey || event.metaKey) || event.shiftKey)
      return
    event.preventDefault()
    this.#back()
  }

  #letter = (event: CustomEvent<{ letter: number; what: 'point' | 'choose' | 'stand' }>): void => {
    const { letter, what } = event.detail
    this.at = letter
    if (what === 'choose') this.#choose(letter)
    if (what === 'stand') this.#stand(this.chosen.size > 0 ? [...this.chosen] : [letter])
  }

  #choose(letter: number): void {
    const chosen = new Set(this.chosen)
    if (!chosen.delete(letter)) chosen.add(letter)
    this.chosen = chosen
    this.stood = false
    this.said = chosen.size === 0 ? 'None chosen.' : `${many(chosen.size, 'letter')} chosen.`
  }

  #go = (event: Event): void => {
    this.lines?.goTo(Number((event.target as HTMLSelectElement).value))
  }

  /** Stands letters behind what stands on the stage. */
  #stand(letters: readonly number[]): void {
    const { list } = this
    if (!list) return
    const before = session.state.stage?.items
    session.apply({ type: 'insert', letters: choices(list, letters) })
    const items = session.state.stage?.items ?? []
    this.stood = items.length > (before?.length ?? 0)
    if (!this.stood) {
      this.said = session.state.remark ?? ''
      return
    }
    const [first] = letters
    const one = first === undefined ? '' : letterName(list, first, this.#nameOf(list, first))
    const last = before?.at(-1)
    const after = last ? `, after ${last.label}` : ''
    this.said =
      letters.length === 1
        ? `${one} stands on the line${after}.`
        : `${many(letters.length, 'letter')} stand on the line${after}.`
    this.chosen = new Set()
  }

  #nameOf(list: List, letter: number): string | null {
    return this.#outlines?.peek(list.glyphs[letter] ?? 0)?.name ?? null
  }

  #back = (): void => {
    if (!this.stood) return
    session.apply({ type: 'undo' })
    this.said = session.state.remark ?? session.state.stage?.status ?? ''
    this.stood = false
  }
}

/** The first letter that shows anything: spaces and controls come before all others. */
const firstOf = ({ codes }: List): number =>
  Math.max(
    0,
    codes.findIndex((code) => code === UNCODED || !/[\p{C}\p{Z}]/u.test(String.fromCodePoint(code))),
  )

/** The reader's own size of type, CSS pixels. */
const rem = (): number => Number.parseFloat(getComputedStyle(document.documentElement).fontSize) || 16
