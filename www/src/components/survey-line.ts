import { css, html, LitElement, nothing } from 'lit'
import { customElement } from 'lit/decorators.js'
import type { SurveyProgress } from '../generated/SurveyProgress'
import { session } from '../session'
import { base } from '../styles/shared'
import { surveyWords } from '../survey-words'
import type { SurveyState } from '../worker/measurer'
import './command-button'
import { PartOf } from './part-of'
import './tool-row'

/** How far the whole font has been measured, how to stop that, and how to keep it. */
@customElement('survey-line')
export class SurveyLine extends LitElement {
  static override styles = [
    base,
    css`
      .box {
        display: grid;
        grid-template-columns: minmax(0, 1fr) auto;
        align-items: center;
        gap: 0 var(--gap-2);
        width: 19rem;
        min-height: calc(var(--target) + 2px);
        font-size: var(--type-2);
      }

      p {
        color: var(--soft);
        line-height: 1.3;
        overflow-wrap: anywhere;
      }

      .failed {
        color: var(--alert);
      }

      /* The track is drawn in ink, so that forced colours keep it. */
      .track {
        height: 6px;
        margin-block-start: 3px;
        border: var(--hair) solid var(--edge);
        border-radius: 1px;
      }

      .part {
        width: 100%;
        height: 100%;
        background: var(--ink);
        transform: scaleX(var(--part, 0));
        transform-origin: left;
        forced-color-adjust: none;
      }

      @media (width < 44rem) {
        .box {
          width: 100%;
        }
      }
    `,
  ]

  readonly #survey = new PartOf(this, session.store, (state) => state.survey)
  readonly #saving = new PartOf(this, session.store, (state) => state.saving)
  readonly #font = new PartOf(this, session.store, (state) => state.font?.report.glyphCount ?? null)

  override updated(): void {
    // Set through the object model: the content security policy forbids style attributes.
    const part = this.renderRoot.querySelector<HTMLElement>('.part')
    const progress = progressOf(this.#survey.value)
    part?.style.setProperty('--part', progress ? `${progress.done / Math.max(1, progress.total)}` : '0')
  }

  override render() {
    const survey = this.#survey.value
    if (this.#font.value === null) return nothing
    const words = surveyWords(survey, this.#font.value, this.#saving.value)
    return html`<div class="box">
        <div>
          <p class=${survey.kind === 'failed' ? 'failed' : ''} title=${words.more}>${words.line}</p>
          ${survey.kind === 'measuring' ? this.#bar(survey, words.line) : nothing}
        </div>
        <tool-row label="The whole font">
          ${
            survey.kind === 'measuring'
              ? html`<command-button name="stop-measuring" look="icon"></command-button>`
              : nothing
          }
          ${
            survey.kind === 'stopped' || survey.kind === 'failed'
              ? html`<command-button name="measure-all" look="label"></command-button>`
              : nothing
          }
          <command-button name="save-measures" look=${survey.kind === 'done' ? 'both' : 'icon'}></command-button>
        </tool-row>
      </div>
      <p class="unseen" aria-live="polite">${survey.kind === 'measuring' || survey.kind === 'none' ? '' : words.line}</p>`
  }

  #bar(survey: SurveyState, words: string) {
    const progress = progressOf(survey)
    return html`<div
      class="track"
      role="progressbar"
      aria-label="Measuring the whole font"
      aria-valuemin="0"
      aria-valuemax=${progress?.total ?? this.#font.value ?? 0}
      aria-valuenow=${progress?.done ?? 0}
      aria-valuetext=${words}
    >
      <div class="part"></div>
    </div>`
  }
}

const progressOf = (survey: SurveyState): SurveyProgress | null =>
  'progress' in survey ? survey.progress : null
