import { css, html, LitElement } from 'lit'
import { customElement, query } from 'lit/decorators.js'
import type { PointerPhase } from '../generated/PointerPhase'
import '../desk/desk-marks'
import { pointerInput, wheelTurn } from '../pointers'
import { session } from '../session'
import { base } from '../styles/shared'
import { idleTask, nextTask } from '../tasks'
import { stageTheme } from '../theme'
import './empty-stage'
import { PartOf } from './part-of'

/**
 * The canvas that the lab draws on, and what the pointer does there. All that
 * is seen in it stands in the page's tables as text too.
 */
@customElement('stage-view')
export class StageView extends LitElement {
  static override styles = [
    base,
    css`
      :host {
        position: relative;
        display: block;
        min-height: 0;
        overflow: hidden;
        background: var(--sheet);
        /* The labels on the stage are set in these. */
        font-size: var(--type-1);
      }

      #probe {
        forced-color-adjust: none;
      }

      canvas {
        position: absolute;
        inset: 0 auto auto 0;
        display: block;
        /* Letters move sideways only: a finger that goes up or down scrolls the page. */
        touch-action: pan-y;
      }

      canvas.calliper {
        touch-action: none;
      }

      canvas:focus-visible {
        outline-offset: -2px;
        box-shadow: none;
      }
    `,
  ]

  readonly #tool = new PartOf(this, session.store, (state) => state.stage?.tool ?? 'letters')

  @query('canvas') private readonly canvas!: HTMLCanvasElement
  @query('#probe') private readonly probe!: HTMLElement

  #frame = 0
  #end = new AbortController()
  readonly #size = new ResizeObserver(() => this.#resize())

  override connectedCallback(): void {
    super.connectedCallback()
    this.#end = new AbortController()
    const { signal } = this.#end
    for (const question of [
      '(prefers-color-scheme: dark)',
      '(prefers-contrast: more)',
      '(forced-colors: active)',
    ]) {
      window.matchMedia(question).addEventListener('change', this.#dress, { signal })
    }
    const stop = session.store.subscribe((state, before) => {
      if (state.theme !== before.theme) this.#dress()
    })
    signal.addEventListener('abort', stop)
    session.onChange = this.#request
    session.focusers.stage = () => this.canvas.focus({ preventScroll: true })
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#end.abort()
    this.#size.disconnect()
    cancelAnimationFrame(this.#frame)
  }

  override firstUpdated(): void {
    this.canvas.addEventListener('wheel', this.#wheel, { passive: false, signal: this.#end.signal })
    void session.start(this.canvas)
    void this.#look()
  }

  /** Colours and sizes are known once the browser has laid the page out, which it does in a task of its own. */
  async #look(): Promise<void> {
    await nextTask()
    if (!this.isConnected) return
    this.#dress()
    this.#size.observe(this)
    this.#watchDensity()
  }

  override render() {
    return html`<canvas
        class=${this.#tool.value}
        role="application"
        aria-roledescription="stage"
        aria-label="The stage: letters on one baseline"
        aria-describedby="about"
        tabindex="0"
        @pointerdown=${this.#pointer('down')}
        @pointermove=${this.#pointer('move')}
        @pointerup=${this.#pointer('up')}
        @pointercancel=${this.#pointer('cancel')}
        @contextmenu=${(event: Event) => event.preventDefault()}
      ></canvas>
      <desk-marks></desk-marks>
      <empty-stage></empty-stage>
      <p class="unseen" id="about">
        N chooses the next letter, Shift and N the one before. The left and right arrow keys move what is chosen by one
        unit, with Shift by ten. The question mark lists every key. The figures of the letters stand in the panel and in
        the table after the stage.
      </p>
      <span class="unseen" id="probe" aria-hidden="true"></span>`
  }

  #pointer(phase: PointerPhase) {
    return (event: PointerEvent): void => {
      if (phase === 'down') this.canvas.setPointerCapture(event.pointerId)
      this.canvas.style.cursor = session.pointer(
        pointerInput(event, phase, this.canvas.getBoundingClientRect()),
      )
    }
  }

  #wheel = (event: WheelEvent): void => {
    // Where the stage fills the window, as under great magnification, a plain
    // wheel must scroll the page, or nobody would get past the stage.
    const fills = this.clientHeight > 0.85 * window.innerHeight
    if (fills && !event.ctrlKey) return
    event.preventDefault()
    const box = this.canvas.getBoundingClientRect()
    session.wheel(wheelTurn(event), event.clientX - box.left, event.clientY - box.top)
  }

  /** Draws once before the next picture, however often the stage changes until then. */
  #request = (): void => {
    if (this.#frame !== 0) return
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0
      const unfinished = session.draw()
      this.canvas.ariaBusy = String(unfinished)
      if (unfinished) void this.#work()
    })
  }

  /** What is still to be measured comes behind whatever else is asked. */
  async #work(): Promise<void> {
    await idleTask()
    session.work()
    this.#request()
  }

  /**
   * The canvas covers whole device pixels. Left to the layout it would end
   * within one, and the browser would stretch, and blur, the whole picture.
   */
  #resize(): void {
    const density = window.devicePixelRatio
    const whole = (length: number): number => Math.floor(length * density) / density
    const box = this.getBoundingClientRect()
    const [width, height] = [whole(box.width), whole(box.height)]
    if (width <= 0 || height <= 0) return
    this.canvas.style.width = `${width}px`
    this.canvas.style.height = `${height}px`
    session.resize(width, height, density)
  }

  #dress = (): void => {
    if (this.probe) session.setTheme(stageTheme(this.probe))
  }

  /** A window that moves to a screen of another density keeps its size in CSS pixels. */
  #watchDensity(): void {
    const question = window.matchMedia(`(resolution: ${window.devicePixelRatio}dppx)`)
    question.addEventListener(
      'change',
      () => {
        this.#resize()
        this.#watchDensity()
      },
      { once: true, signal: this.#end.signal },
    )
  }
}
