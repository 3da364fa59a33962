import { css, html, nothing } from 'lit'
import { customElement, state } from 'lit/decorators.js'
import { figure, NONE, signed } from '../figures'
import { deviationsOf } from '../findings'
import type { ItemState } from '../generated/ItemState'
import type { LetterReport } from '../generated/LetterReport'
import type { Measure } from '../generated/Measure'
import { session } from '../session'
import { panel } from '../styles/panel'
import { base } from '../styles/shared'
import { measureName } from '../words'
import { Beside } from './beside'
import { PartOf } from './part-of'
import { sameList } from './same-list'
import './set-letter'

const measures: readonly Measure[] = ['weight', 'width', 'height']

/** All that the stage shows, as text: a row a letter of the line. */
@customElement('figures-table')
export class FiguresTable extends Beside {
  static override styles = [
    base,
    panel,
    css`
      details {
        border-block-start: var(--hair) solid var(--rule);
      }

      summary {
        min-height: var(--target);
        padding: var(--gap-3) var(--gap-5);
        color: var(--soft);
        font-size: var(--type-2);
        cursor: pointer;
      }

      summary:hover {
        color: var(--ink);
      }

      .scroll {
        max-width: 100%;
        padding: 0 var(--gap-5) var(--gap-5);
        overflow-x: auto;
      }

      table {
        min-width: 44rem;
      }

      th,
      td {
        padding-inline-end: var(--gap-2);
      }

      set-letter {
        display: inline-block;
        min-width: 1.5em;
        font-size: var(--type-4);
      }

      tbody th {
        color: var(--ink);
      }

      tbody tr[aria-current="true"] > * {
        background: var(--lift);
      }

      tbody tr[aria-current="true"] th {
        box-shadow: inset 3px 0 var(--pick);
      }

      button {
        min-width: 1.75rem;
        min-height: 1.75rem;
        padding: 0 var(--gap-2);
        color: inherit;
        background: none;
        border: 0;
        font: inherit;
        cursor: pointer;
      }
    `,
  ]

  @state() private open = false

  readonly #items = new PartOf(
    this,
    session.store,
    (state) => state.stage?.items ?? [],
    (a, b) =>
      sameList(
        a,
        b,
        (one, other) =>
          one.id === other.id &&
          one.glyph === other.glyph &&
          one.selected === other.selected &&
          one.moved === other.moved,
      ),
  )
  readonly #font = new PartOf(this, session.store, (state) => state.font?.report)
  readonly #judgement = new PartOf(this, session.store, (state) => state.judgement)

  override render() {
    if (!this.#font.value) return nothing
    return html`<details @toggle=${this.#toggle}>
      <summary>Figures of every letter on the line</summary>
      ${this.open ? this.#table(this.#items.value) : nothing}
    </details>`
  }

  #toggle = (event: Event): void => {
    const details = event.target as HTMLDetailsElement
    this.open = details.open
    // It opens below the window's edge: show that it did.
    if (this.open) void this.updateComplete.then(() => details.scrollIntoView({ block: 'nearest' }))
  }

  #table(items: readonly ItemState[]) {
    return html`<div class="scroll" tabindex="0" role="region" aria-label="Figures of every letter on the line">
      <table>
        <thead>
          <tr>
            ${[
              'Letter',
              'Moved',
              'Advance',
              'Left bearing',
              'Right bearing',
              'Ink width',
              'Foot',
              'Top',
              'Overshoot',
              'Main stroke',
            ].map((name) => html`<th scope="col">${name}</th>`)}
            ${measures.map((measure) => html`<th scope="col">${measureName[measure]} ±</th>`)}
          </tr>
        </thead>
        <tbody>
          ${items.map((item) => this.#row(item))}
        </tbody>
      </table>
    </div>`
  }

  #row(item: ItemState) {
    const report = item.glyph == null ? null : session.letter(item.glyph)
    const bounds = report?.bounds
    const deviations = deviationsOf(this.#judgement.value, item.glyph)
    return html`<tr aria-current=${item.selected}>
      <th scope="row">
        <button
          type="button"
          title="Choose it on the stage"
          @click=${() => session.apply({ type: 'select', items: [item.id] })}
        >
          <set-letter .letter=${item.label}></set-letter>
        </button>
      </th>
      <td>${item.moved == null ? NONE : signed(item.moved)}</td>
      <td>${figure(report?.advance)}</td>
      <td>${figure(report?.leftBearing)}</td>
      <td>${figure(report?.rightBearing)}</td>
      <td>${figure(bounds && bounds.xMax - bounds.xMin)}</td>
      <td>${figure(report?.foot?.y)}</td>
      <td>${figure(report?.top?.y)}</td>
      <td>${overshoots(report)}</td>
      <td>${figure(deviations.find((one) => one.measure === 'weight')?.value)}</td>
      ${measures.map((measure) => {
        const deviation = deviations.find((one) => one.measure === measure)
        return html`<td>${deviation ? signed(deviation.value - deviation.expected) : NONE}</td>`
      })}
    </tr>`
  }
}

/** Foot and top. */
function overshoots(report: LetterReport | null): string {
  const of = (value: number | null | undefined) => figure(value)
  return report ? `${of(report.foot?.overshoot)} / ${of(report.top?.overshoot)}` : NONE
}
