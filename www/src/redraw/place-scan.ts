import { css, html, nothing, svg } from 'lit'
import { customElement, property, query, state } from 'lit/decorators.js'
import { figure } from '../figures'
import type { ScanLetterReport } from '../generated/ScanLetterReport'
import type { ScanReport } from '../generated/ScanReport'
import type { ScanRun } from '../generated/ScanRun'
import { panel } from '../styles/panel'
import { base, button } from '../styles/shared'
import { dragStyle, guideDrag, placeIn } from './guide-drag'
import type { Redraw, ScanSheet } from './module'
import { placeStyle } from './place-style'
import { Placer } from './placer'

const runName: Record<ScanRun, string> = { upright: 'upright', level: 'level', other: 'other' }

/** Strokes told of each letter: the longest say how heavy it is. */
const MOST_STROKES = 4
/** Share of the cap height that a traced outline's distance is told by, and looked for. */
const STEP = 0.02
const REACH = 0.12

type At = readonly [x: number, y: number]

/** A letter of the font laid over the scan's. */
interface Laid {
  readonly path: string
  /** Pixels a font unit. */
  readonly scale: number
  /** Where its origin lies, pixels. */
  readonly x: number
  /** x, y and the ink's distance of each place in turn, font units. */
  readonly places: Float64Array
}

/** A scan, straightened, its ink read, its letters named and put between guides. Fires `straighten` too. */
@customElement('place-scan')
export class PlaceScan extends Placer {
  static override styles = [
    base,
    button,
    panel,
    dragStyle,
    placeStyle,
    css`
      .picture {
        position: relative;
        justify-self: center;
        overflow: hidden;
        max-width: 100%;
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
      }

      /* As large as fits beside its figures, whichever way it is longer. */
      canvas {
        display: block;
        max-width: 100%;
        max-height: 26rem;
      }

      table {
        max-width: 26rem;
      }

      .over {
        position: absolute;
        inset: 0;
        display: block;
        width: 100%;
        height: 100%;
      }

      canvas {
        opacity: 0.55;
      }

      .box {
        fill: transparent;
        stroke: var(--guide);
        stroke-width: 1;
        vector-effect: non-scaling-stroke;
        cursor: pointer;
      }

      .box.looked {
        stroke: var(--pick);
        stroke-width: 2.5;
      }

      .across {
        stroke: var(--mark);
        stroke-width: 2;
        vector-effect: non-scaling-stroke;
      }

      .traced {
        fill: none;
        stroke: var(--pick);
        stroke-width: 1.5;
        vector-effect: non-scaling-stroke;
      }

      .out {
        fill: var(--more);
      }

      .in {
        fill: var(--less);
      }

      .end circle {
        fill: var(--lift);
        stroke: var(--pick);
        stroke-width: 2;
        vector-effect: non-scaling-stroke;
      }

      .end {
        cursor: move;
        touch-action: none;
        outline: none;
      }

      .end:focus-visible circle {
        stroke-width: 5;
      }

      .level {
        stroke: var(--pick);
        stroke-dasharray: 6 4;
        stroke-width: 1.5;
        vector-effect: non-scaling-stroke;
      }
    `,
  ]

  @property({ attribute: false }) scan!: ScanSheet
  @property({ attribute: false }) report!: ScanReport
  @property({ attribute: false }) redraw!: Redraw

  @state() private straightening = false
  @state() private ends: readonly [At, At] = [
    [0, 0],
    [1, 0],
  ]
  @state() private traced = false

  @query('canvas') private readonly canvas!: HTMLCanvasElement
  @query('.over') private readonly over!: SVGSVGElement

  override willUpdate(changed: Map<string, unknown>): void {
    if (!changed.has('report')) return
    const { baseline, top, width } = this.report
    this.guess(baseline, top)
    this.ends = [
      [0.1 * width, baseline],
      [0.9 * width, baseline],
    ]
  }

  override updated(changed: Map<string, unknown>): void {
    if (changed.has('report')) this.#paint()
  }

