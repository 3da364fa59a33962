import { css, html, LitElement } from 'lit'
import { customElement, query } from 'lit/decorators.js'
import { commandFor, give } from '../commands/registry'
import '../desk/desk-room'
import type { Subject } from '../desk/review-state'
import { receive } from '../files'
import { choiceOf } from '../formats/parcel'
import type { LetterReport } from '../generated/LetterReport'
import { NO_MARGIN } from '../sentences'
import { session } from '../session'
import type { PageState } from '../state'
import { base } from '../styles/shared'
import { nextTask } from '../tasks'
import './drop-veil'
import './file-line'
import './first-hint'
import './notice-line'
import { PartOf } from './part-of'
import './stage-bar'
import './stage-view'
import './stage-foot'
import './text-line'

/** The whole page: one sheet, from the file's line to the figures. */
@customElement('lab-sheet')
export class LabSheet extends LitElement {
  static override styles = [
    base,
    css`
      .desk {
        display: grid;
        grid-template:
          "file file" auto
          "text text" auto
          "stage margin" minmax(0, 1fr) / minmax(0, 1fr) 22rem;
        height: 100dvh;
        min-height: 34rem;
      }

      .file {
        grid-area: file;
      }

      text-line {
        grid-area: text;
      }

      .stage {
        grid-area: stage;
        display: grid;
        grid-template-rows: auto minmax(0, 1fr) auto;
        min-width: 0;
      }

      .margin {
        grid-area: margin;
        display: flex;
        flex-direction: column;
        min-height: 0;
        overflow: auto;
        border-block-start: var(--hair) solid var(--rule);
        border-inline-start: var(--hair) solid var(--rule);
      }

      /* Each scrolls by itself: choosing a finding must not push its letter's figures away. */
      findings-panel,
      .figures {
        overflow: auto;
      }

      /* The lists give way, so that what is said of a finding is never below the window's edge. */
      findings-panel {
        flex: 0 1 auto;
        min-height: 9rem;
        max-height: 52%;
      }

      axes-panel {
        flex: 0 1 auto;
        max-height: 45%;
        overflow: auto;
        border-block-end: var(--hair) solid var(--edge);
      }

      axes-panel.axes {
        /* Two axes under the named positions. */
        min-height: 10rem;
      }

      desk-review {
        flex: none;
        max-height: 60%;
        overflow: auto;
      }

      /* On a narrow page, where all stands in one column, it comes before the findings. */
      first-hint {
        flex: none;
        order: 1;
      }

      .figures {
        order: 2;
        flex: 1 1 0;
        min-height: 0;
        border-block-start: var(--hair) solid var(--edge);
      }

      .unseen {
        position: absolute;
      }

      @media (width < 60rem) {
        /* What the guide would cover at the page's end. */
        :host {
          padding-block-end: var(--guide-room, 0);
        }

        .desk {
          grid-template: "file" auto "text" auto "stage" auto "margin" auto / minmax(0, 1fr);
          height: auto;
          min-height: 0;
        }

        .stage {
          grid-template-rows: auto max(17rem, 52dvh) auto;
        }

        .margin {
          display: block;
          border-inline-start: 0;
        }

        axes-panel,
        findings-panel,
        desk-review,
        .figures {
          max-height: none;
          overflow: visible;
        }
      }
    `,
  ]

