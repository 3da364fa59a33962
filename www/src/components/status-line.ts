import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { announcement } from '../announce'
import { session } from '../session'
import { base } from '../styles/shared'
import { PartOf } from './part-of'

/** What happened last, at the stage's foot, to be read and to be heard. */
@customElement('status-line')
export class StatusLine extends LitElement {
  static override styles = [
    base,
    css`
      p {
        min-height: 1.875rem;
        padding: 0.3125rem var(--gap-5);
        color: var(--soft);
        background: var(--paper);
        border-block-start: var(--hair) solid var(--rule);
        font-size: var(--type-2);
        overflow-wrap: anywhere;
      }
    `,
  ]

  #said = ''
  readonly #sentence = new PartOf(this, session.store, (state) => {
    this.#said = announcement(state, this.#said)
    return this.#said
  })

  override render() {
    return html`<p role="status">${this.#sentence.value}</p>`
  }
}
