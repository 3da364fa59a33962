import { css, html, nothing } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import { live } from 'lit/directives/live.js'
import { ariaKeys, caps } from '../commands/keys'
import { command } from '../commands/registry'
import { Beside } from '../components/beside'
import '../components/command-button'
import { icon, iconStyle } from '../components/icons'
import { PartOf } from '../components/part-of'
import '../components/set-letter'
import '../components/tool-row'
import { many } from '../figures'
import { causeName } from '../findings'
import { session } from '../session'
import { base, button, field, heading } from '../styles/shared'
import { fateName } from './fate'
import { reviewOf, type Subject, wordOn } from './review-state'
import { ALPHABET } from './reviewing'
import type { Verdict } from './schema'
import { findingOnStage, sameSubject, subject } from './subject'
import { markName, verdictHint, verdictName, verdictSign, verdicts } from './words'

/** How long a pause in typing is before the note is written, milliseconds. */
const PAUSE = 400

/** Where the reviewer says what a letter or a finding needs: a word, a note, marks. */
@customElement('desk-review')
export class DeskReview extends Beside {
  static override styles = [
    base,
    field,
    button,
    heading,
    iconStyle,
    css`
      :host {
        border-block-start: var(--hair) solid var(--edge);
      }

      section {
        display: grid;
        gap: var(--gap-2);
        padding: var(--gap-2) var(--gap-4) var(--gap-3);
      }

      .head {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 0 var(--gap-2);
      }

      h2 {
        font: 400 var(--type-4) / 1.3 var(--title-face);
      }

      h2 set-letter {
        display: inline-block;
      }

      .about {
        flex: 1;
        color: var(--soft);
        font-size: var(--type-2);
      }

      .words {
        display: grid;
        grid-template-columns: repeat(4, 1fr);
        border: var(--hair) solid var(--edge);
        border-radius: var(--corner);
        background: var(--lift);
      }

      .words button {
        display: grid;
        justify-items: center;
        gap: 0;
        min-height: 2.75rem;
        padding: 0.25rem 0.125rem;
        border: 0;
        border-radius: 0;
        line-height: 1.2;
      }

      .words button + button {
        border-inline-start: var(--hair) solid var(--rule);
      }

      .words .sign {
        font-size: var(--type-3);
      }

      .words button[aria-pressed="true"] {
        color: var(--paper);
        background: var(--ink);
        forced-color-adjust: none;
      }

      .words button:focus-visible {
        outline-offset: -2px;
        box-shadow: none;
      }

      textarea {
        width: 100%;
        min-height: 2.25rem;
        field-sizing: content;
        max-height: 9rem;
        padding: 0.375rem var(--gap-2);
        font-size: var(--type-2);
        line-height: 1.35;
        resize: vertical;
      }

      .kept {
        color: var(--soft);
        font-size: var(--type-1);
      }

      .failed {
        color: var(--alert);
        font-size: var(--type-2);
      }

      .turn {
        min-height: 1.5rem;
        padding: 0 var(--gap-1);
        font-size: var(--type-1);
        text-decoration: underline;
        text-decoration-color: var(--edge);
        text-underline-offset: 0.2em;
      }

      .offer {
        padding: var(--gap-2) var(--gap-3);
        background: var(--lift);
        border: var(--hair) solid var(--edge);
        border-inline-start: 4px solid var(--pick);
        border-radius: var(--corner);
        font-size: var(--type-2);
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-2);
        margin-block-start: var(--gap-2);
      }

      .ways label {
        display: flex;
        align-items: center;
        gap: var(--gap-1);
        width: 100%;
        min-height: 1.5rem;
      }

      .ways input {
        width: 1.125rem;
        height: 1.125rem;
        accent-color: var(--pick);
      }

      details {
        font-size: var(--type-2);
      }

      summary {
        min-height: 1.5rem;
        cursor: pointer;
      }

      ul {
        padding-inline-start: 1.1em;
      }

      @media (pointer: coarse) {
        .turn,
        summary {
          min-height: var(--target);
        }
      }
    `,
  ]

  readonly #subject = new PartOf(this, session.store, subject, sameSubject)
  readonly #finding = new PartOf(this, session.store, findingOnStage, sameSubject)
  readonly #review = new PartOf(this, session.store, (page) => page.review)
  readonly #font = new PartOf(this, session.store, (page) => page.font?.report.family ?? null)

