import type { PageState } from './state'

/**
 * What a screen reader should hear, and anyone may read at the stage's foot.
 * While something is dragged it changes on every frame: only the end is told.
 */
export function announcement(state: PageState, said: string): string {
  if (state.phase === 'starting') return 'The lab is opening.'
  if (state.opening !== null) return `Opening ${state.opening}.`
  // What broke is told above the stage.
  if (state.phase === 'broken') return ''
  if (!state.stage) return said
  if (state.remark !== null) return state.remark
  return state.stage.inGesture ? said : state.stage.status
}
