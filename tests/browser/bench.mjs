/**
 * Times the lab as a person would feel it, in real Chromium, and prints a row a
 * figure for `cargo lab-bench` (see crate/xtask/src/bench.rs for the form).
 */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { brotliCompressSync, constants } from 'node:zlib'
import { firstVisit, networks, packing } from './lib/first-load.mjs'
import { font } from './lib/fonts.mjs'
import { judging } from './lib/judging.mjs'
import { house } from './lib/lab.mjs'
import { core, dist } from './lib/place.mjs'
import { serve } from './lib/server.mjs'
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

/** A slider of a variable font dragged to and fro: what a frame costs the page's own thread, and how the letters follow. */
async function axis(file, family) {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: file, bytes: font(file) }, family)
  await lab.judged()
  await lab.setText('Hamburgefonstiv')
  const box = await lab.page.getByRole('slider', { name: 'Weight' }).boundingBox()
  const { mouse } = lab.page
  const [left, y] = [box.x + 10, box.y + box.height / 2]
  await mouse.move(left, y)
  await mouse.down()
  await mouse.move(left + 20, y, { steps: 4 })
  await lab.page.evaluate(() => {
    const lab = document.querySelector('lab-sheet')
    window.drawn = new Set()
    const look = () => {
      window.drawn.add(lab.state.stage.items[0].advance)
      window.looking = requestAnimationFrame(look)
    }
    look()
  })
  await home.browser.startTracing(lab.page, { categories })
  const start = performance.now()
  for (let turn = 0; turn < 3; turn += 1) {
    await mouse.move(left + box.width - 20, y, { steps: 60 })
    await mouse.move(left + 20, y, { steps: 60 })
  }
  const seconds = (performance.now() - start) / 1000
  const trace = JSON.parse((await home.browser.stopTracing()).toString())
  await mouse.up()
  const drawn = await lab.page.evaluate(() => {
    cancelAnimationFrame(window.looking)
    return window.drawn.size
  })
  await lab.close()
  if (drawn < 5) throw new Error(`only ${drawn} widths of a letter were drawn`)
  const of = (what) => frames(trace.traceEvents).map((one) => one[what])
  const name = `drag of an axis, ${family}`
  row(`${name}: script and paint a frame, median`, median(of('cpu')), 'ms', 16)
  row(`${name}: script and paint a frame, 95th centile`, part(of('cpu'), 0.95), 'ms')
  row(`${name}: frames over 50 ms`, of('cpu').filter((ms) => ms > 50).length, 'frames', 0)
  row(`${name}: widths of its first letter drawn a second`, drawn / seconds, '/s')
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

/** Fills the desk's store with fonts and their histories, as heavy as real ones. */
function fill({ fonts, revisions }) {
  return new Promise((resolve, reject) => {
    const open = indexedDB.open('counterpoise-desk')
    open.onerror = () => reject(open.error)
    open.onsuccess = () => {
      const tx = open.result.transaction(['fonts', 'revisions', 'readings'], 'readwrite')
      const put = (store, record) => tx.objectStore(store).put({ ...record, changed: new Date().toISOString(), rev: 1 })
      const day = (ago) => new Date(Date.now() - ago * 864e5).toISOString()
      const all = [...Array(208).keys()].map((at) => String.fromCodePoint(0x41 + at))
      const letters = Object.fromEntries(all.map((letter) => [letter, '01234567']))
      const plan = { languages: ['en'], sets: [], text: '' }
      for (let font = 0; font < fonts; font += 1) {
        const id = `font-${font}`
        const due = font % 3 === 0 ? day(-font).slice(0, 10) : null
        const said = { title: `Face ${font}`, contributor: `Artist ${font}`, kind: 'plain', note: '', removed: null }
        put('fonts', { id, family: id, plan, planned: all.join(''), due, begun: day(400).slice(0, 10), ...said })
        for (let at = 0; at < revisions; at += 1) {
          const own = { id: `${id}/${at}`, font: id }
          const settled = Math.min(208, 18 * at + ((font * 7 + at * 5) % 11))
          const counts = { planned: 208, drawn: Math.min(208, settled + 20), settled, open: 20 - at }
          const received = day(390 - 36 * at + (font % 9))
          const answered = at === revisions - 1 && font % 4 === 0 ? null : received
          put('revisions', { ...own, fingerprint: own.id, fileName: 'a.otf', received, answered, ...counts })
          put('readings', { ...own, unitsPerEm: 1000, heights: [], letters, findings: [], drawings: {}, features: [] })
        }
      }
      tx.onerror = () => reject(tx.error)
      tx.oncomplete = () => {
        open.result.close()
        resolve()
      }
    }
  })
}

