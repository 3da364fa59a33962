import { css, html, LitElement, nothing } from 'lit'
import { customElement, query } from 'lit/decorators.js'
import { count, many } from '../figures'
import type { FontReport } from '../generated/FontReport'
import { session } from '../session'
import type { OpenFont } from '../state'
import { base, button, heading } from '../styles/shared'
import { rightsWords, versionWords } from '../words'
import './command-button'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'
import './tool-row'
import './survey-line'
import './theme-switch'

/** The file's own line: what font this is, whose, and what may be done with it. */
@customElement('file-line')
export class FileLine extends LitElement {
  static override styles = [
    base,
    button,
    heading,
    iconStyle,
    css`
      :host {
        container-type: inline-size;
      }

      header {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2) var(--gap-4);
        padding: var(--gap-3) var(--gap-5);
      }

      .mark {
        display: flex;
        align-items: center;
        gap: var(--gap-2);
        color: var(--soft);
        font: 400 var(--type-3) / 1 var(--title-face);
        letter-spacing: 0.01em;
      }

      .mark svg {
        width: 1.75rem;
        height: 1.75rem;
        color: var(--ink);
      }

      .name {
        flex: 1 1 18rem;
        min-width: 0;
        padding-inline-start: var(--gap-4);
        border-inline-start: var(--hair) solid var(--rule);
      }

      h2 {
        overflow-wrap: anywhere;
        font: 400 var(--type-5) / 1.15 var(--title-face);
        letter-spacing: -0.005em;
      }

      h2 .style {
        color: var(--soft);
      }

      .facts {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 0 var(--gap-3);
        color: var(--soft);
        font-size: var(--type-2);
      }

      .sample {
        padding: 0 0.375rem;
        color: var(--ink);
        border: var(--hair) solid var(--edge);
        border-radius: 1em;
        font: 600 var(--type-1) / 1.35 var(--text-face);
        vertical-align: 0.3em;
      }

      .doings {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2);
      }

      .doings tool-row {
        --tool-gap: var(--gap-2);
      }

      .rights {
        min-height: var(--target);
        margin-block: -0.25rem;
        margin-inline-start: -0.375rem;
        padding-inline: 0.375rem;
        color: var(--ink);
        text-decoration: underline;
        text-decoration-color: var(--edge);
        text-underline-offset: 0.2em;
      }

      /* Here it has a frame, which takes its room. */
      @media (forced-colors: active) {
        .rights {
          margin: 0;
        }
      }

      .rights .icon {
        width: 0.875rem;
        height: 0.875rem;
      }

      .rights.no {
        color: var(--alert);
      }

      #rights {
        position: fixed;
        inset: auto;
        width: min(27rem, calc(100vw - 2rem));
        max-height: 70vh;
        margin: 0;
        padding: var(--gap-4);
        overflow: auto;
        color: var(--ink);
        background: var(--lift);
        border: var(--hair) solid var(--edge);
        border-radius: var(--corner);
        font-size: var(--type-2);
        box-shadow: 0 0.5rem 2rem oklch(0 0 0 / 0.16);
      }

      dt {
        margin-top: var(--gap-3);
        color: var(--soft);
        font-weight: 600;
        font-size: var(--type-1);
      }

      dt:first-of-type {
        margin-top: 0;
      }

      dd {
        overflow-wrap: anywhere;
      }

      .own-lines {
        white-space: pre-line;
      }

      /* Where there is no keyboard there are no keys to list. */
      @media (pointer: coarse) and (hover: none) {
        .keys {
          display: none;
        }
      }

      @container (width < 44rem) {
        header {
          padding: var(--gap-2) var(--gap-4);
        }

        .mark span {
          display: none;
        }

        .name {
          flex-basis: calc(100% - 4rem);
          padding-inline-start: var(--gap-3);
        }

        .doings,
        survey-line {
          width: 100%;
        }

        /* Two rows: to open and to ask; the rooms and the theme. */
        .doings [name="open"] {
          order: -2;
        }

        .doings [label="Help"] {
          order: -1;
        }

        h2 {
          font-size: var(--type-4);
        }
      }
    `,
  ]

  readonly #font = new PartOf(this, session.store, (state) => state.font)
  readonly #opening = new PartOf(this, session.store, (state) => state.opening)

