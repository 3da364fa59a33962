import { css, html, LitElement, nothing } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import { PartOf } from '../components/part-of'
import type { WordReport } from '../generated/WordReport'
import { session } from '../session'
import { base, button } from '../styles/shared'
import './eye-page'
import './lesson-page'
import { lessonNames, lessonWords } from './lesson-words'
import { lessonsStyle } from './lessons-style'
import { type Lessons, openLessons } from './module'
import { current, follow, followAddress, go, type Place } from './place'
import { usual } from './plan'
import './word-page'

const WAIT = 'The lessons are given on the font that is open. It is being opened.'
const LOST = 'The lessons could not be fetched. Close this and open it again to try once more.'

/** The room of the lessons: a list at its side, one page at a time. */
@customElement('desk-lessons')
export class DeskLessons extends LitElement {
  static override styles = [
    base,
    button,
    lessonsStyle,
    css`
      .room {
        display: grid;
        grid-template-columns: 15.5rem minmax(0, 1fr);
        min-height: 100%;
      }

      .list {
        padding: var(--gap-4) var(--gap-3);
        border-inline-end: var(--hair) solid var(--rule);
      }

      .list > div {
        position: sticky;
        top: var(--gap-4);
      }

      .list ol,
      .list ul {
        list-style: none;
      }

      .list ul {
        margin-block-start: var(--gap-3);
        padding-block-start: var(--gap-3);
        border-block-start: var(--hair) solid var(--rule);
      }

      .list button {
        justify-content: start;
        width: 100%;
        padding-block: 0.25rem;
        text-align: start;
        white-space: normal;
      }

      .list button[aria-current] {
        background: var(--wash);
        font-weight: 600;
        box-shadow: inset 3px 0 0 var(--ink);
      }

      .chooser {
        display: none;
        padding: var(--gap-3) var(--gap-4) 0;
      }

      select {
        width: 100%;
      }

      .page {
        min-width: 0;
        padding: var(--gap-4) var(--gap-5) var(--gap-5);
      }

      .wait {
        padding: var(--gap-5);
        color: var(--soft);
      }

      @media (width < 60rem) {
        .room {
          display: block;
        }

        .list {
          display: none;
        }

        .chooser {
          display: block;
        }

        .page {
          padding: var(--gap-3) var(--gap-4) var(--gap-5);
        }
      }
    `,
  ]

  readonly #font = new PartOf(this, session.store, (page) => page.font?.report ?? null)

  @state() private place: Place = current()
  @state() private lessons: Lessons | null = null
  @state() private words: readonly WordReport[] = []
  @state() private trouble = ''

  @query('.page') private readonly page!: HTMLElement

  #of: unknown = null
  #stop = (): void => {}

  override connectedCallback(): void {
    super.connectedCallback()
    const end = new AbortController()
    window.addEventListener('hashchange', followAddress, { signal: end.signal })
    const unfollow = follow(() => {
      const page = this.place.page
      this.place = current()
      if (page !== this.place.page) void this.#begin()
    })
    this.#stop = () => {
      end.abort()
      unfollow()
    }
    followAddress()
    this.place = current()
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#stop()
    release(this.lessons)
    this.lessons = null
    this.#of = null
  }

  override willUpdate(): void {
    if (this.#of !== this.#font.value) void this.#open()
  }

  override render() {
    return html`<div class="room">
      ${this.#list()} ${this.#chooser()}
      <div class="page">${this.#page()}</div>
    </div>`
  }

  #page() {
    if (this.trouble) return html`<p class="wait" role="alert">${this.trouble}</p>`
    if (!this.lessons) return html`<p class="wait" role="status">${WAIT}</p>`
    const { page, lesson, asked, trouble } = this.place
    if (page === 'eye') return html`<eye-page .lessons=${this.lessons} .words=${this.words}></eye-page>`
    if (page === 'words') return html`<word-page .words=${this.words} .asked=${asked}></word-page>`
    return html`<lesson-page
      .lessons=${this.lessons}
      .plan=${lesson}
      .words=${this.words}
      .trouble=${trouble}
    ></lesson-page>`
  }

  #list() {
    const { page, lesson } = this.place
    const now = (here: boolean) => (here ? 'page' : nothing)
    return html`<nav class="list" aria-label="Lessons"><div>
      <ol>
        ${lessonNames.map(
          (name) => html`<li>
            <button
              type="button"
              aria-current=${now(page === 'lesson' && lesson.lesson === name)}
              @click=${() => go({ page: 'lesson', lesson: usual(name) })}
            >
              ${lessonWords[name].name}
            </button>
          </li>`,
        )}
      </ol>
      <ul>
        <li>
          <button type="button" aria-current=${now(page === 'eye')} @click=${() => go({ page: 'eye' })}>Try your eye</button>
        </li>
        <li>
          <button type="button" aria-current=${now(page === 'words')} @click=${() => go({ page: 'words', asked: [] })}>
            Words of the trade
          </button>
        </li>
      </ul>
    </div></nav>`
  }

  /** Where there is no room for the list. */
  #chooser() {
    const { page, lesson } = this.place
    const at = page === 'lesson' ? lesson.lesson : page
    const option = (value: string, name: string) =>
      html`<option value=${value} ?selected=${value === at}>${name}</option>`
    return html`<div class="chooser">
      <select aria-label="Lesson" @change=${this.#choose}>
        ${lessonNames.map((name) => option(name, lessonWords[name].name))} ${option('eye', 'Try your eye')}
        ${option('words', 'Words of the trade')}
      </select>
    </div>`
  }

  #choose = (event: Event): void => {
    const { value } = event.target as HTMLSelectElement
    const name = lessonNames.find((one) => one === value)
    if (name) go({ page: 'lesson', lesson: usual(name) })
    else go({ page: value === 'eye' ? 'eye' : 'words', asked: [] })
  }

  /** Another page begins at its top. */
  async #begin(): Promise<void> {
    await this.updateComplete
    this.page.scrollIntoView({ block: 'nearest' })
  }

  async #open(): Promise<void> {
    const font = this.#font.value
    this.#of = font
    const bytes = session.fontBytes()
    if (!font || !bytes) return
    try {
      const lessons = await openLessons(bytes)
      if (this.#of !== font || !this.isConnected) return lessons.free()
      release(this.lessons)
      this.words = lessons.words()
      this.lessons = lessons
      this.trouble = ''
    } catch (error) {
      console.warn(error)
      if (this.#of === font) this.trouble = LOST
    }
  }
}

/** Frees what a font's lessons hold, once every page that is being drawn with them has been. */
function release(lessons: Lessons | null): void {
  if (lessons) setTimeout(() => lessons.free())
}
