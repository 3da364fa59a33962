import { expect, it } from 'vitest'
import { lessonNames, lessonWords, outWords } from './lesson-words'

it('gives every lesson a title of its own, one paragraph and a source with its grade', () => {
  const all = lessonNames.map((name) => lessonWords[name])
  expect(new Set(all.map((one) => one.title)).size).toBe(10)
  for (const { body, source } of all) {
    expect(body).not.toContain('\n')
    expect(body.length).toBeGreaterThan(200)
    expect(source).toMatch(/seen|memory|[Cc]ommon practice|measured by this project/)
  }
})

it('says where the slider stands', () => {
  expect(outWords('overshoot', 0)).toBe('as drawn')
  expect(outWords('overshoot', 1)).toBe('on the line')
  expect(outWords('bars', -1)).toBe('thinned twice as much')
  expect(outWords('bars', 0.5)).toBe('50% of the way to: as thick as the stem')
})
