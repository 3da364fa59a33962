/** A line of words for the stage that hold the pairs most in need of a look. */

import type { Desk } from './commands/command'
import { NO_LIST, NO_WORDS } from './sentences'
import type { SpacingState } from './worker/measurer'

/** Sets the line, or says why there is none. The list of words is fetched when it is first asked for. */
export async function setTestWords(desk: Pick<Desk, 'state' | 'apply' | 'set'>): Promise<void> {
  const { spacing } = desk.state
  if (spacing.kind !== 'done') return
  const { text, remark } = await testLine(spacing)
  if (text === null) desk.set({ remark })
  else desk.apply({ type: 'setText', text })
}

interface Line {
  readonly text: string | null
  /** What to say instead of it. */
  readonly remark: string | null
}

async function testLine({ report, suggestion }: SpacingState & { kind: 'done' }): Promise<Line> {
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
