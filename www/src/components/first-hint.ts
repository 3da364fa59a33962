import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { session } from '../session'
import { base, button } from '../styles/shared'
import './command-button'
import { PartOf } from './part-of'

/** What a first visit needs to know, in ten seconds, beside the stage and not over it. */
@customElement('first-hint')
export class FirstHint extends LitElement {
  static override styles = [
    base,
    button,
    css`
      aside {
        padding: var(--gap-4);
        background: var(--lift);
        border-block-end: var(--hair) solid var(--rule);
      }

      ol {
        display: grid;
        gap: var(--gap-3);
        margin-block: var(--gap-3);
        list-style: none;
      }

      li {
        display: grid;
        grid-template-columns: 2.75rem 1fr;
        align-items: center;
        gap: var(--gap-3);
        font-size: var(--type-2);
      }

      svg {
        width: 2.75rem;
        height: 2rem;
        fill: none;
        stroke: var(--ink);
        stroke-width: 1.5;
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2);
      }

      .long {
        color: var(--soft);
        font-size: var(--type-1);
      }

      h2 {
        font: 400 var(--type-4) / 1.3 var(--title-face);
      }
    `,
  ]

  readonly #shown = new PartOf(this, session.store, (state) => state.firstVisit && state.phase !== 'broken')

  override render() {
    if (!this.#shown.value) return nothing
    return html`<aside aria-label="How the lab works">
      <h2>See which letters stand out</h2>
      <ol>
        <li>
          <svg viewBox="0 0 44 32" aria-hidden="true">
            <path d="M15 4h10l5 5v19H15zM25 4v5h5M22.5 24V13M18.5 17l4-4 4 4" />
          </svg>
          <span><b>Drop a font</b> anywhere on this page. It never leaves your computer. A sample stands here till then.</span>
        </li>
        <li>
          <svg viewBox="0 0 44 32" aria-hidden="true">
            <path d="M3 26h38" stroke="var(--guide)" />
            <path d="M7 8h4v18H7zM19 8h4v18h-4zM11 15.5h8v3h-8z" fill="var(--ink)" stroke="none" />
            <path d="M27 17h12M35 13l4 4-4 4" stroke="var(--pick)" />
          </svg>
          <span><b>Drag a letter</b> along the line, beside another or over it.</span>
        </li>
        <li>
          <svg viewBox="0 0 44 32" aria-hidden="true">
            <path d="M4 7.5h7v8H4zM4 19.5h7v8H4z" />
            <path d="M16 9.5h24M16 13.5h16M16 21.5h24M16 25.5h12" stroke="var(--edge)" />
          </svg>
          <span><b>Read what stands out</b>, worst first. Choose a finding: its letter stands beside others to compare.</span>
        </li>
      </ol>
      <div class="ways">
        <command-button name="guide" look="framed"></command-button>
        <span class="long">some 90 seconds</span>
        <button type="button" @click=${this.#away}>Understood</button>
      </div>
    </aside>`
  }

  #away = (): void => {
    session.set({ firstVisit: false })
    session.focus('stage')
  }
}