  /** Font units a pixel; nothing where the guides lie in one place. */
  get #units(): number | null {
    const height = this.baseline - this.height
    const reaches = this.lines[this.line]?.y
    return height > 0 && reaches != null ? reaches / height : null
  }

  override render() {
    const { letters, notes, skew } = this.report
    // Told in the picture and in words: the walk along the edges is made once.
    const laid = this.traced ? letters.map((_, at) => this.#laid(at)) : []
    return html`
      ${this.#picture(laid)}
      <div class="row">
        ${this.guideFields(', pixels', 1)}
        <button class="framed" type="button" aria-pressed=${this.straightening} @click=${() => (this.straightening = !this.straightening)}>
          Straighten by two points
        </button>
        ${
          this.straightening
            ? html`<button class="framed main" type="button" @click=${this.#straighten}>Turn so that they lie level</button>`
            : nothing
        }
      </div>
      <p class="note">${
        Math.abs(skew) < 0.05
          ? 'The letters stand level.'
          : `Turned back by ${figure(Math.abs(skew))}° ${skew > 0 ? 'anticlockwise' : 'clockwise'} to stand level.`
      }</p>
      ${notes.map((note) => html`<p class="note">${note}</p>`)}
      ${this.nameFields(letters.length)}
      ${this.#strokes(letters[this.looked], laid[this.looked] ?? null)}
      ${this.ways()}`
  }

  #picture(laid: readonly (Laid | null)[]) {
    const { width, height, letters } = this.report
    const step = Math.max(height / 400, 0.25)
    const shared = { left: 0, right: width, step }
    return html`<div class="picture">
      <canvas width=${width} height=${height} aria-hidden="true"></canvas>
      <svg class="over" viewBox=${`0 0 ${width} ${height}`} role="group" aria-label="The scan, its letters and its two guides">
        ${letters.map(({ bounds: [x0, y0, x1, y1], strokes }, at) => {
          const looked = at === this.looked ? 'box looked' : 'box'
          return svg`<rect class=${looked} x=${x0} y=${y0} width=${x1 - x0} height=${y1 - y0} @click=${() => this.boxes.choose(at)} />
            ${strokes.slice(0, MOST_STROKES).map(({ across: [a, b] }) => svg`<line class="across" x1=${a[0]} y1=${a[1]} x2=${b[0]} y2=${b[1]} />`)}`
        })}
        ${laid.map((one) => (one ? this.#trace(one) : nothing))}
        ${guideDrag({ ...shared, name: 'Baseline', y: this.baseline, value: `${figure(this.baseline)} pixels from the top`, move: (y) => (this.baseline = y) })}
        ${guideDrag({ ...shared, name: 'Upper guide', y: this.height, value: `${figure(this.height)} pixels from the top`, move: (y) => (this.height = y) })}
        ${this.straightening ? this.#ends() : nothing}
      </svg>
    </div>`
  }

  #ends() {
    const [a, b] = this.ends
    const radius = this.report.width / 110
    return svg`<line class="level" x1=${a[0]} y1=${a[1]} x2=${b[0]} y2=${b[1]} />
      ${this.ends.map(
        ([x, y], at) => svg`<g
          class="end"
          role="button"
          tabindex="0"
          aria-label=${`Point ${at + 1} of the level, at ${figure(x, 0)}, ${figure(y, 0)}; moved with the arrow keys`}
          @pointerdown=${(event: PointerEvent) => {
            event.preventDefault()
            ;(event.currentTarget as SVGGElement).setPointerCapture(event.pointerId)
          }}
          @pointermove=${(event: PointerEvent) => {
            if (!(event.currentTarget as SVGGElement).hasPointerCapture(event.pointerId)) return
            const place = placeIn(event, this.over)
            this.#end(at, [place.x, place.y])
          }}
          @keydown=${(event: KeyboardEvent) => {
            const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[
              event.key
            ]
            if (!way) return
            event.preventDefault()
            event.stopPropagation()
            const by = (event.shiftKey ? 10 : 1) * Math.max(1, this.report.height / 400)
            this.#end(at, [x + by * (way[0] ?? 0), y + by * (way[1] ?? 0)])
          }}
        ><circle cx=${x} cy=${y} r=${radius} /></g>`,
      )}`
  }

  #end(at: number, place: At): void {
    const [a, b] = this.ends
    this.ends = at === 0 ? [place, b] : [a, place]
  }

  #strokes(letter: ScanLetterReport | undefined, laid: Laid | null) {
    if (!letter) return nothing
    const units = this.#units
    const [x0, y0, x1, y1] = letter.bounds
    const told = (pixels: number) => (units === null ? '–' : figure(pixels * units))
    const name = ([...this.names][this.looked] ?? '').trim()
    return html`<div class="row">
        <table>
          <caption class="unseen">What was read of the letter’s ink</caption>
          <thead><tr><th scope="col">${name || `Letter ${this.looked + 1}`}</th><th scope="col">Font units</th><th scope="col">Pixels</th></tr></thead>
          <tbody>
            <tr><th scope="row">ink width</th><td>${told(x1 - x0)}</td><td>${figure(x1 - x0)}</td></tr>
            <tr><th scope="row">ink height</th><td>${told(y1 - y0)}</td><td>${figure(y1 - y0)}</td></tr>
            ${letter.strokes
              .slice(0, MOST_STROKES)
              .map(
                (one) =>
                  html`<tr><th scope="row">${runName[one.run]} stroke</th><td>${told(one.thickness)}</td><td>${figure(one.thickness)}</td></tr>`,
              )}
          </tbody>
        </table>
      </div>
      <label class="inline"><input type="checkbox" .checked=${this.traced} @change=${(event: Event) => (this.traced = (event.target as HTMLInputElement).checked)} />
        Lay the font’s own letters over the ink</label>
      ${this.traced ? html`<p class="note" role="status">${traceWords(laid)}</p>` : nothing}`
  }

  /** Where the font's letter lies over a scanned one: on its baseline, its ink beginning where the scan's does. */
  #laid(at: number): Laid | null {
    const units = this.#units
    const letter = this.report.letters[at]
    const name = ([...this.names][at] ?? '').trim()
    if (units === null || !letter || name === '') return null
    const line = this.redraw.line(name, true)[0]
    if (!line?.ink) return null
    const scale = 1 / units
    const x = letter.bounds[0] - line.ink[0] * scale
    const reaches = this.lines[this.line]?.y ?? 1
    const places = this.scan.beside(line.path, scale, x, this.baseline, STEP * reaches, REACH * reaches)
    return { path: line.path, scale, x, places }
  }

  #trace({ path, scale, x, places }: Laid) {
    const dots = []
    for (let i = 0; i + 2 < places.length; i += 3) {
      const [px, py, distance] = [places[i] ?? 0, places[i + 1] ?? 0, places[i + 2] ?? Number.NaN]
      if (!Number.isFinite(distance) || Math.abs(distance) < 1) continue
      dots.push(
        svg`<circle class=${distance > 0 ? 'out' : 'in'} cx=${x + px * scale} cy=${this.baseline - py * scale} r=${Math.max(1.5, Math.min(6, Math.abs(distance) * scale))} />`,
      )
    }
    return svg`<path class="traced" transform=${`matrix(${scale} 0 0 ${-scale} ${x} ${this.baseline})`} d=${path} />${dots}`
  }

  #paint(): void {
    const { width, height } = this.report
    const context = this.canvas.getContext('2d')
    if (!context) return
    const grey = this.scan.picture()
    const image = context.createImageData(width, height)
    const { data } = image
    for (let i = 0; i < grey.length; i += 1) {
      const shade = grey[i] ?? 255
      data[4 * i] = shade
      data[4 * i + 1] = shade
      data[4 * i + 2] = shade
      data[4 * i + 3] = 255
    }
    context.putImageData(image, 0, 0)
  }

  #straighten = (): void => {
    const [a, b] = this.ends
    const [left, right] = a[0] <= b[0] ? [a, b] : [b, a]
    this.straightening = false
    this.dispatchEvent(new CustomEvent('straighten', { detail: [left, right] }))
  }
}

function traceWords(laid: Laid | null): string {
  if (!laid) return 'Name the letter, and the font’s own is laid over its ink.'
  const known = [...laid.places]
    .filter((distance, i) => i % 3 === 2 && Number.isFinite(distance))
    .toSorted((a, b) => Math.abs(a) - Math.abs(b))
  const [middle, greatest] = [known[known.length >> 1], known.at(-1)]
  if (middle === undefined || greatest === undefined) return 'No edge of the ink lies near the outline.'
  return `The ink lies ${figure(Math.abs(middle))} units from the outline at the median, ${figure(Math.abs(greatest))} at most (${greatest > 0 ? 'outside' : 'inside'} it there).`
}
