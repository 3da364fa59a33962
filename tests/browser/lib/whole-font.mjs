import { readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { font } from './fonts.mjs'
import { core } from './place.mjs'
import { timeFont } from './time-font.mjs'

const glue = 'counterpoise_web.js'
const module = 'counterpoise_web_bg.wasm'

/** The fonts that are timed natively too, and what their row is called there. */
const fonts = [
  { id: 'heros', file: 'heros.otf' },
  { id: 'roboto-slab', file: 'roboto-slab.otf' },
]

/** WebAssembly may take this many times what native code takes. */
const mostTimes = 2

/** Times the worker's survey of whole fonts, in Node and in the browser, and gives the rows. */
export async function wholeFonts(browser) {
  const rows = []
  const timed = { Node: await inNode(), Chromium: await inBrowser(browser) }
  for (const [place, times] of Object.entries(timed)) {
    for (const [index, value] of times.entries()) {
      const of = `${fonts[index].id}: surveyed`
      rows.push({ name: `${of}, WebAssembly in ${place}`, value, unit: 'us/glyph', of, most: mostTimes })
    }
  }
  return rows
}

async function inNode() {
  const { initSync, Survey } = await import(join(core, glue))
  initSync({ module: await readFile(join(core, module)) })
  return fonts.map(({ file }) => timeFont(Survey, font(file), file))
}

async function inBrowser(browser) {
  const page = await browser.newPage()
  const files = {
    '/': { body: '<!doctype html><title>Timing</title>', contentType: 'text/html' },
    '/time-font.mjs': { path: new URL('time-font.mjs', import.meta.url).pathname, contentType: 'text/javascript' },
    [`/${glue}`]: { path: join(core, glue), contentType: 'text/javascript' },
    [`/${module}`]: { path: join(core, module), contentType: 'application/wasm' },
    ...Object.fromEntries(fonts.map(({ file }) => [`/${file}`, { body: font(file), contentType: 'font/otf' }])),
  }
  await page.route('**/*', (route) => {
    const file = files[new URL(route.request().url()).pathname]
    return file ? route.fulfill(file) : route.fulfill({ status: 404 })
  })
  await page.goto('http://127.0.0.1/')
  const times = await page.evaluate(
    async ({ glue, module, names }) => {
      const [{ default: init, Survey }, { timeFont }] = await Promise.all([
        import(`/${glue}`),
        import('/time-font.mjs'),
      ])
      await init({ module_or_path: `/${module}` })
      const times = []
      for (const name of names) {
        const bytes = new Uint8Array(await (await fetch(`/${name}`)).arrayBuffer())
        times.push(timeFont(Survey, bytes, name))
      }
      return times
    },
    { glue, module, names: fonts.map(({ file }) => file) },
  )
  await page.close()
  return times
}