  readonly #some = new PartOf(
    this,
    session.store,
    (state) => state.stage?.items.some((item) => item.selected) ?? false,
  )
  /** Its panel comes with what handles unusual files. */
  readonly #choice = new PartOf(this, session.store, (state) => state.parcel && choiceOf(state.parcel))
  /** Comes with its own program too. */
  readonly #guide = new PartOf(this, session.store, (state) => state.guide)
  readonly #title = new PartOf(this, session.store, (state) =>
    state.font ? `${state.font.report.family} ${state.font.report.style} – Counterpoise` : 'Counterpoise',
  )

  @query('stage-view') private readonly stage!: HTMLElement

  #stop = (): void => {}

  /** The page's state, for scripts beside it. */
  get state(): PageState {
    return session.state
  }

  /** Every measure of one glyph of the open font, for scripts beside it. */
  letter(glyph: number): LetterReport | null {
    return session.letter(glyph)
  }

  /** Writes a note on a letter or a finding of the open font, for scripts beside it. */
  review(on: Subject, note: string): void {
    session.reviewing.note(on, note)
  }

  override connectedCallback(): void {
    super.connectedCallback()
    // What index.html says to browsers that cannot run this.
    this.replaceChildren()
    const end = new AbortController()
    window.addEventListener('keydown', this.#key, { signal: end.signal })
    window.addEventListener('hashchange', this.#followLink, { signal: end.signal })
    this.#followLink()
    const stopFiles = receive(window, {
      hover: (dropping) => session.set({ dropping }),
      arrive: (arrival) => void session.arrive(arrival),
    })
    this.#stop = () => {
      end.abort()
      stopFiles()
    }
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#stop()
  }

  /** The page's program is read in one task, and drawn first in the next: together they hold the page up. */
  override async scheduleUpdate(): Promise<void> {
    if (!this.hasUpdated) await nextTask()
    super.scheduleUpdate()
  }

  override firstUpdated(): void {
    void this.#fetchMargin()
  }

  /** Not sooner: the first picture would wait for it. */
  async #fetchMargin(): Promise<void> {
    await session.started
    try {
      await import('./margin')
    } catch (error) {
      console.warn(error)
      session.set({ notice: { kind: 'refused', fileName: '', sentence: NO_MARGIN } })
    }
  }

  override willUpdate(): void {
    document.title = this.#title.value
  }

  override render() {
    return html`<main class="desk">
        <h1 class="unseen">Counterpoise, a glyph balance lab</h1>
        <div class="file"><file-line></file-line><notice-line></notice-line></div>
        <text-line></text-line>
        <div class="stage">
          <stage-bar></stage-bar>
          <stage-view></stage-view>
          <stage-foot></stage-foot>
        </div>
        <div class="margin">
          ${this.#guide.value ? html`<review-guide></review-guide>` : ''}
          <first-hint></first-hint>
          ${this.#choice.value ? html`<axes-panel class=${this.#choice.value}></axes-panel>` : ''}
          <findings-panel @choose=${this.#look}></findings-panel>
          <desk-review></desk-review>
          <section class="figures" tabindex="0" aria-label="Figures">
            <calliper-panel></calliper-panel>
            ${this.#some.value ? html`<letter-panel></letter-panel>` : html`<font-panel></font-panel>`}
          </section>
        </div>
      </main>
      <figures-table></figures-table>
      <desk-room></desk-room>
      <key-help></key-help>
      <drop-veil></drop-veil>`
  }

  /** Where the findings stand below the stage, the one that was chosen there brings the stage into sight. */
  #look = (): void => {
    if (matchMedia('(width < 60rem)').matches) this.stage.scrollIntoView({ block: 'start' })
  }

  /** A teacher's link leads into the room of the lessons, which reads the rest of it. */
  #followLink = (): void => {
    if (location.hash.startsWith('#lesson')) session.reviewing.set({ room: 'lessons' })
  }

  #key = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return
    const path = event.composedPath()
    const at = path[0]
    const place = {
      typing: at instanceof HTMLElement && at.matches('input[type="text"], textarea, [contenteditable]'),
      onStage: at instanceof HTMLCanvasElement,
    }
    const found = commandFor(event, place, session.state.singleKeys)
    // What lies over the sheet has keys of its own; words can be asked about there too.
    const over = path.some((one) => one instanceof HTMLDialogElement)
    if (!found || (over && found.id !== 'word') || (event.repeat && !found.repeats)) return
    // Held down or out of reach, the key is still the page's: no browser shortcut behind it.
    event.preventDefault()
    give(found.id, session)
  }
}
