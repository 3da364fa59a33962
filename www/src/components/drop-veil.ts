import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { session } from '../session'
import { base } from '../styles/shared'
import { PartOf } from './part-of'

/** Says, while a file hangs over the page, that it may be let go anywhere. */
@customElement('drop-veil')
export class DropVeil extends LitElement {
  static override styles = [
    base,
    css`
      .veil {
        position: fixed;
        z-index: 10;
        inset: 0;
        display: grid;
        place-content: center;
        gap: var(--gap-2);
        padding: var(--gap-5);
        text-align: center;
        background: color-mix(in oklch, var(--paper) 88%, transparent);
        /* Whatever is beneath must not take the drop. */
        pointer-events: none;
      }

      .veil::before {
        position: absolute;
        inset: var(--gap-4);
        border: 2px dashed var(--pick);
        border-radius: var(--corner);
        content: "";
      }

      h2 {
        font: 400 var(--type-6) / 1.1 var(--title-face);
      }
    `,
  ]

  readonly #shown = new PartOf(this, session.store, (state) => state.dropping)

  override render() {
    if (!this.#shown.value) return nothing
    return html`<div class="veil" aria-hidden="true">
      <h2>Let go to open it</h2>
      <p>The font opens on this computer and stays on it.</p>
    </div>`
  }
}
