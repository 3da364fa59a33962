import { css, html, LitElement, svg } from 'lit'
import { customElement, property, query, state } from 'lit/decorators.js'
import { figure } from '../figures'
import type { DrawingReport } from '../generated/DrawingReport'
import { base, button } from '../styles/shared'
import { dragStyle, guideDrag } from './guide-drag'
import './letter-names'
import type { LetterNames } from './letter-names'
import { placeStyle } from './place-style'
import { type Line, letter, sheetStyle } from './sheet-lines'

/** How a drawing's letters are to be brought to the font's units. */
export interface Placing {
  readonly names: string
  /** The two guides, in the drawing's own units; of a scan y down. */
  readonly baseline: number
  readonly height: number
  /** What the upper guide is in the font, font units. */
  readonly reaches: number
}

/** Letters of a drawing, to be named and put between two guides. Fires `placed` with a `Placing`. */
@customElement('place-drawing')
export class PlaceDrawing extends LitElement {
  static override styles = [
    base,
    button,
    sheetStyle,
    dragStyle,
    placeStyle,
    css`
      .chosen {
        fill: var(--pick);
      }

      .ink {
        cursor: pointer;
      }
    `,
  ]

  @property({ attribute: false }) report!: DrawingReport
  /** The font's own lines that the upper guide may stand for. */
  @property({ attribute: false }) lines: readonly Line[] = []
  @property() names = ''

  @state() private baseline = 0
  @state() private height = 1
  @state() private line = 0
  @state() private looked = 0
  @state() private box: DOMRect | null = null
  @state() private missing = false

  @query('.letters') private readonly letters!: SVGGElement
  @query('letter-names') private readonly boxes!: LetterNames

  override willUpdate(changed: Map<string, unknown>): void {
    if (!changed.has('report')) return
    this.baseline = this.report.baseline
    this.height = this.report.height
    this.line = Math.max(
      0,
      this.lines.findIndex((one) => one.name === 'Cap height'),
    )
    this.box = null
  }

  override updated(): void {
    // How large a drawing is only its outlines say.
    this.box ??= this.letters.getBBox()
  }

  override render() {
    const { letters, unitsPerEm } = this.report
    const own = unitsPerEm != null
    return html`
      ${this.#picture()}
      <letter-names
        .count=${letters.length}
        .names=${this.names}
        @names=${(event: CustomEvent<string>) => {
          this.names = event.detail
          this.missing = false
        }}
        @look=${(event: CustomEvent<number>) => {
          this.looked = event.detail
        }}
      ></letter-names>
      ${
        own
          ? html`<p class="note">This is one of the lab’s own sheets: it stands where it stood in the font.</p>`
          : html`<div class="row">
              <label>Baseline ${this.#number(this.baseline, (y) => (this.baseline = y))}</label>
              <label>Upper guide ${this.#number(this.height, (y) => (this.height = y))}</label>
              <label>The upper guide is the font’s
                <select @change=${(event: Event) => (this.line = Number((event.target as HTMLSelectElement).value))}>
                  ${this.lines.map(
                    ({ name, y }, at) =>
                      html`<option value=${at} ?selected=${at === this.line}>${name}, ${figure(y)}</option>`,
                  )}
                </select>
              </label>
            </div>`
      }
      ${this.report.notes.map((note) => html`<p class="note">${note}</p>`)}
      ${this.missing ? html`<p class="alert" role="alert">Type which letter this is first.</p>` : ''}
      <div class="row">
        <button class="framed main" type="button" @click=${() => this.#place('against')}>Hold against the font</button>
        <button class="framed" type="button" @click=${() => this.#place('alone')}>Open as a font of its own</button>
      </div>`
  }

  #picture() {
    const { letters } = this.report
    const box = this.box
    const margin = box ? 0.08 * Math.max(box.height, 1) : 0
    // The box is the picture's, y down; the guides are the drawing's, y up.
    const [top, foot] = box
      ? [Math.max(-box.y, this.height) + margin, Math.min(-box.y - box.height, this.baseline) - margin]
      : [1, 0]
    const [left, right] = box ? [box.x - margin, box.x + box.width + margin] : [0, 1]
    const view = `${left} ${-top} ${Math.max(right - left, 1e-9)} ${Math.max(top - foot, 1e-9)}`
    const step = (top - foot) / 200
    return html`<svg class="sheet" viewBox=${view} role="group" aria-label="The drawing, with its two guides">
      <g class="letters">
        ${letters.map(
          (path, at) =>
            svg`<g @click=${() => this.boxes.choose(at)}>${letter(
              path,
              at === this.looked && letters.length > 1 ? 'ink chosen' : 'ink',
            )}</g>`,
        )}
      </g>
      ${guideDrag({
        name: 'Baseline',
        y: -this.baseline,
        left,
        right,
        step,
        value: `${figure(this.baseline)} in the drawing`,
        move: (y) => (this.baseline = -y),
      })}
      ${guideDrag({
        name: 'Upper guide',
        y: -this.height,
        left,
        right,
        step,
        value: `${figure(this.height)} in the drawing`,
        move: (y) => (this.height = -y),
      })}
    </svg>`
  }

  #number(value: number, take: (y: number) => void) {
    return html`<input
      type="number"
      step="any"
      .value=${String(Number(value.toFixed(2)))}
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
    const placing: Placing = {
      names: this.names,
      baseline: this.baseline,
      height: this.height,
      reaches: this.lines[this.line]?.y ?? 700,
    }
    this.dispatchEvent(new CustomEvent('placed', { detail: { how, placing } }))
  }
}
