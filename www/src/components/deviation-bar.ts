import { css, html, LitElement, svg } from 'lit'
import { customElement, property } from 'lit/decorators.js'
import type { Deviation } from '../generated/Deviation'
import { base } from '../styles/shared'

/** The share of the expected value at which the bar ends; beyond it, an arrowhead. */
const END = 0.2

/**
 * A deviation as a bar from a middle line: right and of one colour above what
 * is expected, left and of the other below. The band in the middle is where
 * letters of the font commonly lie. The words beside it say the same.
 */
@customElement('deviation-bar')
export class DeviationBar extends LitElement {
  static override styles = [
    base,
    css`
      svg {
        display: block;
        width: 100%;
        height: 0.875rem;
        overflow: visible;
      }

      .usual {
        fill: color-mix(in oklch, var(--soft) 28%, transparent);
      }

      .zero {
        stroke: var(--ink);
      }

      .above {
        fill: var(--more);
      }

      .below {
        fill: var(--less);
      }
    `,
  ]

  @property({ attribute: false }) deviation: Deviation | null = null

  override render() {
    const d = this.deviation
    if (!d || d.expected <= 0) return html``
    const share = (d.value - d.expected) / d.expected
    const reach = Math.min(Math.abs(share) / END, 1) * 100
    const usual = Math.min(d.spread / d.expected / END, 1) * 100
    const above = share > 0
    const beyond = Math.abs(share) > END
    const tip = above ? 100 : -100
    return html`<svg viewBox="-104 0 208 12" preserveAspectRatio="none" aria-hidden="true">
      ${svg`<rect class="usual" x=${-usual} y="1" width=${2 * usual} height="10" />
        <rect class=${above ? 'above' : 'below'} x=${above ? 0 : -reach} y="2.5" width=${reach} height="7" />
        ${beyond ? svg`<path class=${above ? 'above' : 'below'} d="M${tip} 0v12l${above ? 5 : -5}-6z" />` : ''}
        <path class="zero" d="M0 0v12" vector-effect="non-scaling-stroke" />`}
    </svg>`
  }
}
