import { expect, test } from 'vitest'
import { nextTask } from './tasks'
import { Turns } from './turns'

/** Whether a promise is fulfilled by now. */
async function fulfilled(promise: Promise<void>): Promise<boolean> {
  let done = false
  void promise.then(() => {
    done = true
  })
  await Promise.resolve()
  return done
}

test('what stands beside the stage waits for the first picture, and for none after it', async () => {
  const turns = new Turns()
  const { beside } = turns
  await nextTask()
  expect(await fulfilled(beside)).toBe(false)
  turns.pictured()
  expect(await fulfilled(beside)).toBe(true)
  expect(await fulfilled(turns.beside)).toBe(true)
})

test('a font that comes before the picture of another is waited for in its place', async () => {
  const turns = new Turns()
  const { beside } = turns
  turns.awaitPicture()
  turns.tookLong()
  expect(turns.beside).toBe(beside)
  turns.pictured()
  expect(await fulfilled(beside)).toBe(true)
  turns.awaitPicture()
  expect(await fulfilled(turns.beside)).toBe(false)
  turns.pictured()
  expect(await fulfilled(turns.beside)).toBe(true)
})

test('after what took long comes a task of its own', async () => {
  const turns = new Turns()
  turns.pictured()
  turns.tookLong()
  expect(await fulfilled(turns.beside)).toBe(false)
  await nextTask()
  expect(await fulfilled(turns.beside)).toBe(true)
})
