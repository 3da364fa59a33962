import { describe, expect, it } from 'vitest'
import { begunAt, keepAt } from './progress'

const kept = (value: string | null) => ({ getItem: () => value })
const refusing = {
  getItem: (): string => {
    throw new Error('forbidden')
  },
  setItem: (): void => {
    throw new Error('forbidden')
  },
}

describe('where the guide goes on', () => {
  it('goes on where it was left, and begins anew once it is done', () => {
    expect(begunAt(kept('3'), 7)).toBe(3)
    expect(begunAt(kept('7'), 7)).toBe(0)
  })

  it('begins anew where what is kept is nonsense', () => {
    for (const value of ['x', '-1', '2.5', '1e9', '']) expect(begunAt(kept(value), 7)).toBe(0)
  })

  it('is known as long as the page where nothing can be kept', () => {
    keepAt(refusing, 4)
    expect(begunAt(refusing, 7)).toBe(4)
    expect(begunAt(undefined, 7)).toBe(4)
    keepAt(undefined, 0)
    expect(begunAt(kept(null), 7)).toBe(0)
  })
})
