import { expect, it } from 'vitest'
import type { Reply } from './protocol'
import { type Spacer, space } from './spacing-job'

const report = { letters: [], findings: [] } as never
const suggestion = { bearings: [], kerns: [] } as never

function spacer(steps: number) {
  let done = 0
  let freed = false
  const one: Spacer = {
    step: () => {
      done += 1
      return done < steps
    },
    share: () => done / steps,
    report: () => report,
    suggestion: () => suggestion,
    free: () => {
      freed = true
    },
  }
  return { one, done: () => done, freed: () => freed }
}

/** Each look at the clock takes 20 ms: every step is a slice of its own. */
function clock() {
  let time = 0
  const posted: Reply[] = []
  return {
    posted,
    around: {
      now: () => {
        time += 20
        return time
      },
      breathe: () => Promise.resolve(),
      post: (reply: Reply) => void posted.push(reply),
    },
  }
}

it('tells how far it has come, then what it found', async () => {
  const { one, freed } = spacer(6)
  const { around, posted } = clock()
  await space(3, one, 10, () => false, around)
  expect(posted.at(-1)).toEqual({ kind: 'spaced', job: 3, report, suggestion })
  const shares = posted.flatMap((reply) => (reply.kind === 'spacing' ? [reply.share] : []))
  expect(shares.length).toBeGreaterThan(0)
  expect(shares).toEqual(shares.toSorted((a, b) => a - b))
  expect(freed()).toBe(true)
})

it('stops between two slices and lets go of the font', async () => {
  const { one, done, freed } = spacer(100)
  const { around, posted } = clock()
  await space(3, one, 10, () => done() >= 2, around)
  expect(done()).toBeLessThan(5)
  expect(posted.some((reply) => reply.kind === 'spaced')).toBe(false)
  expect(freed()).toBe(true)
})
