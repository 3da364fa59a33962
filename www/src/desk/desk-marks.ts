import { css, html, LitElement, nothing, svg } from 'lit'
import { customElement, state } from 'lit/decorators.js'
import { PartOf } from '../components/part-of'
import type { ItemState } from '../generated/ItemState'
import type { ViewState } from '../generated/ViewState'
import { session } from '../session'
import { base } from '../styles/shared'
import { type At, markShape } from './mark-shapes'
import type { Subject } from './review-state'
import type { Mark, ReviewRecord } from './schema'
import { sameSubject, subject } from './subject'
import { markName } from './words'

/** Font units that an arrow key moves a mark by; with Alt one. */
const STEP = 10
/** CSS pixels of an arrow's head. */
const HEAD = 14

const steps: Record<string, At> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}

/**
 * The marks of the reviewer, over the letters that they were put on. They are
 * held in each letter's own units, so that they go where it goes; of a letter
 * that stands mirrored or upside down they would point elsewhere, and are left
 * out. Those of the subject can be moved.
 */
@customElement('desk-marks')
export class DeskMarks extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        position: absolute;
        inset: 0;
        overflow: hidden;
        pointer-events: none;
      }

      svg {
        width: 100%;
        height: 100%;
        overflow: hidden;
      }

      .mark {
        fill: none;
        stroke: var(--mark);
        stroke-width: 2.5;
        stroke-linecap: round;
        stroke-linejoin: round;
      }

      /* A ring of paper beneath, so that it is seen on ink too. */
      .halo {
        fill: none;
        stroke: var(--sheet);
        stroke-width: 6;
      }

      .other {
        opacity: 0.75;
      }

      .own {
        pointer-events: auto;
        cursor: move;
        touch-action: none;
      }

      .reach {
        fill: none;
        stroke: transparent;
        stroke-width: 24;
      }

      .grip {
        fill: var(--lift);
        stroke: var(--mark);
        stroke-width: 2;
      }

      .own:focus-visible {
        outline: none;
      }

      .own:focus-visible .halo {
        stroke: var(--pick);
        stroke-width: 8;
      }

      .own:focus-visible .grip {
        stroke: var(--pick);
      }

      @media (forced-colors: active) {
        .mark {
          stroke: Highlight;
        }
      }
    `,
  ]

  readonly #reviews = new PartOf(this, session.store, (page) => page.review.reviews)
  readonly #items = new PartOf(this, session.store, (page) => page.stage?.items ?? null)
  readonly #view = new PartOf(this, session.store, (page) => page.stage?.view ?? null)
  readonly #subject = new PartOf(this, session.store, subject, sameSubject)

  /** A mark in hand: it is written when it is let go. */
  @state() private held: { readonly at: number; readonly mark: Mark } | null = null

  override connectedCallback(): void {
    super.connectedCallback()
    session.focusers.mark = () => void this.updateComplete.then(() => this.#last()?.focus())
  }

  override render() {
    const [items, view, on] = [this.#items.value, this.#view.value, this.#subject.value]
    const marked = this.#reviews.value.filter((one) => one.marks.length > 0)
    if (!items || !view || marked.length === 0) return nothing
    const places = items.filter((item) => !item.mirrored && !item.turned)
    return html`<svg aria-label="Marks on the letters" role="group">
      ${marked.map((review) =>
        places
          .filter((item) => item.character === review.letter)
          .map((item) => {
            const own =
              on !== null && sameSubject(on, review) && (item.selected || !places.some(selectedAs(review)))
            return review.marks.map((mark, at) => this.#mark(own ? on : null, review, item, view, mark, at))
          }),
      )}
    </svg>`
  }

  #mark(on: Subject | null, review: ReviewRecord, item: ItemState, view: ViewState, mark: Mark, at: number) {
    const shown = on && this.held?.at === at ? this.held.mark : mark
    const place = ([x, y]: At): At => [
      view.origin[0] + view.scale * (item.x + x),
      view.origin[1] - view.scale * y,
    ]
    const [from, to] = [place(shown.from), place(shown.to)]
    const shape = markShape(shown.kind, from, to, HEAD)
    if (!on) return svg`<g class="other"><g class="halo">${shape}</g><g class="mark">${shape}</g></g>`
    const name = `${markName[mark.kind]} on ${review.letter}: arrow keys move it, with Shift its end; Delete takes it away`
    const grip = (end: 'from' | 'to', [x, y]: At) =>
      svg`<circle class="grip" cx=${x} cy=${y} r="6" @pointerdown=${this.#down(on, at, mark, view, end)} />`
    return svg`<g
      class="own"
      tabindex="0"
      role="button"
      aria-label=${name}
      @keydown=${this.#key(on, at, mark)}
      @pointerdown=${this.#down(on, at, mark, view, 'both')}
    >
      <g class="halo">${shape}</g><g class="reach">${shape}</g><g class="mark">${shape}</g>
      ${grip('from', from)}${grip('to', to)}
    </g>`
  }

  #down(on: Subject, at: number, mark: Mark, view: ViewState, end: 'from' | 'to' | 'both') {
    return (event: PointerEvent): void => {
      event.preventDefault()
      event.stopPropagation()
      const grip = event.currentTarget as SVGElement
      const own = grip.closest<SVGElement>('.own')
      own?.focus()
      const finish = new AbortController()
      const { signal } = finish
      grip.setPointerCapture(event.pointerId)
      const moved = (now: PointerEvent): Mark =>
        shifted(
          mark,
          end,
          (now.clientX - event.clientX) / view.scale,
          (event.clientY - now.clientY) / view.scale,
        )
      grip.addEventListener('pointermove', (now) => (this.held = { at, mark: moved(now) }), { signal })
      grip.addEventListener(
        'pointerup',
        (now) => {
          finish.abort()
          this.held = null
          this.#put(on, at, moved(now), `${markName[mark.kind]} moved`)
        },
        { signal },
      )
      grip.addEventListener(
        'pointercancel',
        () => {
          finish.abort()
          this.held = null
        },
        { signal },
      )
    }
  }

  #key(on: Subject, at: number, mark: Mark) {
    return (event: KeyboardEvent): void => {
      const step = steps[event.key]
      const by = event.altKey ? 1 : STEP
      if (step)
        this.#put(
          on,
          at,
          shifted(mark, event.shiftKey ? 'to' : 'both', by * step[0], by * step[1]),
          `${markName[mark.kind]} moved`,
        )
      else if (event.key === 'Delete' || event.key === 'Backspace') this.#put(on, at, null, 'Mark taken away')
      else if (event.key !== 'Escape') return
      event.preventDefault()
      event.stopPropagation()
      if (!step) session.focus('stage')
    }
  }

  #put(on: Subject, at: number, mark: Mark | null, what: string): void {
    const marks = this.#reviews.value.find((one) => sameSubject(on, one))?.marks ?? []
    const next = marks.flatMap((one, index) => (index === at ? (mark ? [mark] : []) : [one]))
    session.reviewing.marks(on, next, what)
  }

  /** The mark that was made last: the last of the subject's. */
  #last(): SVGElement | undefined {
    return [...this.renderRoot.querySelectorAll<SVGElement>('.own')].at(-1)
  }
}

const selectedAs =
  (review: ReviewRecord) =>
  (item: ItemState): boolean =>
    item.selected && item.character === review.letter

function shifted(mark: Mark, end: 'from' | 'to' | 'both', dx: number, dy: number): Mark {
  const move = ([x, y]: [number, number]): [number, number] => [Math.round(x + dx), Math.round(y + dy)]
  return {
    ...mark,
    from: end === 'to' ? mark.from : move(mark.from),
    to: end === 'from' ? mark.to : move(mark.to),
  }
}
