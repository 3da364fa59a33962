import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { figure } from '../figures'
import type { CalliperPart } from '../generated/CalliperPart'
import type { Interval } from '../generated/Interval'
import { session } from '../session'
import { panel } from '../styles/panel'
import { base, button, heading } from '../styles/shared'
import './command-button'
import { PartOf } from './part-of'
import './tool-row'

const parts: readonly { readonly part: CalliperPart; readonly label: string }[] = [
  { part: 'whole', label: 'Whole' },
  { part: 'from', label: 'Start' },
  { part: 'to', label: 'End' },
]

/** What the calliper reads, and how to move it without dragging. */
@customElement('calliper-panel')
export class CalliperPanel extends LitElement {
  static override styles = [
    base,
    button,
    heading,
    panel,
    css`
      .row {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 2px var(--gap-2);
      }

      .row + * {
        margin-block-start: var(--gap-2);
      }

      fieldset {
        display: flex;
        margin: 0;
        padding: 0;
        border: 0;
      }

      label {
        display: inline-flex;
        align-items: center;
        min-height: var(--target);
        padding-inline: var(--gap-2);
        border-block-end: 2px solid transparent;
        color: var(--soft);
        font-size: var(--type-2);
        cursor: pointer;
      }

      label:has(:checked) {
        color: var(--ink);
        border-block-end-color: var(--span);
      }

      label:has(:focus-visible) {
        outline: 2px solid var(--pick);
      }

      .ink,
      .white {
        display: inline-block;
        width: 0.75rem;
        height: 0.75rem;
        margin-inline-end: 0.375rem;
        border: 1.5px solid var(--ink);
        vertical-align: -0.1em;
      }

      .ink {
        background: var(--ink);
      }
    `,
  ]

  readonly #calliper = new PartOf(this, session.store, (state) => state.stage?.calliper ?? null)
  readonly #tool = new PartOf(this, session.store, (state) => state.stage?.tool)
  readonly #part = new PartOf(this, session.store, (state) => state.calliperPart)

  override render() {
    const calliper = this.#calliper.value
    if (!calliper && this.#tool.value !== 'calliper') return nothing
    return html`<section aria-labelledby="calliper">
      <h3 id="calliper">Calliper</h3>
      <div class="row">
        ${
          calliper
            ? html`<fieldset>
                  <legend class="unseen">What the arrows move</legend>
                  ${parts.map(
                    ({ part, label }) => html`<label
                      ><input
                        class="unseen"
                        type="radio"
                        name="part"
                        .checked=${this.#part.value === part}
                        @change=${() => session.set({ calliperPart: part })}
                      />${label}</label
                    >`,
                  )}
                </fieldset>
                <tool-row label="Move the calliper">
                  <command-button name="left-ten" look="icon"></command-button>
                  <command-button name="left" look="icon"></command-button>
                  <command-button name="right" look="icon"></command-button>
                  <command-button name="right-ten" look="icon"></command-button>
                  <command-button name="up" look="icon"></command-button>
                  <command-button name="down" look="icon"></command-button>
                </tool-row>
                <tool-row label="Lay of the calliper">
                  <command-button name="calliper-level"></command-button>
                  <command-button name="calliper-upright"></command-button>
                  <command-button name="calliper-lift"></command-button>
                </tool-row>`
            : html`<command-button name="calliper-lay" look="framed"></command-button>`
        }
      </div>
      ${
        calliper
          ? html`<table>
              <thead>
                <tr>
                  <th scope="col">Crosses</th>
                  <th scope="col">Letters</th>
                  <th scope="col">Units</th>
                </tr>
              </thead>
              <tbody>
                ${calliper.intervals.map((interval) => this.#interval(interval))}
              </tbody>
              <tfoot>
                <tr>
                  <th scope="row">In all</th>
                  <td>${figure(calliper.angle)}°</td>
                  <td>${figure(calliper.length)}</td>
                </tr>
              </tfoot>
            </table>`
          : html`<p class="quiet">Drag across the letters, or lay it with the button.</p>`
      }
    </section>`
  }

  #interval(interval: Interval) {
    const names = interval.letters.map(
      (id) => session.state.stage?.items.find((item) => item.id === id)?.label ?? '',
    )
    return html`<tr>
      <th scope="row"><span class=${interval.ink ? 'ink' : 'white'}></span>${interval.ink ? 'ink' : 'white'}</th>
      <td>${names.join(interval.ink ? ' and ' : ' to ')}</td>
      <td>${interval.open ? html`<span title="It runs on past the calliper's end">${figure(interval.length)}…</span>` : figure(interval.length)}</td>
    </tr>`
  }
}
