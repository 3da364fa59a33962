/** The same page in two browsers: the same figures, and the same pictures as far as two rasterisers draw the same. */
import assert from 'node:assert/strict'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import * as chromium from './lib/chromium.mjs'
import * as firefox from './lib/firefox.mjs'
import { font } from './lib/fonts.mjs'
import { LabPage, wide } from './lib/lab.mjs'
import { dist, screenshots } from './lib/place.mjs'
import { serve } from './lib/server.mjs'

/**
 * How two pictures may differ. Both browsers fill the same paths, each with its own antialiasing: what differs is
 * how much of a pixel on an edge is taken to be covered. So no pixel may differ by more than half of all there is
 * between ink and ground, which an edge moved by half a pixel would, and few by more than a quarter. Measured
 * (Chromium 148, Firefox 140): none of the letters' pixels by a half, 0.07% of the inked ones by a quarter.
 *
 * Words on the canvas are set by each browser's own text, which may place a letter a third of a pixel aside: where
 * there are words, 0.2% were measured by a quarter and 0.2% by a half.
 */
const QUARTER = 64
const HALF = 128
const letters = { quarter: 0.005, half: 0 }
const withWords = { quarter: 0.01, half: 0.005 }

/** Keys that put out all but the ink of the letters. */
const inkAlone = ['4', '5', '6']

const scenes = {
  'the sample’s letters': { keys: inkAlone, most: letters },
  'a CFF face’s letters': {
    file: 'heros.otf',
    family: 'Heros',
    text: 'Hamburgefonstiv',
    keys: inkAlone,
    most: letters,
  },
  'a serif’s outlines and points': {
    file: 'ebgaramond.otf',
    family: 'EB Garamond',
    text: 'RQag&',
    keys: ['1', '2', '3', ...inkAlone],
    most: letters,
  },
  'the sample with every word': { keys: [], most: withWords },
  'the sample with every word, dark': { colorScheme: 'dark', keys: [], most: withWords },
  'a finding among its neighbours': { keys: ['j', 'j'], most: withWords },
}

let home
before(async () => {
  const server = await serve(dist, firefox.served)
  const browsers = { chromium: await chromium.launch(), firefox: await firefox.launch() }
  home = {
    server,
    async open(name, options = {}) {
      const context = await browsers[name].newContext({
        viewport: wide,
        deviceScaleFactor: 1,
        serviceWorkers: 'block',
        colorScheme: 'light',
        ...options,
      })
      const lab = new LabPage(await context.newPage())
      await lab.page.goto(server.address)
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

/** Gives the stage the same room in both, whatever the heights of the lines of words about it. */
async function sized(lab) {
  await lab.page.evaluate(() => {
    const stage = document.querySelector('lab-sheet').shadowRoot.querySelector('stage-view')
    stage.style.cssText = 'position: fixed; left: 0; top: 0; width: 1000px; height: 600px; z-index: 9'
  })
  await lab.frame()
  await lab.press('0')
}

async function brought(name, { file, family, text, keys, colorScheme }) {
  const lab = await home.open(name, colorScheme ? { colorScheme } : {})
  if (file) {
    await lab.open({ name: file, bytes: font(file) }, family)
    await lab.judged()
  }
  if (text) await lab.setText(text)
  await lab.canvas.focus()
  for (const key of keys) await lab.press(key)
  await sized(lab)
  return lab
}

/** Every measure of every letter on the line, and what stands out. */
const figures = (lab) =>
  lab.page.evaluate(() => {
    const sheet = document.querySelector('lab-sheet')
    const { stage, judgement } = sheet.state
    return { letters: stage.items.map((item) => sheet.letter(item.glyph)), view: stage.view, findings: judgement.report.findings }
  })

/** Holds two values against each other; numbers may differ as sines of two machines do. */
function same(one, other, path) {
  if (typeof one === 'number' && typeof other === 'number') {
    assert.ok(Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one)), `${path}: ${one} and ${other}`)
    return
  }
  if (one === null || typeof one !== 'object') {
    assert.equal(one, other, path)
    return
  }
  assert.deepEqual(Object.keys(one), Object.keys(other), path)
  for (const key of Object.keys(one)) same(one[key], other[key], `${path}.${key}`)
}

/** Shares of the inked pixels that differ by more than a quarter and a half of what there is. */
function apart(one, other) {
  assert.equal(one.length, other.length, 'two sizes')
  const count = { ink: 0, quarter: 0, half: 0 }
  for (let at = 0; at < one.length; at += 4) {
    const by = (from, to) =>
      Math.max(Math.abs(from[at] - to[at]), Math.abs(from[at + 1] - to[at + 1]), Math.abs(from[at + 2] - to[at + 2]))
    const ground = Math.max(Math.abs(one[at] - one[0]), Math.abs(one[at + 1] - one[1]), Math.abs(one[at + 2] - one[2]))
    if (ground > QUARTER) count.ink += 1
    const differs = by(one, other)
    if (differs > QUARTER) count.quarter += 1
    if (differs > HALF) count.half += 1
  }
  return count
}

for (const [what, scene] of Object.entries(scenes)) {
  test(`${what}: the same in Chromium and in Firefox`, async (t) => {
    const seen = {}
    for (const name of ['chromium', 'firefox']) {
      const lab = await brought(name, scene)
      seen[name] = { figures: await figures(lab), picture: await lab.bitmap() }
      mkdirSync(screenshots, { recursive: true })
      await lab.page.screenshot({ path: join(screenshots, `two-${what.replaceAll(/\W+/g, '-')}-${name}.png`) })
      await lab.close()
    }
    same(seen.chromium.figures, seen.firefox.figures, 'figures')
    const { ink, quarter, half } = apart(seen.chromium.picture, seen.firefox.picture)
    t.diagnostic(`${ink} inked pixels; ${quarter} differ by a quarter, ${half} by a half`)
    assert.ok(ink > 3000, `${ink} inked pixels`)
    assert.ok(quarter <= scene.most.quarter * ink, `${quarter} of ${ink} differ by a quarter`)
    assert.ok(half <= scene.most.half * ink, `${half} of ${ink} differ by a half`)
  })
}

test('a picture of another line is told apart', async () => {
  const [one, other] = [await home.open('chromium'), await home.open('chromium')]
  await other.setText('HOVRnovmq')
  for (const lab of [one, other]) await sized(lab)
  const { ink, quarter } = apart(await one.bitmap(), await other.bitmap())
  assert.ok(quarter > withWords.quarter * ink, `${quarter} of ${ink}`)
  await one.close()
  await other.close()
})

test('Firefox opens the page as it is, without the word that its driver needs', async (t) => {
  const server = await serve(dist)
  t.after(() => server.close())
  const browser = await firefox.launch()
  t.after(() => browser.close())
  const page = await (await browser.newContext({ viewport: wide })).newPage()
  const errors = []
  page.on('pageerror', (error) => errors.push(String(error)))
  await page.goto(server.address)
  await page.getByRole('heading', { name: /Brigaroe/ }).waitFor()
  await page.getByRole('heading', { name: 'What stands out' }).waitFor()
  await page.getByRole('button', { name: /^1\s/ }).first().waitFor()
  // The policy is in force: it stops the driver's own `eval`, and nothing of the page's.
  assert.deepEqual(errors.filter((one) => !/blocked a JavaScript eval/.test(one)), [])
})
