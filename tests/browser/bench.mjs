/**
 * Times the lab as a person would feel it, in real Chromium, and prints a row a
 * figure for `cargo lab-bench` (see crate/xtask/src/bench.rs for the form).
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliCompressSync, constants } from 'node:zlib'
import { font } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'
import { core } from './lib/place.mjs'
import { categories, frames } from './lib/trace.mjs'
import { wholeFonts } from './lib/whole-font.mjs'

const median = (values) => part(values, 0.5)

function part(values, share) {
  const sorted = values.toSorted((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]
}

/** Bytes of a file as a host sends it. */
function sent(bytes) {
  const { BROTLI_PARAM_QUALITY, BROTLI_MAX_QUALITY, BROTLI_PARAM_SIZE_HINT } = constants
  const params = { [BROTLI_PARAM_QUALITY]: BROTLI_MAX_QUALITY, [BROTLI_PARAM_SIZE_HINT]: bytes.length }
  return brotliCompressSync(bytes, { params }).length
}

const print = (row) => console.log(`bench ${JSON.stringify(row)}`)

const row = (name, value, unit, most) => print({ name, value, unit, ...(most === undefined ? {} : { most }) })

const home = await house()

/** Sixty letters, one of them dragged to and fro: what a frame costs the page's own thread. */
async function drag(kind, file, family) {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: file, bytes: font(file) }, family)
  await lab.setText('Hamburgefonstiv Hamburgefonstiv Hamburgefonstiv Hamburgefonstiv')
  const count = (await lab.stage()).items.length
  if (count < 60) throw new Error(`only ${count} letters`)
  const place = await lab.placeOf(30)
  const { mouse } = lab.page
  await mouse.move(place.x, place.y)
  await mouse.down()
  await mouse.move(place.x + 20, place.y, { steps: 4 })
  await home.browser.startTracing(lab.page, { categories })
  for (let turn = 0; turn < 4; turn += 1) {
    await mouse.move(place.x + 200, place.y, { steps: 60 })
    await mouse.move(place.x - 200, place.y, { steps: 60 })
  }
  const trace = JSON.parse((await home.browser.stopTracing()).toString())
  await mouse.up()
  const moved = (await lab.stage()).items[30].moved
  if (!moved) throw new Error('the letter was not dragged')
  await lab.close()
  const cost = frames(trace.traceEvents)
  if (cost.length < 100) throw new Error(`only ${cost.length} frames were traced`)
  const of = (what) => cost.map((one) => one[what])
  const name = `drag at ${count} letters, ${kind}`
  row(`${name}: script and paint a frame, median`, median(of('cpu')), 'ms', 8)
  row(`${name}: script and paint a frame, 95th centile`, part(of('cpu'), 0.95), 'ms')
  row(`${name}: script alone, median`, median(of('script')), 'ms')
  row(`${name}: by the clock, others' work counted, median`, median(of('wall')), 'ms')
  row(`${name}: frames over 50 ms`, of('cpu').filter((ms) => ms > 50).length, 'frames', 0)
}

/** From the moment of the drop to the moment after the first picture with the font in it. */
async function opening(name, file) {
  const lab = await home.open()
  await lab.ready()
  const bytes = font(file)
  const times = []
  for (let run = 0; run < 18; run += 1) {
    times.push(
      await lab.page.evaluate(
        async ({ text, name }) => {
          const data = Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0))
          const transfer = new DataTransfer()
          transfer.items.add(new File([data], name))
          performance.clearMarks()
          const start = performance.now()
          document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }))
          while (performance.getEntriesByName('font-drawn').length === 0) {
            await new Promise((resolve) => requestAnimationFrame(resolve))
          }
          // A task that follows the frame runs after its picture is handed on.
          await new Promise((resolve) => {
            const channel = new MessageChannel()
            channel.port1.onmessage = resolve
            channel.port2.postMessage(null)
          })
          return performance.now() - start
        },
        { text: bytes.toString('base64'), name: file },
      ),
    )
  }
  await lab.close()
  // The first three warm the module and the browser's caches.
  const warm = times.slice(3)
  const kib = Math.round(bytes.length / 1024)
  row(`drop to first picture, ${name} (${kib} KiB): median of 15`, median(warm), 'ms', kib <= 250 ? 150 : undefined)
  row(`drop to first picture, ${name} (${kib} KiB): slowest of 15`, Math.max(...warm), 'ms')
}

/** From the address to the sample's first picture, with nothing cached. */
async function start() {
  const times = []
  for (let run = 0; run < 5; run += 1) {
    const lab = await home.open()
    await lab.ready()
    times.push(await lab.page.evaluate(() => performance.getEntriesByName('font-drawn')[0].startTime))
    await lab.close()
  }
  row('address to the sample’s first picture: median of 5', median(times), 'ms')
}

for (const one of await wholeFonts(home.browser)) print(one)
row('the module, as sent with brotli', sent(readFileSync(join(core, 'counterpoise_web_bg.wasm'))), 'bytes')
await drag('sans', 'heros.otf', 'Heros')
await drag('serif', 'ebgaramond.otf', 'EB Garamond')
await opening('CFF', 'texgyrepagella-regular.otf')
await opening('decorative CFF', 'murmure.otf')
await opening('glyf', 'dejavu.ttf')
await start()
await home.close()
