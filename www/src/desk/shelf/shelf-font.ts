import { css, html, LitElement, nothing } from 'lit'
import { customElement, property, state } from 'lit/decorators.js'
import { iconStyle } from '../../components/icons'
import { many } from '../../figures'
import { session } from '../../session'
import { base, button, heading } from '../../styles/shared'
import { featureWords, missing, missingWords } from '../plan'
import { type ReadingRecord, today } from '../schema'
import type { Shelved } from '../urgency'
import { dayWords } from '../words'
import { burnDown, findingBars } from './charts'
import './shelf-form'
import type { Said } from './shelf-form'

/** More features than this are told when they are asked for. */
const MOST_FEATURES = 8

/** One font, taken down from the shelf: its history, what it lacks, and what is said of it. */
@customElement('shelf-font')
export class ShelfFont extends LitElement {
  static override styles = [
    base,
    button,
    heading,
    iconStyle,
    css`
      .font {
        display: grid;
        grid-template-columns: repeat(auto-fit, minmax(min(24rem, 100%), 1fr));
        gap: var(--gap-4) var(--gap-5);
        padding: var(--gap-3) var(--gap-2) var(--gap-4);
        background: var(--sheet);
      }

      section > h3 {
        margin-block-end: var(--gap-1);
      }

      .wide {
        grid-column: 1 / -1;
      }

      .chart {
        display: block;
        width: 100%;
        max-width: 34rem;
        font: 400 13px/1 var(--text-face);
      }

      .chart text {
        fill: var(--soft);
        font-size: 13px;
      }

      .axis {
        fill: none;
        stroke: var(--edge);
      }

      .settled {
        fill: none;
        stroke: var(--ink);
        stroke-width: 2;
      }

      .drawn {
        fill: none;
        stroke: var(--edge);
        stroke-width: 1.5;
        stroke-dasharray: 1 3;
        stroke-linecap: round;
      }

      .dot {
        fill: var(--ink);
      }

      .coming {
        fill: none;
        stroke: var(--pick);
        stroke-width: 2;
        stroke-dasharray: 5 4;
      }

      .wedge {
        fill: var(--band);
      }

      .due {
        stroke: var(--more);
        stroke-width: 1.5;
      }

      .bar {
        fill: var(--ink);
      }

      .quiet,
      li {
        font-size: var(--type-2);
        line-height: 1.4;
      }

      .quiet {
        color: var(--soft);
      }

      ul,
      ol {
        padding-inline-start: 1.2em;
        overflow-wrap: anywhere;
      }

      ol button {
        min-height: 1.5rem;
        padding: 0 var(--gap-1);
        text-decoration: underline;
        text-underline-offset: 0.2em;
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-2);
      }
    `,
  ]

  @property({ attribute: false }) shelved!: Shelved

  @state() private reading: ReadingRecord | null | undefined
  @state() private kept: ReadonlySet<string> = new Set()

  #of = ''

  override willUpdate(): void {
    const latest = this.shelved.revisions.at(-1)
    const of = `${latest?.id} ${latest?.rev}`
    if (of === this.#of) return
    this.#of = of
    void this.#read(latest?.id)
  }

  override render() {
    const { font, revisions } = this.shelved
    return html`<div class="font">
      <section>
        <h3>Letters still to settle</h3>
        ${burnDown(this.shelved, today())}
        <p class="quiet">
          Line: letters not settled. Dots: letters not drawn. Broken line and shade: when it will be whole, and how sure
          that is.
        </p>
      </section>
      <section>
        <h3>Open findings, revision by revision</h3>
        ${findingBars(revisions)} ${this.#revisions()}
      </section>
      <section>
        <h3>What is still to draw</h3>
        ${this.#missing()}
      </section>
      ${this.#features()}
      <section class="wide">
        <h3>What is said of it</h3>
        <shelf-form .particulars=${font} @said=${(event: Said) => void this.#said(event)}></shelf-form>
      </section>
      <div class="ways wide">
        <button class="framed" type="button" @click=${() => this.dispatchEvent(new Event('removed'))}>
          Take ${font.title} off the shelf
        </button>
      </div>
    </div>`
  }

  #revisions() {
    const { revisions } = this.shelved
    if (revisions.length === 0) return html`<p class="quiet">No revision has come in.</p>`
    return html`<ol>
      ${revisions.map(
        (one) => html`<li>
          ${dayWords(one.received)}: ${one.fileName}, ${one.drawn} drawn, ${one.settled} settled, ${many(one.open, 'finding')}.
          ${one.answered ? `Answered ${dayWords(one.answered)}.` : 'Not answered yet.'}
          ${
            this.kept.has(one.fingerprint)
              ? html`<button type="button" @click=${() => void this.#open(one.fingerprint)}>
                  Open it<span class="unseen"> (${one.fileName})</span>
                </button>
                <button type="button" @click=${() => void this.#drop(one.fingerprint)}>
                  Do not keep the file<span class="unseen"> (${one.fileName})</span>
                </button>`
              : nothing
          }
        </li>`,
      )}
    </ol>`
  }

  #missing() {
    if (this.reading === undefined) return html`<p class="quiet">Reading…</p>`
    const { plan } = this.shelved.font
    const letters = this.reading?.letters ?? {}
    const all = missing(plan, (character) => letters[character] !== undefined)
    if (all.length === 0)
      return html`<p class="quiet">Nothing is planned yet. Say below which languages it is for.</p>`
    return html`<ul>
      ${all.map((one) => html`<li>${missingWords(one)}</li>`)}
    </ul>`
  }

  #features() {
    const features = this.reading?.features ?? []
    if (features.length === 0) return nothing
    const words = features.map((one) => html`<li>${featureWords(one)}</li>`)
    return html`<section>
      <h3>Alternates and ligatures</h3>
      <ul>
        ${words.slice(0, MOST_FEATURES)}
      </ul>
      ${
        words.length > MOST_FEATURES
          ? html`<details>
              <summary>And ${words.length - MOST_FEATURES} more</summary>
              <ul>
                ${words.slice(MOST_FEATURES)}
              </ul>
            </details>`
          : nothing
      }
    </section>`
  }

  async #read(id: string | undefined): Promise<void> {
    const { store } = session.reviewing
    if (!store) return
    const [reading, kept] = await Promise.all([id ? store.reading(id) : undefined, store.filesKept()])
    this.kept = new Set(kept)
    this.reading = reading ?? null
  }

  async #said({ particulars }: Said): Promise<void> {
    await session.reviewing.shelving.amend(this.shelved.font.id, particulars)
    this.dispatchEvent(new Event('changed'))
  }

  async #drop(fingerprint: string): Promise<void> {
    await session.reviewing.write((store) => store.dropFile(fingerprint))
    await this.#read(this.shelved.revisions.at(-1)?.id)
  }

  async #open(fingerprint: string): Promise<void> {
    const file = await session.reviewing.store?.file(fingerprint)
    if (!file) return
    session.reviewing.set({ room: null })
    await session.arrive({ file: new File([file.bytes], file.name), sentence: null })
  }
}
