import { css, html, svg } from 'lit'
import { customElement, property, query, state } from 'lit/decorators.js'
import { figure } from '../figures'
import type { DrawingReport } from '../generated/DrawingReport'
import { base, button } from '../styles/shared'
import { dragStyle, guideDrag } from './guide-drag'
import { placeStyle } from './place-style'
import { Placer } from './placer'
import { letter, sheetStyle } from './sheet-lines'

/** Letters of a drawing, to be named and put between two guides. */
@customElement('place-drawing')
export class PlaceDrawing extends Placer {
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

  @state() private box: DOMRect | null = null

  @query('.letters') private readonly letters!: SVGGElement

  override willUpdate(changed: Map<string, unknown>): void {
    if (!changed.has('report')) return
    this.guess(this.report.baseline, this.report.height)
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
      ${this.nameFields(letters.length)}
      ${
        own
          ? html`<p class="note">This is one of the lab’s own sheets: it stands where it stood in the font.</p>`
          : html`<div class="row">${this.guideFields('', 2)}</div>`
      }
      ${this.report.notes.map((note) => html`<p class="note">${note}</p>`)}
      ${this.ways()}`
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
}
