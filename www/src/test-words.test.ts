import { describe, expect, it } from 'vitest'
import { list } from '../build/words.mjs'
import { type LetterPair, wordsFor } from './test-words'

const words = list()

describe('the list', () => {
  it('is short, and shows nearly every pair that two letters of common words make', () => {
    expect(words.length).toBeLessThan(2500)
    const pairs = new Set(
      words.flatMap((word) => [...word].slice(1).map((letter, at) => `${word[at]}${letter}`)),
    )
    expect(pairs.size).toBeGreaterThan(450)
    for (const pair of ['av', 'va', 'ry', 'ty', 'ow', 'rn', 'ff', 'qu'])
      expect(pairs.has(pair), pair).toBe(true)
  })
})

describe('words for pairs', () => {
  it('holds each pair as it is written', () => {
    const asked: LetterPair[] = [
      ['T', 'o'],
      ['A', 'V'],
      ['r', 'y'],
      ['y', '.'],
    ]
    const line = wordsFor(asked, words)
    for (const [first, second] of asked) {
      expect(line.join(' '), `${first}${second}`).toContain(first + second)
    }
    expect(line.length).toBeLessThanOrEqual(asked.length)
  })

  it('leaves out what no word holds, and takes no word for nothing', () => {
    expect(wordsFor([['q', 'z']], words)).toEqual([])
    expect(wordsFor([], words)).toEqual([])
    expect(
      wordsFor(
        [
          ['t', 'h'],
          ['h', 'e'],
        ],
        ['their', 'heath', 'ch'],
      ),
    ).toEqual(['their'])
  })
})
