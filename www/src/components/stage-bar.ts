import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { base } from '../styles/shared'
import './command-button'
import './tool-row'

/** The stage's own controls, at its upper edge: what is shown, back a step, and the calliper. */
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

      @media (width < 44rem) {
        .gap {
          display: none;
        }
      }
    `,
  ]

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
      <tool-row label="Steps and calliper">
        <command-button name="undo" look="icon"></command-button>
        <command-button name="redo" look="icon"></command-button>
        <span class="gap"></span>
        <command-button name="calliper" look="both"></command-button>
      </tool-row>
    </div>`
  }
}
