import { css, html, LitElement, nothing, svg } from 'lit'
import { customElement } from 'lit/decorators.js'
import type { RuleReport } from '../generated/RuleReport'
import { ruleName, ruleValue, stanceMark, stanceWords } from '../rules'
import { session } from '../session'
import { panel } from '../styles/panel'
import { base, button, fold, heading } from '../styles/shared'
import { icon, iconStyle } from './icons'
import { PartOf } from './part-of'

/** How the font keeps the optical rules of the trade: what they say, what it does, which letters break its habit. */
@customElement('rules-panel')
export class RulesPanel extends LitElement {
  static override styles = [
    base,
    button,
    fold,
    heading,
    iconStyle,
    panel,
    css`
      details {
        border-block-start: var(--hair) solid var(--rule);
        font-size: var(--type-2);
      }

      summary {
        display: grid;
        grid-template-columns: 1.25rem 1fr auto auto;
        align-items: center;
        gap: 0 var(--gap-2);
        min-height: max(var(--target), 2rem);
        cursor: pointer;
      }

      .mark {
        font-weight: 600;
        text-align: center;
      }

      .value {
        font-variant-numeric: tabular-nums;
      }

      .told {
        display: grid;
        gap: var(--gap-2);
        padding: 0 0 var(--gap-3) calc(1.25rem + var(--gap-2));
        line-height: 1.4;
      }

      .told svg {
        width: 100%;
        height: 1.5rem;
        overflow: visible;
      }

      .ground {
        stroke: var(--rule);
      }

      .usual {
        fill: color-mix(in oklch, var(--soft) 28%, transparent);
      }

      .middle {
        stroke: var(--soft);
      }

      .own {
        stroke: var(--ink);
        stroke-width: 3;
      }

      .letter {
        fill: none;
        stroke: var(--mark);
      }

      .scale {
        display: flex;
        justify-content: space-between;
        color: var(--soft);
        font-size: var(--type-1);
      }

      .show {
        justify-self: start;
      }

      .source {
        color: var(--soft);
      }
    `,
  ]

  readonly #rules = new PartOf(this, session.store, (state) => state.rules)

  override render() {
    const rules = this.#rules.value?.rules ?? []
    if (rules.length === 0) return nothing
    return html`<section>
      <h3>Optical rules</h3>
      <p class="quiet">What the trade does to make letters look even, and what this font does. Its own habit stands above the rule.</p>
      ${rules.map((rule) => this.#rule(rule))}
    </section>`
  }

  #rule(rule: RuleReport) {
    const broken = rule.breaks.map((one) => one.letter).join('')
    return html`<details>
      <summary>
        <span class="mark" role="img" aria-label=${stanceWords[rule.stance]} title=${stanceWords[rule.stance]}
          >${stanceMark[rule.stance]}</span
        >
        <span>${ruleName[rule.rule]}</span>
        <span class="value">${ruleValue(rule.habit)}</span>
        ${icon('more')}
      </summary>
      <div class="told">
        <p>${rule.sentence}</p>
        ${this.#picture(rule)}
        ${
          rule.letters.length > 0
            ? html`<button class="framed show" type="button" @click=${() => this.#stand(rule)}>
                Stand ${broken ? `${broken} among the letters of this rule` : 'the letters of this rule'}
              </button>`
            : nothing
        }
        <p class="source">The trade: ${rule.saying} <i>${rule.source}</i></p>
      </div>
    </details>`
  }

  /** The font's letters and its habit beside what open families commonly do. */
  #picture(rule: RuleReport) {
    const [low, middle, high] = rule.usual
    const all = [low, high, rule.habit ?? middle, ...rule.letters.map((one) => one.value)]
    const [from, to] = [Math.min(...all), Math.max(...all)]
    const pad = 0.06 * (to - from || 1)
    const x = (value: number) => (200 * (value - from + pad)) / (to - from + 2 * pad)
    return html`<div aria-hidden="true">
      <svg viewBox="0 0 200 24" preserveAspectRatio="none">
        ${svg`<rect class="usual" x=${x(low)} y="3" width=${x(high) - x(low)} height="18" />
          <path class="ground" d="M0 12h200" vector-effect="non-scaling-stroke" />
          <path class="middle" d="M${x(middle)} 3v18" vector-effect="non-scaling-stroke" />
          ${rule.letters.map(
            (one) => svg`<path class="letter" d="M${x(one.value)} 8v8" vector-effect="non-scaling-stroke" />`,
          )}
          ${
            rule.habit == null
              ? nothing
              : svg`<path class="own" d="M${x(rule.habit)} 1v22" vector-effect="non-scaling-stroke" />`
          }`}
      </svg>
      <p class="scale">
        <span>${ruleValue(from)}</span>
        <span>grey: half of open families; thick: this font</span>
        <span>${ruleValue(to)}</span>
      </p>
    </div>`
  }

  /** Those that break the habit first. */
  #stand(rule: RuleReport): void {
    const broken = rule.breaks.map((one) => one.letter)
    const others = rule.letters.map((one) => one.letter).filter((letter) => !broken.includes(letter))
    session.apply({ type: 'setText', text: [...broken, ...others].join('') })
    this.dispatchEvent(new Event('choose', { bubbles: true, composed: true }))
  }
}
