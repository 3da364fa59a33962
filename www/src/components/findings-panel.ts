import { css, html, nothing } from 'lit'
import { customElement, query, queryAll, state } from 'lit/decorators.js'
import { live } from 'lit/directives/live.js'
import {
  allowances,
  allowanceWords,
  causeName,
  countWords,
  emptyWords,
  findingKey,
  isSame,
  meantSo,
  rarityWords,
  standing,
} from '../findings'
import { Beside } from './beside'
import '../desk/desk-word'
import type { FindingKey } from '../generated/FindingKey'
import type { FindingReport } from '../generated/FindingReport'
import { session } from '../session'
import { base, button, fold, heading } from '../styles/shared'
import { icon, iconStyle } from './icons'
import { moveInList } from './list-keys'
import './spacing-panel'
import { PartOf } from './part-of'
import './set-letter'

/**
 * What stands out, worst first. Choosing a finding stands its letter between
 * the letters that it is compared with; how strict the list is, and what of it
 * is meant so, is the person's to say.
 */
@customElement('findings-panel')
export class FindingsPanel extends Beside {
  static override styles = [
    base,
    button,
    fold,
    heading,
    iconStyle,
    css`
      .head {
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        justify-content: space-between;
        gap: 0 var(--gap-3);
        padding: var(--gap-3) var(--gap-4) var(--gap-1);
      }

      h2 {
        font: 400 var(--type-4) / 1.3 var(--title-face);
      }

      .count {
        color: var(--soft);
        font-size: var(--type-2);
      }

      .strictness {
        display: grid;
        grid-template-columns: auto 1fr auto;
        align-items: center;
        gap: 0 var(--gap-2);
        padding: 0 var(--gap-4) var(--gap-3);
        color: var(--soft);
        font-size: var(--type-1);
      }

      .strictness p {
        grid-column: 1 / -1;
        line-height: 1.35;
      }

      input {
        width: 100%;
        min-width: 0;
        min-height: max(var(--target), 1.5rem);
        margin: 0;
        accent-color: var(--ink);
        cursor: pointer;
      }

      ol,
      ul {
        list-style: none;
      }

      .finding {
        position: relative;
        border-block-start: var(--hair) solid var(--rule);
      }

      .finding:hover {
        background: color-mix(in oklch, var(--rule) 45%, transparent);
      }

      .choose {
        display: grid;
        grid-template-columns: 2.75rem 1fr;
        align-items: start;
        justify-content: stretch;
        gap: 0 var(--gap-3);
        width: 100%;
        min-height: max(2.625rem, var(--target));
        padding: var(--gap-2) var(--gap-4) 0;
        border: 0;
        text-align: start;
        white-space: normal;
      }

      button.choose:hover {
        background: transparent;
      }

      /* The ring goes about the whole finding, its words below the button too. */
      .choose:focus-visible {
        outline: none;
        box-shadow: none;
      }

      .finding:has(.choose:focus-visible) {
        outline: 2px solid var(--pick);
        outline-offset: -2px;
      }

      /* The letter on its own piece of the sheet, as a sort lies on the stone. */
      .sort {
        position: relative;
        display: grid;
        place-items: center;
        height: 3.25rem;
        /* It reaches down beside the words under the sentence. */
        margin-block-end: -1.25rem;
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
        border-radius: var(--corner);
        font: 400 1.75rem / 1 var(--title-face);
      }

      /* The same disc as under the letter on the stage. */
      .rank {
        position: absolute;
        top: -0.375rem;
        left: -0.5rem;
        display: grid;
        place-items: center;
        min-width: 1.125rem;
        padding-inline: 0.125rem;
        height: 1.125rem;
        color: var(--sheet);
        background: var(--ink);
        forced-color-adjust: none;
        border-radius: 1em;
        font: 600 0.6875rem / 1 var(--text-face);
      }

      .sentence {
        line-height: 1.35;
      }

      .under {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: var(--gap-2);
        padding: 0 var(--gap-3) 0.125rem 4.5rem;
        color: var(--soft);
        font-size: var(--type-1);
        line-height: 1.3;
      }

      .under button {
        flex: none;
        min-height: max(1.5rem, var(--target) - 0.375rem);
        padding: 0 var(--gap-1);
        color: var(--ink);
        font-size: var(--type-1);
        text-decoration: underline;
        text-decoration-color: var(--edge);
        text-underline-offset: 0.2em;
      }

      @media (pointer: coarse) {
        .under button {
          min-height: var(--target);
        }
      }

      /* On the stage now: a bar at its edge, and the words below it say so. */
      .finding.shown {
        background: var(--lift);
        box-shadow: inset 4px 0 0 var(--pick);
      }

      .told {
        padding: 0 var(--gap-4) var(--gap-3);
        color: var(--soft);
        font-size: var(--type-2);
      }

      .note {
        display: flex;
        gap: var(--gap-2);
        margin: 0 var(--gap-4) var(--gap-3);
        padding: var(--gap-2) var(--gap-3);
        background: var(--lift);
        border: var(--hair) solid var(--edge);
        border-radius: var(--corner);
        font-size: var(--type-2);
        line-height: 1.35;
      }

      .note .icon {
        flex: none;
      }

      .failed {
        color: var(--alert);
      }

      details {
        border-block-start: var(--hair) solid var(--rule);
        font-size: var(--type-2);
      }

      summary {
        display: flex;
        align-items: center;
        gap: var(--gap-1);
        min-height: max(var(--target), 1.875rem);
        padding: 0 var(--gap-4);
        cursor: pointer;
      }

      summary:focus-visible {
        outline-offset: -2px;
        box-shadow: none;
      }

      .meant {
        display: grid;
        grid-template-columns: 1fr auto;
        align-items: center;
        gap: var(--gap-2);
        padding: 0 var(--gap-3) var(--gap-1) var(--gap-4);
        line-height: 1.35;
      }

      @media (forced-colors: active) {
        .finding.shown {
          border-inline-start: 4px solid Highlight;
        }
      }
    `,
  ]

