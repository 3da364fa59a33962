import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { axeInBoth } from './lib/axe.mjs'
import { openByKey, review, tabTo } from './lib/desk.mjs'
import { house, narrow, wide } from './lib/lab.mjs'
import { root } from './lib/place.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const sample = (name) => readFileSync(join(root, 'www/public/sample', name))
const faulty = { name: 'brigaroe-1.ttf', bytes: sample('sample.ttf') }
const mended = { name: 'brigaroe-2.ttf', bytes: sample('sample-clean.ttf') }


const dialog = (lab, name) => lab.page.getByRole('dialog', { name })

test('a submission is reviewed by keyboard alone, a sheet goes out, a second revision comes, findings settle, the forecast moves', async () => {
  const lab = await home.open({ acceptDownloads: true })
  await lab.ready()
  await lab.page.clock.setSystemTime(new Date('2026-03-02T09:00:00Z'))
  await openByKey(lab, faulty, 'Brigaroe')

  // On the shelf.
  await lab.press('Shift+S')
  await tabTo(lab, /^Put Brigaroe on the shelf$/)
  await lab.press('Enter')
  await tabTo(lab, /^Working title$/)
  await lab.page.keyboard.press('Control+a')
  await lab.page.keyboard.type('Ferry')
  await tabTo(lab, /^Put it on the shelf$/)
  await lab.press('Enter')
  await dialog(lab, 'The shelf').getByRole('button', { name: /^Ferry/ }).waitFor()
  const first = await dialog(lab, 'The shelf').getByRole('button', { name: /^Ferry/ }).innerText()
  assert.match(first, /came in today and has no answer yet/)
  assert.match(first, /Too little history to tell\. By the rule of thumb/)
  await lab.press('Escape')

  // The whole alphabet, a key a letter.
  await lab.press('Shift+Y')
  const letters = [...(await lab.stage()).text]
  assert.ok(letters.length >= 62, letters.join(''))
  const named = new Set((await lab.state()).judgement.report.findings.filter((one) => one.byChance <= 1).map((one) => one.letter))
  const start = performance.now()
  for (const letter of letters) await lab.page.keyboard.press(named.has(letter) ? 'v' : 'y')
  await lab.kept()
  const each = (performance.now() - start) / letters.length
  console.log(`a word on each of ${letters.length} letters, kept: ${each.toFixed(0)} ms a letter`)
  let said = await review(lab)
  assert.equal(said.reviews.length, letters.length)
  assert.equal(said.reviews.filter(({ verdict }) => verdict === 'again').length, named.size)
  assert.equal(said.failed, null)

  // A finding, a note, a mark.
  await lab.press('j')
  await lab.press('Shift+W')
  await lab.page.keyboard.type('Take points out; the <b>curve</b> knows the way.')
  await lab.press('Escape')
  await lab.press('Shift+O')
  await lab.press('ArrowRight')
  await lab.press('Shift+ArrowRight')
  await lab.press('Escape')
  await lab.press('w')
  await lab.kept()
  said = await review(lab)
  const finding = said.reviews.find(({ cause }) => cause !== null)
  assert.equal(finding.verdict, 'redraw')
  assert.match(finding.note, /<b>curve<\/b>/)
  assert.equal(finding.marks.length, 1)

  // Back and forth.
  await lab.press('z')
  assert.equal((await review(lab)).reviews.find(({ cause }) => cause !== null).verdict, null)
  await lab.press('Shift+Z')
  assert.equal((await review(lab)).reviews.find(({ cause }) => cause !== null).verdict, 'redraw')
  await lab.kept()

  // The sheet goes out.
  await lab.press('Shift+H')
  await dialog(lab, 'The sheet for the artist').getByRole('heading', { name: 'Ferry' }).waitFor()
  await tabTo(lab, /^It goes out today$/)
  await lab.press('Enter')
  await dialog(lab, 'The sheet for the artist').getByText('Handed back on 2 Mar 2026.').waitFor()
  await lab.picture('desk-sheet')
  await lab.press('Escape')

  // Two weeks on, the next revision.
  await lab.page.clock.setSystemTime(new Date('2026-03-16T09:00:00Z'))
  await openByKey(lab, mended, 'Brigaroe')
  await lab.page.getByText('Is it the next revision?').waitFor()
  await lab.picture('desk-offer')
  await tabTo(lab, /^Take it in$/)
  await lab.press('Enter')
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.review.number === 2)
  // The comparison with the revision before opens of itself.
  const compared = dialog(lab, 'The redraw')
  await compared.getByText('What stood out before, and now').waitFor()
  assert.match(await compared.getByText(/letters changed/).innerText(), /^\d+ letters changed, 0 came, 0 went, \d+ are the same\.$/)
  assert.ok((await compared.locator('.fate', { hasText: 'Settled' }).count()) >= 3)
  await lab.picture('desk-compared')
  await lab.press('Escape')
  const { fates } = await review(lab)
  const settled = fates.filter(({ fate }) => fate === 'settled')
  assert.ok(settled.length >= 3, JSON.stringify(fates.map(({ letter, cause, fate }) => `${letter} ${cause} ${fate}`)))
  await lab.page.getByText(/^Since revision 1: \d+ settled/).waitFor()

  // What was drawn anew is looked at again, and found good.
  await lab.canvas.focus()
  await lab.press('Shift+Y')
  const asked = new Set((await review(lab)).reviews.filter(({ verdict }) => verdict === 'again').map(({ letter }) => letter))
  const from = (await lab.stage()).items.findIndex((item) => item.selected)
  assert.ok(asked.has(letters[from]), 'the first that wants a look is chosen')
  for (const letter of letters.slice(from)) await lab.page.keyboard.press(asked.has(letter) ? 'y' : 'n')
  await lab.kept()

  await lab.press('Shift+S')
  // The shelf stands before its first picture: what is not yet drawn has no text.
  await dialog(lab, 'The shelf').getByText(/Revision 2 came in today and has no answer yet/).waitFor()
  const second = await dialog(lab, 'The shelf').getByRole('button', { name: /^Ferry/ }).innerText()
  assert.match(second, /Revision 2 came in today and has no answer yet/)
  assert.match(second, /letters a (?:week|month)|Whole\./)
  assert.doesNotMatch(second, /rule of thumb/)
  console.log(second.replaceAll('\n', ' | '))
  await lab.picture('desk-forecast')
  assert.deepEqual(lab.errors, [])

  // And all of it is there the next day.
  await lab.page.reload()
  await lab.ready()
  await openByKey(lab, mended, 'Brigaroe')
  said = await review(lab)
  assert.deepEqual([said.number, said.shelved.title], [2, 'Ferry'])
  assert.equal(said.reviews.length, letters.length + 1)
  await lab.close()
})

