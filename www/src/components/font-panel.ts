import { css, html, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import { figure, signed } from '../figures'
import { session } from '../session'
import { panel } from '../styles/panel'
import { base, heading } from '../styles/shared'
import { guideName } from '../words'
import { Beside } from './beside'
import { PartOf } from './part-of'
import './rules-panel'

/** While no letter is chosen: the heights of the font as a whole. */
@customElement('font-panel')
export class FontPanel extends Beside {
  static override styles = [
    base,
    heading,
    panel,
    css`
    ul {
      padding-inline-start: 1.1em;
    }

    li + li {
      margin-block-start: var(--gap-1);
    }
  `,
  ]

  readonly #font = new PartOf(this, session.store, (state) => state.font?.report)

  override render() {
    const report = this.#font.value
    if (!report) return nothing
    return html`<section>
        <h3>Heights of the font, in units</h3>
        <table>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Drawn</th>
              <th scope="col">Rounds</th>
              <th scope="col">Declared</th>
            </tr>
          </thead>
          <tbody>
            ${report.guides.map(
              (guide) => html`<tr>
                <th scope="row" title=${guide.from ? `Taken from ${guide.from}` : ''}>${guideName[guide.kind]}</th>
                <td>${figure(guide.drawn)}</td>
                <td>${guide.round == null || guide.drawn == null ? '–' : signed(guide.round - guide.drawn)}</td>
                <td>${figure(guide.declared)}</td>
              </tr>`,
            )}
          </tbody>
        </table>
        <p class="quiet">${
          Math.abs(report.slant) < 0.5
            ? 'The stems stand upright.'
            : `The stems lean ${figure(Math.abs(report.slant))}° to the ${report.slant > 0 ? 'right' : 'left'}.`
        }</p>
      </section>
      <rules-panel></rules-panel>
      ${
        report.notes.length > 0
          ? html`<section>
              <h3>About the file</h3>
              <ul class="quiet">${report.notes.map((note) => html`<li>${note}</li>`)}</ul>
            </section>`
          : nothing
      }
      <section><p class="quiet">Choose a letter on the stage to see its own figures.</p></section>`
  }
}
