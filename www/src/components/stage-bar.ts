import { css, html, LitElement, nothing } from 'lit'
import { customElement, state } from 'lit/decorators.js'
import { session } from '../session'
import { base, button } from '../styles/shared'
import './command-button'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'
import './tool-row'

/** The stage's own controls, at its upper edge: what is shown, back a step, and the calliper. */
@customElement('stage-bar')
export class StageBar extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    css`
      :host {
        padding: var(--gap-1) var(--gap-3);
        background: var(--paper);
        border-block: var(--hair) solid var(--rule);
      }

      .bar {
        display: flex;
        flex-wrap: wrap;
        align-items: start;
        justify-content: space-between;
        gap: 0 var(--gap-4);
      }

      /* The switches wrap among themselves; what stands at their right stays there. */
      @media (width >= 75rem) {
        .bar {
          flex-wrap: nowrap;
        }

        .layers {
          flex: 1 1 0;
          min-width: 0;
        }

        .bar > tool-row:not(.layers) {
          flex: none;
        }
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

      .widths {
        --swatch: var(--span);
      }

      .flaws {
        --swatch: var(--more);
      }

      .refit {
        --swatch: var(--pick);
      }

      .gap {
        width: var(--gap-3);
      }

      .unfold {
        display: none;
      }

      /* Two rows of switches would take a small window's stage: they fold away. */
      @media (width < 44rem) {
        .gap {
          display: none;
        }

        .unfold {
          display: inline-flex;
        }

        .unfold[aria-expanded="true"] .icon {
          rotate: 180deg;
        }

        .layers {
          flex-basis: 100%;
          order: 1;
        }

        .layers.folded {
          display: none;
        }
      }
    `,
  ]

  /** How near it keeps is asked only of a refit that is shown. */
  readonly #refit = new PartOf(this, session.store, (state) => state.stage?.layers.refit ?? false)

  /** In a small window: whether the switches are in sight. */
  @state() private unfolded = false

  override render() {
    return html`<div class="bar">
      <button
        class="unfold"
        type="button"
        aria-expanded=${this.unfolded}
        aria-controls="layers"
        @click=${() => {
          this.unfolded = !this.unfolded
        }}
      >
        Show ${icon('more')}
      </button>
      <tool-row id="layers" class=${this.unfolded ? 'layers' : 'layers folded'} label="What the stage shows">
        <command-button name="show-fill" look="switch"></command-button>
        <command-button name="show-outline" look="switch"></command-button>
        <command-button class="points" name="show-points" look="switch"></command-button>
        <command-button class="strokes" name="show-strokes" look="switch"></command-button>
        <command-button class="guides" name="show-guides" look="switch"></command-button>
        <command-button name="show-strip" look="switch"></command-button>
        <command-button class="guides" name="show-overshoot" look="switch"></command-button>
        <command-button class="widths" name="show-widths" look="switch"></command-button>
        <command-button class="flaws" name="show-flaws" look="switch"></command-button>
        <command-button class="refit" name="show-refit" look="switch"></command-button>
        <command-button name="show-findings" look="switch"></command-button>
        <command-button class="widths" name="show-white" look="switch"></command-button>
        <span class="gap"></span>
        <command-button name="show-texture" look="switch"></command-button>
        <command-button name="blur" look="switch"></command-button>
        <command-button name="reading" look="switch"></command-button>
      </tool-row>
      ${
        this.#refit.value
          ? html`<tool-row class="choice" label="The refit">
              <command-button class="refit" name="refit-two" look="switch"></command-button>
            </tool-row>`
          : nothing
      }
      <tool-row label="Steps and calliper">
        <command-button name="undo" look="icon"></command-button>
        <command-button name="redo" look="icon"></command-button>
        <span class="gap"></span>
        <command-button name="calliper" look="both"></command-button>
      </tool-row>
    </div>`
  }
}
