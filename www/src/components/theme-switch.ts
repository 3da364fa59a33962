import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { session } from '../session'
import type { ThemeChoice } from '../state'
import { base } from '../styles/shared'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'

const choices: readonly { readonly theme: ThemeChoice; readonly label: string }[] = [
  { theme: 'system', label: 'As the system' },
  { theme: 'light', label: 'Light' },
  { theme: 'dark', label: 'Dark' },
]

/** Light, dark, or as the system has it. */
@customElement('theme-switch')
export class ThemeSwitch extends LitElement {
  static override styles = [
    base,
    iconStyle,
    css`
      fieldset {
        display: flex;
        margin: 0;
        padding: 0;
        border: var(--hair) solid var(--edge);
        border-radius: var(--corner);
      }

      label {
        display: grid;
        place-items: center;
        min-width: var(--target);
        min-height: var(--target);
        cursor: pointer;
        color: var(--soft);
      }

      label:hover {
        color: var(--ink);
      }

      label:has(:checked) {
        color: var(--paper);
        background: var(--ink);
        forced-color-adjust: none;
      }

      label:has(:focus-visible) {
        outline: 2px solid var(--pick);
        outline-offset: 2px;
      }

      .icon {
        width: 1.0625rem;
        height: 1.0625rem;
      }

      @media (forced-colors: active) {
        label:has(:checked) {
          border: 2px solid SelectedItem;
        }
      }
    `,
  ]

  readonly #theme = new PartOf(this, session.store, (state) => state.theme)

  override render() {
    return html`<fieldset>
      <legend class="unseen">Light or dark</legend>
      ${choices.map(
        ({ theme, label }) => html`<label title=${label}>
          <input
            class="unseen"
            type="radio"
            name="theme"
            .checked=${this.#theme.value === theme}
            @change=${() => session.set({ theme })}
          />
          ${icon(theme)}<span class="unseen">${label}</span>
        </label>`,
      )}
    </fieldset>`
  }
}