  /** Keeps the file of the revision that is taken in. */
  @state() private keep = true

  @query('textarea') private readonly field!: HTMLTextAreaElement | null

  /** What is being written, and about what: it is not to go to the next letter. */
  #writing: { on: Subject; text: string } | null = null
  #pause: ReturnType<typeof setTimeout> | undefined

  override connectedCallback(): void {
    super.connectedCallback()
    session.focusers.note = () => this.field?.focus()
    window.addEventListener('pagehide', this.#write)
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    window.removeEventListener('pagehide', this.#write)
    this.#write()
  }

  override willUpdate(): void {
    if (this.#writing && !sameSubject(this.#writing.on, this.#subject.value)) this.#write()
  }

  override render() {
    const review = this.#review.value
    if (this.#font.value === null || review.font === '') return nothing
    const on = this.#subject.value
    return html`<section aria-label="Review">
      ${this.#offer()} ${this.#line()} ${on ? this.#words(on) : nothing} ${this.#fates()} ${this.#beside()} ${this.#mistaken()}
      ${review.failed ? html`<p class="failed">${review.failed}</p>` : nothing}
      <p class="unseen" aria-live="polite">${review.said}</p>
    </section>`
  }

  /** How far the alphabet has been gone through, and what is under way. */
  #line() {
    const { reviews, letters, shelved, number, writing, kept } = this.#review.value
    const drawn = [...(shelved?.planned || ALPHABET)].filter((letter) => letters[letter] !== undefined)
    const said = new Set(
      reviews.filter((one) => wordOn({ reviews, letters }, one) !== null).map((one) => one.letter),
    )
    const done = drawn.filter((letter) => said.has(letter)).length
    const where = shelved ? `${shelved.title}, revision ${number}. ` : ''
    const saved = kept === 'kept' && reviews.length > 0 ? (writing > 0 ? 'Saving…' : 'Saved.') : ''
    return html`<div class="head">
      <p class="kept">
        ${where}${done} of ${many(drawn.length, 'letter')} with a word. <span class="saved">${saved}</span>
      </p>
      <tool-row label="Review">
        <command-button name="walk" look="framed"></command-button>
        <command-button name="take-back" look="icon"></command-button>
        <command-button name="give-again" look="icon"></command-button>
      </tool-row>
    </div>`
  }

  #words(on: Subject) {
    const { reviews } = this.#review.value
    const known = reviewOf(reviews, on)
    const word = wordOn(this.#review.value, on)
    const finding = this.#finding.value
    return html`<div class="head">
        <h2><set-letter .letter=${on.letter}></set-letter></h2>
        <p class="about">${on.cause ? causeName[on.cause] : 'the letter as a whole'}</p>
        ${
          finding
            ? html`<button class="turn" type="button" @click=${this.#turn}>
                ${on.cause ? 'About the letter instead' : 'About the finding instead'}
              </button>`
            : nothing
        }
      </div>
      <div class="words" role="group" aria-label="Verdict on ${nameOf(on)}">
        ${verdicts.map((one) => this.#word(one, word === one))}
      </div>
      ${
        known?.verdict && word === null
          ? html`<p class="kept">Of an earlier drawing you said: ${verdictName[known.verdict].toLowerCase()}.</p>`
          : nothing
      }
      <textarea
        rows="1"
        aria-label="Note on ${nameOf(on)}"
        placeholder="A note for the artist (Shift W)"
        .value=${live(this.#writing?.text ?? known?.note ?? '')}
        @input=${(event: Event) => this.#typed(on, (event.target as HTMLTextAreaElement).value)}
        @change=${this.#write}
        @keydown=${this.#leave}
      ></textarea>
      <tool-row label="Marks on ${nameOf(on)}">
        ${(['circle', 'arrow', 'line'] as const).map(
          (kind) => html`<command-button name="mark-${kind}" look="framed"></command-button>`,
        )}
        ${(known?.marks ?? []).map(
          (
            one,
            at,
          ) => html`<button type="button" title="Take the mark away" @click=${() => this.#unmark(on, at)}>
            ${markName[one.kind]} ${icon('close')}<span class="unseen">: take it away</span>
          </button>`,
        )}
      </tool-row>`
  }

  #word(one: Verdict, pressed: boolean) {
    const { keys } = command(`verdict-${one}`)
    return html`<button
      type="button"
      aria-pressed=${pressed}
      aria-keyshortcuts=${ariaKeys(keys)}
      title="${verdictHint[one]} (${caps(keys[0] ?? '').join(' ')}, and on to the next)"
      @click=${() => session.reviewing.give(one)}
    >
      <span class="sign" aria-hidden="true">${verdictSign[one]}</span>${verdictName[one]}
    </button>`
  }

  #offer() {
    const { offer, revision, shelved } = this.#review.value
    if (!offer || revision || shelved) return nothing
    return html`<div class="offer">
      <p>
        <b>${offer.title || offer.family}</b>${offer.contributor ? ` by ${offer.contributor}` : ''} is on the shelf, and
        this file is of the same family. Is it the next revision?
      </p>
      <div class="ways">
        <label><input type="checkbox" .checked=${this.keep} @change=${this.#keep} />Keep the file in this browser</label>
        <button class="framed" type="button" @click=${() => void session.reviewing.shelving.takeIn(offer, this.keep)}>
          Take it in
        </button>
        <button type="button" @click=${() => session.reviewing.shelving.declineOffer()}>It is another font</button>
      </div>
    </div>`
  }

  /** A file that was taken in by mistake is let go again, as long as nobody has been answered. */
  #mistaken() {
    const { revision, number } = this.#review.value
    if (!revision || number < 2 || revision.answered !== null) return nothing
    return html`<p class="kept">
      <button class="turn" type="button" @click=${() => void session.reviewing.shelving.takeOut()}>
        It is no revision of this font after all
      </button>
    </p>`
  }

  #fates() {
    const { fates, number } = this.#review.value
    if (!fates || fates.length === 0) return nothing
    const counts = (['settled', 'better', 'same', 'worse', 'new'] as const)
      .map((one) => ({ one, count: fates.filter(({ fate }) => fate === one).length }))
      .filter(({ count }) => count > 0)
    const words = counts.map(({ one, count }) => `${count} ${fateName[one].toLowerCase()}`).join(', ')
    return html`<details>
      <summary>Since revision ${number - 1}: ${words}</summary>
      <ul>
        ${fates.map(
          ({ fate, letter, cause, before, after }) =>
            html`<li>
              <b>${letter}</b>, ${causeName[cause]}: ${fateName[fate].toLowerCase()}.
              ${fate === 'settled' ? before?.sentence : after?.sentence}
            </li>`,
        )}
      </ul>
    </details>`
  }

  #beside() {
    const { earlier, number } = this.#review.value
    if (earlier === null) return nothing
    return html`<p>
      <button class="framed" type="button" @click=${() => void session.reviewing.shelving.holdAgainstEarlier()}>
        Hold it against revision ${number - 1}
      </button>
    </p>`
  }

