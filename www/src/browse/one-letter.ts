import { css, html, LitElement } from 'lit'
import { customElement, property, query } from 'lit/decorators.js'
import { count, figure } from '../figures'
import { base } from '../styles/shared'
import type { Outlines } from './outlines'
import { clear, inkOf, stand } from './paint'
import { type List, UNCODED } from './protocol'
import { codeName, letterName, sectionOf } from './words'

/** Width and height of the picture, CSS pixels. */
const [WIDE, HIGH] = [92, 84]

/** The letter that the keys are at, large, and what it is called. */
@customElement('one-letter')
export class OneLetter extends LitElement {
  static override styles = [
    base,
    css`
      .letter {
        display: grid;
        grid-template-columns: auto minmax(0, 1fr);
        align-items: center;
        gap: var(--gap-4);
      }

      canvas {
        display: block;
        width: ${WIDE}px;
        height: ${HIGH}px;
        color: var(--ink);
        background: var(--sheet);
      }

      p {
        overflow-wrap: anywhere;
      }

      .name {
        font: 400 var(--type-4) / 1.25 var(--title-face);
      }

      .more {
        color: var(--soft);
        font-size: var(--type-2);
        font-variant-numeric: tabular-nums;
      }
    `,
  ]

  @property({ attribute: false }) list!: List
  @property({ type: Number }) letter = 0
  @property({ attribute: false }) outlines!: Outlines<Path2D>
  @property({ type: Number }) come = 0
  /** Its colours have to be read anew when it changes. */
  @property() theme = ''

  @query('canvas') private readonly canvas!: HTMLCanvasElement

  override render() {
    const { list, letter } = this
    const glyph = list.glyphs[letter] ?? 0
    const outline = this.outlines.peek(glyph)
    const code = list.codes[letter] ?? UNCODED
    const section = list.sections[sectionOf(list.sections, letter)]
    const advance = figure((list.advances[letter] ?? 0) * list.unitsPerEm)
    const title =
      code === UNCODED
        ? letterName(list, letter, outline?.name ?? null)
        : `${section?.name}, ${codeName(code)}`
    const named = outline?.name && code !== UNCODED ? `${outline.name}, ` : ''
    const trouble = outline?.path === null ? ' Its outline cannot be drawn.' : ''
    return html`<div class="letter">
      <canvas aria-hidden="true"></canvas>
      <div>
        <p class="name">${title}</p>
        <p class="more">${named}glyph ${count(glyph)}, advance width ${advance} units.${trouble}</p>
      </div>
    </div>`
  }

  override updated(): void {
    const { list, letter } = this
    const outline = this.outlines.peek(list.glyphs[letter] ?? 0)
    const context = clear(this.canvas, WIDE, HIGH, inkOf(this.canvas))
    if (!context) return
    const room = list.above + list.below
    const size = (0.86 * HIGH) / room
    const baseline = Math.round(0.07 * HIGH + list.above * size) + 0.5
    context.save()
    context.globalAlpha = 0.35
    context.fillRect(0, baseline, WIDE, 1)
    context.restore()
    if (!outline) return
    stand(context, outline, list.advances[letter] ?? 0, list.unitsPerEm, {
      x: 0,
      width: WIDE,
      baseline,
      size,
    })
  }
}
