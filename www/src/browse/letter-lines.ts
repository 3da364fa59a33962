import {
  elementScroll,
  observeElementOffset,
  observeElementRect,
  type VirtualItem,
  Virtualizer,
} from '@tanstack/virtual-core'
import { html, LitElement, nothing, type PropertyValues } from 'lit'
import { customElement, property, query, state } from 'lit/decorators.js'
import { guard } from 'lit/directives/guard.js'
import { repeat } from 'lit/directives/repeat.js'
import { count } from '../figures'
import { base } from '../styles/shared'
import {
  type Cell,
  type Copy,
  cells,
  countOf,
  letterAt,
  lineBeside,
  type Measure,
  nearest,
  type Row,
  rowOf,
  set,
} from './lines'
import { linesStyle } from './lines-style'
import type { Outlines } from './outlines'
import { clear, inkOf, stand } from './paint'
import { Places } from './places'
import type { List } from './protocol'
import { blockRange, letterName } from './words'

/**
 * Letters drawn in one frame, and the time for it, milliseconds: the rest come in
 * the next. Some browsers fill their shapes only when the frame is handed on, so
 * that the time alone would not bound it.
 */
const A_FRAME = 40
const A_FRAME_MS = 6
/** Lines drawn beyond the window's edges. */
const BEYOND = 3
/** Lines are asked for that have been in view for so long, milliseconds: not those that fly past. */
const STAYS = 40
/** Lines whose letters are named in one frame, once the list is at rest. */
const NAMED_AT_ONCE = 3
/** White beside each letter, and the least room of one, as shares of the em and as CSS pixels. */
const GAP = 0.24
const LEAST = 24
/** White above and below the letters of a line, and the height of a heading, as shares of the em. */
const AIR = 0.16
const HEADING = 58

/** What stands in a place whose line has left. */
const NOWHERE: Row = { kind: 'line', section: -1, start: 0, end: 0 }

interface Seated {
  readonly row: Row
  readonly item: VirtualItem | null
  readonly key: string
}

/** What a canvas shows. */
interface Painted {
  readonly row: Row
  /** How many of the line's letters had come. */
  readonly come: number
  readonly colours: number
  readonly ratio: number
}

/**
 * Every letter that is listed, in lines on shared baselines. Only lines in view
 * exist, each a canvas with a name for every letter on it; the arrow keys lead
 * from letter to letter through all of them.
 */
@customElement('letter-lines')
export class LetterLines extends LitElement {
  static override styles = [base, linesStyle]

  @property({ attribute: false }) list!: List
  @property({ attribute: false }) shown: Uint32Array | null = null
  @property({ attribute: false }) outlines!: Outlines<Path2D>
  /** Grows as outlines come. */
  @property({ type: Number }) come = 0
  /** The em, CSS pixels. */
  @property({ type: Number }) size = 44
  /** The letter that the keys are at. */
  @property({ type: Number }) at = 0
  /** Letters chosen to be stood together. */
  @property({ attribute: false }) chosen: ReadonlySet<number> = new Set()

  @state() private width = 0

  @query('.scroll') private readonly scroller!: HTMLElement
  @query('.sheet') private readonly sheet!: HTMLElement

  #rows: readonly Row[] = []
  #copy: Copy = { advances: [], sections: [], shown: null }
  #measure: Measure = { width: 0, size: 0, gap: 0, least: 0 }
  #virtual: Virtualizer<HTMLElement, HTMLElement> | undefined
  #unmount: () => void = () => {}
  #observer: ResizeObserver | undefined
  /** What each canvas shows, so that it is drawn again only when that changes. */
  readonly #painted = new WeakMap<HTMLCanvasElement, Painted>()
  #frame = 0
  #colours = 0
  #head = -1
  #scheme = matchMedia('(prefers-color-scheme: dark)')

  override connectedCallback(): void {
    super.connectedCallback()
    this.#scheme.addEventListener('change', this.recolour)
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#scheme.removeEventListener('change', this.recolour)
    this.#observer?.disconnect()
    this.#unmount()
    cancelAnimationFrame(this.#frame)
  }

  /** The theme has changed: every line is drawn in the ink of the new one. */
  recolour = (): void => {
    this.#colours += 1
    this.#paintSoon()
  }

  override focus(options?: FocusOptions): void {
    this.sheet.focus(options)
  }

  /** Brings the first letter of a section to the top. */
  goTo(section: number): void {
    const row = this.#rows.findIndex((one) => one.section === section)
    if (row < 0) return
    this.#virtual?.scrollToIndex(row, { align: 'start' })
    this.#tell(letterAt(this.#copy, this.#rows[row]?.start ?? 0), 'point')
  }

  override firstUpdated(): void {
    this.#observer = new ResizeObserver(() => this.#fit())
    // It tells the width with the next frame: setting every line is no part of the task in which the list came.
    this.#observer.observe(this.sheet)
  }

  #fit(): void {
    this.width = this.sheet.clientWidth
  }

