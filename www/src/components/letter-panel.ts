import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { figure, signed } from '../figures'
import { deviationsOf } from '../findings'
import type { ItemState } from '../generated/ItemState'
import type { LetterReport } from '../generated/LetterReport'
import type { Measure } from '../generated/Measure'
import type { SpacingSide } from '../generated/SpacingSide'
import '../desk/desk-word'
import { session } from '../session'
import { sideName } from '../spacing'
import { panel } from '../styles/panel'
import { base, heading } from '../styles/shared'
import {
  codePoint,
  deviationWords,
  drawingRows,
  extremityWords,
  flawWords,
  isUsual,
  measureName,
  strokeName,
} from '../words'
import './command-button'
import './deviation-bar'
import './letter-tools'
import { PartOf } from './part-of'
import { sameList } from './same-list'
import './set-letter'
import './tool-row'

/** More columns than this would not be read side by side. */
const MOST_COLUMNS = 4

const measures: readonly Measure[] = ['weight', 'width', 'height']

interface Row {
  readonly name: string
  readonly of: (report: LetterReport) => string
}

const ink = (report: LetterReport, of: (b: NonNullable<LetterReport['bounds']>) => number): string =>
  figure(report.bounds && of(report.bounds))

const rows: readonly Row[] = [
  { name: 'Advance width', of: (r) => figure(r.advance) },
  { name: 'Left bearing', of: (r) => figure(r.leftBearing) },
  { name: 'Right bearing', of: (r) => figure(r.rightBearing) },
  { name: 'Ink width', of: (r) => ink(r, (b) => b.xMax - b.xMin) },
  { name: 'Ink height', of: (r) => ink(r, (b) => b.yMax - b.yMin) },
]

const copies = html`<tool-row label="On the line">
  <command-button name="duplicate" look="icon"></command-button>
  <command-button name="remove" look="icon"></command-button>
</tool-row>`

/** The figures of the chosen letter, or of a few chosen letters side by side. */
@customElement('letter-panel')
export class LetterPanel extends LitElement {
  static override styles = [
    base,
    heading,
    panel,
    css`
      .head {
        display: flex;
        align-items: center;
        gap: var(--gap-3);
        min-height: 5.25rem;
        padding: var(--gap-3) var(--gap-4) var(--gap-1);
      }

      .head > div {
        flex: 1;
        min-width: 0;
        overflow-wrap: anywhere;
      }

      .head > tool-row {
        flex: none;
      }

      /* The letter on its own piece of the sheet, as a sort lies on the stone. */
      .sort {
        display: grid;
        place-items: center;
        flex: none;
        min-width: 4rem;
        height: 4rem;
        padding-inline: var(--gap-2);
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
        border-radius: var(--corner);
        font: 400 var(--type-6) / 1 var(--title-face);
      }

      .head h2:not(.sort) {
        font: 400 var(--type-4) / 1.3 var(--title-face);
      }

      set-letter {
        display: inline-block;
      }

      thead set-letter {
        color: var(--ink);
        font-size: var(--type-4);
      }

      .deviation {
        display: grid;
        grid-template-columns: 4.5rem 1fr;
        gap: 0.125rem var(--gap-2);
        align-items: center;
        font-size: var(--type-2);
      }

      .deviation + .deviation {
        margin-block-start: var(--gap-3);
      }

      .deviation p {
        grid-column: 1 / -1;
        color: var(--soft);
      }

      .deviation b {
        color: var(--ink);
        font-weight: 600;
      }

      ul {
        margin-block-start: var(--gap-2);
        padding-inline-start: 1.1em;
        font-size: var(--type-2);
      }

      .trouble {
        color: var(--alert);
      }
    `,
  ]