/** A full shelf: from the key to the moment after its first picture. */
async function shelf(fonts, revisions) {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  await lab.page.evaluate(fill, { fonts, revisions })
  const times = []
  for (let run = 0; run < 10; run += 1) {
    await lab.canvas.focus()
    // What the run before left to do is not this one's.
    await lab.page.waitForTimeout(300)
    times.push(
      await lab.page.evaluate(async () => {
        performance.clearMarks('shelf-shown')
        const start = performance.now()
        const press = { key: 'S', code: 'KeyS', shiftKey: true, bubbles: true, composed: true, cancelable: true }
        document.activeElement.dispatchEvent(new KeyboardEvent('keydown', press))
        while (performance.getEntriesByName('shelf-shown').length === 0) {
          await new Promise((resolve) => requestAnimationFrame(resolve))
        }
        // A task that follows the frame runs after its picture is handed on.
        await new Promise((resolve) => requestAnimationFrame(() => setTimeout(resolve)))
        return performance.now() - start
      }),
    )
    // All of them come behind the first picture.
    await lab.page.locator('desk-shelf li.font').nth(fonts - 1).waitFor({ state: 'attached' })
    await lab.page.keyboard.press('Escape')
  }
  await lab.close()
  const name = `a shelf of ${fonts} fonts with ${revisions} revisions each, from the key to its first picture`
  row(`${name}: the first time, its program fetched`, times[0], 'ms')
  row(`${name}: median of ${times.length - 1}`, median(times.slice(1)), 'ms', 300)
}

/** The first visit through each network: nothing kept, files packed as a host packs them. */
async function first() {
  const host = packing()
  const server = await serve(dist, host.sent)
  const visit = (network, traced = false) => firstVisit(home.browser, server.address, network, traced)
  const visits = async (network, runs, traced) => {
    const all = []
    for (let run = 0; run < runs; run += 1) all.push(await visit(network, traced))
    return (what) => all.map((one) => one[what])
  }
  // Packs the files, which takes seconds.
  await visit(null)
  host.bytes = 0
  await visit(null)
  row('first visit: bytes sent with brotli till the letters are judged', host.bytes, 'bytes', 650_000)
  for (const [index, [name, network]] of Object.entries(networks).entries()) {
    const of = await visits(network, index === 0 ? 9 : 3)
    row(`first visit, ${name}: a key heeded, median`, median(of('heeded')), 'ms', index === 0 ? 1000 : undefined)
    row(`first visit, ${name}: letters judged, median`, median(of('judged')), 'ms')
  }
  const traced = await visits(Object.values(networks)[0], 5, true)
  row('first visit: longest task of the page’s thread, what it worked, median of 5', median(traced('worked')), 'ms', 50)
  row('first visit: longest task, by the clock, others’ work counted', median(traced('clock')), 'ms')
  await server.close()
}

for (const one of await wholeFonts(home.browser)) print(one)
row('the module, as sent with brotli', sent(readFileSync(join(core, 'counterpoise_web_bg.wasm'))), 'bytes')
for (const file of ['heros.otf', 'ebgaramond.otf']) {
  const { judge, first, pairs, read } = await judging(file)
  row(`${file}: the letters judged, first time`, first, 'ms')
  row(`${file}: the letters judged, median of 31`, judge, 'ms', 20)
  row(`${file}: white of every pair of ${read} letters`, pairs, 'ms', 1000)
}
await drag('sans', 'heros.otf', 'Heros')
await drag('serif', 'ebgaramond.otf', 'EB Garamond')
await axis('inter-vf.ttf', 'Inter')
await opening('CFF', 'texgyrepagella-regular.otf')
await opening('decorative CFF', 'murmure.otf')
await opening('glyf', 'dejavu.ttf')
await first()
await shelf(200, 10)
await home.close()
