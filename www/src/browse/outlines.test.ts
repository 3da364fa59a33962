import { expect, test } from 'vitest'
import type { Drawing } from '../core/counterpoise_browse.js'
import { Outlines } from './outlines'

const settle = () => new Promise((resolve) => setTimeout(resolve))

function made(path: (glyph: number) => string | null = (glyph) => `M${glyph}`) {
  const asked: number[][] = []
  const errors: unknown[] = []
  const draw = async (glyphs: Uint16Array): Promise<Drawing[]> => {
    asked.push([...glyphs])
    return [...glyphs].map((glyph) => ({ name: `g${glyph}`, path: path(glyph), ink: [0, 10] }))
  }
  const outlines = new Outlines(
    draw,
    (text) => text,
    (error) => error !== undefined && errors.push(error),
  )
  return { outlines, asked, errors }
}

const range = (from: number, to: number) => Array.from({ length: to - from }, (_, at) => from + at)

test('each is asked for once, some at a time', async () => {
  const { outlines, asked } = made()
  outlines.want([...range(0, 100), 5])
  await settle()
  outlines.want(range(0, 101))
  await settle()
  expect(asked.map((one) => one.length)).toEqual([64, 36, 1])
  expect(outlines.of(5)).toEqual({ name: 'g5', path: 'M5', ink: [0, 10] })
  expect(outlines.of(500)).toBeUndefined()
})

test('what has gone out of view is wanted no more', async () => {
  const { outlines, asked } = made()
  outlines.want(range(0, 1000))
  outlines.want(range(2000, 2010))
  await settle()
  expect(asked).toEqual([range(0, 64), range(2000, 2010)])
})

test('those not looked at for the longest go first', async () => {
  const { outlines } = made()
  for (let from = 0; from < 4000; from += 500) {
    outlines.want(range(from, from + 500))
    await settle()
  }
  expect(outlines.size).toBe(4000)
  expect(outlines.of(0)).toBeDefined()
  outlines.want(range(4000, 4010))
  await settle()
  expect(outlines.size).toBe(4000)
  expect(outlines.of(0)).toBeDefined()
  expect(outlines.of(1)).toBeUndefined()
  expect(outlines.of(4009)).toBeDefined()
})

test('large ones leave room for fewer, and the newest always stays', async () => {
  const { outlines } = made(() => 'M'.repeat(1_000_000))
  outlines.want(range(0, 20))
  await settle()
  expect(outlines.size).toBe(6)
  expect(outlines.of(19)).toBeDefined()
})

test('without ink, and what cannot be drawn, are told apart', async () => {
  const { outlines } = made((glyph) => (glyph === 1 ? '' : null))
  outlines.want([1, 2])
  await settle()
  expect(outlines.of(1)?.path).toBeUndefined()
  expect(outlines.of(2)?.path).toBeNull()
})

test('a worker that ends is told of, once', async () => {
  const errors: unknown[] = []
  const outlines = new Outlines(
    () => Promise.reject(new Error('gone')),
    (text) => text,
    (error) => error && errors.push(error),
  )
  outlines.want(range(0, 200))
  await settle()
  expect(errors.length).toBe(1)
})
