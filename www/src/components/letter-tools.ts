import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { signed } from '../figures'
import { session } from '../session'
import { base, heading } from '../styles/shared'
import './command-button'
import { PartOf } from './part-of'
import './tool-row'

/** What can be done with the chosen letters; every drag's way without dragging. */
@customElement('letter-tools')
export class LetterTools extends LitElement {
  static override styles = [
    base,
    heading,
    css`
      :host {
        padding: var(--gap-1) var(--gap-4) var(--gap-3);
        border-block-end: var(--hair) solid var(--rule);
      }

      tool-row:first-child {
        margin-inline: calc(-1 * var(--gap-2));
      }

      .row {
        display: grid;
        grid-template-columns: 4.5rem 1fr;
        align-items: center;
        min-height: calc(var(--target) + 4px);
      }

      /* Fingers need wider buttons: a row of six leaves no room for its name. */
      @media (pointer: coarse) {
        .row {
          grid-template-columns: 1fr;
        }
      }

      /* It changes on every frame of a drag: nothing else may have to be laid out or painted for it. */
      .moved {
        width: 4rem;
        height: 1.25rem;
        font-size: var(--type-2);
        line-height: 1.25rem;
        text-align: center;
        contain: strict;
        will-change: transform;
      }
    `,
  ]

  readonly #moved = new PartOf(this, session.store, (state) => {
    const chosen = state.stage?.items.filter((item) => item.selected) ?? []
    const first = chosen[0]
    return chosen.length === 1 && first ? signed(first.moved ?? 0) : ''
  })

  override render() {
    return html`<tool-row label="The chosen letters">
        <command-button name="pin" look="both"></command-button>
        <command-button name="mirror" look="both"></command-button>
        <command-button name="turn" look="both"></command-button>
      </tool-row>
      <div class="row">
        <span class="heading" id="move">Move</span>
        <tool-row label="Move">
          <command-button name="left-ten" look="icon"></command-button>
          <command-button name="left" look="icon"></command-button>
          <span class="moved" title="Units from its own place in the line">${this.#moved.value}</span>
          <command-button name="right" look="icon"></command-button>
          <command-button name="right-ten" look="icon"></command-button>
          <command-button name="reset-places" look="icon"></command-button>
        </tool-row>
      </div>
      <div class="row">
        <span class="heading">Line up</span>
        <tool-row label="Line up">
          <command-button name="align-leftEdge" look="icon"></command-button>
          <command-button name="align-stemLeft" look="icon"></command-button>
          <command-button name="align-stemCentre" look="icon"></command-button>
          <command-button name="align-inkCentre" look="icon"></command-button>
          <command-button name="align-rightEdge" look="icon"></command-button>
        </tool-row>
      </div>`
  }
}
