/** What the file's line says of the whole font. */

import { count, many } from './figures'
import type { SurveyState } from './worker/measurer'

export interface SurveyWords {
  /** A short line. */
  readonly line: string
  /** What was found, for who asks. */
  readonly more: string
}

export function surveyWords(survey: SurveyState, glyphs: number, saving: boolean): SurveyWords {
  switch (survey.kind) {
    case 'none':
      return { line: 'The whole font is not measured yet', more: '' }
    case 'measuring': {
      const { done, total } = survey.progress ?? { done: 0, total: glyphs }
      const then = saving ? ', to be saved' : ''
      return { line: `${count(done)} of ${many(total, 'glyph')} measured${then}`, more: '' }
    }
    case 'stopped': {
      const { done, total } = survey.progress ?? { done: 0, total: glyphs }
      return { line: `Stopped at ${count(done)} of ${many(total, 'glyph')}`, more: '' }
    }
    case 'failed':
      return { line: survey.sentence, more: '' }
    case 'done': {
      const { total, troubled, flaws, drawn, needed } = survey.progress
      const unread = troubled > 0 ? `; ${count(troubled)} could not be` : ''
      return {
        line: `All ${many(total, 'glyph')} measured${unread}`,
        more: `${many(drawn, 'point')} drawn, ${count(needed)} needed within half a unit; ${many(flaws, 'place')} worth a look`,
      }
    }
  }
}
