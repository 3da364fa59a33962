import { expect, it, vi } from 'vitest'
import { Store } from './state'

it('tells its listeners what is and what was', () => {
  const store = new Store()
  const heard = vi.fn()
  const stop = store.subscribe(heard)
  const before = store.state
  store.set({ theme: 'dark' })
  expect(heard).toHaveBeenCalledExactlyOnceWith(store.state, before)
  expect(before.theme).toBe('system')
  stop()
  store.set({ theme: 'light' })
  expect(heard).toHaveBeenCalledTimes(1)
})

it('is silent when nothing changes', () => {
  const store = new Store()
  const heard = vi.fn()
  store.subscribe(heard)
  store.set({ theme: 'system', dropping: false })
  expect(heard).not.toHaveBeenCalled()
})