  readonly #chosen = new PartOf(
    this,
    session.store,
    (state) => state.stage?.items.filter((item) => item.selected) ?? [],
    sameLetters,
  )
  readonly #judgement = new PartOf(this, session.store, (state) => state.judgement)
  readonly #spacing = new PartOf(this, session.store, (state) => state.spacing)
  // Another font has other figures for the same glyph numbers.
  readonly #font = new PartOf(this, session.store, (state) => state.font?.report)

  override render() {
    const chosen = this.#chosen.value
    const first = chosen[0]
    if (!first || !this.#font.value) return nothing
    return html`${chosen.length === 1 ? this.#head(first) : this.#heads(chosen)}
      <letter-tools></letter-tools>
      ${chosen.length === 1 ? this.#one(first) : this.#several(chosen)}`
  }

  #head(item: ItemState) {
    const report = reportOf(item)
    const what = [
      item.character && codePoint(item.character),
      report?.name && `glyph ${report.name}`,
      item.glyph != null && `no. ${item.glyph}`,
    ].filter(Boolean)
    return html`<div class="head">
      <h2 class="sort"><set-letter .letter=${item.label}></set-letter></h2>
      <div class="quiet">
        ${what.map((one) => html`<p>${one}</p>`)}
        <desk-word .letter=${item.character ?? item.label}></desk-word>
      </div>
      ${copies}
    </div>`
  }

  #heads(chosen: readonly ItemState[]) {
    const more = chosen.length - MOST_COLUMNS
    return html`<div class="head">
      <div>
        <h2>${chosen.length} letters</h2>
        <p class="quiet">${more > 0 ? `Side by side below: the first ${MOST_COLUMNS}.` : 'Side by side below.'}</p>
      </div>
      ${copies}
    </div>`
  }

  #one(item: ItemState) {
    const report = reportOf(item)
    if (!report) return html`<section><p class="quiet">The font has no such letter.</p></section>`
    return html`${report.trouble ? html`<section><p class="trouble">${report.trouble}</p></section>` : nothing}
      ${this.#deviations(report)} ${this.#sides(report)}
      <section>
        <h3>Widths, in units</h3>
        <table>
          <tbody>
            ${rows.map((row) => html`<tr><th scope="row">${row.name}</th><td>${row.of(report)}</td></tr>`)}
          </tbody>
        </table>
      </section>
      <section>
        <h3>Heights, in units</h3>
        <table>
          <tbody>
            <tr><th scope="row">Top</th><td>${extremityWords(report.top)}</td></tr>
            <tr><th scope="row">Foot</th><td>${extremityWords(report.foot)}</td></tr>
          </tbody>
        </table>
      </section>
      ${this.#strokes(report)} ${this.#drawing(report)}`
  }

  #sides(report: LetterReport) {
    const spacing = this.#spacing.value
    if (spacing.kind !== 'done') return nothing
    const letter = spacing.report.letters.find((one) => one.glyph === report.glyph)
    if (!letter) return nothing
    const { left, right } = letter
    const row = (name: string, of: (side: SpacingSide) => string) =>
      html`<tr><th scope="row">${name}</th><td>${of(left)}</td><td>${of(right)}</td></tr>`
    return html`<section>
      <h3>Side bearings, in units</h3>
      <table>
        <thead>
          <tr><td></td><th scope="col">Left</th><th scope="col">Right</th></tr>
        </thead>
        <tbody>
          ${row('The side is', (side) => sideName[side.kind])} ${row('Bearing', (side) => figure(side.bearing))}
          ${row('Its other sides imply', (side) => figure(side.implied, 0))}
          ${row('So it is off by', (side) => signed(side.deviation, 0))}
          ${row('Such a side strays by', (side) => figure(side.spread, 0))}
          ${row('From H, O, n and o', (side) => figure(side.controls, 0))}
          ${row('By the handbook', (side) => figure(side.handbook, 0))}
        </tbody>
      </table>
      <p class="quiet">
        Implied: what well-spaced families set such a side to, moved by what this font’s own sides are moved by. The
        handbook is Walter Tracy’s Letters of Credit, 1986; what it leaves to the eye has no figure.
      </p>
    </section>`
  }

  #drawing(report: LetterReport) {
    const { drawing } = report
    if (!drawing || drawing.drawn === 0) return nothing
    return html`<section>
      <h3>Drawing, in points</h3>
      <table>
        <tbody>
          ${drawingRows(drawing).map(([name, value]) => html`<tr><th scope="row">${name}</th><td>${value}</td></tr>`)}
        </tbody>
      </table>
      <ul class="flaws">
        ${flawWords(drawing).map((sentence) => html`<li>${sentence}</li>`)}
      </ul>
    </section>`
  }

  #deviations(report: LetterReport) {
    const deviations = deviationsOf(this.#judgement.value, report.glyph)
    if (deviations.length === 0) return nothing
    return html`<section>
      <h3>Beside what the other letters suggest</h3>
      ${deviations.map((deviation) => {
        const usual = isUsual(deviation)
        return html`<div class="deviation">
          <b>${measureName[deviation.measure]}</b>
          <deviation-bar .deviation=${deviation}></deviation-bar>
          <p>
            <b>${figure(deviation.value)}</b>: ${deviationWords(deviation)}${
              usual ? ', which is usual' : nothing
            }
          </p>
        </div>`
      })}
    </section>`
  }

  #strokes(report: LetterReport) {
    if (report.strokes.length === 0) return nothing
    return html`<section>
      <h3>Strokes: thickness, in units</h3>
      <table>
        <thead>
          <tr>
            <th scope="col">Stroke</th>
            <th scope="col">Median</th>
            <th scope="col">Least</th>
            <th scope="col">Greatest</th>
          </tr>
        </thead>
        <tbody>
          ${report.strokes.map(
            (stroke) => html`<tr>
              <th scope="row">${strokeName(stroke)}</th>
              <td>${figure(stroke.median)}</td>
              <td>${figure(stroke.least.value)}</td>
              <td>${figure(stroke.greatest.value)}</td>
            </tr>`,
          )}
        </tbody>
      </table>
    </section>`
  }

  #several(chosen: readonly ItemState[]) {
    const shown = chosen.slice(0, MOST_COLUMNS).map((item) => ({ item, report: reportOf(item) }))
    const cells = (of: (report: LetterReport) => unknown) =>
      shown.map(({ report }) => html`<td>${report ? of(report) : '–'}</td>`)
    return html`<section>
      <h3>Figures, in units</h3>
      <table>
        <thead>
          <tr>
            <td></td>
            ${shown.map(({ item }) => html`<th scope="col"><set-letter .letter=${item.label}></set-letter></th>`)}
          </tr>
        </thead>
        <tbody>
          ${rows.map((row) => html`<tr><th scope="row">${row.name}</th>${cells(row.of)}</tr>`)}
          <tr><th scope="row">Top</th>${cells((r) => figure(r.top?.y))}</tr>
          <tr><th scope="row">Foot</th>${cells((r) => figure(r.foot?.y))}</tr>
          ${measures.map(
            (measure) =>
              html`<tr>
                <th scope="row">${measureName[measure]}, beside what is expected</th>
                ${cells((r) => {
                  const own = deviationsOf(this.#judgement.value, r.glyph)
                  const d = own.find((one) => one.measure === measure)
                  return d ? signed(d.value - d.expected) : '–'
                })}
              </tr>`,
          )}
        </tbody>
      </table>
    </section>`
  }
}

const reportOf = (item: ItemState): LetterReport | null =>
  item.glyph == null ? null : session.letter(item.glyph)

/** Moving a letter changes none of its figures. */
const sameLetters = (a: readonly ItemState[], b: readonly ItemState[]): boolean =>
  sameList(a, b, (one, other) => one.id === other.id && one.glyph === other.glyph)