const rooms = {
  'the review of a finding': async (lab) => {
    await lab.press('j')
    await lab.press('Shift+O')
    await lab.press('w')
  },
  'an empty shelf': async (lab) => {
    await lab.press('Shift+S')
    await lab.page.getByText('Nothing is on the shelf yet').waitFor()
  },
  'a shelf with a font taken down': async (lab) => {
    await lab.press('Shift+S')
    await lab.page.getByRole('button', { name: 'Show an example shelf' }).click()
    await lab.page.getByRole('button', { name: /^Marrowbone/ }).click()
    await lab.page.getByText(/^Portuguese: /).waitFor()
  },
  'a font to be put on the shelf': async (lab) => {
    await lab.press('Shift+S')
    await lab.page.getByRole('button', { name: /^Put Brigaroe/ }).click()
    await lab.page.getByLabel('Working title').waitFor()
  },
  'the sheet': async (lab) => {
    await lab.press('j')
    await lab.press('w')
    await lab.press('Shift+H')
    await lab.page.locator('desk-handback .sheet').waitFor()
  },
}

for (const [size, viewport] of Object.entries({ wide, narrow })) {
  test(`nothing on the desk stands in anyone's way: ${size}, light and dark`, async () => {
    for (const [what, bring] of Object.entries(rooms)) {
      const touch = size === 'narrow' ? { hasTouch: true, isMobile: true } : {}
      const lab = await home.open({ colorScheme: 'light', viewport, ...touch })
      await lab.ready()
      await lab.judged()
      await lab.canvas.focus()
      await bring(lab)
      await lab.frame()
      const over = await lab.page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      )
      assert.equal(over, 0, `${what} scrolls sideways`)
      await axeInBoth(lab, what, (scheme) => `desk-${what.replaceAll(' ', '-')}-${scheme}-${size}`)
      assert.deepEqual(lab.errors, [], what)
      await lab.close()
    }
  })
}

