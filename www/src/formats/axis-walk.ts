import { css, html, LitElement, nothing, svg } from 'lit'
import { customElement, state } from 'lit/decorators.js'
import { PartOf } from '../components/part-of'
import { many } from '../figures'
import { causeName } from '../findings'
import type { FindingReport } from '../generated/FindingReport'
import { isRefusal } from '../refusal'
import { session } from '../session'
import { panel } from '../styles/panel'
import { base, button, field } from '../styles/shared'
import { styleOf, valueWords } from './parcel'
import { countsOf, type Row, rowsOf, rowWords, valuesAlong, worst } from './walk'

/** What was judged along one axis of a face. */
interface Walk {
  readonly file: unknown
  readonly face: number
  readonly axis: number
  readonly others: readonly number[]
  readonly values: readonly number[]
  readonly found: readonly (readonly FindingReport[] | undefined)[]
}

const WIDE = 130
const TALL = 22

/** Along an axis: where which letter stands out, as a small chart. */
@customElement('axis-walk')
export class AxisWalk extends LitElement {
  static override styles = [
    base,
    field,
    button,
    panel,
    css`
      :host {
        display: grid;
        gap: var(--gap-2);
      }

      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-2);
        align-items: center;
      }

      select {
        flex: 1 1 6rem;
        min-width: 0;
        font-size: var(--type-2);
      }

      progress {
        width: 100%;
        accent-color: var(--ink);
      }

      ul {
        list-style: none;
      }

      li button,
      .scale {
        display: grid;
        grid-template-columns: 1.75rem 5.5rem minmax(0, 1fr);
        align-items: center;
        gap: var(--gap-2);
        width: 100%;
        padding: 0 var(--gap-1);
      }

      li button {
        justify-content: stretch;
        min-height: 1.75rem;
        border: 0;
        border-block-start: var(--hair) solid var(--rule);
        text-align: start;
        white-space: normal;
        font-size: var(--type-1);
      }

      b {
        font: 400 1.125rem / 1 var(--title-face);
        text-align: center;
      }

      svg {
        display: block;
        width: 100%;
        height: ${TALL}px;
        overflow: visible;
      }

      .middle {
        stroke: var(--edge);
      }

      .here {
        stroke: var(--pick);
        stroke-dasharray: 2 2;
      }

      .more {
        fill: var(--more);
        stroke: var(--more);
      }

      .less {
        fill: var(--less);
        stroke: var(--less);
      }

      .faint {
        fill: none;
      }

      .scale {
        color: var(--soft);
        font-size: var(--type-1);
      }

      .ends {
        display: flex;
        justify-content: space-between;
        grid-column: 3;
      }
    `,
  ]

  readonly #parcel = new PartOf(this, session.store, (page) => page.parcel)
  readonly #allowance = new PartOf(this, session.store, (page) => page.allowance)

