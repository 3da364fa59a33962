import { describe, expect, it } from 'vitest'
import { command } from '../commands/registry'
import type { ItemState } from '../generated/ItemState'
import type { StageState } from '../generated/StageState'
import { initialState, type PageState } from '../state'
import { END, keyOf, steps } from './steps'

const words = (text: string): number => text.split(/\s+/).filter(Boolean).length

/** Silent reading of plain prose: M. Brysbaert, Journal of Memory and Language 109 (2019), from memory. */
const WORDS_A_MINUTE = 238
/**
 * Seconds for an act, from the keystroke-level model of Card, Moran and Newell (1980), from memory: to make up
 * one's mind 1.35, hand to the mouse 0.4, to point 1.1, to press 0.2; and once more 1.35 to see what came of it.
 */
const AN_ACT = 1.35 + 0.4 + 1.1 + 0.2 + 1.35
/** To type a note of twenty letters, at 0.28 a key. */
const A_NOTE = 20 * 0.28

const page = (change: Partial<PageState>): PageState => ({ ...initialState, ...change })
const item = (change: Partial<ItemState>) =>
  ({ id: 1, glyph: 1, moved: null, selected: false, ...change }) as ItemState
const onStage = (change: Partial<StageState>): PageState =>
  page({ stage: { items: [], finding: null, ...change } as unknown as StageState })
const step = (title: RegExp) => {
  const found = steps.find((one) => title.test(one.title))
  if (!found) throw new Error(`no step ${title}`)
  return found
}

describe('a first review', () => {
  it('is read and done in ninety seconds', () => {
    const read = [...steps, END].reduce((sum, { title, say }) => sum + words(title) + words(say), 0)
    const seconds = (60 * read) / WORDS_A_MINUTE + steps.length * AN_ACT + A_NOTE
    console.info(`${steps.length} steps, ${read} words: ${seconds.toFixed(0)} s`)
    expect(steps.length).toBeGreaterThanOrEqual(6)
    expect(steps.length).toBeLessThanOrEqual(8)
    expect(seconds).toBeLessThan(90)
  })

  it('names keys that are there', () => {
    for (const one of steps) {
      if (one.key === undefined) continue
      expect(command(one.key).keys.length).toBeGreaterThan(0)
      expect(keyOf(one).length).toBeGreaterThan(0)
    }
  })

  it('is done by hand and by nothing else: no step is done as it begins', () => {
    const fresh = onStage({ items: [item({})] })
    for (const one of steps) expect(one.done(fresh, fresh, fresh), one.title).toBe(false)
  })

  it('sees another finding that stands among others, not one alone', () => {
    const { done } = step(/neighbours/)
    const at = (glyph: number, letters: number) =>
      onStage({
        finding: { glyph, cause: 'width' },
        items: Array.from({ length: letters }, () => item({})),
      } as Partial<StageState>)
    expect(done(at(7, 3), at(7, 1), at(7, 1))).toBe(false)
    expect(done(at(8, 1), at(7, 1), at(7, 1))).toBe(false)
    expect(done(at(8, 3), at(7, 1), at(7, 1))).toBe(true)
  })

  it('sees a letter moved since the step began', () => {
    const { done } = step(/together/)
    const [then, now] = [onStage({ items: [item({ moved: 3 })] }), onStage({ items: [item({ moved: 4 })] })]
    expect(done(then, then, then)).toBe(false)
    expect(done(now, then, then)).toBe(true)
  })

  it('sees the sheet closed that was open a moment ago', () => {
    const { done } = step(/sheet/)
    const room = (room: PageState['review']['room']) => page({ review: { ...initialState.review, room } })
    expect(done(room('handback'), room(null), room(null))).toBe(false)
    expect(done(room(null), room(null), room('handback'))).toBe(true)
    expect(done(room(null), room(null), room('shelf'))).toBe(false)
  })
})
