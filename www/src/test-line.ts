/** A line of words for the stage that hold the pairs most in need of a look. */

import type { SpacingReport } from './generated/SpacingReport'
import type { SuggestionReport } from './generated/SuggestionReport'
import { NO_LIST, NO_WORDS } from './sentences'

/** The line; without one, what to say instead. */
export async function testLine(
  report: SpacingReport,
  suggestion: SuggestionReport,
): Promise<{ readonly text: string | null; readonly remark: string | null }> {
  try {
    const [{ default: words }, { pairsInNeed, wordsFor }] = await Promise.all([
      import('virtual:words'),
      import('./test-words'),
    ])
    const line = wordsFor(pairsInNeed(report, suggestion), words)
    return line.length > 0 ? { text: line.join(' '), remark: null } : { text: null, remark: NO_WORDS }
  } catch (error) {
    console.warn(error)
    return { text: null, remark: NO_LIST }
  }
}
