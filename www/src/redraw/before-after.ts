import { css, html, LitElement, nothing, svg } from 'lit'
import { customElement, property, state } from 'lit/decorators.js'
import { fateName } from '../desk/fate'
import { figure, many } from '../figures'
import type { CompareReport } from '../generated/CompareReport'
import type { GlyphEntry } from '../generated/GlyphEntry'
import type { LetterChange } from '../generated/LetterChange'
import { save } from '../save'
import { panel } from '../styles/panel'
import { base, button } from '../styles/shared'
import { figureRows } from './figure-rows'
import './flip-line'
import type { Redraw } from './module'
import { placeStyle } from './place-style'
import { guideLines, guideWords, type Line, letter, planeOf, sheetStyle, viewBox } from './sheet-lines'
import { changeName, fateMark, glyphName } from './words'

/** Letters listed at first; whoever wants more asks for them. */
const FEW = 60

/** The later revision beside the earlier one: what changed, and what became of what stood out. */
@customElement('before-after')
export class BeforeAfter extends LitElement {
  static override styles = [
    base,
    button,
    panel,
    sheetStyle,
    placeStyle,
    css`
      h3 {
        font: 600 var(--type-3) / 1.3 var(--text-face);
      }

      .letters {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-1);
        padding: 0;
        list-style: none;
      }

      .letters button {
        min-width: 2.5rem;
        border-color: var(--edge);
      }

      .letters button[aria-pressed="true"] {
        color: var(--paper);
        background: var(--ink);
        forced-color-adjust: none;
      }

      .split {
        display: grid;
        grid-template-columns: minmax(0, 3fr) minmax(16rem, 2fr);
        align-items: start;
        gap: var(--gap-5);
      }

      .split > * {
        display: grid;
        gap: var(--gap-2);
      }

      .key {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-1) var(--gap-4);
        color: var(--soft);
        font-size: var(--type-2);
      }

      .key svg {
        width: 2rem;
        height: 0.75rem;
        vertical-align: middle;
      }

      .far {
        fill: none;
        stroke: var(--mark);
        stroke-width: 2;
        vector-effect: non-scaling-stroke;
      }

      .fates {
        padding: 0;
        list-style: none;
      }

      .fates li {
        display: grid;
        grid-template-columns: 1.25rem 6rem minmax(0, 1fr);
        gap: var(--gap-2);
        padding: var(--gap-1) 0;
        border-block-start: var(--hair) solid var(--rule);
        font-size: var(--type-2);
        line-height: 1.4;
      }

      .fates .mark {
        font-weight: 600;
        text-align: center;
      }

      .fates .fate {
        font-weight: 600;
      }

      @media (width < 60rem) {
        .split {
          grid-template-columns: minmax(0, 1fr);
        }
      }
    `,
  ]

  @property({ attribute: false }) redraw!: Redraw
  @property({ attribute: false }) report!: CompareReport
  @property({ attribute: false }) lines: readonly Line[] = []
  @property() text = ''
  @property() earlier = ''
  @property() later = ''

  @state() private chosen = 0
  @state() private all = false

  override willUpdate(changed: Map<string, unknown>): void {
    if (!changed.has('report')) return
    this.chosen = 0
    this.all = false
  }

  override render() {
    const { changed, same, added, gone, notes } = this.report
    const change = changed[this.chosen]
    return html`
      <p>
        ${
          changed.length === 0 && added.length === 0 && gone.length === 0
            ? 'Both are the same, letter for letter.'
            : `${many(changed.length, 'letter')} changed, ${added.length} came, ${gone.length} went, ${same} ${same === 1 ? 'is' : 'are'} the same.`
        }
      </p>
      ${notes.map((note) => html`<p class="note">${note}</p>`)}
      <flip-line
        .redraw=${this.redraw}
        .lines=${this.lines}
        .unitsPerEm=${this.report.unitsPerEm}
        .text=${this.text}
        .earlier=${this.earlier}
        .later=${this.later}
      ></flip-line>
      ${this.#fates()}
      ${changed.length > 0 ? this.#list() : nothing}
      ${change ? this.#change(change) : nothing}
      ${this.#names('Came', added)} ${this.#names('Went', gone)}`
  }

