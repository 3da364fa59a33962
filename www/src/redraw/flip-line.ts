import { css, html, LitElement } from 'lit'
import { customElement, property, state } from 'lit/decorators.js'
import { base, button } from '../styles/shared'
import type { Redraw } from './module'
import { placeStyle } from './place-style'
import { guideLines, type Line, letter, planeOf, sheetStyle, viewBox } from './sheet-lines'

/** One line of text in both revisions, in one place: held down, a key or the button shows the earlier one. */
@customElement('flip-line')
export class FlipLine extends LitElement {
  static override styles = [
    base,
    button,
    sheetStyle,
    placeStyle,
    css`
      .sheet {
        max-height: 14rem;
      }

      .changed {
        fill: var(--more);
      }

      .unchanged {
        fill: var(--ink);
      }

      input[type="text"] {
        width: min(24rem, 100%);
      }

      button[aria-pressed="true"] {
        color: var(--paper);
        background: var(--ink);
        forced-color-adjust: none;
      }
    `,
  ]

  @property({ attribute: false }) redraw!: Redraw
  @property({ attribute: false }) lines: readonly Line[] = []
  @property({ type: Number }) unitsPerEm = 1000
  @property() text = ''
  @property() earlier = 'before'
  @property() later = 'after'

  @state() private earlierShown = false
  /** The earlier one is shown for as long as something is held. */
  @state() private held = false
  @state() private tinted = true

  override connectedCallback(): void {
    super.connectedCallback()
    window.addEventListener('blur', this.#letGo)
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    window.removeEventListener('blur', this.#letGo)
  }

  override render() {
    const old = this.redraw.line(this.text, false)
    const now = this.redraw.line(this.text, true)
    const shown = this.earlierShown !== this.held ? old : now
    const isOld = shown === old
    const ends = [...old, ...now].map((one) => one.x + one.advance)
    const plane = planeOf(this.lines, this.unitsPerEm, 0, Math.max(this.unitsPerEm, ...ends))
    const told = isOld ? `Before: ${this.earlier}` : `After: ${this.later}`
    return html`
      <svg class="sheet" viewBox=${viewBox(plane)} role="img" aria-label=${`${this.text}. ${told}`}>
        ${guideLines(this.lines, plane)}
        ${shown.map(({ path, x, changed }) => letter(path, changed && this.tinted ? 'changed' : 'unchanged', x))}
      </svg>
      <div class="row">
        <button
          class="framed"
          type="button"
          aria-pressed=${isOld}
          @pointerdown=${this.#hold}
          @pointerup=${this.#letGo}
          @pointercancel=${this.#letGo}
          @keydown=${(event: KeyboardEvent) => {
            if ((event.key !== ' ' && event.key !== 'Enter') || event.repeat) return
            event.preventDefault()
            this.held = true
          }}
          @keyup=${this.#letGo}
          @blur=${this.#letGo}
        >
          Hold to see it before
        </button>
        <label class="inline"><input
            type="checkbox"
            .checked=${this.earlierShown}
            @change=${(event: Event) => (this.earlierShown = (event.target as HTMLInputElement).checked)}
          />Show it before</label>
        <label class="inline"><input
            type="checkbox"
            .checked=${this.tinted}
            @change=${(event: Event) => (this.tinted = (event.target as HTMLInputElement).checked)}
          />Tint what changed</label>
        <label>Text
          <input
            type="text"
            autocomplete="off"
            autocapitalize="off"
            spellcheck="false"
            .value=${this.text}
            @input=${(event: Event) => (this.text = (event.target as HTMLInputElement).value)}
          />
        </label>
        <span class="note" role="status">${told}</span>
      </div>`
  }

  #hold = (event: PointerEvent): void => {
    ;(event.currentTarget as HTMLElement).setPointerCapture(event.pointerId)
    this.held = true
  }

  #letGo = (): void => {
    this.held = false
  }
}
