import { css, html, LitElement } from 'lit'
import { customElement, query } from 'lit/decorators.js'
import { groups, type PageCommand } from '../commands/command'
import { caps } from '../commands/keys'
import { commands } from '../commands/registry'
import { session } from '../session'
import { base, button, dialog, heading, keycap } from '../styles/shared'
import './command-button'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'

/** Every command and its keys, made from the commands' own records. */
@customElement('key-help')
export class KeyHelp extends LitElement {
  static override styles = [
    base,
    button,
    dialog,
    heading,
    iconStyle,
    keycap,
    css`
      dialog {
        width: min(62rem, calc(100vw - 2rem));
        padding: 0;
      }

      .top {
        position: sticky;
        top: 0;
        display: flex;
        align-items: center;
        justify-content: space-between;
        padding: var(--gap-3) var(--gap-3) var(--gap-3) var(--gap-5);
        background: var(--lift);
        border-block-end: var(--hair) solid var(--rule);
      }

      h2 {
        font: 400 var(--type-5) / 1.2 var(--title-face);
      }

      .groups {
        columns: 18rem;
        column-gap: var(--gap-6);
        padding: var(--gap-4) var(--gap-5);
      }

      section {
        break-inside: avoid;
        margin-block-end: var(--gap-4);
      }

      dl {
        display: grid;
        grid-template-columns: 1fr auto;
        font-size: var(--type-2);
      }

      dt,
      dd {
        padding: 0.1875rem 0;
        border-block-start: var(--hair) solid var(--rule);
      }

      dd {
        padding-inline-start: var(--gap-3);
        text-align: end;
      }

      .or {
        color: var(--soft);
      }

      .foot {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2) var(--gap-5);
        padding: var(--gap-3) var(--gap-5) var(--gap-4);
        border-block-start: var(--hair) solid var(--rule);
      }

      label {
        display: flex;
        align-items: center;
        gap: var(--gap-2);
        min-height: var(--target);
      }

      input {
        width: 1.125rem;
        height: 1.125rem;
        accent-color: var(--pick);
      }
    `,
  ]

  readonly #open = new PartOf(this, session.store, (state) => state.keyHelp)
  readonly #single = new PartOf(this, session.store, (state) => state.singleKeys)

  @query('dialog') private readonly dialog!: HTMLDialogElement

  override updated(): void {
    if (this.#open.value && !this.dialog.open) this.dialog.showModal()
    if (!this.#open.value && this.dialog.open) this.dialog.close()
  }

  override render() {
    return html`<dialog
      aria-labelledby="title"
      @close=${() => session.set({ keyHelp: false })}
      @click=${this.#beside}
    >
      <div class="top">
        <h2 id="title">Keys</h2>
        <button type="button" aria-label="Close" title="Close (Esc)" @click=${() => this.dialog.close()}>
          ${icon('close')}
        </button>
      </div>
      <div class="groups">
        ${groups.map(
          (group) => html`<section>
            <h3>${group}</h3>
            <dl>
              ${commands
                .filter((one) => one.group === group && one.keys.length > 0)
                .map((one) => html`<dt>${one.label}</dt><dd>${keysOf(one)}</dd>`)}
            </dl>
          </section>`,
        )}
        <section>
          <h3>Pointer</h3>
          <dl>
            <dt>Move a letter along the line</dt><dd>drag it</dd>
            <dt>Move the view</dt><dd>drag beside the letters</dd>
            <dt>Nearer or farther</dt><dd>wheel, or two fingers</dd>
            <dt>Choose several</dt><dd>press with Shift</dd>
          </dl>
        </section>
      </div>
      <div class="foot">
        <command-button name="guide" look="framed"></command-button>
        <label>
          <input
            type="checkbox"
            .checked=${this.#single.value}
            @change=${(event: Event) => session.set({ singleKeys: (event.target as HTMLInputElement).checked })}
          />
          Single keys give commands (put this out if you speak to your computer)
        </label>
      </div>
    </dialog>`
  }

  /** A press on the veil closes; the dialog itself fills its own box. */
  #beside = (event: MouseEvent): void => {
    if (event.target === this.dialog) this.dialog.close()
  }
}

function keysOf(command: PageCommand) {
  return command.keys.map(
    (key, index) =>
      html`${index > 0 ? html` <span class="or">or</span> ` : ''}${caps(key).map((cap) => html`<kbd>${cap}</kbd> `)}`,
  )
}
