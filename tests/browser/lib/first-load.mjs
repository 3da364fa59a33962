/**
 * The first visit: nothing kept, through a network that is none of the best. Prints nothing; gives what one visit
 * took, and bench.mjs makes rows of it.
 */
import { readFile } from 'node:fs/promises'
import { brotliCompressSync, constants } from 'node:zlib'
import { wide } from './lab.mjs'
import { categories, tasks } from './trace.mjs'

/**
 * Networks to load the page through, as Chromium's own developer tools publish them for the protocol that is used
 * here (ChromeDevTools/devtools-frontend, front_end/core/sdk/NetworkManager.ts, Fast4GConditions and
 * Slow4GConditions): of a nominal line 0.9 of the throughput, and its round trip multiplied, since the protocol
 * delays a request once and not each packet of it. Bytes a second, and milliseconds.
 *
 * One second can be asked of the first alone: 650 KB cross it in 0.64 s. Of the second, which is also what
 * Lighthouse loads pages through (1.6 Mbit/s, 150 ms), no order of files makes a second: its 180 KB a second
 * bring the WebAssembly in 2.2 s. It is told and held to nothing.
 */
export const networks = {
  'fast 4G (9 Mbit/s, 60 ms)': {
    downloadThroughput: ((9 * 1000 * 1000) / 8) * 0.9,
    uploadThroughput: ((1.5 * 1000 * 1000) / 8) * 0.9,
    latency: 60 * 2.75,
  },
  'slow 4G (1.6 Mbit/s, 150 ms)': {
    downloadThroughput: ((1.6 * 1000 * 1000) / 8) * 0.9,
    uploadThroughput: ((750 * 1000) / 8) * 0.9,
    latency: 150 * 3.75,
  },
}

/** Files as a host sends them that packed them once, at its leisure; and how many bytes of them it sent. */
export function packing() {
  const known = new Map()
  const host = {
    bytes: 0,
    async sent(path) {
      if (!known.has(path)) {
        const bytes = await readFile(path)
        const { BROTLI_PARAM_QUALITY, BROTLI_MAX_QUALITY, BROTLI_PARAM_SIZE_HINT } = constants
        const params = { [BROTLI_PARAM_QUALITY]: BROTLI_MAX_QUALITY, [BROTLI_PARAM_SIZE_HINT]: bytes.length }
        known.set(path, { bytes: brotliCompressSync(bytes, { params }), encoding: 'br' })
      }
      const file = known.get(path)
      host.bytes += file.bytes.length
      return file
    },
  }
  return host
}

/** Runs in the page before all else: notes when the sample's letters are drawn and the stage has heeded a key. */
function watch() {
  const look = () => {
    const lab = document.querySelector('lab-sheet')
    const stage = lab?.shadowRoot?.querySelector('stage-view')?.shadowRoot?.querySelector('canvas')
    if (stage && performance.getEntriesByName('font-drawn').length > 0) {
      const press = { key: 'n', code: 'KeyN', bubbles: true, composed: true, cancelable: true }
      stage.dispatchEvent(new KeyboardEvent('keydown', press))
      if (lab.state.stage.items.some((item) => item.selected)) {
        window.heeded = performance.now()
        return
      }
    }
    setTimeout(look, 2)
  }
  look()
}

/**
 * Visits the page for the first time. Milliseconds from the navigation till the stage heeds a key, and till the
 * letters are judged; where it is `traced`, which slows it, the longest task of the page's own thread too.
 */
export async function firstVisit(browser, address, network, traced) {
  const context = await browser.newContext({ viewport: wide, serviceWorkers: 'block' })
  const page = await context.newPage()
  await page.addInitScript(watch)
  const session = await context.newCDPSession(page)
  await session.send('Network.enable')
  await session.send('Network.setCacheDisabled', { cacheDisabled: true })
  if (network) await session.send('Network.emulateNetworkConditions', { offline: false, ...network })
  if (traced) await browser.startTracing(page, { categories: ['toplevel', ...categories] })
  await page.goto(address)
  await page.waitForFunction(() => window.heeded !== undefined)
  await page.waitForFunction(() => document.querySelector('lab-sheet').state.judgement.kind === 'done')
  const took = await page.evaluate(() => ({ heeded: window.heeded, judged: performance.now() }))
  if (traced) {
    // What the worker finds comes in, and is shown: that is part of a first visit's tasks.
    await page.waitForFunction(() => document.querySelector('lab-sheet').state.survey.kind === 'done')
    const all = tasks(JSON.parse((await browser.stopTracing()).toString()).traceEvents)
    for (const by of ['worked', 'clock']) took[by] = Math.max(...all.map((one) => one[by]))
  }
  await context.close()
  return took
}