  #keep = (event: Event): void => {
    this.keep = (event.target as HTMLInputElement).checked
  }

  #turn = (): void => {
    this.#write()
    const about = session.state.review.about === 'finding' ? 'letter' : 'finding'
    session.reviewing.set({ about })
  }

  #typed(on: Subject, text: string): void {
    this.#writing = { on, text }
    clearTimeout(this.#pause)
    this.#pause = setTimeout(this.#write, PAUSE)
  }

  #write = (): void => {
    clearTimeout(this.#pause)
    const writing = this.#writing
    this.#writing = null
    if (writing) session.reviewing.note(writing.on, writing.text)
  }

  #leave = (event: KeyboardEvent): void => {
    const done = event.key === 'Escape' || (event.key === 'Enter' && (event.ctrlKey || event.metaKey))
    if (!done) return
    event.preventDefault()
    event.stopPropagation()
    this.#write()
    session.focus('stage')
  }

  #unmark(on: Subject, at: number): void {
    const marks = reviewOf(session.state.review.reviews, on)?.marks ?? []
    session.reviewing.marks(
      on,
      marks.filter((_, index) => index !== at),
      'Mark taken away',
    )
  }
}

const nameOf = (on: Subject): string => (on.cause ? `${on.letter}, ${causeName[on.cause]}` : on.letter)
