import { expect, it } from 'vitest'
import { type TrialData, toCsv, toJson } from './eye-data'
import { equalWords, ownWords } from './eye-words'

const data: TrialData = {
  setup: {
    matter: 'taller',
    letter: 'O',
    beside: 'H',
    least: -4,
    most: 10,
    step: 0.5,
    own: 1.9,
    handbook: 3,
    questions: 60,
    settles: [0.71, 0.29],
  },
  result: {
    answers: [
      { staircase: 0, level: 8.5, second: true, larger: true, turned: false },
      { staircase: 1, level: -2, second: false, larger: false, turned: true },
    ],
    levels: [],
    fit: { equal: 2.04, low: 1.1, high: 3.26, spread: 1, curve: [[0, 0.1]] },
    settled: [null, 1.5],
  },
  took: [1234.4, 987.6],
  font: 'A Face, "Bold"',
}

it('writes a line an answer', () => {
  expect(toCsv(data)).toBe(
    'number,staircase,level,second,larger,turned,milliseconds\r\n1,0,8.5,1,1,0,1234\r\n2,1,-2,0,0,1,988\r\n',
  )
})

it('writes everything as JSON, under a mark and a version', () => {
  const read = JSON.parse(toJson(data))
  expect(read).toMatchObject({ format: 'counterpoise-eye', version: 1, font: data.font, own: 1.9 })
  expect(read.answers[1]).toMatchObject({ number: 2, level: -2, milliseconds: 987.6 })
  expect(read.fit).toMatchObject({ equal: 2.04, low: 1.1, high: 3.26 })
})

it('says what was found, and where nothing was', () => {
  const { setup, result } = data
  const fit = result.fit
  if (!fit) throw new Error('no fit')
  expect(equalWords(setup, fit)).toMatch(/overshoot of 2% \(95% interval: 1.1% to 3.3%\)/)
  expect(equalWords(setup, { ...fit, low: null })).toMatch(/do not say .* lower side/)
  expect(ownWords(setup, fit)).toMatch(/within/)
  expect(ownWords({ ...setup, own: 9 }, fit)).toMatch(/above/)
})
