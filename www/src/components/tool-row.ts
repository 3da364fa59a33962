import { css, html, LitElement } from 'lit'
import { customElement, property, queryAssignedElements } from 'lit/decorators.js'
import { base } from '../styles/shared'
import { CommandButton } from './command-button'

/**
 * A row of command buttons: one stop for the Tab key, arrow keys between them
 * (the toolbar pattern of the ARIA practices guide).
 */
@customElement('tool-row')
export class ToolRow extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        display: block;
      }

      [role="toolbar"] {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--tool-gap, 2px);
      }
    `,
  ]

  @property() label = ''
  @queryAssignedElements({ flatten: true }) private readonly children_!: HTMLElement[]

  #at = 0

  override render() {
    return html`<div role="toolbar" aria-label=${this.label} @keydown=${this.#onKey} @focusin=${this.#onFocus}>
      <slot @slotchange=${this.#mark}></slot>
    </div>`
  }

  get #buttons(): CommandButton[] {
    return this.children_.filter((child): child is CommandButton => child instanceof CommandButton)
  }

  #mark = (): void => {
    for (const [index, one] of this.#buttons.entries()) one.stop = index === this.#at
  }

  #onFocus = (event: FocusEvent): void => {
    const index = this.#buttons.findIndex((one) => event.composedPath().includes(one))
    if (index < 0) return
    this.#at = index
    this.#mark()
  }

  #onKey = (event: KeyboardEvent): void => {
    const buttons = this.#buttons
    const steps: Record<string, number> = {
      ArrowRight: this.#at + 1,
      ArrowLeft: this.#at - 1,
      Home: 0,
      End: buttons.length - 1,
    }
    const next = steps[event.key]
    if (next === undefined || event.ctrlKey || event.metaKey || event.altKey) return
    event.preventDefault()
    event.stopPropagation()
    buttons[(next + buttons.length) % buttons.length]?.focus()
  }
}
