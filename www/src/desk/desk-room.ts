import { css, html, LitElement, nothing } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import { icon, iconStyle } from '../components/icons'
import { PartOf } from '../components/part-of'
import { session } from '../session'
import { base, button } from '../styles/shared'

const names = {
  shelf: 'The shelf',
  handback: 'The sheet for the artist',
  redraw: 'The redraw',
  lessons: 'Lessons',
  browse: 'All letters',
} as const
const tags = {
  shelf: html`<desk-shelf></desk-shelf>`,
  handback: html`<desk-handback></desk-handback>`,
  redraw: html`<redraw-room></redraw-room>`,
  lessons: html`<desk-lessons></desk-lessons>`,
  browse: html`<browse-room></browse-room>`,
} as const

/** Each room comes with its own program, fetched when it is first entered. */
const doors = {
  shelf: () => import('./shelf/desk-shelf'),
  handback: () => import('./sheet/desk-handback'),
  redraw: () => import('../redraw/redraw-room'),
  lessons: () => import('../lessons/desk-lessons'),
  browse: () => import('../browse/browse-room'),
} as const

const LOST = 'This part of the page could not be fetched. Close it and try again, or load the page anew.'

/** What lies over the sheet for a while: the shelf, or the page for the artist. */
@customElement('desk-room')
export class DeskRoom extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    css`
      dialog {
        width: min(82rem, calc(100vw - 2 * var(--gap-4)));
        height: calc(100dvh - 2 * var(--gap-4));
        max-width: none;
        max-height: none;
        padding: 0;
        overflow: hidden;
        color: var(--ink);
        background: var(--paper);
        border: var(--hair) solid var(--edge);
        border-radius: var(--corner);
      }

      dialog[open] {
        display: grid;
        grid-template-rows: auto minmax(0, 1fr);
      }

      dialog::backdrop {
        background: oklch(0.15 0.01 70 / 0.5);
      }

      .top {
        display: flex;
        align-items: center;
        justify-content: space-between;
        padding: var(--gap-2) var(--gap-3) var(--gap-2) var(--gap-5);
        border-block-end: var(--hair) solid var(--edge);
      }

      h2 {
        font: 400 var(--type-5) / 1.2 var(--title-face);
      }

      .inside {
        overflow: auto;
      }

      .wait {
        padding: var(--gap-5);
        color: var(--soft);
      }

      .lost {
        color: var(--alert);
      }

      @media (width < 44rem) {
        dialog {
          width: 100vw;
          height: 100dvh;
          border: 0;
        }

        .top {
          padding-inline-start: var(--gap-4);
        }
      }
    `,
  ]

  readonly #room = new PartOf(this, session.store, (page) => page.review.room)

  @state() private inside: keyof typeof tags | null = null
  @state() private lost = false

  @query('dialog') private readonly dialog!: HTMLDialogElement

  #entering: keyof typeof tags | null = null

  override willUpdate(): void {
    const room = this.#room.value
    if (room === this.#entering) return
    this.#entering = room
    this.inside = null
    if (room !== null) void this.#enter(room)
  }

  override updated(): void {
    const open = this.#room.value !== null
    if (open && !this.dialog.open) this.dialog.showModal()
    if (!open && this.dialog.open) this.dialog.close()
  }

  override render() {
    const room = this.#room.value
    return html`<dialog aria-labelledby="title" @close=${this.#leave}>
      ${
        room === null
          ? nothing
          : html`<div class="top">
                <h2 id="title">${names[room]}</h2>
                <button type="button" aria-label="Close" title="Close (Esc)" @click=${() => this.dialog.close()}>
                  ${icon('close')}
                </button>
              </div>
              <div class="inside">${this.#content(room)}</div>`
      }
    </dialog>`
  }

  #content(room: keyof typeof tags) {
    if (this.lost) return html`<p class="wait lost" role="alert">${LOST}</p>`
    return this.inside === room ? tags[room] : html`<p class="wait" role="status">Opening…</p>`
  }

  async #enter(room: keyof typeof tags): Promise<void> {
    this.lost = false
    try {
      await doors[room]()
      if (this.#room.value === room) this.inside = room
    } catch (error) {
      console.warn(error)
      this.lost = true
    }
  }

  #leave = (): void => {
    if (session.state.review.room !== null) session.reviewing.set({ room: null })
  }
}
