import { css, html, LitElement, nothing } from 'lit'
import { customElement, queryAll, state } from 'lit/decorators.js'
import { figure, many, percent, signed } from '../figures'
import type { KernFindingReport } from '../generated/KernFindingReport'
import type { KerningReport } from '../generated/KerningReport'
import type { SuggestionReport } from '../generated/SuggestionReport'
import { save } from '../save'
import { session } from '../session'
import { kernedOf, kerningWords, kernMatter, suggestionWords } from '../spacing'
import { panel } from '../styles/panel'
import { base, button, fold, heading } from '../styles/shared'
import './command-button'
import { icon, iconStyle } from './icons'
import { moveInList } from './list-keys'
import { PartOf } from './part-of'
import './tool-row'

/** As many findings of spacing as are read at once; the rest on asking. */
const FIRST = 6

/** Lines of a suggestion that are shown; the saved file holds all. */
const MOST_LINES = 200

/** The white between letters: how even the line is, what of the kerning stands out, what is suggested. */
@customElement('spacing-panel')
export class SpacingPanel extends LitElement {
  static override styles = [
    base,
    button,
    fold,
    heading,
    iconStyle,
    panel,
    css`
      h3 {
        font: 400 var(--type-3) / 1.3 var(--title-face);
      }

      section {
        display: grid;
        gap: var(--gap-2);
      }

      tool-row {
        --tool-gap: var(--gap-2);
      }

      ol,
      ul {
        list-style: none;
      }

      .finding {
        display: grid;
        grid-template-columns: 3.5rem 1fr;
        gap: 0 var(--gap-3);
        align-items: start;
        justify-content: stretch;
        width: 100%;
        min-height: var(--target);
        padding: var(--gap-2) 0;
        border: 0;
        border-block-start: var(--hair) solid var(--rule);
        text-align: start;
        white-space: normal;
        font-size: var(--type-2);
        line-height: 1.35;
      }

      .pair {
        font: 400 1.375rem / 1.2 var(--title-face);
      }

      .scroll li {
        padding-block: var(--gap-1);
      }

      .scroll small,
      .finding small {
        display: block;
        color: var(--soft);
      }

      progress {
        width: 100%;
        accent-color: var(--ink);
      }

      .row {
        display: flex;
        flex-wrap: wrap;
        gap: var(--gap-2);
        align-items: center;
      }

      details {
        font-size: var(--type-2);
      }

      summary {
        display: flex;
        align-items: center;
        gap: var(--gap-1);
        min-height: max(var(--target), 1.875rem);
        cursor: pointer;
      }

      .scroll {
        max-height: 16rem;
        overflow: auto;
      }

      .failed {
        color: var(--alert);
      }
    `,
  ]