  override willUpdate(changed: PropertyValues): void {
    if (['list', 'shown', 'size', 'width'].some((name) => changed.has(name))) {
      this.#set(changed.has('list') || changed.has('shown'))
    }
  }

  #set(anew: boolean): void {
    // Another width or size leaves the eye where it was.
    const top = anew ? undefined : this.#virtual?.getVirtualItemForOffset(this.scroller.scrollTop)
    const kept = top ? this.#rows[top.index] : undefined
    const { advances, sections } = this.list
    this.#copy = { advances, sections, shown: this.shown }
    this.#measure = { width: this.width, size: this.size, gap: GAP * this.size, least: LEAST }
    this.#rows = this.width > 0 ? set(this.#copy, this.#measure) : []
    const rows = this.#rows
    const options = {
      count: rows.length,
      getScrollElement: () => this.scroller,
      estimateSize: (index: number) => (rows[index]?.kind === 'heading' ? HEADING : this.#lineHeight),
      getItemKey: (index: number) => `${rows[index]?.kind}${rows[index]?.start}`,
      overscan: BEYOND,
      observeElementRect,
      observeElementOffset,
      scrollToFn: elementScroll,
      onChange: () => this.requestUpdate(),
    }
    if (this.#virtual) this.#virtual.setOptions(options)
    else this.#virtual = new Virtualizer(options)
    this.#virtual.measure()
    if (kept) {
      const row =
        kept.kind === 'heading' ? rows.findIndex((one) => one.start === kept.start) : rowOf(rows, kept.start)
      queueMicrotask(() => this.#virtual?.scrollToIndex(Math.max(0, row), { align: 'start' }))
    } else if (anew && this.scroller) this.scroller.scrollTop = 0
  }

  get #lineHeight(): number {
    return Math.ceil((this.list.above + this.list.below + 2 * AIR) * this.size)
  }

  get #baseline(): number {
    return Math.round((this.list.above + AIR) * this.size)
  }

  override render() {
    const items = this.#virtual?.getVirtualItems() ?? []
    const place = this.#place
    const row = this.#rows[rowOf(this.#rows, place)]
    const mounted = row && items.some((item) => this.#rows[item.index] === row)
    const total = this.#virtual?.getTotalSize() ?? 0
    return html`<div class="scroll">
      <div
        class="sheet"
        role="listbox"
        tabindex="0"
        aria-label="Letters"
        aria-multiselectable="true"
        aria-activedescendant=${mounted ? `at-${place}` : nothing}
        .style=${`height: ${total}px`}
        @keydown=${this.#key}
        @click=${this.#press}
        @dblclick=${this.#pressTwice}
        @focus=${() => this.#show(this.#place)}
      >
        ${repeat(
          this.#seated(items),
          ({ key }) => key,
          ({ row, item }) =>
            item && row.kind === 'heading' ? this.#heading(row, item) : this.#line(row, item),
        )}
      </div>
    </div>`
  }

  /** Where the current letter is among those shown. */
  get #place(): number {
    const { shown } = this
    if (!shown) return this.at
    let [low, high] = [0, shown.length - 1]
    while (low < high) {
      const middle = (low + high) >> 1
      if ((shown[middle] ?? 0) < this.at) low = middle + 1
      else high = middle
    }
    return shown[low] === this.at ? low : 0
  }

  readonly #lines = new Places()
  readonly #headings = new Places()

