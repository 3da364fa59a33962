/** What the reviewer's next word would be about. */

import { everyFinding, isSame } from '../findings'
import type { PageState } from '../state'
import type { Subject } from './review-state'

/** The finding that stands on the stage, where its own letter is chosen. */
export function findingOnStage(state: PageState): Subject | null {
  const { judgement, stage } = state
  if (judgement.kind !== 'done' || stage?.finding == null) return null
  const finding = everyFinding(judgement).find((one) => isSame(one, stage.finding))
  if (!finding) return null
  const chosen = stage.items.filter((item) => item.selected)
  const own = chosen.length === 0 || (chosen.length === 1 && chosen[0]?.glyph === finding.glyph)
  return own ? { letter: finding.letter, cause: finding.cause } : null
}

/** The chosen letter, if it is one alone and the font has it. */
function letterOnStage(state: PageState): Subject | null {
  const chosen = state.stage?.items.filter((item) => item.selected) ?? []
  const [item] = chosen
  if (chosen.length !== 1 || !item || item.glyph === null) return null
  return { letter: item.character ?? item.label, cause: null }
}

export function subject(state: PageState): Subject | null {
  const finding = findingOnStage(state)
  if (finding && state.review.about === 'finding') return finding
  return letterOnStage(state) ?? (finding && { letter: finding.letter, cause: null })
}

export const sameSubject = (a: Subject | null, b: Subject | null): boolean =>
  a === b || (a !== null && b !== null && a.letter === b.letter && a.cause === b.cause)