  readonly #spacing = new PartOf(this, session.store, (s) => s.spacing)
  readonly #rhythm = new PartOf(
    this,
    session.store,
    (s) => s.stage?.rhythm ?? null,
    (a, b) => a?.sentence === b?.sentence,
  )
  readonly #text = new PartOf(this, session.store, (s) => s.stage?.text ?? '')
  readonly #font = new PartOf(this, session.store, (s) => s.font)

  @state() private all = false
  /** The pair that the Tab key comes to: the list is one stop, with arrow keys inside. */
  @state() private stop = 0

  @queryAll('.finding') private readonly choices!: NodeListOf<HTMLButtonElement>

  #of: unknown = null

  override willUpdate(): void {
    if (this.#of === this.#font.value?.report) return
    this.#of = this.#font.value?.report
    this.all = false
    this.stop = 0
  }

  override render() {
    if (!this.#font.value) return nothing
    return html`<section aria-labelledby="title">
      <h3 id="title">White between the letters</h3>
      <tool-row label="How the line is spaced">
        <command-button name="show-white" look="switch"></command-button>
        <command-button name="space-kerned" look="switch"></command-button>
        <command-button name="space-suggested" look="switch"></command-button>
        <command-button name="control-strings" look="framed"></command-button>
        <command-button name="test-words" look="framed"></command-button>
      </tool-row>
      ${this.#line()} ${this.#read()}
    </section>`
  }

  #line() {
    const rhythm = this.#rhythm.value
    if (!rhythm) return nothing
    const even =
      rhythm.unevenness == null
        ? nothing
        : html`<small> Distance in the middle ${figure(rhythm.distance, 0)}, varying by ${percent(rhythm.unevenness)}.</small>`
    return html`<p class="quiet">${rhythm.sentence}${even}</p>`
  }

  #read() {
    const spacing = this.#spacing.value
    switch (spacing.kind) {
      case 'none':
        return html`<p class="quiet">Read once the whole font has been measured.</p>`
      case 'reading':
        return html`<p class="quiet">Reading the pairs… <progress aria-label="Pairs read" .value=${spacing.share}></progress></p>
          <div class="row">
            <button class="framed" type="button" @click=${() => session.surveying.stop()}>Stop</button>
          </div>`
      case 'stopped':
        return html`<p class="quiet">Stopped. Pairs were not all read.</p>
          <div class="row">
            <button class="framed" type="button" @click=${() => session.surveying.readSpacing()}>Read the pairs</button>
          </div>`
      case 'failed':
        return html`<p class="failed">${spacing.sentence}</p>`
      case 'done': {
        const { kerning, findings } = spacing.report
        return html`<p class="quiet">${kerningWords(kerning)}</p>
          ${kerning.notes.map((note) => html`<p class="quiet">${note}</p>`)} ${this.#kerned(kerning)}
          ${this.#findings(findings)}
          ${this.#suggestion(spacing.suggestion)}`
      }
    }
  }

  #kerned(kerning: KerningReport) {
    if (kerning.source === null) return nothing
    const pairs = kernedOf(this.#text.value, kerning)
    return html`<details>
      <summary>Kerned on the line: ${pairs.length} ${icon('more')}</summary>
      ${
        pairs.length === 0
          ? html`<p class="quiet">No two neighbours on the line are kerned.</p>`
          : html`<div class="scroll" tabindex="0" role="region" aria-label="Kerned pairs of the line, with the rules that kern them">
              <ul>
                ${pairs.map(
                  ({ pair, apart, rules }) => html`<li>
                    <b>${pair}</b> ${signed(apart)} ${rules.map((rule) => html`<small>${rule}</small>`)}
                  </li>`,
                )}
              </ul>
            </div>`
      }
    </details>`
  }

  #findings(findings: readonly KernFindingReport[]) {
    if (findings.length === 0) return html`<p>No pair asks for a look.</p>`
    const shown = this.all ? findings : findings.slice(0, FIRST)
    const more = findings.length - shown.length
    return html`<ol aria-label="Pairs that stand out, worst first" @keydown=${this.#onKey}>
        ${shown.map((finding, at) => {
          const [first = ['', '']] = finding.pairs
          return html`<li>
            <button
              class="finding"
              type="button"
              tabindex=${at === Math.min(this.stop, shown.length - 1) ? 0 : -1}
              @focus=${() => {
                this.stop = at
              }}
              @click=${() => this.#stand(finding)}
            >
              <span class="pair" aria-hidden="true">${first.join('')}</span>
              <span>${finding.sentence}<small>${kernMatter[finding.matter]}</small></span>
            </button>
          </li>`
        })}
      </ol>
      ${
        more > 0
          ? html`<div class="row">
              <button
                class="framed"
                type="button"
                @click=${() => {
                  this.all = true
                }}
              >
                ${many(more, 'more', 'more')}
              </button>
            </div>`
          : nothing
      }`
  }

  #suggestion(suggestion: SuggestionReport) {
    const { bearings, kerns } = suggestion
    return html`<p><b>Suggested:</b> ${suggestionWords(suggestion)}</p>
      ${
        bearings.length + kerns.length === 0
          ? nothing
          : html`<details>
                <summary>Each of them ${icon('more')}</summary>
                <div class="scroll" tabindex="0" role="region" aria-label="Suggested bearings and kerns">
                  <table>
                    <thead>
                      <tr><th scope="col">Bearing or pair</th><th scope="col">Is</th><th scope="col">Change</th></tr>
                    </thead>
                    <tbody>
                      ${bearings.map(
                        (one) => html`<tr>
                          <th scope="row">${one.right ? 'right' : 'left'} of ${one.character}</th>
                          <td>${figure(one.is)}</td>
                          <td>${signed(one.suggested - one.is)}</td>
                        </tr>`,
                      )}
                      ${kerns.slice(0, MOST_LINES).map(
                        (one) => html`<tr>
                          <th scope="row">${one.firsts.join(' ')} before ${one.seconds.join(' ')}</th>
                          <td></td>
                          <td>${signed(one.apart)}</td>
                        </tr>`,
                      )}
                    </tbody>
                  </table>
                </div>
              </details>
              <div class="row">
                <button class="framed" type="button" @click=${() => this.#save(suggestion, 'json')}>
                  ${icon('save')} Save as JSON
                </button>
                <button class="framed" type="button" @click=${() => this.#save(suggestion, 'fea')}>
                  ${icon('save')} Save as feature file
                </button>
              </div>
              ${
                suggestion.unnamed
                  ? html`<p class="quiet">The feature file leaves out ${suggestion.unnamed}: their glyphs have no names that such a file can hold.</p>`
                  : nothing
              }`
      }`
  }

  #onKey = (event: KeyboardEvent): void => moveInList(event, this.choices)

  #stand({ pairs }: KernFindingReport): void {
    // Between straight letters of its own case the eye has something to hold the pair against.
    const [first = ['', '']] = pairs
    const between = /\p{Lu}/u.test(first[0]) && !/\p{Ll}/u.test(first[1]) ? 'H' : 'n'
    const text = pairs
      .slice(0, 4)
      .map((pair) => pair.join(''))
      .join(between)
    const before = /\p{Lu}/u.test(first[0]) ? 'HH' : 'nn'
    session.apply({ type: 'setText', text: `${before}${text}${between}${between}` })
    if (!session.state.stage?.layers.white) {
      session.apply({ type: 'showLayer', layer: 'white', shown: true })
    }
    this.dispatchEvent(new Event('choose', { bubbles: true, composed: true }))
  }

  #save(suggestion: SuggestionReport, as: 'json' | 'fea'): void {
    const font = this.#font.value
    if (!font) return
    const stem = font.fileName.replace(/\.[^.]*$/, '')
    const { featureFile, ...rest } = suggestion
    const text =
      as === 'fea' ? featureFile : `${JSON.stringify({ font: font.report.family, ...rest }, null, 2)}\n`
    const type = as === 'fea' ? 'text/plain' : 'application/json'
    save(document, new Blob([text], { type }), `${stem}-spacing.${as}`)
  }
}