test('a mark keeps to its letter when it moves, and the pointer moves the mark', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  await lab.setText('HOno')
  await lab.canvas.focus()
  await lab.press('n')
  await lab.press('n')
  await lab.press('Shift+O')
  const mark = lab.page.locator('desk-marks .own')
  await mark.waitFor()
  const centre = async () => {
    const grip = await lab.page.locator('desk-marks .grip').first().boundingBox()
    return { x: grip.x + grip.width / 2, y: grip.y + grip.height / 2 }
  }
  const before_ = await centre()
  await lab.canvas.focus()
  for (let presses = 0; presses < 5; presses += 1) await lab.press('Shift+ArrowRight')
  await lab.frame()
  const { scale } = (await lab.stage()).view
  assert.ok(Math.abs((await centre()).x - before_.x - 50 * scale) < 0.5, 'it goes with its letter')
  const held = await centre()
  await lab.drag(held, { x: held.x + 40, y: held.y - 30 })
  const [{ marks }] = (await review(lab)).reviews
  const moved = await centre()
  assert.ok(Math.abs(moved.x - held.x - 40) < 1 && Math.abs(moved.y - held.y + 30) < 1)
  assert.ok(marks[0].from.every(Number.isInteger), 'held in the letter’s own units')
  // Upside down it would point elsewhere.
  await lab.canvas.focus()
  await lab.press('u')
  assert.equal(await lab.page.locator('desk-marks .own').count(), 0)
  await lab.close()
})

test('two tabs say each their own, and hear of each other', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  const page = await lab.page.context().newPage()
  await page.goto(home.address)
  await page.waitForFunction(() => document.querySelector('lab-sheet')?.state.review.font)
  const say = (on, text, verdict, moment) =>
    on.evaluate(
      async ([text, verdict, moment]) => {
        const sheet = document.querySelector('lab-sheet')
        const field = () => sheet.shadowRoot.querySelector('desk-review').shadowRoot.querySelector('textarea')
        while (!field()) await new Promise((resolve) => requestAnimationFrame(resolve))
        if (Date.now() > moment) throw new Error('too late for the moment')
        while (Date.now() < moment);
        field().value = text
        field().dispatchEvent(new Event('input', { bubbles: true }))
        field().dispatchEvent(new Event('change', { bubbles: true }))
        const words = sheet.shadowRoot.querySelector('desk-review').shadowRoot.querySelectorAll('.words button')
        if (verdict !== null) words[verdict].click()
      },
      [text, verdict, moment],
    )
  for (const on of [lab.page, page]) await on.keyboard.press('j')
  // At one moment: a tab that had heard of the other's words would be writing over them on purpose.
  const moment = Date.now() + 3000
  await Promise.all([say(lab.page, 'From the first tab.', null, moment), say(page, 'From the other tab.', 1, moment)])
  await lab.page.waitForTimeout(500)
  await lab.kept()
  const [kept] = await lab.records('reviews')
  for (const words of ['From the first tab.', 'From the other tab.']) assert.ok(kept.note.includes(words), kept.note)
  assert.equal(kept.verdict, 'redraw')
  // Both show it, without having been asked.
  for (const on of [lab.page, page]) {
    await on.waitForFunction((note) => document.querySelector('lab-sheet').state.review.reviews[0]?.note === note, kept.note)
  }
  await lab.close()
})

