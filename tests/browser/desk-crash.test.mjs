import assert from 'node:assert/strict'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { launchKept } from './lib/chromium.mjs'
import { dist } from './lib/place.mjs'
import { serve } from './lib/server.mjs'

const CRASHES = 50

/** Moments, the same in every run: a crash that loses something is to be found again. */
function moments(seed) {
  let state = seed
  return () => {
    state = (state * 48271) % 2147483647
    return state / 2147483647
  }
}

test(`a page that dies at any of ${CRASHES} moments of writing loses nothing that it called saved`, { timeout: 600_000 }, async () => {
  const server = await serve(dist)
  const profile = mkdtempSync(join(tmpdir(), 'desk-'))
  const context = await launchKept(profile)
  const random = moments(20261125)
  const told = new Map()
  let asked = 0
  try {
    for (let crash = 0; crash < CRASHES; crash += 1) {
      const page = await context.newPage()
      await page.exposeFunction('toldSaved', (id, note) => told.set(id, note))
      await page.goto(server.address)
      await page.waitForFunction(() => document.querySelector('lab-sheet')?.state.review.font, undefined, { timeout: 60_000 })
      // What was called saved before is there, in the store and on the page.
      const kept = await page.evaluate(() => document.querySelector('lab-sheet').state.review)
      assert.equal(kept.kept, 'kept', `the store opens after crash ${crash}`)
      const notes = new Map(kept.reviews.map(({ id, note }) => [id, note]))
      for (const [id, note] of told) {
        const there = Number(notes.get(id)?.split(' ')[1] ?? -1)
        assert.ok(there >= Number(note.split(' ')[1]), `${id}: saved as “${note}”, found “${notes.get(id)}” after crash ${crash}`)
      }
      // Words as fast as they can be said; the page tells of each one that it shows as saved.
      await page.evaluate((begin) => {
        const sheet = document.querySelector('lab-sheet')
        const letters = 'ABCDEFGHIJ'
        let count = begin
        const say = () => {
          const letter = letters[count % letters.length]
          sheet.review({ letter, cause: null }, `note ${count}`)
          count += 1
        }
        const heard = new Map()
        const look = () => {
          const { review } = sheet.state
          // The page shows “Saved.” when nothing is on its way any more.
          if (review.writing > 0) return
          for (const { id, note } of review.reviews) {
            if (heard.get(id) === note) continue
            heard.set(id, note)
            globalThis.toldSaved(id, note)
          }
        }
        setInterval(() => {
          for (let words = 0; words < 3; words += 1) say()
        }, 40)
        setInterval(look, 5)
      }, asked)
      const session = await context.newCDPSession(page)
      await new Promise((resolve) => setTimeout(resolve, 20 + 400 * random()))
      asked += 100_000
      const died = page.waitForEvent('crash')
      session.send('Page.crash').catch(() => {})
      await died
      await page.close()
    }
    assert.ok(told.size > 0, 'something was called saved')
    console.log(`${CRASHES} crashes; words on ${told.size} letters were called saved, and found`)
  } finally {
    await context.close()
    await server.close()
    rmSync(profile, { recursive: true, force: true })
  }
})
