import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { session } from '../session'
import { base } from '../styles/shared'
import './command-button'
import { PartOf } from './part-of'

/** Stands on the stage while no font does, and says how one gets there. */
@customElement('empty-stage')
export class EmptyStage extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        position: absolute;
        inset: 0;
        pointer-events: none;
      }

      .empty {
        display: grid;
        place-content: center;
        justify-items: center;
        gap: var(--gap-3);
        height: 100%;
        padding: var(--gap-4);
        text-align: center;
      }

      /* The two lines that every font of letters has, with nothing on them yet. */
      .lines {
        width: min(22rem, 70vw);
        height: 4.5rem;
        margin-block-end: var(--gap-2);
        border-block: var(--hair) solid var(--guide);
      }

      h2 {
        font: 400 var(--type-5) / 1.2 var(--title-face);
      }

      .quiet {
        color: var(--soft);
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        justify-content: center;
        gap: var(--gap-2);
        pointer-events: auto;
      }
    `,
  ]

  readonly #shown = new PartOf(
    this,
    session.store,
    (state) => state.phase === 'ready' && state.font === null && state.opening === null,
  )

  override render() {
    if (!this.#shown.value) return nothing
    return html`<div class="empty">
      <div class="lines"></div>
      <h2>Drop a font anywhere on this page</h2>
      <p class="quiet">OpenType or TrueType. It opens on this computer and stays on it.</p>
      <div class="ways">
        <command-button name="open" look="framed"></command-button>
        <command-button name="sample" look="framed"></command-button>
      </div>
    </div>`
  }
}