test('a browser that keeps nothing is told of, and reviews all the same', async () => {
  const lab = await home.open()
  await lab.page.addInitScript(() => {
    indexedDB.open = () => {
      throw new DOMException('no', 'InvalidStateError')
    }
  })
  await lab.page.reload()
  await lab.ready()
  await lab.judged()
  await lab.press('j')
  await lab.press('w')
  assert.equal((await review(lab)).reviews[0].verdict, 'redraw')
  await lab.page.getByText(/This browser keeps nothing for this page \(private windows often do not\)/).waitFor()
  await lab.press('Shift+S')
  await lab.page.getByText(/so there is no shelf/).waitFor()
  await lab.press('Escape')
  await lab.press('Shift+H')
  await lab.page.locator('desk-handback .sheet').waitFor()
  await lab.close()
})

test('a desk goes into a file and comes back; what is none of ours is refused, and nothing of it runs', async () => {
  const lab = await home.open({ acceptDownloads: true })
  await lab.ready()
  await lab.judged()
  await lab.press('j')
  await lab.press('w')
  await lab.press('Shift+S')
  await lab.page.getByRole('button', { name: 'Show an example shelf' }).click()
  await lab.page.getByRole('button', { name: /^Marrowbone/ }).waitFor()
  const { name: called, bytes } = await lab.saved(() =>
    lab.page.getByRole('button', { name: 'Save the desk to a file' }).click(),
  )
  assert.match(called, /^\d{4}-\d\d-\d\d-desk\.zip$/)

  const other = await home.open()
  await other.ready()
  await other.judged()
  await other.page.evaluate(() => {
    globalThis.ran = 0
  })
  await other.press('Shift+S')
  const bring = (name, bytes) =>
    other.choose(() => other.page.getByRole('button', { name: 'Bring in a desk' }).click(), {
      name,
      mimeType: 'application/zip',
      bytes,
    })
  await bring('half-desk.zip', bytes.subarray(0, bytes.length >> 1))
  await other.page.getByText(/half-desk\.zip: The file is damaged or was not sent whole/).waitFor()
  await bring('letter.zip', Buffer.from('Dear all'))
  await other.page.getByText(/letter\.zip: This is no desk/).waitFor()
  assert.deepEqual(await other.records('fonts'), [])
  await bring('a-desk.zip', bytes)
  await other.page.getByRole('button', { name: /^Marrowbone/ }).waitFor()
  assert.equal((await other.records('fonts')).length, 6)
  assert.equal((await review(other)).reviews[0].verdict, 'redraw', 'the words are on the stage at once')
  // All of it can be taken back, and brought in again.
  await other.page.getByRole('button', { name: 'Take back what a-desk.zip brought' }).click()
  await other.page.getByRole('button', { name: /^Marrowbone/ }).waitFor({ state: 'detached' })
  assert.deepEqual([await other.records('fonts'), (await review(other)).reviews], [[], []])
  await bring('a-desk.zip', bytes)
  await other.page.getByRole('button', { name: /^Marrowbone/ }).waitFor()

  // A stranger's names and notes are text, wherever they are shown.
  await other.page.evaluate(
    () =>
      new Promise((resolve) => {
        const open = indexedDB.open('counterpoise-desk')
        open.onsuccess = () => {
          const tx = open.result.transaction(['fonts', 'reviews'], 'readwrite')
          const evil = '"><img src=x onerror="globalThis.ran=1"><script>globalThis.ran=1</script>'
          tx.objectStore('fonts').getAll().onsuccess = ({ target }) => {
            const [font] = target.result
            tx.objectStore('fonts').put({ ...font, title: evil, contributor: evil, note: evil })
          }
          tx.objectStore('reviews').getAll().onsuccess = ({ target }) => {
            const [one] = target.result
            tx.objectStore('reviews').put({ ...one, note: evil })
          }
          tx.oncomplete = () => {
            open.result.close()
            resolve()
          }
        }
      }),
  )
  await other.page.reload()
  await other.ready()
  await other.judged()
  await other.page.evaluate(() => {
    globalThis.ran = 0
  })
  await other.press('Shift+H')
  await other.page.locator('desk-handback .note', { hasText: 'onerror' }).waitFor()
  await other.press('Escape')
  await other.press('Shift+S')
  await other.page.getByRole('button', { name: /img src=x/ }).click()
  await other.page.waitForTimeout(300)
  assert.equal(await other.page.evaluate(() => globalThis.ran), 0)
  assert.deepEqual(other.errors, [])
  await lab.close()
  await other.close()
})
