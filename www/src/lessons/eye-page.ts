import { css, html, LitElement, nothing, type PropertyValues, svg } from 'lit'
import { customElement, property, state } from 'lit/decorators.js'
import { icon, iconStyle } from '../components/icons'
import { figure } from '../figures'
import type { EyeMatter } from '../generated/EyeMatter'
import type { EyeQuestion } from '../generated/EyeQuestion'
import type { EyeResult } from '../generated/EyeResult'
import type { EyeSetup } from '../generated/EyeSetup'
import type { WordReport } from '../generated/WordReport'
import { save } from '../save'
import { session } from '../session'
import { base, button } from '../styles/shared'
import { eyeCurve } from './eye-curve'
import { type TrialData, toCsv, toJson } from './eye-data'
import { equalWords, eyeMatters, eyeWords, HONEST, ownWords } from './eye-words'
import { lessonsStyle } from './lessons-style'
import type { Lessons } from './module'
import { withWords } from './with-words'

/** Nothing is shown for so long between two questions, in milliseconds: what moves would give itself away. */
const BETWEEN = 350

/** Answers before this are no answers: nobody has looked, and a held key would run through the trial. */
const SOONEST = 150

const NOT_HERE = 'This font has not the letters for this question, or the lab cannot change them so.'

/** A question's two answers, as buttons and as keys. */
interface Ways {
  readonly key: string
  readonly name: string
  readonly larger: boolean
}

/** Which looks taller, thicker, heavier, lower? Sixty questions, and what they found. */
@customElement('eye-page')
export class EyePage extends LitElement {
  static override styles = [
    base,
    button,
    iconStyle,
    lessonsStyle,
    css`
      .intro,
      .found {
        display: grid;
        gap: var(--gap-3);
        justify-items: start;
      }

      .matters {
        display: grid;
        gap: var(--gap-2);
        padding: 0;
        list-style: none;
      }

      .matters button {
        min-height: 2.75rem;
        padding-inline: var(--gap-4);
        font-size: var(--type-3);
        white-space: normal;
        text-align: start;
      }

      .trial {
        display: grid;
        grid-template-rows: auto minmax(0, 1fr) auto auto;
        gap: var(--gap-3);
        height: calc(100dvh - 11rem);
        min-height: 24rem;
      }

      .trial h3 {
        text-align: center;
      }

      .stage {
        min-height: 0;
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
        border-radius: var(--corner);
      }

      .answers {
        display: grid;
        grid-template-columns: 1fr 1fr;
        gap: var(--gap-3);
      }

      .answers button {
        min-height: 3.5rem;
        font-size: var(--type-4);
      }

      .foot {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: var(--gap-4);
        color: var(--soft);
        font-size: var(--type-2);
      }

      progress {
        flex: 1;
        height: 0.5rem;
        accent-color: var(--ink);
      }

      .chart {
        width: min(100%, 46rem);
        padding: var(--gap-2);
        background: var(--sheet);
        border: var(--hair) solid var(--rule);
        border-radius: var(--corner);
      }

      .chart svg {
        height: auto;
        overflow: visible;
      }

      text {
        fill: var(--soft);
        font: 12px var(--text-face);
      }

      .end {
        text-anchor: end;
      }

      .middle {
        text-anchor: middle;
      }

      .start {
        text-anchor: start;
        fill: var(--ink);
      }

      .grid {
        fill: none;
        stroke: var(--rule);
      }

      .grid.half {
        stroke: var(--edge);
      }

      .interval {
        fill: color-mix(in oklch, var(--pick) 22%, transparent);
      }

      .curve {
        stroke: var(--ink);
        stroke-width: 2px;
      }

      circle.answers {
        fill: color-mix(in oklch, var(--ink) 55%, transparent);
      }

      .mark {
        fill: none;
        stroke-width: 2px;
      }

      .you {
        stroke: var(--pick);
      }

      .own {
        stroke: var(--more);
        stroke-dasharray: 7 4;
      }

      .book {
        stroke: var(--less);
        stroke-dasharray: 2 3;
      }

      .lines {
        display: grid;
        gap: var(--gap-2);
        padding: 0;
        list-style: none;
      }
    `,
  ]

  @property({ attribute: false }) lessons!: Lessons
  @property({ attribute: false }) words: readonly WordReport[] = []