  #fates() {
    const { findings } = this.report
    if (findings.length === 0) return nothing
    return html`<div>
      <h3>What stood out before, and now</h3>
      <ul class="fates">
        ${findings.map(({ fate, old, new: now }) => {
          // A settled one is told as it was; the others as they are.
          const told = fate === 'settled' ? (old ?? now) : (now ?? old)
          return html`<li>
            <span class="mark" aria-hidden="true">${fateMark[fate]}</span>
            <span class="fate">${fateName[fate]}</span>
            <span>${told?.sentence ?? ''}</span>
          </li>`
        })}
      </ul>
    </div>`
  }

  #list() {
    const { changed } = this.report
    const shown = this.all ? changed : changed.slice(0, FEW)
    const more = changed.length - shown.length
    return html`<div>
      <h3 id="changed">Letters that changed</h3>
      <ul class="letters" aria-labelledby="changed">
        ${shown.map(
          (one, at) => html`<li>
            <button
              type="button"
              aria-pressed=${at === this.chosen}
              title=${changeName[one.kind]}
              @click=${() => (this.chosen = at)}
            >
              ${glyphName(one.new)}
            </button>
          </li>`,
        )}
        ${more > 0 ? html`<li><button type="button" @click=${() => (this.all = true)}>${more} more</button></li>` : nothing}
      </ul>
    </div>`
  }

  #change(change: LetterChange) {
    const { greatest, kind } = change
    const name = glyphName(change.new)
    const told =
      kind === 'trouble'
        ? 'It can be read in one of the two alone.'
        : greatest == null
          ? 'A part of it came or went.'
          : greatest > 0
            ? `Its outline moved by up to ${figure(greatest)} units.`
            : kind === 'points'
              ? 'The same shape, drawn with other points.'
              : 'The same shape; its white changed.'
    return html`<div class="split">
      <div>
        <h3>${name}: ${changeName[kind].toLowerCase()}</h3>
        <p class="note">${told}</p>
        ${this.#overlay(change)}
        <div class="key" aria-hidden="true">
          <span><svg viewBox="0 0 32 12"><rect class="was" width="32" height="12" /></svg> before</span>
          <span><svg viewBox="0 0 32 12"><path class="edge" d="M1 6h30" /></svg> after</span>
          <span><svg viewBox="0 0 32 12"><path class="came" d="M3 6h26" /></svg> came</span>
          <span><svg viewBox="0 0 32 12"><path class="left" d="M1 6h30" /></svg> left</span>
        </div>
        <div class="row">
          <button class="framed" type="button" @click=${() => this.#save(change)}>Save the later ${name} as SVG</button>
        </div>
      </div>
      <div>${figureRows(change.figures, 'Before', 'After')}</div>
    </div>`
  }

  #overlay(change: LetterChange) {
    const advance = change.figures.find((one) => one.id === 'advance')
    const width = Math.max(advance?.old ?? 0, advance?.new ?? 0, 1)
    const { unitsPerEm } = this.report
    const plane = planeOf(this.lines, unitsPerEm, -0.3 * unitsPerEm, width)
    const { at } = change
    return html`<svg class="sheet" viewBox=${viewBox(plane)} role="img" aria-label="Both outlines, one over the other, where they differ tinted">
      ${guideLines(this.lines, plane)} ${guideWords(this.lines, plane)}
      ${letter(change.oldPath, 'was')} ${letter(change.newPath, 'edge')}
      ${change.left.map((part) => letter(part.path, 'left'))} ${change.came.map((part) => letter(part.path, 'came'))}
      ${at ? svg`<circle class="far" cx=${at[0]} cy=${-at[1]} r=${unitsPerEm / 45} />` : nothing}
    </svg>`
  }

  #names(heading: string, entries: readonly GlyphEntry[]) {
    if (entries.length === 0) return nothing
    const names = entries.slice(0, 4 * FEW).map(glyphName)
    const more = entries.length - names.length
    return html`<div>
      <h3>${heading}</h3>
      <p class="note">${names.join('  ')}${more > 0 ? ` and ${more} more` : ''}</p>
    </div>`
  }

  #save(change: LetterChange): void {
    const name = glyphName(change.new)
    const advance = change.figures.find((one) => one.id === 'advance')?.new ?? 0
    const text = this.redraw.sheet(name, change.newPath, advance, false)
    save(document, new Blob([text], { type: 'image/svg+xml' }), `${name}.svg`)
  }
}
