import { html, LitElement, type TemplateResult } from 'lit'
import { property, query, state } from 'lit/decorators.js'
import { figure } from '../figures'
import type { LetterNames } from './letter-names'
import './letter-names'
import type { Line } from './sheet-lines'

/** How letters are to be brought to the font's units. */
export interface Placing {
  readonly names: string
  /** The two guides, in the picture's own units; of a scan y down. */
  readonly baseline: number
  readonly height: number
  /** What the upper guide is in the font, font units. */
  readonly reaches: number
}

/** Where a font shows none of its lines, about the height of its capitals (common practice, no source). */
const GUESSED = 700

/**
 * Letters of a picture, to be named and put between two guides: what a drawing
 * and a scan ask alike. Fires `placed` with `{ how, placing }`.
 */
export abstract class Placer extends LitElement {
  /** The font's own lines that the upper guide may stand for. */
  @property({ attribute: false }) lines: readonly Line[] = []
  /** One character a letter; a space where it has none yet. */
  @property() names = ''

  @state() protected baseline = 0
  @state() protected height = 1
  @state() protected line = 0
  /** The letter that is looked at. */
  @state() protected looked = 0
  @state() private missing = false

  @query('letter-names') protected readonly boxes!: LetterNames

  /** Puts the guides where they seem to be; the upper one is then taken for the cap height. */
  protected guess(baseline: number, height: number): void {
    this.baseline = baseline
    this.height = height
    this.line = Math.max(
      0,
      this.lines.findIndex((one) => one.name === 'Cap height'),
    )
  }

  /** The guides as numbers, and what the upper one is in the font; `unit` is told beside each, `digits` are kept. */
  protected guideFields(unit: string, digits: number): TemplateResult {
    return html`<label>Baseline${unit} ${this.#number(this.baseline, digits, (y) => (this.baseline = y))}</label>
      <label>Upper guide${unit} ${this.#number(this.height, digits, (y) => (this.height = y))}</label>
      <label>The upper guide is the font’s
        <select @change=${(event: Event) => (this.line = Number((event.target as HTMLSelectElement).value))}>
          ${this.lines.map(
            ({ name, y }, at) =>
              html`<option value=${at} ?selected=${at === this.line}>${name}, ${figure(y)}</option>`,
          )}
        </select>
      </label>`
  }

  protected nameFields(count: number): TemplateResult {
    return html`<letter-names
      .count=${count}
      .names=${this.names}
      @names=${(event: CustomEvent<string>) => {
        this.names = event.detail
        this.missing = false
      }}
      @look=${(event: CustomEvent<number>) => {
        this.looked = event.detail
      }}
    ></letter-names>`
  }

  /** What can be done with the letters, and what is to be done before. */
  protected ways(): TemplateResult {
    return html`${this.missing ? html`<p class="alert" role="alert">Type which letter this is first.</p>` : ''}
      <div class="row">
        <button class="framed main" type="button" @click=${() => this.#place('against')}>Hold against the font</button>
        <button class="framed" type="button" @click=${() => this.#place('alone')}>Open as a font of its own</button>
      </div>`
  }

  #number(value: number, digits: number, take: (y: number) => void) {
    return html`<input
      type="number"
      step="any"
      .value=${String(Number(value.toFixed(digits)))}
      @change=${(event: Event) => {
        const y = (event.target as HTMLInputElement).valueAsNumber
        if (Number.isFinite(y)) take(y)
      }}
    />`
  }

  #place(how: 'against' | 'alone'): void {
    this.missing = this.names.trim() === ''
    if (this.missing) {
      this.boxes.choose(0)
      return
    }
    const { names, baseline, height } = this
    const placing: Placing = { names, baseline, height, reaches: this.lines[this.line]?.y ?? GUESSED }
    this.dispatchEvent(new CustomEvent('placed', { detail: { how, placing } }))
  }
}
