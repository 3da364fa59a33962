/** The page in WebKit: the same figures and pictures as in Chromium, and a review from the file to the word that is kept. */
import assert from 'node:assert/strict'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { figures, hold, letters, same, scenes, stage } from './lib/alike.mjs'
import * as chromium from './lib/chromium.mjs'
import { font } from './lib/fonts.mjs'
import { LabPage, wide } from './lib/lab.mjs'
import { dist, screenshots } from './lib/place.mjs'
import { serve } from './lib/server.mjs'
import * as webkit from './lib/webkit.mjs'

let home
before(async () => {
  const server = await serve(dist)
  const browsers = { chromium: await chromium.launch(), webkit: await webkit.launch(wide) }
  const open = {
    async chromium({ colorScheme = 'light' } = {}) {
      const context = await browsers.chromium.newContext({ viewport: wide, deviceScaleFactor: 1, serviceWorkers: 'block', colorScheme })
      const lab = new LabPage(await context.newPage())
      await lab.page.goto(server.address)
      return lab
    },
    async webkit({ colorScheme = 'light' } = {}) {
      const lab = await browsers.webkit.open()
      await lab.goto(server.address, { theme: colorScheme })
      return lab
    },
  }
  home = {
    /** The driver keeps one WebKit at a time: each is closed with its test, however that ends. */
    async open(t, name = 'webkit', scene = {}) {
      const lab = await open[name](scene)
      t.after(() => lab.close())
      await lab.ready()
      await lab.judged()
      return lab
    },
    async close() {
      for (const browser of Object.values(browsers)) await browser.close()
      await server.close()
    },
  }
})
after(() => home.close())

async function keep(lab, name) {
  mkdirSync(screenshots, { recursive: true })
  writeFileSync(join(screenshots, `webkit-${name}.png`), await lab.picture())
}

/**
 * Its ink is covered by other rules at edges, which shows most where outlines are hairlines; measured (WebKitGTK
 * 2.50): 0.15% and 0.42% of the letters' inked pixels by a quarter, 1.04% of hairlines, none by a half. Words are as
 * broad as its own text sets them, and labels give way to one another by their breadth: where there are words,
 * figures alone are held against each other.
 */
const most = { 'the sample’s letters': letters, 'a CFF face’s letters': letters, 'a serif’s outlines and points': { quarter: 0.015, half: 0 } }

for (const [what, scene] of Object.entries(scenes)) {
  test(`${what}: the same in Chromium and in WebKit`, async (t) => {
    const seen = {}
    for (const name of ['chromium', 'webkit']) {
      const lab = await home.open(t, name, scene)
      await stage(lab, scene)
      seen[name] = { figures: await figures(lab), picture: await lab.bitmap() }
      if (name === 'webkit') {
        await keep(lab, what.replaceAll(/\W+/g, '-'))
        assert.deepEqual(await lab.errors(), [])
      }
    }
    same(seen.chromium.figures, seen.webkit.figures)
    if (most[what]) hold(seen.chromium.picture, seen.webkit.picture, most[what], (told) => t.diagnostic(told))
  })
}

test('a word given by key is taken back, given again, and is there when the page is opened anew', async (t) => {
  const lab = await home.open(t)
  await lab.canvas.focus()
  await lab.press('j')
  const said = async () => (await lab.state()).review.reviews.map(({ letter, verdict }) => `${letter} ${verdict}`)
  await lab.press('w')
  const [word] = await said()
  assert.match(word, / redraw$/)
  await lab.press('z')
  assert.deepEqual((await said()).filter((one) => one === word), [])
  await lab.press('Shift+Z')
  assert.deepEqual(await said(), [word])
  await lab.until(() => document.querySelector('lab-sheet').state.review.writing === 0)
  await lab.reload()
  await lab.ready()
  await lab.judged()
  assert.deepEqual(await said(), [word])
  await keep(lab, 'kept')
  assert.deepEqual(await lab.errors(), [])
})

test('a letter is dragged along the line, and one key brings it back', async (t) => {
  const lab = await home.open(t)
  await lab.setText('HOno')
  const at = await lab.page.evaluate(() => {
    const sheet = document.querySelector('lab-sheet')
    const box = sheet.shadowRoot.querySelector('stage-view').shadowRoot.querySelector('canvas').getBoundingClientRect()
    const { items, view } = sheet.state.stage
    const [, letter] = items
    return {
      x: box.x + view.origin[0] + view.scale * (letter.x + letter.advance / 2),
      y: box.y + view.origin[1] - view.scale * 250,
    }
  })
  const moved = async () => (await lab.state()).stage.items[1].moved ?? 0
  assert.equal(await moved(), 0)
  await lab.drag(at, { x: at.x + 60, y: at.y })
  assert.ok((await moved()) > 20, `moved by ${await moved()}`)
  await lab.canvas.focus()
  await lab.press('Control+z')
  assert.equal(await moved(), 0)
  assert.deepEqual(await lab.errors(), [])
})

test('a packed font opens, what is no font gets a sentence, and the font before it stays', async (t) => {
  const lab = await home.open(t)
  await lab.open({ name: 'greatvibes.woff2', bytes: font('greatvibes.woff2') }, 'Great Vibes')
  await lab.judged()
  await keep(lab, 'packed')
  await lab.drop({ name: 'letter.ttf', bytes: Buffer.from('Dear foundry, here are my letters.') })
  await lab.until(() => document.querySelector('lab-sheet').state.notice !== null)
  const { notice, font: open } = await lab.state()
  assert.match(JSON.stringify(notice), /letter\.ttf/)
  assert.match(open.report.family, /Great Vibes/)
})

test('every letter is listed, and one is found by its block', async (t) => {
  const lab = await home.open(t)
  await lab.canvas.focus()
  await lab.press('*')
  const found = () => {
    const inside = (host, name) => host?.querySelector(name)?.shadowRoot
    const room = inside(inside(document.querySelector('lab-sheet').shadowRoot, 'desk-room'), 'browse-room')
    const lines = inside(room, 'letter-lines')
    return lines?.querySelector('.cell') ? room.querySelector('.found').textContent : null
  }
  await lab.until(found)
  assert.match(await lab.page.evaluate(found), /^79 letters/)
  await keep(lab, 'letters')
  assert.deepEqual(await lab.errors(), [])
})
