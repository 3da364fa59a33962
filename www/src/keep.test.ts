import { expect, it } from 'vitest'
import { keepSettings, readSettings } from './keep'

const shelf = (text: string | null) => ({ getItem: () => text })
const fresh = { theme: 'system', singleKeys: true, visited: false, allowance: 1 }

it('starts afresh from nothing, nonsense, and foreign values', () => {
  for (const text of [
    null,
    '',
    'nonsense',
    '3',
    'null',
    '[]',
    '{"theme":"purple","singleKeys":"no","visited":1,"allowance":3}',
  ]) {
    expect(readSettings(shelf(text))).toEqual(fresh)
  }
  expect(readSettings(undefined)).toEqual(fresh)
})

it('reads what it kept', () => {
  let kept = ''
  const settings = { theme: 'dark', singleKeys: false, visited: true, allowance: 0.25 } as const
  keepSettings(
    {
      setItem: (_, value) => {
        kept = value
      },
    },
    settings,
  )
  expect(readSettings(shelf(kept))).toEqual(settings)
})

it('bears a browser that keeps nothing', () => {
  const full = {
    setItem: () => {
      throw new Error('full')
    },
  }
  expect(() => keepSettings(full, { ...fresh, theme: 'dark' })).not.toThrow()
})
