import { css, html, LitElement } from 'lit'
import { customElement, property } from 'lit/decorators.js'
import { base, field } from '../styles/shared'

/** Fires `names` with what is typed: which letter is which, from left to right. */
@customElement('letter-names')
export class LetterNames extends LitElement {
  static override styles = [
    base,
    field,
    css`
      .boxes {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-1);
        margin-block-start: var(--gap-1);
      }

      input {
        width: 2.6rem;
        padding: 0 var(--gap-1);
        text-align: center;
      }
    `,
  ]

  @property({ type: Number }) count = 0
  /** One character a letter; a space where it has none yet. */
  @property() names = ''

  override render() {
    const names = [...this.names]
    return html`<div role="group" aria-label="Letters, from left to right">
      <span aria-hidden="true">Letters, from left to right</span>
      <div class="boxes">
        ${Array.from(
          { length: this.count },
          (_, at) => html`<input
              aria-label=${`Letter ${at + 1}`}
              .value=${(names[at] ?? '').trim()}
              autocomplete="off"
              autocapitalize="off"
              spellcheck="false"
              @focus=${(event: FocusEvent) => this.#look(at, event)}
              @input=${(event: InputEvent) => this.#type(at, event)}
            />`,
        )}
      </div>
    </div>`
  }

  /** Takes the caret to a letter's box. */
  choose(at: number): void {
    this.renderRoot.querySelectorAll('input')[at]?.focus()
  }

  #look(at: number, event: FocusEvent): void {
    const box = event.target as HTMLInputElement
    box.select()
    this.dispatchEvent(new CustomEvent('look', { detail: at }))
  }

  /** What is typed beyond one letter goes on in the boxes that follow, so that a word names a row. */
  #type(at: number, event: InputEvent): void {
    const box = event.target as HTMLInputElement
    const typed = [...box.value].filter((one) => one.trim() !== '')
    const names = Array.from({ length: this.count }, (_, i) => [...this.names][i] ?? ' ')
    names[at] = typed[0] ?? ' '
    for (const [i, one] of typed.entries()) if (at + i < this.count) names[at + i] = one
    this.dispatchEvent(new CustomEvent('names', { detail: names.join('') }))
    if (typed.length > 1) this.choose(Math.min(at + typed.length, this.count - 1))
    else if (typed.length === 0) box.value = ''
  }
}