  @query('#rights') private readonly rights!: HTMLElement
  @query('.rights') private readonly rightsButton!: HTMLElement

  override render() {
    const font = this.#font.value
    return html`<header>
      <div class="mark">
        <svg viewBox="0 0 32 32" aria-hidden="true">
          <path d="M2 6.5h28M2 25.5h28" stroke="var(--guide)" fill="none" />
          <path d="M5 7h5v18H5z" fill="currentColor" />
          <circle cx="20.5" cy="16" r="7.6" fill="none" stroke="currentColor" stroke-width="4.6" />
        </svg>
        <span>Counterpoise</span>
      </div>
      <div class="name">${this.#name(font)}</div>
      <survey-line></survey-line>
      <div class="doings">
        <command-button name="open" look="framed"></command-button>
        <tool-row label="Rooms">
          <command-button name="shelf" look="framed"></command-button>
          <command-button name="redraw" look="framed"></command-button>
          <command-button name="handback" look="framed"></command-button>
        </tool-row>
        <theme-switch></theme-switch>
        <tool-row label="Help">
          <command-button name="lessons" look="icon"></command-button>
          <command-button name="word" look="icon"></command-button>
          <command-button class="keys" name="keys" look="icon"></command-button>
        </tool-row>
      </div>
    </header>`
  }

  #name(font: OpenFont | null) {
    if (!font) {
      // Of a second font, only the stage's foot says that it is being opened: a
      // line that changed its height would move the stage twice.
      const opening = this.#opening.value
      return html`<h2 class="style">${opening === null ? 'No font is open' : `Opening ${opening}…`}</h2>`
    }
    const { report, sample, fileName } = font
    const facts = [
      versionWords(report.version),
      `${count(report.unitsPerEm)} units per em`,
      many(report.glyphCount, 'glyph'),
      report.designer ? `drawn by ${report.designer}` : report.manufacturer,
    ].filter((fact): fact is string => Boolean(fact))
    return html`<h2 title=${fileName}>
        ${report.family} <span class="style">${report.style}</span>
        ${sample ? html` <span class="sample">Sample</span>` : nothing}
      </h2>
      <div class="facts">${facts.map((fact) => html`<span>${fact}</span>`)}${this.#rightsOf(report)}</div>`
  }

  #rightsOf(report: FontReport) {
    return html`<button
        class="rights ${report.embedding?.restricted ? 'no' : ''}"
        type="button"
        popovertarget="rights"
        title="Licence and embedding rights"
      >
        ${report.embedding?.restricted ? icon('warn') : nothing}
        <span>${rightsWords(report.embedding)}</span>${icon('more')}
      </button>
      <div id="rights" popover role="dialog" tabindex="0" aria-label="Licence and embedding rights" @toggle=${this.#place}>
        <dl>
          <dt>Embedding (OS/2 fsType)</dt>
          <dd>${report.embedding?.sentence ?? 'The file does not say whether it may be embedded.'}</dd>
          <dt>Licence</dt>
          <dd class="own-lines">${report.licence ?? 'The file names none: ask its maker before you use it.'}</dd>
          ${report.licenceUrl ? html`<dt>To be read at</dt><dd>${report.licenceUrl}</dd>` : nothing}
          ${report.copyright ? html`<dt>Copyright</dt><dd>${report.copyright}</dd>` : nothing}
          ${report.manufacturer ? html`<dt>Maker</dt><dd>${report.manufacturer}</dd>` : nothing}
          <dt>File</dt>
          <dd>
            ${this.#font.value?.fileName}; ${report.outlines} outlines; ${many(report.characterCount, 'character')}${
              report.faceCount > 1 ? `; face ${report.faceIndex + 1} of ${report.faceCount}` : ''
            }
          </dd>
          ${report.notes.length > 0 ? html`<dt>About the file</dt>${report.notes.map((note) => html`<dd>${note}</dd>`)}` : nothing}
        </dl>
      </div>`
  }

  /** Under its button, and within the window. */
  #place = (event: ToggleEvent): void => {
    if (event.newState !== 'open') return
    const anchor = this.rightsButton.getBoundingClientRect()
    const left = Math.min(anchor.left, window.innerWidth - this.rights.offsetWidth - 16)
    this.rights.style.left = `${Math.max(16, left)}px`
    this.rights.style.top = `${anchor.bottom + 6}px`
  }
}
