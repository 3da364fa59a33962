import { describe, expect, it } from 'vitest'
import { type Forecast, forecast, history, type Point, RULE_OF_THUMB } from './forecast'
import type { RevisionRecord } from './schema'
import { forecastWords, paceWords } from './urgency'
import { DAY } from './words'

const start = Date.parse('2026-03-01')
const font = { kind: 'plain', begun: '2026-03-01' } as const
const at = (...points: readonly (readonly [day: number, settled: number])[]): Point[] =>
  points.map(([day, settled]) => ({ at: start + day * DAY, settled }))

const revision = (received: string, settled: number): RevisionRecord => ({
  id: received,
  font: 'a',
  fingerprint: received,
  fileName: '',
  received,
  answered: null,
  planned: 60,
  drawn: settled,
  settled,
  open: 0,
  changed: received,
  rev: 1,
})

describe('when a font will be whole', () => {
  it('cannot be told from one revision: the rule of thumb is given, and called that', () => {
    const [least, most] = RULE_OF_THUMB.plain
    const guess = forecast(font, 60, at([10, 20]))
    expect(guess).toEqual({ kind: 'guess', from: start + least * DAY, to: start + most * DAY })
    expect(forecastWords(guess, '2026-03-12')).toContain('rule of thumb')
    expect(forecast({ ...font, kind: 'ornamented' }, 60, [])).toEqual({
      kind: 'guess',
      from: start + 183 * DAY,
      to: start + 1096 * DAY,
    })
  })

  it('is a date without a spread from two', () => {
    const two = forecast(font, 60, at([0, 20], [10, 40]))
    expect(two).toEqual({ kind: 'date', at: start + 20 * DAY, pace: 2, spread: null })
    expect(forecastWords(two, '2026-03-12')).toContain('two cannot tell how sure')
    expect(paceWords(two)).toBe('14 letters a week')
  })

  it('is what a straight history leads to, and one stray revision does not turn it', () => {
    const straight = forecast(font, 100, at([0, 10], [10, 20], [20, 30], [30, 40], [40, 50])) as Extract<
      Forecast,
      { kind: 'date' }
    >
    expect(straight.pace).toBeCloseTo(1)
    expect(straight.spread).toEqual({ from: straight.at, to: straight.at })
    const stray = forecast(font, 100, at([0, 10], [10, 20], [20, 5], [30, 40], [40, 50])) as typeof straight
    expect(stray.pace).toBeCloseTo(1, 0)
    expect(stray.spread?.from).toBeLessThan(stray.at)
    expect(stray.spread?.to ?? Number.POSITIVE_INFINITY).toBeGreaterThan(stray.at)
  })

  it('keeps four lines in five within its spread', () => {
    // Counts that waver about a line by a known normal scatter.
    let seed = 7
    const uniform = () => {
      seed = (seed * 48271) % 2147483647
      return seed / 2147483647
    }
    const normal = () => Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform())
    let within = 0
    const trials = 600
    for (let trial = 0; trial < trials; trial += 1) {
      const points = at(...[...Array(9).keys()].map((k) => [10 * k, 100 + 20 * k + 8 * normal()] as const))
      const last = points.at(-1) as Point
      const told = forecast(font, 1000, points) as Extract<Forecast, { kind: 'date' }>
      const truth = last.at + ((1000 - last.settled) / 2) * DAY
      if (told.spread && told.spread.from <= truth && truth <= (told.spread.to ?? truth)) within += 1
    }
    expect(within / trials).toBeGreaterThan(0.74)
    expect(within / trials).toBeLessThan(0.92)
  })

  it('is no date where nothing grows, and none is needed of a whole font', () => {
    expect(forecast(font, 60, at([0, 20], [10, 20], [20, 18])).kind).toBe('standing')
    expect(forecast(font, 60, at([0, 20], [10, 60])).kind).toBe('whole')
  })

  it('has no latest day where its slowest pace leads nowhere', () => {
    const told = forecast(font, 60, at([0, 20], [10, 18], [20, 30])) as Extract<Forecast, { kind: 'date' }>
    expect(told.spread?.to).toBeNull()
    expect(forecastWords(told, '2026-03-22')).toContain('no end')
  })

  it('that has passed is told as passed', () => {
    expect(forecastWords(forecast(font, 60, at([0, 20], [10, 40])), '2026-06-01')).toContain(
      'would have been',
    )
  })

  it('takes the last of several revisions of a day', () => {
    const all = ['2026-03-02T09:00:00.000Z', '2026-03-01T08:00:00.000Z', '2026-03-02T17:00:00.000Z']
    expect(history(all.map((day, index) => revision(day, index)))).toEqual([
      { at: Date.parse('2026-03-01T08:00:00.000Z'), settled: 1 },
      { at: Date.parse('2026-03-02T17:00:00.000Z'), settled: 2 },
    ])
  })
})
