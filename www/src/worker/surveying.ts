/** The whole font in the worker's hands: every letter is measured, then the white between letters read. */

import type { Fitting } from '../generated/Fitting'
import type { LetterReport } from '../generated/LetterReport'
import { measuresName, save } from '../save'
import { TOO_LARGE } from '../sentences'
import type { Source } from '../source'
import { fittingOf, spacedCharacters, toleranceOf } from '../spacing'
import type { PageState } from '../state'
import { type Helper, Measurer, type SpacingState, type SurveyState } from './measurer'

/** What surveying a font needs of the page. */
export interface Host {
  state(): PageState
  set(change: Partial<PageState>): void
  source(): Source | undefined
  /** Takes letters as they are measured. */
  measured(letters: readonly LetterReport[]): void
  /** No more letters will come. */
  ended(): void
  /** Takes the spacing that is suggested. */
  suggested(fitting: Fitting): void
}

export class Surveying {
  readonly #measurer: Measurer

  constructor(
    make: () => Helper,
    private readonly host: Host,
  ) {
    this.#measurer = new Measurer(make, {
      changed: (survey) => this.#surveyed(survey),
      spaced: (spacing) => this.#spaced(spacing),
      letters: (letters) => host.measured(letters),
    })
  }

  start(module: WebAssembly.Module): void {
    this.#measurer.start(module)
  }

  /** Forgets what was found out, as another font comes. */
  forget(): void {
    this.#measurer.forget()
  }

  /** Measures the whole font: what is in sight first, then the letters that are judged. */
  all(): void {
    const source = this.host.source()
    if (!source) return
    const { stage, judgement } = this.host.state()
    const inSight = stage?.items.map((item) => item.glyph).filter((glyph) => glyph != null) ?? []
    const alphabet = judgement.kind === 'done' ? judgement.report.letters.map((letter) => letter.glyph) : []
    const glyphs = new Set([...inSight, ...alphabet])
    this.#measurer.survey(source.bytes, source.fileName, Uint16Array.from(glyphs))
  }

  stop(): void {
    this.#measurer.cancel()
  }

  /** Saves the whole font's measures, measuring it first where that is still to do. */
  save(): void {
    this.host.set({ saving: true })
    const { kind } = this.#measurer.state
    if (kind === 'done') this.#surveyed(this.#measurer.state)
    else if (kind !== 'measuring') this.all()
  }

  /** Reads the spacing of the alphabet and of what stands beside it in text. */
  readSpacing(): void {
    const source = this.host.source()
    const { judgement, font } = this.host.state()
    if (!source || !font || judgement.kind !== 'done') return
    const alphabet = judgement.report.letters.map((letter) => letter.letter)
    const tolerance = toleranceOf(font.report.unitsPerEm)
    this.#measurer.space(source.bytes, spacedCharacters(alphabet), tolerance)
  }

  /** Takes in how far the whole font is measured; saves it if that was asked for. */
  #surveyed(survey: SurveyState): void {
    const { saving, font } = this.host.state()
    const still = saving && survey.kind === 'measuring'
    this.host.set({ survey, saving: still })
    if (survey.kind !== 'measuring' && survey.kind !== 'none') this.host.ended()
    if (survey.kind === 'done' && this.host.state().spacing.kind === 'none') this.readSpacing()
    if (!saving || survey.kind !== 'done') return
    if (survey.document && font) save(document, survey.document, measuresName(font.fileName))
    else this.host.set({ notice: { kind: 'refused', fileName: font?.fileName ?? '', sentence: TOO_LARGE } })
  }

  #spaced(spacing: SpacingState): void {
    this.host.set({ spacing })
    if (spacing.kind === 'done') this.host.suggested(fittingOf(spacing.report, spacing.suggestion))
  }
}
