import { expect, it } from 'vitest'
import { once } from './once'

it('loads once, and again only after a failure', async () => {
  let asked = 0
  const load = once(async () => {
    asked += 1
    if (asked === 1) throw new Error('no network')
    return asked
  })
  await expect(load()).rejects.toThrow('no network')
  expect(await Promise.all([load(), load()])).toEqual([2, 2])
  expect(await load()).toBe(2)
})