  readonly #font = new PartOf(this, session.store, (state) => state.font?.report ?? null)
  readonly #judgement = new PartOf(this, session.store, (state) => state.judgement)
  readonly #allowance = new PartOf(this, session.store, (state) => state.allowance)
  readonly #shown = new PartOf(
    this,
    session.store,
    (state) => state.stage?.finding ?? null,
    // It is read anew with every state of the stage.
    (a, b) => a?.glyph === b?.glyph && a?.cause === b?.cause,
  )

  /** The finding that the Tab key comes to, by its key. */
  @state() private stop = ''

  @queryAll('.choose') private readonly choices!: NodeListOf<HTMLButtonElement>
  @query('summary') private readonly summary!: HTMLElement | null

  #seen: FindingKey | null = null
  #of: unknown = null

  override willUpdate(): void {
    if (this.#of === this.#font.value) return
    this.#of = this.#font.value
    this.stop = ''
    this.scrollTop = 0
  }

  override updated(): void {
    if (this.#shown.value === this.#seen) return
    this.#seen = this.#shown.value
    // Within the panel alone: in a small window the page is not to leave the stage.
    const one = this.renderRoot.querySelector('.shown')?.getBoundingClientRect()
    const box = this.getBoundingClientRect()
    if (!one) return
    if (one.top < box.top) this.scrollTop -= box.top - one.top
    else if (one.bottom > box.bottom) this.scrollTop += one.bottom - box.bottom
  }

  override render() {
    if (!this.#font.value) return nothing
    const judgement = this.#judgement.value
    const listed = standing(judgement, this.#allowance.value)
    return html`<section aria-labelledby="title">
      <div class="head">
        <h2 id="title">What stands out</h2>
        <p class="count" aria-live="polite">${countWords(judgement, listed.length)}</p>
      </div>
      ${judgement.kind === 'failed' ? html`<p class="told failed">${judgement.sentence}</p>` : this.#strictness()}
      ${
        judgement.kind === 'done' && judgement.report.note
          ? html`<p class="note">${icon('warn')}<span>${judgement.report.note}</span></p>`
          : nothing
      }
      ${judgement.kind === 'done' ? this.#list(listed) : nothing} ${this.#meantList()}
      <spacing-panel></spacing-panel>
    </section>`
  }

  #strictness() {
    const words = allowanceWords(this.#allowance.value)
    return html`<div class="strictness">
      <label for="strictness" class="unseen">How much is listed</label>
      <span aria-hidden="true">the surest</span>
      <input
        id="strictness"
        type="range"
        min="0"
        max=${allowances.length - 1}
        step="1"
        .value=${live(`${allowances.indexOf(this.#allowance.value)}`)}
        aria-valuetext=${words}
        @input=${this.#slid}
      />
      <span aria-hidden="true">every doubt</span>
      <p>${words}</p>
    </div>`
  }

  #list(listed: readonly FindingReport[]) {
    if (listed.length === 0) {
      const more = emptyWords(this.#judgement.value, this.#allowance.value)
      return html`<p class="told"><b>Nothing stands out at this strictness.</b> ${more}</p>`
    }
    const stop = this.#stopAmong(listed)
    return html`<ol aria-label="Findings, worst first" @keydown=${this.#onKey}>
      ${listed.map((finding, at) => {
        const shown = isSame(finding, this.#shown.value)
        return html`<li class="finding ${shown ? 'shown' : ''}">
          <button
            class="choose"
            type="button"
            tabindex=${at === stop ? 0 : -1}
            aria-current=${shown ? 'true' : nothing}
            aria-describedby="rarity-${at}"
            @focus=${() => {
              this.stop = findingKey(finding)
            }}
            @click=${() => this.#choose(finding)}
          >
            <span class="sort">
              <span class="rank">${at + 1}</span>
              <set-letter aria-hidden="true" .letter=${finding.letter}></set-letter>
            </span>
            <span class="sentence">${finding.sentence}</span>
          </button>
          <div class="under">
            <span id="rarity-${at}">${shown ? html`<b>On the stage.</b> ` : nothing}${rarityWords(finding.byChance)} <desk-word .letter=${finding.letter} .cause=${finding.cause}></desk-word></span>
            <button
              type="button"
              tabindex=${at === stop ? 0 : -1}
              title="It is no fault: leave it out of the list, in this font"
              aria-label="Meant so: ${finding.letter}, ${causeName[finding.cause]}"
              @focus=${() => {
                this.stop = findingKey(finding)
              }}
              @click=${() => this.#mean(finding, at)}
            >
              Meant so
            </button>
          </div>
        </li>`
      })}
    </ol>`
  }

  #meantList() {
    const meant = meantSo(this.#judgement.value)
    if (meant.length === 0) return nothing
    return html`<details @toggle=${this.#unfolded}>
      <summary>Meant so (${meant.length}) ${icon('more')}</summary>
      <ul aria-label="Meant so in this font">
        ${meant.map(
          (finding) => html`<li class="meant">
            <span>${finding.sentence}</span>
            <button
              class="framed"
              type="button"
              aria-label="Take back: ${finding.letter}, ${causeName[finding.cause]}"
              @click=${() => this.#takeBack(finding)}
            >
              Take back
            </button>
          </li>`,
        )}
      </ul>
    </details>`
  }

  /** One finding is the Tab key's: the last that had the focus, else the one on the stage, else the first. */
  #stopAmong(listed: readonly FindingReport[]): number {
    const last = listed.findIndex((finding) => findingKey(finding) === this.stop)
    if (last >= 0) return last
    return Math.max(
      0,
      listed.findIndex((finding) => isSame(finding, this.#shown.value)),
    )
  }

  #slid = (event: InputEvent): void => {
    const allowance = allowances[(event.target as HTMLInputElement).valueAsNumber]
    if (allowance !== undefined) session.set({ allowance })
  }

  #onKey = (event: KeyboardEvent): void => moveInList(event, this.choices)

  #choose({ glyph, cause }: FindingReport): void {
    session.apply({ type: 'standFinding', finding: { glyph, cause } })
    this.dispatchEvent(new Event('choose', { bubbles: true }))
  }

  /** What was folded away is at the panel's end: it is brought into sight. */
  #unfolded = (event: ToggleEvent): void => {
    if (event.newState === 'open') this.scrollTop = this.scrollHeight
  }

  /** The focus goes on to the finding that takes its place, or to the list that it went to. */
  async #mean(one: FindingReport, at: number): Promise<void> {
    await session.setMeant(one, true)
    await this.updateComplete
    const next = this.choices[Math.min(at, this.choices.length - 1)] ?? this.summary
    next?.focus()
  }

  async #takeBack(one: FindingReport): Promise<void> {
    await session.setMeant(one, false)
    this.stop = findingKey(one)
    await this.updateComplete
    const back = [...this.choices].find((choice) => choice.tabIndex === 0)
    const rest = this.summary ?? back
    rest?.focus()
  }
}
