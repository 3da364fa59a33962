/** The same page in two browsers: the same figures, and the same pictures as far as two rasterisers draw the same. */
import assert from 'node:assert/strict'
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { apart, figures, hold, same, scenes, sized, stage, withWords } from './lib/alike.mjs'
import * as chromium from './lib/chromium.mjs'
import * as firefox from './lib/firefox.mjs'
import { LabPage, wide } from './lib/lab.mjs'
import { dist, screenshots } from './lib/place.mjs'
import { serve } from './lib/server.mjs'

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

async function brought(name, scene) {
  const { colorScheme } = scene
  const lab = await home.open(name, colorScheme ? { colorScheme } : {})
  await stage(lab, scene)
  return lab
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
    same(seen.chromium.figures, seen.firefox.figures)
    hold(seen.chromium.picture, seen.firefox.picture, scene.most, (told) => t.diagnostic(told))
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