  @state() private setup: EyeSetup | null = null
  @state() private question: EyeQuestion | null = null
  @state() private hidden_ = false
  @state() private result: EyeResult | null = null
  @state() private trouble = ''

  #asked = 0
  #took: number[] = []
  #timer: ReturnType<typeof setTimeout> | undefined

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    clearTimeout(this.#timer)
  }

  override willUpdate(changed: PropertyValues): void {
    // Another font: what was asked of the one before is over.
    if (changed.has('lessons')) this.#leave()
  }

  override updated(changed: PropertyValues): void {
    if (!changed.has('question') && !changed.has('result')) return
    const began = changed.has('question') && changed.get('question') == null && this.question
    const ended = changed.has('result') && this.result
    if (began || ended) this.renderRoot.querySelector<HTMLElement>(began ? '.trial' : 'h3')?.focus()
  }

  override render() {
    if (this.setup && this.question) return this.#trial(this.setup, this.question)
    if (this.setup && this.result) return this.#found(this.setup, this.result)
    return this.#intro()
  }

  #intro() {
    return html`<div class="intro">
      <h3 tabindex="-1">Try your eye</h3>
      <p>
        ${withWords(
          'Sixty questions, about three minutes. Two things stand side by side and you say which looks the larger; do not measure, and do not ponder: if you cannot tell, guess. Nothing says whether you were right until the end, for there is no right: what is sought is where the two look alike to you.',
          this.words,
        )}
      </p>
      <p>
        How much the one is drawn larger than the other follows from your answers: two staircases, the one settling where
        you say “larger” seven times in ten and the other three times in ten, in an order drawn by lot.
        <span class="quiet"
          >(H. Levitt, Transformed up-down methods in psychoacoustics, Journal of the Acoustical Society of America 49,
          1971; from memory.)</span
        >
      </p>
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}
      <ul class="matters">
        ${eyeMatters.map(
          (matter) => html`<li>
            <button class="framed" type="button" @click=${() => this.#begin(matter)}>${eyeWords[matter].name}</button>
          </li>`,
        )}
      </ul>
      <p class="quiet">
        Answer with the arrow keys or the two buttons. Sit as you usually sit. Your answers stay in this page; you can save
        them at the end.
      </p>
    </div>`
  }

  #trial(setup: EyeSetup, question: EyeQuestion) {
    const { question: asked } = eyeWords[setup.matter]
    return html`<div class="trial" tabindex="-1" role="group" aria-label=${asked} @keydown=${this.#key}>
      <h3>${asked}</h3>
      <div class="stage">${this.hidden_ ? nothing : this.#stage(question)}</div>
      <div class="answers">
        ${this.#ways(setup, question).map(
          ({ key, name, larger }) => html`<button
            class="framed"
            type="button"
            aria-keyshortcuts=${key}
            @click=${() => this.#answer(larger)}
          >
            ${key === 'ArrowLeft' ? icon('left') : key === 'ArrowUp' ? icon('up') : nothing} ${name}
            ${key === 'ArrowRight' ? icon('right') : key === 'ArrowDown' ? icon('down') : nothing}
          </button>`,
        )}
      </div>
      <div class="foot">
        <span>Question ${question.number} of ${setup.questions}</span>
        <progress aria-label="How far the trial is" max=${setup.questions} value=${question.number - 1}></progress>
        <button type="button" @click=${this.#leave}>Give up</button>
      </div>
    </div>`
  }

