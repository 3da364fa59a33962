/**
 * What does this word mean? From the keyboard: the words of what has the focus,
 * then of the part of the page that it stands in. By pointer or touch: the next
 * label that is pressed is looked up, and does nothing else.
 */

import { css, html, LitElement } from 'lit'
import { customElement } from 'lit/decorators.js'
import { session } from '../session'
import { base, button } from '../styles/shared'
import { current, go } from './place'

/** A longer text is a whole part of the page: its words are too many to be meant. */
const MOST_TEXT = 4000

/** What the stage paints has no labels of its own: the layers shown say what is meant. */
const layerWords: Readonly<Record<string, string>> = {
  points: 'point, handle',
  strokes: 'stroke, stem, bar, weight',
  guides: 'baseline, x-height, cap height, ascender, descender',
  overshoot: 'overshoot',
  widths: 'counter, stem, advance width',
  texture: 'darkness, rhythm',
  white: 'white, side bearing',
  outline: 'contour',
}

const parentOf = (node: Node): Node | null =>
  node.parentNode instanceof ShadowRoot ? node.parentNode.host : node.parentNode

/** All that an element is called. */
function called(element: Element): string {
  if (element instanceof HTMLCanvasElement) {
    const layers = session.state.stage?.layers ?? {}
    const shown = Object.entries(layers).filter(([name, on]) => on && name in layerWords)
    return shown.map(([name]) => layerWords[name]).join(', ')
  }
  const texts = [element.getAttribute('aria-label'), element.getAttribute('title'), textOf(element)]
  if (element instanceof HTMLInputElement)
    texts.push(...[...(element.labels ?? [])].map((one) => one.textContent))
  return texts.filter(Boolean).join(' ')
}

/** An element's text, that of the components in it included. */
function textOf(node: Node): string {
  if (node instanceof Text) return node.data
  if (node instanceof HTMLStyleElement || node instanceof HTMLScriptElement) return ''
  const inside = node instanceof Element && node.shadowRoot ? node.shadowRoot : node
  return [...inside.childNodes].map(textOf).join(' ')
}

/** The texts about a place of the page, the nearest first. */
export function textsAbout(element: Element): string[] {
  const texts: string[] = []
  for (let node: Node | null = element; node && texts.length < 12; node = parentOf(node)) {
    if (!(node instanceof Element) || node.localName === 'lab-sheet') continue
    const text = called(node).replaceAll(/\s+/g, ' ').trim()
    if (text.length > MOST_TEXT) break
    if (text) texts.push(text)
  }
  return texts
}

function show(asked: readonly string[]): void {
  const { room } = session.state.review
  go({ page: 'words', asked, from: room === 'lessons' ? current().from : room })
  session.reviewing.set({ room: 'lessons' })
}

/** What has the focus, in whichever component it stands. */
function focused(): Element | null {
  let at = document.activeElement
  while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
  return at
}

/** Looks up what has the focus; where that is nothing, waits for a press. */
export function lookUp(): void {
  const at = focused()
  const host = at?.getRootNode()
  const own = host instanceof ShadowRoot && host.host.getAttribute('name') === 'word'
  if (at && at !== document.body && !own) show(textsAbout(at))
  else document.body.append(new WordPicker())
}

/** Waits for a press on a label, and says so. */
@customElement('word-picker')
export class WordPicker extends LitElement {
  static override styles = [
    base,
    button,
    css`
      :host {
        position: fixed;
        inset: auto 0 var(--gap-5);
        z-index: 10;
        display: grid;
        justify-items: center;
        pointer-events: none;
      }

      div {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: var(--gap-2) var(--gap-3);
        margin-inline: var(--gap-3);
        padding: var(--gap-2) var(--gap-3) var(--gap-2) var(--gap-4);
        color: var(--ink);
        background: var(--lift);
        border: var(--hair) solid var(--edge);
        border-radius: var(--corner);
        box-shadow: 0 0.5rem 2rem oklch(0 0 0 / 0.16);
        pointer-events: auto;
      }
    `,
  ]

  readonly #end = new AbortController()

  override connectedCallback(): void {
    super.connectedCallback()
    for (const other of document.querySelectorAll('word-picker')) if (other !== this) other.remove()
    const options = { capture: true, signal: this.#end.signal }
    for (const kind of ['pointerdown', 'mousedown', 'touchstart', 'pointerup', 'mouseup'] as const) {
      window.addEventListener(kind, this.#still, { ...options, passive: false })
    }
    window.addEventListener('click', this.#pressed, options)
    window.addEventListener('keydown', this.#key, options)
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback()
    this.#end.abort()
  }

  override render() {
    return html`<div role="status">
      <span>Press a label to see what its words mean.</span>
      <button class="framed" type="button" @click=${this.#all}>Show all words</button>
      <button class="framed" type="button" @click=${() => this.remove()}>Never mind</button>
    </div>`
  }

  override firstUpdated(): void {
    this.renderRoot.querySelector('button')?.focus()
  }

  /** The press itself does nothing, or a letter would be dragged by it. */
  #still = (event: Event): void => {
    if (!event.composedPath().includes(this)) event.stopPropagation()
  }

  #pressed = (event: MouseEvent): void => {
    const path = event.composedPath()
    if (path.includes(this)) return
    event.preventDefault()
    event.stopPropagation()
    this.remove()
    const at = path.find((one) => one instanceof Element)
    if (at) show(textsAbout(at))
  }

  #key = (event: KeyboardEvent): void => {
    if (event.key !== 'Escape') return
    event.preventDefault()
    event.stopPropagation()
    this.remove()
  }

  #all = (): void => {
    this.remove()
    show([])
  }
}
