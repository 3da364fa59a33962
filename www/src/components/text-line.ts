import { css, html, LitElement, nothing } from 'lit'
import { customElement, query, queryAll, state } from 'lit/decorators.js'
import { live } from 'lit/directives/live.js'
import { session } from '../session'
import { base, button, field } from '../styles/shared'
import { quickTexts, textFor } from '../texts'
import './command-button'
import { moveInList } from './list-keys'
import { PartOf } from './part-of'

/** The line of text that stands on the stage. */
@customElement('text-line')
export class TextLine extends LitElement {
  static override styles = [
    base,
    field,
    button,
    css`
      form {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2) var(--gap-3);
        padding: 0 var(--gap-5) var(--gap-3);
      }

      input {
        flex: 1 1 16rem;
        min-width: 0;
        min-height: calc(var(--target) + 0.375rem);
        padding: 0 var(--gap-3);
        font-size: var(--type-4);
      }

      input:disabled {
        opacity: 0.6;
      }

      .quick {
        display: flex;
        flex-wrap: wrap;
        gap: 2px;
      }

      .quick button[aria-pressed="true"] {
        text-decoration: underline;
        text-decoration-thickness: 2px;
        text-underline-offset: 0.3em;
      }

      .missing {
        flex-basis: 100%;
        color: var(--alert);
        font-size: var(--type-2);
      }

      @media (width < 44rem) {
        form {
          padding-inline: var(--gap-4);
        }

        .quick button {
          padding-inline: 0.375rem;
        }
      }
    `,
  ]

  readonly #text = new PartOf(this, session.store, (state) => state.stage?.text ?? '')
  readonly #missing = new PartOf(this, session.store, (state) => state.stage?.missing.join(' ') ?? '')
  readonly #font = new PartOf(this, session.store, (state) => state.font)

  /** The quick line that the Tab key comes to: the row is one stop, with arrow keys inside. */
  @state() private stop = 0

  @queryAll('.quick button') private readonly quick!: NodeListOf<HTMLButtonElement>
  @query('input') private readonly input!: HTMLInputElement

  override connectedCallback(): void {
    super.connectedCallback()
    session.focusers.text = () => {
      this.input.focus()
      this.input.select()
    }
  }

  override render() {
    const report = this.#font.value?.report
    const text = this.#text.value
    return html`<form @submit=${this.#done}>
      <label class="unseen" for="text">The line on the stage</label>
      <input
        id="text"
        type="text"
        dir="auto"
        autocomplete="off"
        autocapitalize="off"
        spellcheck="false"
        enterkeyhint="done"
        placeholder="Type any text"
        .value=${live(text)}
        ?disabled=${!report}
        aria-describedby=${this.#missing.value ? 'missing' : nothing}
        @input=${this.#typed}
        @compositionend=${this.#take}
        @keydown=${this.#key}
      />
      <div class="quick" role="toolbar" aria-label="Quick lines" @keydown=${this.#onKey}>
        ${quickTexts.map((quick, at) => {
          const line = report ? textFor(report, quick) : quick.text
          return html`<button
            type="button"
            tabindex=${at === this.stop ? 0 : -1}
            @focus=${() => {
              this.stop = at
            }}
            title=${quick.name}
            aria-label="${quick.label}: ${quick.name}"
            aria-disabled=${report ? 'false' : 'true'}
            aria-pressed=${text === line}
            @click=${() => report && session.apply({ type: 'setText', text: line })}
          >
            ${quick.label}
          </button>`
        })}
      </div>
      <command-button name="browse" look="both"></command-button>
      ${
        this.#missing.value
          ? html`<p class="missing" id="missing">The font has no ${this.#missing.value}: a gap marks the place.</p>`
          : nothing
      }
    </form>`
  }

  #onKey = (event: KeyboardEvent): void => moveInList(event, this.quick, 'row')

  #typed = (event: InputEvent): void => {
    // Letters that are still being composed are not yet anyone's text.
    if (!event.isComposing) this.#take()
  }

  #take = (): void => {
    if (this.input.value !== this.#text.value) session.apply({ type: 'setText', text: this.input.value })
  }

  #key = (event: KeyboardEvent): void => {
    if (event.key === 'Escape') this.#done(event)
  }

  #done = (event: Event): void => {
    event.preventDefault()
    session.focus('stage')
  }
}
