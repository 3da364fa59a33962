import { describe, expect, it } from 'vitest'
import { surveyWords } from './survey-words'

const progress = { done: 512, total: 1090, troubled: 0, flaws: 3, drawn: 40_000, needed: 38_000 }

describe('the words of a survey', () => {
  it('say how far it is, and that it will be saved', () => {
    expect(surveyWords({ kind: 'measuring', progress: null }, 1090, false).line).toBe(
      '0 of 1,090 glyphs measured',
    )
    expect(surveyWords({ kind: 'measuring', progress }, 1090, false).line).toBe(
      '512 of 1,090 glyphs measured',
    )
    expect(surveyWords({ kind: 'measuring', progress }, 1090, true).line).toBe(
      '512 of 1,090 glyphs measured, to be saved',
    )
  })

  it('say what was found', () => {
    const done = surveyWords({ kind: 'done', progress, document: null }, 1090, false)
    expect(done.line).toBe('All 1,090 glyphs measured')
    expect(done.more).toBe('40,000 points drawn, 38,000 needed within half a unit; 3 places worth a look')
    const some = { ...progress, troubled: 2 }
    expect(surveyWords({ kind: 'done', progress: some, document: null }, 1090, false).line).toContain(
      '; 2 could not be',
    )
  })

  it('say where it stopped, and why it failed', () => {
    expect(surveyWords({ kind: 'stopped', progress }, 1090, false).line).toBe(
      'Stopped at 512 of 1,090 glyphs',
    )
    expect(surveyWords({ kind: 'failed', sentence: 'No.' }, 1090, false).line).toBe('No.')
  })
})
