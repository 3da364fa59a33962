import { css, html, LitElement, nothing } from 'lit'
import { customElement, property, query } from 'lit/decorators.js'
import type { PageCommand } from '../commands/command'
import { ariaKeys, caps } from '../commands/keys'
import { command, give } from '../commands/registry'
import { session } from '../session'
import { base, button, pressed } from '../styles/shared'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'

/** A button made from a command's record. */
@customElement('command-button')
export class CommandButton extends LitElement {
  static override shadowRootOptions = { ...LitElement.shadowRootOptions, delegatesFocus: true }

  static override styles = [
    base,
    button,
    iconStyle,
    css`
      :host {
        display: inline-block;
      }

      button {
        width: 100%;
      }

      :host([look="icon"]) button {
        padding: 0;
      }

      ${pressed}

      :host([look="icon"]) button[aria-pressed="true"] {
        color: inherit;
        background: transparent;
        border-color: var(--ink);
      }

      /* A switch of a layer: a box in the layer's own colour, filled when it is shown,
         so that the row of switches is the stage's legend as well. */
      :host([look="switch"]) button,
      :host([look="switch"]) button[aria-pressed="true"]:hover:not([aria-disabled="true"]) {
        justify-content: start;
        gap: 0.375rem;
        color: inherit;
        background: transparent;
      }

      :host([look="switch"]) button:hover:not([aria-disabled="true"]) {
        background: var(--wash);
      }

      .box {
        width: 0.75rem;
        height: 0.75rem;
        border: 1.5px solid var(--swatch, var(--ink));
        border-radius: 1px;
      }

      [aria-pressed="true"] .box {
        background: var(--swatch, var(--ink));
      }

      [aria-disabled="true"] .box {
        border-color: currentColor;
      }
    `,
  ]

  /** Id of the command. */
  @property() name = ''
  /** What is shown: the icon alone, the label alone, both, or a layer's switch. */
  @property({ reflect: true }) look: 'icon' | 'label' | 'both' | 'framed' | 'switch' = 'label'
  /** In a row of tools only one button is a stop of the Tab key. */
  @property({ type: Boolean }) stop = true

  @query('button') private readonly button!: HTMLButtonElement

  readonly #standing = new PartOf(this, session.store, (state) => {
    if (!this.name) return '0'
    const record = command(this.name)
    return `${record.enabled(state) ? 1 : 0}${record.pressed ? (record.pressed(state) ? 1 : 0) : ''}`
  })

  override willUpdate(): void {
    this.#standing.refresh()
  }

  override focus(options?: FocusOptions): void {
    this.button.focus(options)
  }

  override render() {
    const record = command(this.name)
    const enabled = this.#standing.value.startsWith('1')
    const pressed = this.#standing.value.at(1)
    return html`<button
      type="button"
      class=${this.look === 'framed' ? 'framed' : ''}
      tabindex=${this.stop ? 0 : -1}
      title=${titleOf(record)}
      aria-label=${this.look === 'icon' ? record.label : nothing}
      aria-disabled=${enabled ? 'false' : 'true'}
      aria-pressed=${pressed === undefined ? nothing : pressed === '1'}
      aria-keyshortcuts=${record.keys.length > 0 ? ariaKeys(record.keys) : nothing}
      @click=${() => give(this.name, session)}
    >
      ${this.look === 'switch' ? html`<span class="box"></span>` : nothing}
      ${record.icon && this.look !== 'label' && this.look !== 'switch' ? icon(record.icon) : nothing}
      ${this.look === 'icon' ? nothing : html`<span>${record.label}</span>`}
    </button>`
  }
}

function titleOf(record: PageCommand): string {
  const first = record.keys[0]
  const key = first === undefined ? '' : ` (${caps(first).join(' ')})`
  return record.hint ? `${record.label}${key}: ${record.hint}` : `${record.label}${key}`
}
