import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { type Helper, PATIENCE, Parcels } from './parcels'
import type { Ask, Reply } from './protocol'

/** A worker that answers when it is told to. */
function helper() {
  const asked: Ask[] = []
  const one: Helper & { ended: boolean } = {
    ended: false,
    onmessage: null,
    onerror: null,
    postMessage: (ask: Ask) => void asked.push(ask),
    terminate() {
      one.ended = true
    },
  }
  return { one, asked, say: (reply: Reply) => one.onmessage?.({ data: reply } as MessageEvent<Reply>) }
}

const turn = () => Promise.resolve().then(() => Promise.resolve())

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

it('gives each question its own answer', async () => {
  const { one, say } = helper()
  const parcels = new Parcels(() => Promise.resolve(one))
  const [first, second] = [parcels.face(0), parcels.face(1)]
  await turn()
  say({ kind: 'done', job: 2, value: 'two' })
  say({ kind: 'refused', job: 1, sentence: 'No.' })
  await expect(first).rejects.toMatchObject({ sentence: 'No.' })
  await expect(second).resolves.toBe('two')
})

it('ends a worker that takes too long, says so, and makes another for the next file', async () => {
  const [slow, next] = [helper(), helper()]
  const made = [slow, next]
  const parcels = new Parcels(() => Promise.resolve((made.shift() ?? next).one))
  const opened = parcels.open(new Uint8Array(3))
  const refused = expect(opened).rejects.toMatchObject({ sentence: expect.stringContaining('takes longer') })
  await turn()
  await vi.advanceTimersByTimeAsync(PATIENCE)
  await refused
  expect(slow.one.ended).toBe(true)
  const again = parcels.face(0)
  await turn()
  expect(next.asked).toHaveLength(1)
  next.say({ kind: 'done', job: 2, value: 'there' })
  await expect(again).resolves.toBe('there')
})

it('tells what waits when a worker crashes', async () => {
  const { one, say } = helper()
  const parcels = new Parcels(() => Promise.resolve(one))
  const cut = parcels.cut({ face: 0, position: null, style: null })
  await turn()
  say({ kind: 'crashed' })
  await expect(cut).rejects.toMatchObject({ sentence: expect.stringContaining('stumbled') })
  expect(one.ended).toBe(true)
})

it('hands on what is judged step by step, each with its own time', async () => {
  const { one, say } = helper()
  const parcels = new Parcels(() => Promise.resolve(one))
  const heard: number[] = []
  const { done } = parcels.along([], (index) => void heard.push(index))
  await turn()
  for (const index of [0, 1]) {
    await vi.advanceTimersByTimeAsync(PATIENCE - 1)
    say({ kind: 'judged', job: 1, index, findings: [] })
  }
  say({ kind: 'done', job: 1, value: null })
  await done
  expect(heard).toEqual([0, 1])
})
