import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { session } from '../session'
import { base, button } from '../styles/shared'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'

/** Under the file's line: why a file was refused, until it is put away. */
@customElement('notice-line')
export class NoticeLine extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    css`
      .notice {
        display: flex;
        align-items: center;
        gap: var(--gap-3);
        margin: 0 var(--gap-5) var(--gap-3);
        padding: var(--gap-2) var(--gap-2) var(--gap-2) var(--gap-3);
        background: var(--lift);
        border: var(--hair) solid var(--edge);
        border-inline-start: 4px solid var(--edge);
        border-radius: var(--corner);
      }

      .refused {
        border-inline-start-color: var(--alert);
      }

      .refused > .icon {
        color: var(--alert);
      }

      p {
        flex: 1;
        min-width: 0;
        overflow-wrap: anywhere;
      }

      b {
        font-weight: 600;
      }

      @media (width < 44rem) {
        .notice {
          margin-inline: var(--gap-4);
        }
      }
    `,
  ]

  readonly #notice = new PartOf(this, session.store, (state) => state.notice)

  override render() {
    const notice = this.#notice.value
    // The alert's box stays in the page: a live region must be there before it speaks.
    return html`<div role="alert">
      ${
        notice
          ? html`<div class="notice ${notice.kind}">
              ${notice.kind === 'refused' ? icon('warn') : nothing}
              <p>${notice.fileName ? html`<b>${notice.fileName}</b>: ` : nothing}${notice.sentence}</p>
              <button
                type="button"
                aria-label="Put this message away"
                title="Put this message away"
                @click=${this.#away}
              >
                ${icon('close')}
              </button>
            </div>`
          : nothing
      }
    </div>`
  }

  #away = (): void => {
    session.set({ notice: null })
    session.focus('stage')
  }
}
