import { css, html, LitElement, nothing } from 'lit'
import { customElement, query, state } from 'lit/decorators.js'
import '../components/command-button'
import { PartOf } from '../components/part-of'
import { storage } from '../keep'
import { session } from '../session'
import type { PageState } from '../state'
import { base, button, keycap } from '../styles/shared'
import { nextTask } from '../tasks'
import { begunAt, keepAt } from './progress'
import { ELSEWHERE, END, keyOf, steps } from './steps'

/** Begins the guide, or goes on with it. */
export function begin(): void {
  session.set({ guide: true, firstVisit: false, keyHelp: false })
}

/**
 * A first review of the sample, in steps that the reviewer does on the page
 * itself. It stands beside the findings and over nothing; on a narrow page at
 * the window's lower edge, for which the page keeps room. Whatever else is done
 * meanwhile is the reviewer's own affair: a step waits.
 */
@customElement('review-guide')
export class ReviewGuide extends LitElement {
  static override styles = [
    base,
    button,
    keycap,
    css`
      :host {
        flex: none;
        z-index: 1;
      }

      section {
        padding: var(--gap-3) var(--gap-4);
        background: var(--lift);
        border-block-end: var(--hair) solid var(--edge);
      }

      .top {
        display: flex;
        align-items: center;
        justify-content: space-between;
        gap: var(--gap-3);
        color: var(--soft);
        font-size: var(--type-1);
      }

      /* A stem for every step, inked when it is done. */
      .stems {
        display: flex;
        gap: 0.3125rem;
      }

      .stems i {
        width: 0.4375rem;
        height: 1rem;
        border: 1.5px solid var(--edge);
      }

      .stems .done {
        background: var(--ink);
        border-color: var(--ink);
        forced-color-adjust: none;
      }

      .stems .now {
        border-color: var(--pick);
        border-width: 2px;
      }

      h2 {
        width: fit-content;
        margin-block: var(--gap-2);
        font: 400 var(--type-4) / 1.3 var(--title-face);
      }

      .say {
        font-size: var(--type-2);
        line-height: 1.4;
      }

      .ways {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-1) var(--gap-2);
        margin-block-start: var(--gap-2);
      }

      @media (width < 60rem) and (height >= 30rem) {
        :host {
          position: fixed;
          inset-block-end: 0;
          inset-inline: 0;
          max-height: 45dvh;
          overflow: auto;
        }

        section {
          border-block: var(--hair) solid var(--edge);
        }
      }
    `,
  ]

  readonly #sample = new PartOf(this, session.store, (page) => page.font?.sample ?? false)

  @state() private at = begunAt(storage(), steps.length)

  @query('h2') private readonly heading!: HTMLElement

  /** The page as the step began. */
  #then: PageState = session.state
  #end: (() => void)[] = []

  override connectedCallback(): void {
    super.connectedCallback()
    this.#then = session.state
    const leaving = new AbortController()
    // Before the stage, whose own use of the key is to let go of what is chosen.
    window.addEventListener('keydown', this.#key, { signal: leaving.signal, capture: true })
    const room = new ResizeObserver(() => this.#keepRoom())
    room.observe(this)
    this.#end = [
      session.store.subscribe((now, before) => this.#see(now, before)),
      () => leaving.abort(),
      () => room.disconnect(),
    ]
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    for (const end of this.#end) end()
    const { style } = document.documentElement
    style.removeProperty('scroll-padding-block-end')
    style.removeProperty('--guide-room')
  }

  override async firstUpdated(): Promise<void> {
    // A dialog that it was asked for in gives the focus back first.
    await nextTask()
    this.heading.focus()
  }

  override render() {
    const { title, say, key } = this.#words()
    const ended = this.at >= steps.length
    const away = !this.#sample.value && !ended
    return html`<section aria-labelledby="title">
      <div class="top">
        <span>${ended || away ? 'A first review' : `A first review, step ${this.at + 1} of ${steps.length}`}</span>
        <span class="stems" aria-hidden="true">
          ${steps.map((_, at) => html`<i class=${at < this.at ? 'done' : at === this.at ? 'now' : ''}></i>`)}
        </span>
      </div>
      <div aria-live="polite" aria-atomic="true">
        <h2 id="title" tabindex="-1">${title}</h2>
        <p class="say">
          ${say} ${key.length > 0 ? html`Its key: ${key.map((cap) => html`<kbd>${cap}</kbd> `)}` : nothing}
        </p>
      </div>
      <div class="ways">${away ? this.#toSample() : ended ? this.#toEnd() : this.#onTheWay()}</div>
    </section>`
  }

  #words(): { title: string; say: string; key: readonly string[] } {
    const step = steps[this.at]
    if (!step) return { ...END, key: [] }
    if (!this.#sample.value) return { ...ELSEWHERE, key: [] }
    return { ...step, key: keyOf(step) }
  }

  #onTheWay() {
    return html`<button class="framed" type="button" @click=${this.#show}>Show me where</button>
      <button type="button" @click=${() => this.#go(this.at + 1)}>Next without it</button>
      ${this.#leaveButton()}`
  }

  #toSample() {
    return html`<command-button name="sample" look="framed"></command-button>${this.#leaveButton()}`
  }

  #toEnd() {
    return html`<command-button name="open" look="framed"></command-button>
      <button type="button" @click=${this.#leave}>Finish</button>`
  }

  #leaveButton() {
    return html`<button type="button" title="Leave (Esc); go on later from Keys" @click=${this.#leave}>Leave</button>`
  }

  /** A step that has been done gives way to the next. */
  #see(now: PageState, before: PageState): void {
    const step = steps[this.at]
    // Another font on the stage, or one that is still being judged: what is seen is not the sample's.
    if (!step || !now.font?.sample) return
    if (now.font !== this.#then.font && now.font.report !== this.#then.font?.report) this.#then = now
    if (step.done(now, this.#then, before)) this.#go(this.at + 1)
  }

  #go(step: number): void {
    this.at = step
    this.#then = session.state
    keepAt(storage(), step < steps.length ? step : 0)
  }

  /** The focus goes where the step is done; on a narrow page that comes into sight with it. */
  #show = (): void => {
    const sheet = this.getRootNode() as ShadowRoot
    for (const [part, inside] of steps[this.at]?.places ?? []) {
      const host = sheet.querySelector(part)
      const found = host?.shadowRoot?.querySelector<HTMLElement>(inside)
      if (!found) continue
      found.focus({ preventScroll: true })
      // In its own scroll too, and not merely within the window.
      found.scrollIntoView({ block: 'nearest' })
      return
    }
  }

  #key = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape' || event.isComposing) return
    const path = event.composedPath()
    // Dialogs and fields have their own use for it.
    if (path.some((one) => one instanceof HTMLDialogElement || one instanceof HTMLTextAreaElement)) return
    if (path.some((one) => one instanceof HTMLInputElement && one.type === 'text')) return
    event.preventDefault()
    event.stopPropagation()
    this.#leave()
  }

  #leave = (): void => {
    session.set({ guide: false })
    session.focus('stage')
  }

  /** What it would cover is kept clear of it: the page's end, and whatever takes the focus (WCAG 2.2, 2.4.11). */
  #keepRoom(): void {
    const over = getComputedStyle(this).position === 'fixed' ? `${this.offsetHeight}px` : '0px'
    const { style } = document.documentElement
    style.setProperty('scroll-padding-block-end', over)
    style.setProperty('--guide-room', over)
  }
}
