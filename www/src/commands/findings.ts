import { isSame, standing } from '../findings'
import type { FindingReport } from '../generated/FindingReport'
import type { PageState } from '../state'
import { hasFont, type PageCommand } from './command'

const listed = (state: PageState): FindingReport[] => standing(state.judgement, state.allowance)

/** The finding before or after the one on the stage, round the list's end. */
export function otherFinding(state: PageState, step: 1 | -1): FindingReport | undefined {
  const all = listed(state)
  const at = all.findIndex((finding) => isSame(finding, state.stage?.finding))
  if (at < 0) return step > 0 ? all[0] : all.at(-1)
  return all[(at + step + all.length) % all.length]
}

function look(id: string, label: string, hint: string, key: string, step: 1 | -1): PageCommand {
  return {
    id,
    label,
    hint,
    group: 'Findings',
    keys: [key],
    repeats: true,
    enabled: (state) => hasFont(state) && listed(state).length > 0,
    run: (desk) => {
      const next = otherFinding(desk.state, step)
      if (next) desk.apply({ type: 'standFinding', finding: { glyph: next.glyph, cause: next.cause } })
    },
  }
}

export const findings: readonly PageCommand[] = [
  look('next-finding', 'Next finding', 'Stands its letter between letters to compare it with', 'J', 1),
  look('previous-finding', 'Previous finding', 'The one above it in the list', 'Shift+J', -1),
]
