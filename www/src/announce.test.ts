import { expect, it } from 'vitest'
import { announcement } from './announce'
import type { StageState } from './generated/StageState'
import { initialState, type PageState } from './state'

const page = (status: string, inGesture: boolean, change: Partial<PageState> = {}): PageState => ({
  ...initialState,
  phase: 'ready',
  stage: { status, inGesture } as StageState,
  ...change,
})

it('tells what happened last', () => {
  expect(announcement(page('R moved by 3 units.', false), '')).toBe('R moved by 3 units.')
})

it('holds its tongue while something is dragged', () => {
  expect(announcement(page('R moved by 4 units.', true), 'R chosen.')).toBe('R chosen.')
})

it('tells why something was not done, and what is being opened', () => {
  expect(announcement(page('', false, { remark: 'Choose a letter first.' }), '')).toBe(
    'Choose a letter first.',
  )
  expect(announcement(page('', false, { opening: 'a.otf' }), '')).toBe('Opening a.otf.')
})

it('says nothing of what it was about when the lab broke', () => {
  const broken = page('R chosen.', false, { phase: 'broken' })
  expect(announcement(broken, 'Opening a.otf.')).toBe('')
})
