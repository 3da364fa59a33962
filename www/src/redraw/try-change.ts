import { css, html, LitElement, nothing } from 'lit'
import { customElement, property, state } from 'lit/decorators.js'
import { figure, percent, signed } from '../figures'
import type { LineLetter } from '../generated/LineLetter'
import type { SketchChange } from '../generated/SketchChange'
import type { SketchReport } from '../generated/SketchReport'
import type { SketchStrokes } from '../generated/SketchStrokes'
import { isRefusal } from '../refusal'
import { save } from '../save'
import { panel } from '../styles/panel'
import { base, button } from '../styles/shared'
import { figureRows } from './figure-rows'
import type { Redraw } from './module'
import { placeStyle } from './place-style'
import { guideLines, guideWords, type Line, letter, planeOf, sheetStyle, viewBox } from './sheet-lines'

type Kind = 'width' | 'weight' | 'reach'

const kinds: readonly (readonly [Kind, string])[] = [
  ['width', 'Wider or narrower'],
  ['weight', 'Heavier or lighter'],
  ['reach', 'More or less overshoot'],
]

const strokes: readonly (readonly [SketchStrokes, string])[] = [
  ['all', 'all strokes'],
  ['uprights', 'upright strokes'],
  ['levels', 'level strokes'],
]

const STUMBLED = 'The lab stumbled over this change. Try another.'