  /** What is in view, in order, with the place that it stands in; then places left empty. */
  #seated(items: readonly VirtualItem[]): Seated[] {
    const all = items.flatMap((item) => {
      const row = this.#rows[item.index]
      return row ? [{ row, item }] : []
    })
    const seated = (['line', 'heading'] as const).flatMap((kind) => {
      const own = all.filter(({ row }) => row.kind === kind)
      const places = kind === 'line' ? this.#lines : this.#headings
      const seats = places.seat(own.map(({ item }) => item.index))
      return own.map((one, at) => ({ ...one, key: `${kind} ${seats[at]}` }))
    })
    const free = this.#lines.free.map((place) => ({ row: NOWHERE, item: null, key: `line ${place}` }))
    return [...seated.toSorted((a, b) => a.item.index - b.item.index), ...free]
  }

  #heading(row: Row, { start }: VirtualItem) {
    const section = this.list.sections[row.section]
    if (!section) return nothing
    return html`<div class="heading" aria-hidden="true" .style=${`height: ${HEADING}px; transform: translateY(${start}px)`}>
      <span>${section.name}</span><small>${blockRange(section)}</small><small>${count(row.end - row.start)}</small>
    </div>`
  }

  /** A line, or the place of one that has left. */
  #line(row: Row, item: VirtualItem | null) {
    const section = this.list.sections[row.section]
    const place = this.#place
    const here = place >= row.start && place < row.end ? place : -1
    const chosen = this.chosen.size > 0 ? this.chosen : null
    return html`<div
      class="line"
      role="group"
      ?hidden=${item === null}
      aria-label=${section?.name ?? ''}
      .style=${`height: ${this.#lineHeight}px; transform: translateY(${item?.start ?? 0}px); --baseline: ${this.#baseline}px`}
    >
      <canvas aria-hidden="true" data-row=${item?.index ?? ''} .style=${`width: ${this.#measure.width}px; height: ${this.#lineHeight}px`}></canvas>
      ${guard([row, here, chosen, section?.block ? 0 : this.come, this.#measure, this.#isNamed(row)], () =>
        this.#isNamed(row) || here >= 0
          ? cells(this.#copy, row, this.#measure).map((cell) => this.#cell(cell, here))
          : nothing,
      )}
    </div>`
  }

  /** Rows whose letters can be pressed and read aloud: nobody does either while they fly past. */
  #named = new WeakSet<Row>()
  #isNamed(row: Row): boolean {
    return this.#named.has(row)
  }

  /** Names some more lines in view; whether there are others still. */
  #nameMore(): boolean {
    const virtual = this.#virtual
    if (!virtual || virtual.isScrolling) return false
    const rows = virtual.getVirtualItems().flatMap(({ index }) => this.#rows[index] ?? [])
    const waiting = rows.filter((row) => row.kind === 'line' && !this.#isNamed(row))
    for (const row of waiting.slice(0, NAMED_AT_ONCE)) this.#named.add(row)
    if (waiting.length > 0) this.requestUpdate()
    return waiting.length > NAMED_AT_ONCE
  }

  #cell({ at, x, width }: Cell, here: number) {
    const letter = letterAt(this.#copy, at)
    const name = this.outlines.peek(this.list.glyphs[letter] ?? 0)?.name ?? null
    const called = letterName(this.list, letter, name)
    return html`<div
      id="at-${at}"
      role="option"
      class=${at === here ? 'cell here' : 'cell'}
      data-at=${at}
      title=${called}
      aria-label=${called}
      aria-selected=${this.chosen.has(letter)}
      aria-posinset=${at + 1}
      aria-setsize=${countOf(this.#copy)}
      .style=${`left: ${x}px; width: ${width}px`}
    ></div>`
  }

  override updated(): void {
    if (!this.#virtual) return
    if (this.#unmount === undefined || !this.#mounted) {
      this.#mounted = true
      this.#unmount = this.#virtual._didMount()
    }
    this.#virtual._willUpdate()
    this.#paintSoon()
    this.#tellHead()
  }

  #mounted = false

  /** Lines in view, and since when. */
  #since: ReadonlyMap<Row, number> = new Map()

  /** Asks for the outlines of lines that stay in view; whether some have come but just now. */
  #ask(): boolean {
    const now = performance.now()
    const since = new Map<Row, number>()
    for (const { index } of this.#virtual?.getVirtualItems() ?? []) {
      const row = this.#rows[index]
      if (row?.kind === 'line') since.set(row, this.#since.get(row) ?? now)
    }
    this.#since = since
    const stay = [...since].filter(([, from]) => now - from >= STAYS).map(([row]) => row)
    const glyphs = stay.flatMap(({ start, end }) =>
      Array.from({ length: end - start }, (_, at) => this.list.glyphs[letterAt(this.#copy, start + at)] ?? 0),
    )
    this.outlines.want(glyphs)
    return stay.length < since.size
  }

  #tellHead(): void {
    const top = this.#virtual?.getVirtualItemForOffset(this.scroller.scrollTop + 1)
    const section = top ? (this.#rows[top.index]?.section ?? -1) : -1
    if (section === this.#head) return
    this.#head = section
    this.dispatchEvent(new CustomEvent('head', { detail: section }))
  }

  #paintSoon(): void {
    if (this.#frame !== 0) return
    this.#frame = requestAnimationFrame(() => {
      this.#frame = 0
      const unasked = this.#ask()
      const unpainted = this.#paint()
      const unnamed = !unpainted && this.#nameMore()
      if (unasked || unpainted || unnamed) this.#paintSoon()
    })
  }

  /** Draws what has changed, as far as the frame's time goes; whether there is more to draw. */
  #paint(): boolean {
    const start = performance.now()
    const ink = inkOf(this.sheet)
    let drawn = 0
    let more = false
    for (const canvas of this.sheet.querySelectorAll('canvas')) {
      const row = canvas.dataset.row ? this.#rows[Number(canvas.dataset.row)] : undefined
      if (!row) continue
      const line = cells(this.#copy, row, this.#measure).map((cell) => {
        const letter = letterAt(this.#copy, cell.at)
        return { cell, letter, outline: this.outlines.of(this.list.glyphs[letter] ?? 0) }
      })
      const come = line.filter(({ outline }) => outline).length
      const was = this.#painted.get(canvas)
      const same = was?.row === row && was.colours === this.#colours && was.ratio === devicePixelRatio
      if (same && was.come === come) continue
      more ||= drawn > A_FRAME || performance.now() - start > A_FRAME_MS
      // What it showed of another line has no place here, whatever comes of this one.
      canvas.hidden = more && !same
      if (more) continue
      const context = clear(canvas, this.#measure.width, this.#lineHeight, ink)
      if (!context) continue
      const [colours, ratio] = [this.#colours, devicePixelRatio]
      this.#painted.set(canvas, { row, come, colours, ratio })
      drawn += come
      for (const { cell, letter, outline } of line) {
        if (!outline) continue
        const advance = this.list.advances[letter] ?? 0
        const spot = { x: cell.x, width: cell.width, baseline: this.#baseline, size: this.#measure.size }
        stand(context, outline, advance, this.list.unitsPerEm, spot)
      }
    }
    return more
  }

  #cellOf(event: Event): number {
    const cell = event
      .composedPath()
      .find((one) => one instanceof HTMLElement && one.dataset.at !== undefined)
    return cell ? Number((cell as HTMLElement).dataset.at) : -1
  }

  /** A press brings up the letter; pressed again, it stands on the stage. */
  #press = (event: PointerEvent): void => {
    const place = this.#cellOf(event)
    if (place < 0 || event.detail > 1) return
    const again = place === this.#place && event.pointerType === 'touch'
    this.#tell(
      letterAt(this.#copy, place),
      again ? 'stand' : event.shiftKey || event.ctrlKey || event.metaKey ? 'choose' : 'point',
    )
  }

  #pressTwice = (event: Event): void => {
    const place = this.#cellOf(event)
    if (place >= 0) this.#tell(letterAt(this.#copy, place), 'stand')
  }

  #tell(letter: number, what: 'point' | 'choose' | 'stand'): void {
    this.dispatchEvent(new CustomEvent('letter', { detail: { letter, what } }))
  }

  #show(place: number): void {
    const row = rowOf(this.#rows, place)
    if (row < 0) return
    // The first line under a heading comes with it.
    const from = this.#rows[row - 1]?.kind === 'heading' ? row - 1 : row
    this.#virtual?.scrollToIndex(from, { align: 'auto' })
    if (from !== row) this.#virtual?.scrollToIndex(row, { align: 'auto' })
  }

  #key = (event: KeyboardEvent): void => {
    const rows = this.#rows
    const count = countOf(this.#copy)
    if (count === 0 || event.altKey || event.isComposing) return
    const place = this.#place
    const index = rowOf(rows, place)
    const row = rows[index]
    if (!row) return
    const whole = event.ctrlKey || event.metaKey
    const page = Math.max(1, Math.floor(this.scroller.clientHeight / this.#lineHeight) - 1)
    const to: Record<string, () => number> = {
      ArrowRight: () => place + 1,
      ArrowLeft: () => place - 1,
      ArrowDown: () => this.#beside(index, place, 1, 1),
      ArrowUp: () => this.#beside(index, place, -1, 1),
      PageDown: () => this.#beside(index, place, 1, page),
      PageUp: () => this.#beside(index, place, -1, page),
      Home: () => (whole ? 0 : row.start),
      End: () => (whole ? count - 1 : row.end - 1),
    }
    const next = to[event.key]
    const letter = letterAt(this.#copy, place)
    if (next) {
      const where = Math.max(0, Math.min(count - 1, next()))
      this.#tell(letterAt(this.#copy, where), 'point')
      this.#show(where)
    } else if (event.key === 'Enter' && !whole) this.#tell(letter, 'stand')
    else if (event.key === ' ') this.#tell(letter, 'choose')
    else return
    event.preventDefault()
    event.stopPropagation()
  }

  #beside(index: number, place: number, step: 1 | -1, lines: number): number {
    const row = this.#rows[index]
    if (!row) return place
    const cell = cells(this.#copy, row, this.#measure)[place - row.start]
    const middle = cell ? cell.x + cell.width / 2 : 0
    let to = index
    for (let line = 0; line < lines; line += 1) to = lineBeside(this.#rows, to, step)
    const other = this.#rows[to]
    return other ? nearest(cells(this.#copy, other, this.#measure), middle) : place
  }
}
