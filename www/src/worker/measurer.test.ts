import { describe, expect, it } from 'vitest'
import type { SurveyProgress } from '../generated/SurveyProgress'
import { CRASHED, type Helper, Measurer, NO_WORKER, type SurveyState } from './measurer'
import type { Ask, Reply } from './protocol'

class Fake implements Helper {
  onmessage: Helper['onmessage'] = null
  onerror: Helper['onerror'] = null
  readonly asked: Ask[] = []
  ended = false
  postMessage = (ask: unknown) => void this.asked.push(ask as Ask)
  terminate = () => {
    this.ended = true
  }
  say(reply: Reply): void {
    this.onmessage?.({ data: reply } as MessageEvent<Reply>)
  }
  fail(): void {
    this.onerror?.({} as ErrorEvent)
  }
  get job(): number {
    const last = this.asked.findLast((ask) => ask.kind === 'survey')
    return last?.kind === 'survey' ? last.job : -1
  }
}

const progress = (done: number): SurveyProgress => ({
  done,
  total: 10,
  troubled: 0,
  flaws: 0,
  drawn: 0,
  needed: 0,
})
const module = {} as WebAssembly.Module
const bytes = () => Uint8Array.of(1, 2, 3)

function room() {
  const helpers: Fake[] = []
  const states: SurveyState[] = []
  const letters: unknown[] = []
  const spacings: unknown[] = []
  const measurer = new Measurer(
    () => {
      const helper = new Fake()
      helpers.push(helper)
      return helper
    },
    {
      changed: (state) => void states.push(state),
      letters: (some) => void letters.push(...some),
      spaced: (state) => void spacings.push(state),
    },
  )
  measurer.start(module)
  return { measurer, helpers, states, letters, spacings, helper: helpers[0] as Fake }
}

describe('the measurer', () => {
  it('hands a copy of the font over and keeps its own', () => {
    const { measurer, helper } = room()
    helper.say({ kind: 'ready' })
    const own = bytes()
    measurer.survey(own, 'a.otf', Uint16Array.of(3))
    const ask = helper.asked.at(-1)
    expect(ask).toMatchObject({ kind: 'survey', fileName: 'a.otf' })
    expect(ask?.kind === 'survey' && ask.bytes).not.toBe(own.buffer)
    expect(own.length).toBe(3)
  })

  it('passes on what the worker says of the job at hand, and of no other', () => {
    const { measurer, helper, letters } = room()
    helper.say({ kind: 'ready' })
    measurer.survey(bytes(), 'a.otf', new Uint16Array())
    const old = helper.job
    measurer.survey(bytes(), 'b.otf', new Uint16Array())
    helper.say({ kind: 'letters', job: old, letters: [{} as never] })
    helper.say({ kind: 'progress', job: old, progress: progress(5) })
    expect(letters).toEqual([])
    expect(measurer.state).toEqual({ kind: 'measuring', progress: null })
    helper.say({ kind: 'progress', job: helper.job, progress: progress(4) })
    expect(measurer.state).toEqual({ kind: 'measuring', progress: progress(4) })
    helper.say({ kind: 'surveyed', job: helper.job, progress: progress(10), document: null })
    expect(measurer.state.kind).toBe('done')
  })

  it('stops at once, whatever the worker still says', () => {
    const { measurer, helper } = room()
    helper.say({ kind: 'ready' })
    measurer.survey(bytes(), 'a.otf', new Uint16Array())
    const { job } = helper
    helper.say({ kind: 'progress', job, progress: progress(4) })
    measurer.cancel()
    expect(measurer.state).toEqual({ kind: 'stopped', progress: progress(4) })
    expect(helper.asked.at(-1)).toEqual({ kind: 'cancel', job })
    helper.say({ kind: 'surveyed', job, progress: progress(10), document: null })
    expect(measurer.state.kind).toBe('stopped')
  })

  it('says so where no worker will start, and does not try for ever', () => {
    const { measurer, helper, helpers } = room()
    helper.fail()
    expect(measurer.state).toEqual({ kind: 'failed', sentence: NO_WORKER })
    measurer.survey(bytes(), 'a.otf', new Uint16Array())
    expect(measurer.state).toEqual({ kind: 'failed', sentence: NO_WORKER })
    expect(helpers.length).toBe(1)
  })

  it('takes another worker after a crash', () => {
    const { measurer, helper, helpers } = room()
    helper.say({ kind: 'ready' })
    measurer.survey(bytes(), 'a.otf', new Uint16Array())
    helper.say({ kind: 'crashed' })
    expect(measurer.state).toEqual({ kind: 'failed', sentence: CRASHED })
    expect(helper.ended).toBe(true)
    measurer.survey(bytes(), 'a.otf', new Uint16Array())
    expect(helpers.length).toBe(2)
    expect(measurer.state.kind).toBe('measuring')
    // The dead one is not heard any more.
    helper.say({ kind: 'crashed' })
    expect(measurer.state.kind).toBe('measuring')
  })

  it('tells what the lab refuses in the lab’s words', () => {
    const { measurer, helper } = room()
    helper.say({ kind: 'ready' })
    measurer.survey(bytes(), 'a.otf', new Uint16Array())
    helper.say({ kind: 'refused', job: helper.job, sentence: 'No.' })
    expect(measurer.state).toEqual({ kind: 'failed', sentence: 'No.' })
  })

  it('reads the spacing, and stops at a word', () => {
    const { measurer, helper, spacings } = room()
    helper.say({ kind: 'ready' })
    measurer.space(bytes(), 'HO', 10)
    const ask = helper.asked.at(-1)
    expect(ask).toMatchObject({ kind: 'space', characters: 'HO', tolerance: 10 })
    const job = ask?.kind === 'space' ? ask.job : 0
    helper.say({ kind: 'spacing', job, share: 0.5 })
    expect(spacings.at(-1)).toEqual({ kind: 'reading', share: 0.5 })
    measurer.cancel()
    expect(spacings.at(-1)).toEqual({ kind: 'stopped' })
    helper.say({ kind: 'spacing', job, share: 0.9 })
    expect(spacings.at(-1)).toEqual({ kind: 'stopped' })
  })

  it('says that the spacing could not be read when the worker is lost', () => {
    const { measurer, helper, spacings } = room()
    helper.say({ kind: 'ready' })
    measurer.space(bytes(), 'HO', 10)
    helper.say({ kind: 'crashed' })
    expect(spacings.at(-1)).toEqual({ kind: 'failed', sentence: CRASHED })
    measurer.space(bytes(), 'HO', 10)
    expect(spacings.at(-1)).toEqual({ kind: 'failed', sentence: NO_WORKER })
  })
})
