import { css, html, LitElement, nothing, type PropertyValues } from 'lit'
import { customElement, property, query, state } from 'lit/decorators.js'
import { live } from 'lit/directives/live.js'
import { icon, iconStyle } from '../components/icons'
import { count, figure, signed } from '../figures'
import type { LessonFigure } from '../generated/LessonFigure'
import type { LessonLetter } from '../generated/LessonLetter'
import type { LessonReport } from '../generated/LessonReport'
import type { WordReport } from '../generated/WordReport'
import { save } from '../save'
import { base, button } from '../styles/shared'
import { lessonNames, lessonWords, outWords } from './lesson-words'
import { lessonsStyle } from './lessons-style'
import type { Lessons } from './module'
import { guideNames, linePicture, type Room } from './pictures'
import { go } from './place'
import { fromFile, type Lesson, MOST_LETTERS, MOST_NOTE, Refused, toFile, toLink, usual } from './plan'
import { withWords } from './with-words'

const digits = { units: 1, percent: 1, count: 0 } as const
const unitName = { units: 'units', percent: '%', count: '' } as const

/** One lesson, one screen. */
@customElement('lesson-page')
export class LessonPage extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    lessonsStyle,
    css`
      :host {
        container-type: inline-size;
      }

      article {
        display: grid;
        grid-template-columns: minmax(0, 1fr) minmax(17rem, 24rem);
        gap: var(--gap-4) var(--gap-5);
      }

      .head {
        grid-column: 1 / -1;
        display: flex;
        flex-wrap: wrap;
        align-items: baseline;
        justify-content: space-between;
        gap: var(--gap-2) var(--gap-5);
      }

      .head label {
        display: flex;
        align-items: center;
        gap: var(--gap-2);
      }

      .head input {
        width: 11rem;
      }

      .pictures {
        grid-column: 1 / -1;
        display: grid;
        grid-template-columns: minmax(0, calc(50% + 2.25rem)) minmax(0, 1fr);
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
        border-radius: var(--corner);
      }

      figure {
        position: relative;
        min-width: 0;
      }

      .frame {
        position: relative;
        height: clamp(11rem, 33dvh, 22rem);
        overflow: hidden;
      }

      figure + figure {
        border-inline-start: var(--hair) solid var(--rule);
      }

      figcaption {
        padding: var(--gap-2) var(--gap-3) 0;
        color: var(--soft);
        font-size: var(--type-2);
      }

      .setting {
        grid-column: 1 / -1;
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2) var(--gap-3);
      }

      .setting input[type="range"] {
        flex: 1 1 14rem;
        min-width: 10rem;
      }

      .setting output {
        flex: 0 0 11rem;
        font-size: var(--type-2);
      }

      .turn {
        display: flex;
        align-items: center;
        gap: var(--gap-2);
        min-height: var(--target);
      }

      .said {
        display: grid;
        gap: var(--gap-3);
        align-content: start;
      }

      .figures {
        max-height: 15.5rem;
        overflow: auto;
      }

      .figures thead th {
        position: sticky;
        top: 0;
        background: var(--paper);
      }

      .legend {
        white-space: nowrap;
      }

      svg.key {
        display: inline-block;
        width: 0.75rem;
        height: 0.75rem;
        margin-inline: var(--gap-2) 0.25rem;
      }

      .figures table {
        width: 100%;
      }

      .ways {
        grid-column: 1 / -1;
        display: flex;
        flex-wrap: wrap;
        justify-content: space-between;
        gap: var(--gap-2);
        padding-block-start: var(--gap-3);
        border-block-start: var(--hair) solid var(--rule);
      }

      details {
        grid-column: 1 / -1;
        font-size: var(--type-2);
      }

      summary {
        display: inline-block;
        padding: var(--gap-1) 0;
        min-height: var(--target);
        cursor: pointer;
        text-decoration: underline;
        text-decoration-color: var(--edge);
        text-underline-offset: 0.2em;
      }

      .teacher {
        display: grid;
        gap: var(--gap-2);
        padding-block: var(--gap-2);
      }

      textarea {
        width: min(100%, 44rem);
        padding: var(--gap-2);
      }

      .note {
        grid-column: 1 / -1;
        max-width: none;
        padding: var(--gap-2) var(--gap-3);
        background: var(--lift);
        border-inline-start: 3px solid var(--pick);
        white-space: pre-line;
        overflow-wrap: anywhere;
      }

      @container (width < 46rem) {
        article,
        .pictures {
          grid-template-columns: minmax(0, 1fr);
        }

        figure + figure {
          border-inline-start: 0;
          border-block-start: var(--hair) solid var(--rule);
        }

        .frame {
          height: clamp(9rem, 24dvh, 14rem);
        }

        .setting output {
          flex-basis: 100%;
        }
      }
    `,
  ]

  @property({ attribute: false }) lessons!: Lessons
  @property({ attribute: false }) plan!: Lesson
  @property({ attribute: false }) words: readonly WordReport[] = []
  @property() trouble = ''

  @state() private report: LessonReport | null = null
  @state() private said = ''
  @state() private marked = true
  /** Of the two pictures, in CSS pixels. */
  @state() private sizes: readonly [Room, Room] | null = null

  @query('input[type="file"]') private readonly chooser!: HTMLInputElement
  @query('h3') private readonly title_!: HTMLElement

  readonly #watch = new ResizeObserver(() => this.#measure())

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#watch.disconnect()
  }

  override willUpdate(changed: PropertyValues): void {
    if (!changed.has('plan') && !changed.has('lessons')) return
    const { lesson, text, out } = this.plan
    this.report = this.lessons.lesson(lesson, text, out)
  }

  override updated(changed: PropertyValues): void {
    for (const frame of this.renderRoot.querySelectorAll('.frame')) this.#watch.observe(frame)
    if (!this.sizes) this.#measure()
    const before = changed.get('plan') as Lesson | undefined
    // Another lesson begins at its title.
    if (before && before.lesson !== this.plan.lesson) this.title_.focus()
  }

  override render() {
    const { report, plan } = this
    if (!report) return nothing
    const { title, body, source } = lessonWords[plan.lesson]
    return html`<article aria-labelledby="title">
      <div class="head">
        <h3 id="title" tabindex="-1">${title}</h3>
        <label>
          Letters
          <input
            type="text"
            maxlength=${4 * MOST_LETTERS}
            spellcheck="false"
            autocomplete="off"
            placeholder=${report.usual}
            .value=${live(plan.text)}
            @input=${(event: Event) => this.#set({ text: [...(event.target as HTMLInputElement).value].slice(0, MOST_LETTERS).join('') })}
          />
        </label>
      </div>
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}
      ${plan.note ? html`<p class="note">${plan.note}</p>` : nothing}
      ${this.#pictures(report)} ${this.#setting(report)}
      <div class="said">
        ${this.#lacks(report)}
        <p>${withWords(body, this.words)}</p>
        <p class="quiet"><b>Source.</b> ${source}</p>
      </div>
      ${this.#figures(report)} ${this.#handOn()} ${this.#ways()}
      <p class="unseen" role="status">${this.said}</p>
    </article>`
  }

  /** Side by side, the left picture is as much wider as the lines' names take. */
  #measure(): void {
    const [left, right] = [...this.renderRoot.querySelectorAll('.frame')].map((one) =>
      one.getBoundingClientRect(),
    )
    if (!left || !right || left.width === 0) return
    const gutter = Math.max(left.width - right.width, 0)
    this.sizes = [
      { width: left.width, height: left.height, gutter },
      { width: right.width, height: right.height, gutter: 0 },
    ]
  }

  #pictures(report: LessonReport) {
    const { turned, out, lesson } = this.plan
    const letters = report.letters.map((one) => one.character).join(' ')
    if (report.letters.length === 0) return nothing
    const way = outWords(lesson, out)
    const over = turned ? ', turned over' : ''
    const names = guideNames(report).map((one) => one.name)
    const picture = (which: 0 | 1, label: string) => {
      const room = this.sizes?.[which]
      const look = { turned, marked: this.marked }
      return html`<div class="frame">${room ? linePicture(report, which, look, room, label) : nothing}</div>`
    }
    const outlines = report.letters.some((one) => one.drawn !== one.shown) && lesson !== 'points'
    return html`<div class="pictures">
      <figure>
        <figcaption>As drawn${over}</figcaption>
        ${picture(0, `${letters} as drawn${over}`)}
      </figure>
      <figure>
        <figcaption>
          ${way === 'as drawn' ? 'As drawn' : `Changed: ${way}`}${over}
          ${
            this.marked && outlines
              ? html`<span class="legend"
                  ><svg class="key" viewBox="0 0 1 1" aria-hidden="true"><path class="added" d="M0 0h1v1H0z" /></svg>ink
                  added<svg class="key" viewBox="0 0 1 1" aria-hidden="true"><path class="taken" d="M0 0h1v1H0z" /></svg>ink
                  taken away</span
                >`
              : nothing
          }
        </figcaption>
        ${picture(1, `${letters}, ${way}${over}`)}
      </figure>
      ${
        names.length > 0
          ? html`<p class="unseen">Lines across both pictures, from the lowest up: ${names.join(', ')}.</p>`
          : nothing
      }
    </div>`
  }

  #setting(report: LessonReport) {
    const { lesson, out } = this.plan
    const [least, most] = report.span
    const { taken, doubled } = lessonWords[lesson]
    const stop = (at: number, name: string) => html`<button
      class="framed"
      type="button"
      aria-pressed=${out === at}
      @click=${() => this.#set({ out: at })}
    >
      ${name}
    </button>`
    return html`<div class="setting" role="group" aria-label="How much is changed">
      ${least < 0 ? stop(-1, doubled) : nothing} ${stop(0, 'as drawn')} ${stop(1, taken)}
      <input
        type="range"
        aria-label="From as drawn to changed"
        min=${least}
        max=${most}
        step="0.05"
        .value=${live(`${out}`)}
        aria-valuetext=${outWords(lesson, out)}
        @input=${(event: Event) => this.#set({ out: Number((event.target as HTMLInputElement).value) })}
      />
      <output aria-hidden="true">${outWords(lesson, out)}</output>
      <label class="turn">
        <input
          type="checkbox"
          .checked=${live(this.marked)}
          @change=${(event: Event) => {
            this.marked = (event.target as HTMLInputElement).checked
          }}
        />
        Show what changed
      </label>
      ${
        lesson === 'halves'
          ? html`<label class="turn">
              <input
                type="checkbox"
                .checked=${live(this.plan.turned)}
                @change=${(event: Event) => this.#set({ turned: (event.target as HTMLInputElement).checked })}
              />
              Turn the letters over
            </label>`
          : nothing
      }
    </div>`
  }

  /** What this font cannot show, in sentences. */
  #lacks({ letters, missing, usual: line, lesson }: LessonReport) {
    const sentences: string[] = []
    const named = (all: readonly LessonLetter[]): string => all.map((one) => one.character).join(', ')
    if (missing) sentences.push(`This font has no ${[...missing].join(', ')}, so it is not shown.`)
    if (letters.length === 0)
      sentences.push(`The lesson needs letters such as ${line}: write some that the font has.`)
    const without = letters.filter((one) => one.state === 'without')
    if (without.length > 0)
      sentences.push(`This font draws ${named(without)} without this compensation: nothing can be taken out.`)
    const unable = letters.filter((one) => one.state === 'unable')
    for (const trouble of new Set(unable.map((one) => one.trouble ?? ''))) {
      sentences.push(`${named(unable.filter((one) => one.trouble === trouble))}: ${trouble}`)
    }
    const shows = letters.some((one) => one.state === 'changed')
    if (letters.length > 0 && !shows && without.length + unable.length === 0)
      sentences.push(`This lesson is not about these letters. Those that show it best: ${line}.`)
    const pairs = this.report?.pairs
    if (lesson === 'kerning' && pairs) {
      sentences.push(
        pairs.kerned === 0
          ? 'This font kerns no pair of its alphabet.'
          : `Of the ${count(pairs.pairs)} pairs of this font’s alphabet it kerns ${count(pairs.kerned)}. With all side bearings alike, ${count(pairs.otherwise)} would need a kern to stand as they stand now.`,
      )
    }
    return sentences.length > 0 ? html`<p>${withWords(sentences.join(' '), this.words)}</p>` : nothing
  }

  #figures({ letters }: LessonReport) {
    const told = letters.filter((one) => one.figures.length > 0)
    if (told.length === 0) return nothing
    const seen = new Set<string>()
    return html`<div class="figures" tabindex="0" role="region" aria-label="Figures of these letters">
      <table>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <th scope="col">drawn</th>
            <th scope="col">shown</th>
            <th scope="col">change</th>
          </tr>
        </thead>
        ${told.map(
          ({ character, figures }) => html`<tbody>
            ${distinct(figures).map((one) => this.#figure(character, one, seen))}
          </tbody>`,
        )}
      </table>
    </div>`
  }

  #figure(character: string, { name, unit, drawn, shown }: LessonFigure, seen: Set<string>) {
    const at = digits[unit]
    const suffix = unitName[unit]
    return html`<tr>
      <th scope="row"><b>${character}</b> ${withWords(name, this.words, seen)}${suffix ? html` <span class="quiet">${suffix}</span>` : nothing}</th>
      <td>${figure(drawn, at)}</td>
      <td>${figure(shown, at)}</td>
      <td>${signed(Number(shown.toFixed(at)) - Number(drawn.toFixed(at)), at)}</td>
    </tr>`
  }

  #handOn() {
    return html`<details>
      <summary>Hand this lesson on</summary>
      <div class="teacher">
        <p>
          A link or a file opens this lesson with these letters, this setting and your words, on whatever font is open
          there. Nothing of a font is in either.
        </p>
        <label for="note">Your words to whoever opens it</label>
        <textarea
          id="note"
          rows="2"
          maxlength=${MOST_NOTE}
          .value=${live(this.plan.note)}
          @input=${(event: Event) => this.#set({ note: (event.target as HTMLTextAreaElement).value })}
        ></textarea>
        <div class="row">
          <button class="framed" type="button" @click=${() => void this.#copy()}>Copy a link</button>
          <button class="framed" type="button" @click=${this.#save}>${icon('save')} Save as a file</button>
          <button class="framed" type="button" @click=${() => this.chooser.click()}>${icon('open')} Open a lesson’s file</button>
          <input
            type="file"
            accept=".json,application/json"
            aria-label="A lesson’s file"
            hidden
            @change=${() => void this.#open()}
          />
        </div>
        <p aria-hidden="true">${this.said}</p>
      </div>
    </details>`
  }

  #ways() {
    const at = lessonNames.indexOf(this.plan.lesson)
    const [before, after] = [lessonNames[at - 1], lessonNames[at + 1]]
    return html`<nav class="ways" aria-label="Lessons before and after">
      ${
        before
          ? html`<button class="framed" type="button" @click=${() => go({ lesson: usual(before) })}>
              ${icon('previous')} ${lessonWords[before].name}
            </button>`
          : html`<span></span>`
      }
      ${
        after
          ? html`<button class="framed" type="button" @click=${() => go({ lesson: usual(after) })}>
              ${lessonWords[after].name} ${icon('next')}
            </button>`
          : html`<button class="framed" type="button" @click=${() => go({ page: 'eye' })}>Try your eye ${icon('next')}</button>`
      }
    </nav>`
  }

  #set(change: Partial<Lesson>): void {
    this.said = ''
    go({ lesson: { ...this.plan, ...change } })
  }

  async #copy(): Promise<void> {
    const link = location.href.replace(/#.*$/, '') + toLink(this.plan)
    try {
      await navigator.clipboard.writeText(link)
      this.said = 'The link is copied.'
    } catch {
      // A browser that forbids it: the link is shown to be copied by hand.
      this.said = link
    }
  }

  #save = (): void => {
    save(document, toFile(this.plan), `${this.plan.lesson}-lesson.json`)
    this.said = 'The lesson is saved.'
  }

  async #open(): Promise<void> {
    const [file] = this.chooser.files ?? []
    if (!file) return
    try {
      go({ lesson: await fromFile(file) })
    } catch (error) {
      if (!(error instanceof Refused)) throw error
      go({ trouble: error.message })
    }
    this.chooser.value = ''
  }
}

/** Three bars of one thickness are one line of the table. */
function distinct(figures: readonly LessonFigure[]): LessonFigure[] {
  const written = ({ name, unit, drawn, shown }: LessonFigure): string =>
    `${name} ${drawn.toFixed(digits[unit])} ${shown.toFixed(digits[unit])}`
  return [...new Map(figures.map((one) => [written(one), one])).values()]
}
