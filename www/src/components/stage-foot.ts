import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { announcement } from '../announce'
import { figure } from '../figures'
import { session } from '../session'
import { base } from '../styles/shared'
import './command-button'
import { PartOf } from './part-of'
import './tool-row'

/** At the stage's foot: what happened last, to be read and to be heard, and where the view is. */
@customElement('stage-foot')
export class StageFoot extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 0 var(--gap-4);
        padding: var(--gap-1) var(--gap-3);
        background: var(--paper);
        border-block-start: var(--hair) solid var(--rule);
        font-size: var(--type-2);
      }

      p {
        flex: 1 1 18rem;
        min-height: 1.5em;
        padding-inline: var(--gap-2);
        color: var(--soft);
        overflow-wrap: anywhere;
      }

      .size {
        min-width: 5.25rem;
        color: var(--soft);
        text-align: center;
      }

      .gap {
        width: var(--gap-2);
      }

      @media (width < 44rem) {
        .gap,
        .size {
          display: none;
        }
      }
    `,
  ]

  #said = ''
  readonly #sentence = new PartOf(this, session.store, (state) => {
    this.#said = announcement(state, this.#said)
    return this.#said
  })
  readonly #em = new PartOf(this, session.store, (state) =>
    state.font ? `${figure(state.stage?.view.em, 0)} px/em` : '',
  )

  override render() {
    return html`<p role="status">${this.#sentence.value}</p>
      <tool-row label="View">
        <command-button name="pan-left" look="icon"></command-button>
        <command-button name="pan-right" look="icon"></command-button>
        <command-button name="pan-up" look="icon"></command-button>
        <command-button name="pan-down" look="icon"></command-button>
        <span class="gap"></span>
        <command-button name="zoom-out" look="icon"></command-button>
        <span class="size" title="CSS pixels an em">${this.#em.value}</span>
        <command-button name="zoom-in" look="icon"></command-button>
        <span class="gap"></span>
        <command-button name="fit-chosen" look="icon"></command-button>
        <command-button name="fit" look="icon"></command-button>
      </tool-row>`
  }
}
