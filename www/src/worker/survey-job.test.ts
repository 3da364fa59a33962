import { describe, expect, it } from 'vitest'
import type { SurveyProgress } from '../generated/SurveyProgress'
import type { Reply } from './protocol'
import { SLICE, type Surroundings, type Surveyor, survey, TELL_EVERY } from './survey-job'

/** A font of numbers: a glyph takes some milliseconds, and its report is its number. */
class Numbers implements Surveyor {
  freed = false
  #next = 0
  #written = ''
  readonly #early = new Set<number>()

  constructor(
    readonly clock: Clock,
    readonly total: number,
    readonly cost: number,
  ) {}

  measureFirst(glyphs: Uint16Array): string {
    for (const glyph of glyphs) this.#early.add(glyph)
    this.clock.time += this.cost * glyphs.length
    return JSON.stringify([...glyphs].map((glyph) => ({ glyph })))
  }

  measure(count: number): boolean {
    for (let left = count; left > 0 && this.#next < this.total; left -= 1) {
      if (!this.#early.has(this.#next)) this.clock.time += this.cost
      this.#written += `${this.#next > 0 ? ',' : ''}${this.#next}`
      this.#next += 1
    }
    return this.#next < this.total
  }

  take(): string {
    const text = this.#written
    this.#written = ''
    return text
  }

  head = () => '['
  tail = () => ']'

  progress(): SurveyProgress {
    return { done: this.#next, total: this.total, troubled: 0, flaws: 0, drawn: 0, needed: 0 }
  }

  free(): void {
    this.freed = true
  }
}

class Clock implements Surroundings {
  time = 0
  readonly breaths: number[] = []
  readonly posted: Reply[] = []
  now = () => this.time
  post = (reply: Reply) => void this.posted.push(reply)
  breathe = () => {
    this.breaths.push(this.time)
    return Promise.resolve()
  }
}

const kinds = (clock: Clock) => clock.posted.map((reply) => reply.kind)

describe('a survey', () => {
  it('measures what is in sight first, then all, and hands the document over', async () => {
    const clock = new Clock()
    const numbers = new Numbers(clock, 100, 2)
    await survey(7, numbers, Uint16Array.of(40, 41), () => false, clock)
    expect(clock.posted[0]).toEqual({ kind: 'letters', job: 7, letters: [{ glyph: 40 }, { glyph: 41 }] })
    const last = clock.posted.at(-1)
    expect(last?.kind).toBe('surveyed')
    const document = last?.kind === 'surveyed' ? last.document : null
    expect(JSON.parse((await document?.text()) ?? '')).toEqual([...Array(100).keys()])
    expect(document?.type).toBe('application/json')
    expect(numbers.freed).toBe(true)
  })

  it('never goes longer without a breath than a slice and one glyph', async () => {
    const clock = new Clock()
    await survey(1, new Numbers(clock, 400, 7), new Uint16Array(), () => false, clock)
    const waits = clock.breaths.map((at, index) => at - (clock.breaths[index - 1] ?? 0))
    expect(Math.max(...waits)).toBeLessThanOrEqual(SLICE + 7)
  })

  it('tells its progress, and not too often', async () => {
    const clock = new Clock()
    await survey(1, new Numbers(clock, 500, 2), new Uint16Array(), () => false, clock)
    const told = kinds(clock).filter((kind) => kind === 'progress').length
    expect(told).toBeGreaterThan(4)
    expect(told).toBeLessThanOrEqual(1000 / TELL_EVERY)
  })

  it('stops at the next breath, says no more, and lets the font go', async () => {
    const clock = new Clock()
    const numbers = new Numbers(clock, 500, 2)
    await survey(1, numbers, new Uint16Array(), () => clock.breaths.length >= 3, clock)
    expect(clock.breaths.length).toBe(3)
    expect(kinds(clock)).not.toContain('surveyed')
    expect(numbers.freed).toBe(true)
  })

  it('keeps no document that is larger than its bound, and still measures to the end', async () => {
    const clock = new Clock()
    await survey(1, new Numbers(clock, 200, 2), new Uint16Array(), () => false, clock, 100)
    const last = clock.posted.at(-1)
    expect(last).toMatchObject({ kind: 'surveyed', document: null, progress: { done: 200 } })
  })
})