/** A change tried on a letter before anyone redraws it: drawn over the letter, with its figures. */
@customElement('try-change')
export class TryChange extends LitElement {
  static override styles = [
    base,
    button,
    panel,
    sheetStyle,
    placeStyle,
    css`
      .split {
        display: grid;
        grid-template-columns: minmax(0, 3fr) minmax(16rem, 2fr);
        gap: var(--gap-5);
      }

      .sketch {
        fill: color-mix(in oklch, var(--more) 18%, transparent);
        stroke: var(--more);
        stroke-width: 1.5;
        vector-effect: non-scaling-stroke;
      }

      fieldset {
        display: flex;
        flex-wrap: wrap;
        gap: 0 var(--gap-3);
        margin: 0;
        padding: 0;
        border: 0;
      }

      legend {
        padding: 0;
        color: var(--soft);
        font-size: var(--type-2);
      }

      .controls {
        display: grid;
        align-content: start;
        gap: var(--gap-3);
      }

      @media (width < 60rem) {
        .split {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ]

  @property({ attribute: false }) redraw!: Redraw
  @property({ attribute: false }) lines: readonly Line[] = []
  @property({ type: Number }) unitsPerEm = 1000
  @property() family = ''
  /** The letter to begin with. */
  @property() character = 'n'
  /** Ink width that its neighbours suggest, if a finding says so. */
  @property({ attribute: false }) suggestedWidth: number | null = null

  @state() private kind: Kind = 'width'
  @state() private which: SketchStrokes = 'all'
  /** Change of ink width, font units. */
  @state() private wider = 0
  /** Change of thickness, a share. */
  @state() private heavier = 0
  @state() private top = 0
  @state() private foot = 0

  override willUpdate(changed: Map<string, unknown>): void {
    if (changed.has('character') || changed.has('redraw')) this.#reset()
  }

  #reset(): void {
    this.wider = 0
    this.heavier = 0
    this.top = 0
    this.foot = 0
  }

  #own(): LineLetter | undefined {
    return this.redraw.line(this.character, false)[0]
  }

  #change(width: number): SketchChange | null {
    switch (this.kind) {
      case 'width':
        return this.wider === 0 ? null : { type: 'width', to: width + this.wider }
      case 'weight':
        return this.heavier === 0 ? null : { type: 'weight', by: this.heavier, which: this.which }
      default:
        return this.top === 0 && this.foot === 0 ? null : { type: 'reach', top: this.top, foot: this.foot }
    }
  }

  override render() {
    const own = this.#own()
    const width = own?.ink ? own.ink[1] - own.ink[0] : 0
    const change = own ? this.#change(width) : null
    const [sketch, trouble] = change ? this.#try(change) : [null, null]
    return html`<div class="split">
      <div class="controls">
        ${own && own.path !== '' ? this.#picture(own, sketch) : this.#none()}
        <p class="note">A sketch for the artist to draw over, not a finished letter.</p>
      </div>
      <div class="controls">
        <label>Letter
          <input
            maxlength="2"
            autocomplete="off"
            autocapitalize="off"
            spellcheck="false"
            .value=${this.character}
            @focus=${(event: Event) => (event.target as HTMLInputElement).select()}
            @input=${this.#choose}
          />
        </label>
        <fieldset>
          <legend>Try it</legend>
          ${kinds.map(
            ([kind, name]) => html`<label class="inline"><input
                type="radio"
                name="kind"
                .checked=${kind === this.kind}
                @change=${() => (this.kind = kind)}
              />${name}</label>`,
          )}
        </fieldset>
        ${this.#sliders(width)}
        ${trouble ? html`<p class="alert" role="alert">${trouble}</p>` : sketch ? this.#figures(sketch) : html`<p class="note">Move the slider: the sketch is drawn over the letter, and its figures are told here.</p>`}
      </div>
    </div>`
  }

  #none() {
    const { character } = this
    return html`<p class="note" role="status">${
      character === '' ? 'Type the letter to try a change on.' : `The font has no drawn ${character}.`
    }</p>`
  }

  #picture(own: LineLetter, sketch: SketchReport | null) {
    const width = Math.max(own.advance, sketch?.advance ?? 0)
    const plane = planeOf(this.lines, this.unitsPerEm, -0.3 * this.unitsPerEm, width)
    return html`<svg class="sheet" viewBox=${viewBox(plane)} role="img" aria-label=${`${this.character}, ${sketch ? 'with the sketch over it' : 'as drawn'}`}>
      ${guideLines(this.lines, plane)} ${guideWords(this.lines, plane)}
      ${letter(own.path, sketch ? 'was' : 'ink')}
      ${sketch ? letter(sketch.path, 'sketch') : nothing}
    </svg>`
  }

  #sliders(width: number) {
    const em = this.unitsPerEm
    if (this.kind === 'width') {
      const most = Math.round(0.25 * em)
      const suggested = this.suggestedWidth
      return html`${this.#slider('Ink width', this.wider, -most, most, em / 500, `${signed(this.wider)} units, ${figure(width + this.wider)} in all`, (v) => (this.wider = v))}
        ${
          suggested == null
            ? nothing
            : html`<button class="framed" type="button" @click=${() => (this.wider = suggested - width)}>As the others suggest: ${figure(suggested)}</button>`
        }`
    }
    if (this.kind === 'weight') {
      return html`<label>On
          <select @change=${(event: Event) => (this.which = (event.target as HTMLSelectElement).value as SketchStrokes)}>
            ${strokes.map(([one, name]) => html`<option value=${one} ?selected=${one === this.which}>${name}</option>`)}
          </select>
        </label>
        ${this.#slider('Thickness', this.heavier, -0.3, 0.3, 0.01, this.heavier === 0 ? 'as drawn' : `${percent(Math.abs(this.heavier))} ${this.heavier > 0 ? 'thicker' : 'thinner'}`, (v) => (this.heavier = v))}`
    }
    const most = Math.round(0.06 * em)
    return html`${this.#slider('Top', this.top, -most, most, em / 1000, `${signed(this.top)} units upwards`, (v) => (this.top = v))}
      ${this.#slider('Foot', this.foot, -most, most, em / 1000, `${signed(this.foot)} units downwards`, (v) => (this.foot = v))}`
  }

  #slider(
    name: string,
    value: number,
    least: number,
    most: number,
    step: number,
    told: string,
    take: (v: number) => void,
  ) {
    return html`<label>${name}: ${told}
      <input
        type="range"
        min=${least}
        max=${most}
        step=${step}
        .value=${String(value)}
        aria-valuetext=${told}
        @input=${(event: Event) => take((event.target as HTMLInputElement).valueAsNumber)}
      />
    </label>`
  }

  #figures(sketch: SketchReport) {
    return html`${figureRows(sketch.figures, 'As drawn', 'Sketch')}
      <button class="framed" type="button" @click=${() => this.#save(sketch)}>Save the sketch as SVG</button>`
  }

  #choose = (event: InputEvent): void => {
    const typed = [...(event.target as HTMLInputElement).value].filter((one) => one.trim() !== '')
    this.character = typed.at(-1) ?? ''
    this.suggestedWidth = null
  }

  #try(change: SketchChange): [SketchReport | null, string | null] {
    try {
      return [this.redraw.sketch(this.character, change), null]
    } catch (error) {
      if (!isRefusal(error)) console.error(error)
      return [null, isRefusal(error) ? error.sentence : STUMBLED]
    }
  }

  #save(sketch: SketchReport): void {
    const title = `${this.family} ${this.character}, a sketch`
    const text = this.redraw.sheet(title, sketch.path, sketch.advance, true)
    save(document, new Blob([text], { type: 'image/svg+xml' }), `${this.character}-sketch.svg`)
  }
}