  @state() private axis = 0
  @state() private walk: Walk | null = null
  @state() private stop: (() => void) | null = null

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.stop?.()
  }

  override render() {
    const parcel = this.#parcel.value
    if (!parcel || parcel.position.length === 0) return nothing
    const { axes } = parcel.report
    if (this.axis >= axes.length) this.axis = 0
    return html`<div class="row">
        ${
          axes.length > 1
            ? html`<select aria-label="Axis to judge along" @change=${this.#chosen}>
                ${axes.map((axis, index) => html`<option value=${index} .selected=${index === this.axis}>${axis.name}</option>`)}
              </select>`
            : nothing
        }
        ${
          this.stop
            ? html`<button type="button" class="framed" @click=${() => this.stop?.()}>Stop judging</button>`
            : html`<button type="button" class="framed" @click=${() => void this.#judge()}>
                Judge along ${axes.length > 1 ? 'this axis' : axes[0]?.name}
              </button>`
        }
      </div>
      ${this.#chart()}`
  }

  #chart() {
    const [parcel, walk] = [this.#parcel.value, this.walk]
    if (!parcel || !walk || walk.file !== parcel.file || walk.face !== parcel.face) return nothing
    const axis = parcel.report.axes[walk.axis]
    if (!axis) return nothing
    const rows = rowsOf(walk.values, walk.found, this.#allowance.value)
    const counts = countsOf(walk.found, this.#allowance.value)
    const judged = counts.filter((count) => count !== null).length
    const moved = parcel.position.some((value, index) => index !== walk.axis && value !== walk.others[index])
    const most = Math.max(...counts.map((count) => count ?? 0))
    return html`${
      this.stop
        ? html`<progress max=${walk.values.length} value=${judged} aria-label="Positions judged"></progress>`
        : nothing
    }
      <p class="quiet" role="status">
        ${
          this.stop
            ? `Judging along ${axis.name}…`
            : rows.length === 0
              ? `No letter stands out at ${many(judged, 'position')} along ${axis.name}.`
              : `${axis.name}: at ${many(judged, 'position')} up to ${many(most, 'finding')}. Bars up: more than the other letters suggest; down: less. Press a letter to go where it is worst.`
        }${moved ? ' The other axes have moved since.' : ''}
      </p>
      <ul>
        ${rows.map((row) => this.#row(row, walk, parcel.position[walk.axis] ?? axis.default))}
      </ul>
      ${
        rows.length > 0
          ? html`<p class="scale"><span class="ends"><span>${valueWords(axis.min)}</span><span>${valueWords(axis.max)}</span></span></p>`
          : nothing
      }`
  }

  #row(row: Row, walk: Walk, here: number) {
    const [low, high] = [walk.values[0] ?? 0, walk.values.at(-1) ?? 1]
    const x = (value: number) => 3 + ((value - low) / (high - low || 1)) * (WIDE - 6)
    const middle = TALL / 2
    return html`<li>
      <button type="button" aria-label="${rowWords(row)}. Go there." @click=${() => this.#go(row, walk)}>
        <b>${row.letter}</b>
        <span>${causeName[row.cause]}</span>
        <svg viewBox="0 0 ${WIDE} ${TALL}" preserveAspectRatio="none" aria-hidden="true">
          <path class="middle" d="M0 ${middle}H${WIDE}" vector-effect="non-scaling-stroke" />
          <path class="here" d="M${x(here)} 0V${TALL}" vector-effect="non-scaling-stroke" />
          ${row.spots.map((spot) => {
            if (!spot) return nothing
            const height = spot.strength * (middle - 1)
            const up = spot.difference >= 0
            return svg`<rect
              class="${up ? 'more' : 'less'} ${spot.listed ? '' : 'faint'}"
              x=${x(spot.value) - 2.5}
              y=${up ? middle - height : middle}
              width="5"
              height=${height}
              vector-effect="non-scaling-stroke"
            />`
          })}
        </svg>
      </button>
    </li>`
  }

  /** The chart grows below the axes: their panel is rolled on to it, and the page stays where it is. */
  #inSight(): void {
    const { host } = this.getRootNode() as ShadowRoot
    host.scrollTop += this.getBoundingClientRect().top - host.getBoundingClientRect().top
  }

  #chosen = (event: Event): void => {
    this.axis = Number((event.target as HTMLSelectElement).value)
  }

  #go(row: Row, walk: Walk): void {
    const [parcel, spot] = [this.#parcel.value, worst(row)]
    if (!parcel || !spot) return
    const position = parcel.position.map((value, index) => (index === walk.axis ? spot.value : value))
    session.handling?.move(position, true)
  }

  async #judge(): Promise<void> {
    const [parcel, handling] = [this.#parcel.value, session.handling]
    const axis = parcel?.report.axes[this.axis]
    if (!parcel || !handling || !axis || this.stop) return
    const { face, file, report, position } = parcel
    const values = valuesAlong(axis)
    const places = values.map((value) => position.map((one, at) => (at === this.axis ? value : one)))
    const found: (readonly FindingReport[] | undefined)[] = values.map(() => undefined)
    const walk = { file, face, axis: this.axis, others: position, values }
    this.walk = { ...walk, found: [...found] }
    const cuts = places.map((place) => ({ face, position: place, style: styleOf(report, place) }))
    const { done, stop } = handling.parcels.along(cuts, (index, findings) => {
      found[index] = findings
      this.walk = { ...walk, found: [...found] }
    })
    this.stop = stop
    try {
      await done
      this.stop = null
      await this.updateComplete
      this.#inSight()
    } catch (error) {
      if (isRefusal(error)) session.set({ remark: error.sentence })
      else console.error(error)
    } finally {
      this.stop = null
    }
  }
}
