import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { figure } from '../figures'
import { session } from '../session'
import { base } from '../styles/shared'
import './command-button'
import { PartOf } from './part-of'
import './tool-row'

/** The stage's own controls, at its upper edge: what is shown, how near, and back a step. */
@customElement('stage-bar')
export class StageBar extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        padding: var(--gap-1) var(--gap-3);
        background: var(--paper);
        border-block: var(--hair) solid var(--rule);
      }

      .bar {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        justify-content: space-between;
        gap: 0 var(--gap-4);
      }

      .size {
        min-width: 5.5rem;
        color: var(--soft);
        font-size: var(--type-2);
        text-align: center;
      }

      .guides {
        --swatch: var(--guide);
      }

      .points {
        --swatch: var(--less);
      }

      .strokes {
        --swatch: var(--mark);
      }

      .gap {
        width: var(--gap-3);
      }
    `,
  ]

  readonly #em = new PartOf(this, session.store, (state) => figure(state.stage?.view.em, 0))

  override render() {
    return html`<div class="bar">
      <tool-row label="What the stage shows">
        <command-button name="show-fill" look="switch"></command-button>
        <command-button name="show-outline" look="switch"></command-button>
        <command-button class="points" name="show-points" look="switch"></command-button>
        <command-button class="strokes" name="show-strokes" look="switch"></command-button>
        <command-button class="guides" name="show-guides" look="switch"></command-button>
        <command-button name="show-strip" look="switch"></command-button>
        <span class="gap"></span>
        <command-button name="blur" look="switch"></command-button>
        <command-button name="reading" look="switch"></command-button>
      </tool-row>
      <tool-row label="Steps, calliper and view">
        <command-button name="undo" look="icon"></command-button>
        <command-button name="redo" look="icon"></command-button>
        <span class="gap"></span>
        <command-button name="calliper" look="both"></command-button>
        <span class="gap"></span>
        <command-button name="zoom-out" look="icon"></command-button>
        <span class="size" title="CSS pixels an em">${this.#em.value} px/em</span>
        <command-button name="zoom-in" look="icon"></command-button>
        <command-button name="fit" look="icon"></command-button>
        <command-button name="fit-chosen" look="icon"></command-button>
        <command-button name="pan-left" look="icon"></command-button>
        <command-button name="pan-right" look="icon"></command-button>
        <command-button name="pan-up" look="icon"></command-button>
        <command-button name="pan-down" look="icon"></command-button>
      </tool-row>
    </div>`
  }
}