  #stage({ changed, beside, second }: EyeQuestion) {
    const em = session.state.font?.report.unitsPerEm ?? 1000
    const own = { path: changed.path, advance: changed.advance }
    const letters = beside ? (second ? [beside, own] : [own, beside]) : [own]
    let x = 0
    // Far enough apart that nobody can lay a ruler's edge across both.
    const set = letters.map(({ path, advance }) => {
      const at = x
      x += advance + 0.6 * em
      return svg`<path class="ink" transform="translate(${at} 0) scale(1 -1)" d=${path} />`
    })
    const right = x - 0.6 * em
    const air = 0.3 * em
    return html`<svg
      viewBox="${-air} ${-1.05 * em} ${right + 2 * air} ${1.4 * em}"
      role="img"
      aria-label="What is asked about: it has to be seen"
    >
      ${set}
    </svg>`
  }

  #ways(setup: EyeSetup, question: EyeQuestion): Ways[] {
    const { larger, other } = eyeWords[setup.matter]
    if (setup.matter === 'lower')
      return [
        { key: 'ArrowUp', name: other, larger: false },
        { key: 'ArrowDown', name: larger, larger: true },
      ]
    if (!question.beside)
      return [
        { key: 'ArrowLeft', name: larger, larger: true },
        { key: 'ArrowRight', name: other, larger: false },
      ]
    const own = { name: larger, larger: true }
    const beside = { name: other, larger: false }
    const [first, last] = question.second ? [beside, own] : [own, beside]
    return [
      { key: 'ArrowLeft', ...first },
      { key: 'ArrowRight', ...last },
    ]
  }

  #found(setup: EyeSetup, result: EyeResult) {
    const { fit, settled } = result
    const words = eyeWords[setup.matter]
    const equal = fit ? equalWords(setup, fit) : 'There was nothing to be found.'
    const steps = settled.map((one) => (one === null ? 'nowhere' : `at ${figure(one)}%`))
    return html`<div class="found">
      <h3 tabindex="-1">What your eye says</h3>
      <p><b>${equal}</b></p>
      <div class="chart">
        ${eyeCurve(
          setup,
          result,
          `How often ${words.larger} looked the larger, by its level. ${equal} ${fit ? ownWords(setup, fit) : ''}`,
        )}
      </div>
      <p class="quiet">
        Dots: your answers, larger where there were more. Line: the curve of the greatest likelihood. Band: the 95% interval
        of the point of equality.
      </p>
      <ul class="lines">
        ${fit ? html`<li>${ownWords(setup, fit)}</li>` : nothing}
        <li>${words.handbook}</li>
        <li class="quiet">The staircases settled ${steps[0]} and ${steps[1]} (means of their turns).</li>
      </ul>
      <p>${HONEST}</p>
      <div class="row">
        <button class="framed" type="button" @click=${() => this.#save('json')}>${icon('save')} Save as JSON</button>
        <button class="framed" type="button" @click=${() => this.#save('csv')}>${icon('save')} Save as CSV</button>
        <button class="framed" type="button" @click=${() => this.#begin(setup.matter)}>Try again</button>
        <button class="framed" type="button" @click=${this.#leave}>Another question</button>
      </div>
    </div>`
  }

  #begin(matter: EyeMatter): void {
    const setup = this.lessons.ask(matter)
    const [chance = 1] = crypto.getRandomValues(new Uint32Array(1))
    if (!setup || !this.lessons.begin(matter, chance)) {
      this.trouble = NOT_HERE
      return
    }
    this.trouble = ''
    this.setup = setup
    this.result = null
    this.#took = []
    this.#next()
  }

  #next(): void {
    const question = this.lessons.question()
    if (!question) {
      this.result = this.lessons.result()
      this.question = null
      return
    }
    this.question = question
    this.hidden_ = true
    clearTimeout(this.#timer)
    this.#timer = setTimeout(() => {
      this.hidden_ = false
      this.#asked = performance.now()
    }, BETWEEN)
  }

  #answer(larger: boolean): void {
    const took = performance.now() - this.#asked
    if (this.hidden_ || took < SOONEST) return
    this.#took.push(took)
    this.lessons.answer(larger)
    this.#next()
  }

  #key = (event: KeyboardEvent): void => {
    if (!this.setup || !this.question || event.ctrlKey || event.altKey || event.metaKey) return
    const way = this.#ways(this.setup, this.question).find((one) => one.key === event.key)
    if (!way) return
    event.preventDefault()
    if (!event.repeat) this.#answer(way.larger)
  }

  #leave = (): void => {
    clearTimeout(this.#timer)
    this.setup = null
    this.question = null
    this.result = null
    this.trouble = ''
  }

  #save(kind: 'json' | 'csv'): void {
    if (!this.setup || !this.result) return
    const font = session.state.font?.report
    const data: TrialData = {
      setup: this.setup,
      result: this.result,
      took: this.#took,
      font: font ? `${font.family} ${font.style}` : '',
    }
    const text = kind === 'json' ? toJson(data) : toCsv(data)
    const type = kind === 'json' ? 'application/json' : 'text/csv'
    save(document, new Blob([text], { type }), `${this.setup.matter}-eye.${kind}`)
  }
}
