import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { live } from 'lit/directives/live.js'
import { icon, iconStyle } from '../components/icons'
import { PartOf } from '../components/part-of'
import type { AxisReport } from '../generated/AxisReport'
import { session } from '../session'
import { panel } from '../styles/panel'
import { base, button, field, fold, heading } from '../styles/shared'
import './axis-walk'
import {
  asDrawn,
  choiceOf,
  instanceAt,
  type Parcel,
  samePosition,
  stepOf,
  typedValue,
  valueWords,
} from './parcel'

/** What can be chosen of an unusual file: a face of a collection, a position of a variable font. */
@customElement('axes-panel')
export class AxesPanel extends LitElement {
  static override styles = [
    base,
    field,
    button,
    fold,
    heading,
    iconStyle,
    panel,
    css`
      section {
        display: grid;
        gap: var(--gap-2);
      }

      h3 {
        font: 400 var(--type-3) / 1.3 var(--title-face);
      }

      .field,
      .axis {
        display: grid;
        align-items: center;
        gap: 0 var(--gap-2);
        font-size: var(--type-2);
      }

      .field {
        grid-template-columns: 6.5rem minmax(0, 1fr);
      }

      .axis {
        grid-template-columns: 6.5rem minmax(0, 1fr) 4.25rem;
      }

      .axis label {
        overflow: hidden;
        text-overflow: ellipsis;
        white-space: nowrap;
      }

      .stop {
        grid-column: 2 / -1;
        min-height: 1.1em;
        color: var(--soft);
        font-size: var(--type-1);
      }

      select,
      input[type="text"] {
        width: 100%;
      }

      input[type="text"] {
        text-align: end;
        font-variant-numeric: tabular-nums;
      }

      input[type="range"] {
        width: 100%;
        min-height: var(--target);
        margin: 0;
        accent-color: var(--ink);
      }

      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-2);
      }

      summary {
        display: flex;
        align-items: center;
        gap: var(--gap-1);
        min-height: var(--target);
        cursor: pointer;
        font-size: var(--type-2);
      }

      .trouble {
        color: var(--alert);
        font-size: var(--type-2);
      }
    `,
  ]

  readonly #parcel = new PartOf(this, session.store, (state) => state.parcel)

  override render() {
    const parcel = this.#parcel.value
    if (!parcel) return nothing
    const { file, report, position, trouble } = parcel
    const choice = choiceOf(parcel)
    if (choice === null) return nothing
    const varies = choice === 'axes'
    return html`<section aria-labelledby="title">
      <h3 id="title">${varies ? 'Axes of the font' : 'Faces of the file'}</h3>
      ${file.faces.length > 1 ? this.#faces(parcel) : nothing}
      ${trouble ? html`<p class="trouble">${trouble}</p>` : nothing}
      ${varies && report.instances.length > 0 ? this.#instances(parcel) : nothing}
      ${this.#axes(parcel, false)}
      ${
        report.axes.some((axis) => axis.hidden) && varies
          ? html`<details>
              <summary>${icon('more')} Axes that its maker keeps out of sight</summary>
              ${this.#axes(parcel, true)}
            </details>`
          : nothing
      }
      ${
        varies
          ? html`<div class="row">
                <button
                  type="button"
                  class="framed"
                  aria-disabled=${parcel.before.length === 0}
                  title="Where the axes stood before they were last moved"
                  @click=${() => session.handling?.back()}
                >
                  ${icon('undo')} Position before
                </button>
                <button
                  type="button"
                  class="framed"
                  aria-disabled=${samePosition(position, asDrawn(report))}
                  @click=${() => this.#move(asDrawn(report), true)}
                >
                  As it opens
                </button>
              </div>
              <axis-walk></axis-walk>`
          : nothing
      }
    </section>`
  }

  #faces({ file, face }: Parcel) {
    return html`<div class="field">
      <label for="face">Face</label>
      <select id="face" @change=${(event: Event) => void session.handling?.choose(Number(typedIn(event)))}>
        ${file.faces.map(
          ({ family, style }, index) =>
            html`<option value=${index} .selected=${index === face}>${family || `Face ${index + 1}`} ${style}</option>`,
        )}
      </select>
    </div>`
  }

  #instances({ report, position }: Parcel) {
    const at = instanceAt(report, position)
    return html`<div class="field">
      <label for="instance">Named position</label>
      <select id="instance" @change=${this.#chosen}>
        <option value="" .selected=${!at} disabled>Between the named ones</option>
        ${report.instances.map(
          (one, index) => html`<option value=${index} .selected=${one === at}>${one.name}</option>`,
        )}
      </select>
    </div>`
  }

  #axes({ report, position }: Parcel, hidden: boolean) {
    if (position.length === 0) return nothing
    return report.axes.map((axis, index) =>
      axis.hidden === hidden ? this.#axis(axis, index, position[index] ?? axis.default) : nothing,
    )
  }

  #axis(axis: AxisReport, index: number, value: number) {
    const stop = axis.stops.find((one) => one.value === value)?.name
    const words = `${valueWords(value)}${stop ? `, ${stop}` : ''}`
    return html`<div class="axis">
      <label for="axis-${index}" title="${axis.name} (${axis.tag})">${axis.name}</label>
      <input
        id="axis-${index}"
        type="range"
        min=${axis.min}
        max=${axis.max}
        step=${stepOf(axis)}
        .value=${live(String(value))}
        aria-valuetext=${words}
        @input=${(event: Event) => this.#to(index, Number(typedIn(event)), false)}
        @change=${(event: Event) => this.#to(index, Number(typedIn(event)), true)}
      />
      <input
        type="text"
        inputmode="decimal"
        autocomplete="off"
        aria-label="${axis.name}, from ${valueWords(axis.min)} to ${valueWords(axis.max)}"
        .value=${live(valueWords(value))}
        @change=${(event: Event) => this.#typed(axis, index, event)}
        @keydown=${(event: KeyboardEvent) => event.key === 'Enter' && this.#typed(axis, index, event)}
      />
      <span class="stop">${stop ?? nothing}</span>
    </div>`
  }

  #chosen = (event: Event): void => {
    const instance = this.#parcel.value?.report.instances[Number(typedIn(event))]
    if (instance) this.#move(instance.position, true)
  }

  #typed(axis: AxisReport, index: number, event: Event): void {
    const value = typedValue(typedIn(event))
    if (value !== null) this.#to(index, Math.min(axis.max, Math.max(axis.min, value)), true)
    // What is no number, or beyond the axis, is written anew as it is taken.
    this.requestUpdate()
  }

  #to(index: number, value: number, resting: boolean): void {
    const parcel = this.#parcel.value
    if (!parcel) return
    this.#move(
      parcel.position.map((one, at) => (at === index ? value : one)),
      resting,
    )
  }

  #move(position: readonly number[], resting: boolean): void {
    session.handling?.move(position, resting)
  }
}

const typedIn = (event: Event): string => (event.target as HTMLInputElement | HTMLSelectElement).value
