import assert from 'node:assert/strict'
import { cpSync, mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { test } from 'node:test'
import { launch } from './lib/chromium.mjs'
import { font } from './lib/fonts.mjs'
import { LabPage, wide } from './lib/lab.mjs'
import { dist } from './lib/place.mjs'
import { serve } from './lib/server.mjs'

/** A page in a browser that keeps it, from a folder that can be changed under it. */
async function visited(work) {
  const folder = mkdtempSync(join(tmpdir(), 'counterpoise-'))
  cpSync(dist, folder, { recursive: true })
  const [server, browser] = await Promise.all([serve(folder), launch()])
  try {
    const context = await browser.newContext({ viewport: wide, serviceWorkers: 'allow' })
    const page = await context.newPage()
    const lab = new LabPage(page)
    await page.goto(server.address)
    await lab.ready()
    // The first visit is over when all is kept: the worker is only then active.
    await page.evaluate(async () => {
      const { active, installing, waiting } = await navigator.serviceWorker.ready
      const worker = active ?? waiting ?? installing
      if (worker.state !== 'activated') await new Promise((resolve) => worker.addEventListener('statechange', resolve))
    })
    await work({ lab, page, context, server, folder })
  } finally {
    await browser.close()
    await server.close()
    rmSync(folder, { recursive: true })
  }
}

test('after one visit it opens without a network, with all its parts', () =>
  visited(async ({ lab, page, context, server }) => {
    await server.close()
    await context.setOffline(true)
    await page.reload()
    await lab.ready('Brigaroe')
    await lab.judged()
    await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
    await lab.canvas.focus()
    await lab.press('Shift+R')
    await page.locator('try-change').waitFor()
    await lab.press('Escape')
    await lab.press('Shift+S')
    await page.locator('desk-shelf').waitFor()
    await lab.press('Escape')
    await lab.setText('AVATo')
    await lab.canvas.focus()
    await lab.press('Shift+K')
    await page.waitForFunction(() => document.querySelector('lab-sheet').state.stage.spacing === 'kerned')
    assert.equal((await lab.state()).remark, null)
    // The page itself is asked for first, as there may be a newer one: that alone fails.
    const errors = lab.errors.filter((error) => !/ERR_(?:INTERNET_DISCONNECTED|CONNECTION_REFUSED)/.test(error))
    assert.deepEqual(errors, [])
  }))

test('an open page goes on with its own version when the host has a newer one, and loses no work', () =>
  visited(async ({ lab, page, folder }) => {
    await page.reload()
    await lab.ready()
    await lab.setText('HOn')
    // What a newer build does on a host: the parts of the older one are gone.
    for (const name of readdirSync(join(folder, 'assets'))) rmSync(join(folder, 'assets', name))
    await lab.canvas.focus()
    await lab.press('Shift+R')
    await page.locator('try-change').waitFor()
    assert.equal((await lab.stage()).text, 'HOn')
    assert.deepEqual(lab.errors, [])
  }))

test('it can be installed, and be opened with a font by the system', () =>
  visited(async ({ page }) => {
    const session = await page.context().newCDPSession(page)
    const { url, errors, data } = await session.send('Page.getAppManifest')
    assert.match(url, /manifest\.webmanifest$/)
    assert.deepEqual(errors, [])
    assert.ok(JSON.parse(data).file_handlers[0].accept['font/otf'])
    const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
    // A window that leaves no trace cannot install anything: that is the test's, not the page's.
    assert.deepEqual(
      installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito'),
      [],
    )
  }))
