import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { axeInBoth } from './lib/axe.mjs'
import { current, enter, find, inLines, opened, rested, said, search, throughAll } from './lib/browse.mjs'
import { font } from './lib/fonts.mjs'
import { CODED, forged, MOST } from './lib/forged.mjs'
import { house } from './lib/lab.mjs'
import { categories, tasksOf } from './lib/trace.mjs'

let home
let largest
before(async () => {
  largest = { name: 'largest.ttf', bytes: forged() }
  home = await house()
})
after(() => home.close())

/** Real ones: 27,123 glyphs in TrueType outlines with names, and 65,535 in CFF without. */
const named = 'uming.ttc'
const nameless = 'notocjk.ttc'

async function room(options = {}, name = null, bytes = undefined) {
  const lab = await home.open(options)
  await lab.ready()
  if (name) await opened(lab, name, bytes)
  await enter(lab)
  return lab
}

test('a letter is found by character, code point, name and block', async () => {
  const lab = await room({}, named)
  assert.equal(await find(lab, ''), '27,123 letters.')
  for (const typed of ['字', 'U+5B57', 'u+5b57', '5b57', 'uni5B57', '#5242']) {
    assert.equal(await find(lab, typed), '1 of 27,123 letters.', typed)
    await search(lab).press('ArrowDown')
    assert.deepEqual(await current(lab), { name: '字 U+5B57', at: 1, of: 1 }, typed)
  }
  // As many as fontTools counts in the font's names, and in its character map by the names of blocks that it knows.
  assert.equal(await find(lab, 'uni5B5'), '15 of 27,123 letters.')
  assert.equal(await find(lab, 'hiragana'), '90 of 27,123 letters.')
  const heading = lab.page.locator('browse-room .heading').first()
  assert.match(await heading.innerText(), /^Hiragana\s+U\+3040–309F\s+90$/)
  assert.equal(await find(lab, 'without a code'), '2,891 of 27,123 letters.')
  assert.equal(await find(lab, 'Supplement-1 Latin'), 'Nothing found for “Supplement-1 Latin”.')
  await lab.page.getByText('No letter of this font answers to').waitFor()
  await lab.picture('browse-nothing')
  await lab.page.getByRole('button', { name: 'Show every letter' }).click()
  await lab.page.locator('browse-room .found', { hasText: '27,123 letters.' }).waitFor()
  await lab.frame()
  assert.equal(await search(lab).inputValue(), '')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a letter is found by what the Unicode Standard calls it, in a font without names', async () => {
  const lab = await room({}, nameless)
  // As many as Python's unicodedata names so, of those that fontTools finds in the face's character map.
  for (const [typed, count] of [
    ['circled digit', 49],
    ['left arrow', 12],
    ['A macron', 2],
    ['hangul gag', 3],
    ['circled digit seven', 5],
  ]) {
    assert.match(await find(lab, typed), new RegExp(`^${count} of `), typed)
  }
  await search(lab).press('ArrowDown')
  assert.deepEqual(await current(lab), { name: '⑦ U+2466', at: 1, of: 5 })
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('where the names cannot be fetched, letters are found by all else', async () => {
  const lab = await room({}, named)
  await lab.page.route('**/_virtual_names*', (route) => route.abort())
  assert.equal(await find(lab, 'hiragana'), '90 of 27,123 letters.')
  assert.match(await find(lab, 'ogonek'), /^\d of 27,123/, 'by glyph names alone')
  await lab.page.unroute('**/_virtual_names*')
  await lab.close()
})

test('how many are found is said in a live region', async () => {
  const lab = await room({}, named)
  await find(lab, 'hangul')
  const live = await lab.page.locator('browse-room .found').evaluate((one) => one.getAttribute('role'))
  assert.equal(live, 'status')
  await lab.close()
})

test('by the keyboard alone: from the field through the letters onto the stage, and back', async () => {
  const lab = await room({}, 'ebgaramond.otf')
  const line = (await lab.stage()).text
  await lab.page.keyboard.type('latin-1')
  await lab.page.locator('browse-room .found', { hasText: /^96 of/ }).waitFor()
  await lab.press('ArrowDown')
  const from = await current(lab)
  assert.deepEqual([from.at, from.of], [1, 96])
  await lab.press('ArrowRight')
  await lab.press('ArrowRight')
  assert.equal((await current(lab)).at, 3)
  await lab.press('ArrowLeft')
  assert.equal((await current(lab)).at, 2)
  await lab.press('End')
  const end = (await current(lab)).at
  await lab.press('ArrowDown')
  const below = (await current(lab)).at
  assert.ok(below > end && below < 96, `${below} is in the line under ${end}`)
  await lab.press('Control+End')
  assert.equal((await current(lab)).name, 'ÿ U+00FF')
  await lab.press('ArrowRight')
  assert.equal((await current(lab)).at, 96, 'the last has none after it')
  await lab.press('Enter')
  assert.equal(await said(lab), 'ÿ U+00FF stands on the line, after g.')
  assert.equal((await lab.stage()).text, `${line}ÿ`)
  await lab.press('Control+z')
  assert.equal((await lab.stage()).text, line)
  assert.match(await said(lab), /^Taken back: Add ÿ\./)
  await lab.press('Enter')
  await lab.press('Escape')
  await lab.page.locator('browse-room').waitFor({ state: 'detached' })
  await lab.canvas.focus()
  await lab.press('Control+z')
  assert.equal((await lab.stage()).text, line, 'and on the page itself as well')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('Enter in the field stands what was found; Escape empties it before it leaves', async () => {
  const lab = await room({}, named)
  await search(lab).focus()
  await lab.page.keyboard.type('字')
  await lab.press('Enter')
  await lab.page.locator('browse-room .said', { hasText: '字 U+5B57 stands on the line' }).waitFor()
  assert.match((await lab.stage()).text, /字$/)
  await lab.press('Escape')
  assert.equal(await search(lab).inputValue(), '')
  await lab.press('Escape')
  await lab.page.locator('browse-room').waitFor({ state: 'detached' })
  // The worker goes with the room, and what it held of the font.
  assert.equal(lab.page.workers().filter((worker) => /browse/.test(worker.url())).length, 0)
  await lab.close()
})

test('several letters are chosen and stand together', async () => {
  const lab = await room()
  const before = (await lab.stage()).items.length
  await search(lab).press('ArrowDown')
  await lab.press('Control+Home')
  for (const key of [' ', 'ArrowRight', 'ArrowRight', ' ']) await lab.press(key === ' ' ? 'Space' : key)
  assert.equal(await said(lab), '2 letters chosen.')
  await lab.page.getByRole('button', { name: 'Stand 2 letters on the line' }).click()
  assert.match(await said(lab), /^2 letters stand on the line, after /)
  assert.equal((await lab.stage()).items.length, before + 2)
  await lab.page.locator('browse-room').getByRole('button', { name: 'Take back' }).click()
  assert.equal((await lab.stage()).items.length, before)
  await lab.close()
})

test('letters without a code point have a heading of their own and stand by their glyph', async () => {
  const lab = await room({}, largest.name, largest.bytes)
  assert.equal(await find(lab, ''), `${MOST.toLocaleString('en-GB')} letters.`)
  assert.equal(await find(lab, 'without a code'), `${(MOST - CODED).toLocaleString('en-GB')} of 65,535 letters.`)
  assert.equal(await find(lab, 'alt.61234'), '1 of 65,535 letters.')
  await search(lab).press('ArrowDown')
  assert.equal((await current(lab)).name, 'alt.61234')
  await lab.press('Enter')
  const { items } = await lab.stage()
  assert.equal(items.at(-1).glyph, 61_234)
  assert.equal(items.at(-1).character, null)
  assert.match(await said(lab), /^alt\.61234 stands on the line, after /)
  await lab.press('Control+z')
  assert.equal((await lab.stage()).items.length, items.length - 1)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a full line says so, and nothing is lost', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.setText('H'.repeat(2000))
  await enter(lab)
  await search(lab).press('ArrowDown')
  await lab.press('Enter')
  assert.match(await said(lab), /2,?000/)
  assert.equal((await lab.stage()).items.length, 2000)
  await lab.close()
})

for (const [what, name] of [
  ['27,123 glyphs', named],
  ['65,535 glyphs, CFF', nameless],
  ['65,535 glyphs, TrueType', null],
]) {
  test(`of ${what} only what is in view exists, and no task holds the page up`, { timeout: 300_000 }, async () => {
    const lab = await home.open()
    await lab.ready()
    await opened(lab, name ?? largest.name, name ? font(name) : largest.bytes)
    await lab.page.evaluate(() => {
      window.long = []
      new PerformanceObserver((list) => window.long.push(...list.getEntries().map((one) => one.duration))).observe({ type: 'longtask' })
    })
    await lab.canvas.focus()
    await home.browser.startTracing(lab.page, { categories: [...categories, 'toplevel', 'v8'] })
    await lab.press('*')
    await lab.page.locator('letter-lines').waitFor({ timeout: 30_000 })
    await rested(lab)
    const most = await throughAll(lab, 200)
    await rested(lab)
    for (const typed of ['U+5B57', 'uni5', 'cjk', 'e', '']) await find(lab, typed)
    const { traceEvents } = JSON.parse((await home.browser.stopTracing()).toString())
    const { tasks, collected } = tasksOf(traceEvents)
    const long = await lab.page.evaluate(() => window.long)
    const three = tasks.slice(0, 3).map((one) => one.toFixed(0)).join(', ')
    console.log(
      `# ${what}: of ${tasks.length} tasks the longest ${three} ms of the thread's own time, without the browser's clearing up, ` +
        `whose longest stretch was ${collected.toFixed(0)} ms; by the clock, others' work counted, ${long.length} over 50 ms, ` +
        `the longest ${Math.max(0, ...long).toFixed(0)} ms; ` +
        `at most ${most.canvases} canvases, ${most.cells} letters, ${most.nodes} nodes over ${most.height} px`,
    )
    assert.ok(tasks[0] < 50, `a task of ${tasks[0]} ms`)
    assert.ok(most.canvases <= 40 && most.cells <= 1500, JSON.stringify(most))
    assert.deepEqual(lab.errors, [])
    await lab.close()
  })
}

test('by touch, on a narrow screen: a tap brings a letter up, a second stands it', async () => {
  const lab = await home.open({ viewport: { width: 360, height: 740 }, hasTouch: true, isMobile: true })
  await lab.ready()
  await lab.page.getByRole('button', { name: 'All letters' }).tap()
  await lab.page.locator('letter-lines').waitFor()
  await rested(lab)
  await lab.picture('browse-narrow')
  const before = (await lab.stage()).text
  const cell = lab.page.locator('browse-room .cell').nth(5)
  const name = await cell.getAttribute('aria-label')
  await cell.tap()
  await lab.page.locator('browse-room .here').waitFor()
  assert.equal((await lab.stage()).text, before)
  await lab.page.waitForTimeout(400)
  await cell.tap()
  await lab.page.locator('browse-room .said', { hasText: 'stands on the line' }).waitFor()
  assert.equal((await lab.stage()).text, before + name.split(' ')[0])
  const wider = await lab.page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
  assert.equal(wider, false)
  const small = await inLines(lab, (lines) =>
    [...lines.querySelectorAll('.cell')].filter((one) => one.getBoundingClientRect().width < 24).length,
  )
  assert.equal(small, 0, 'every letter can be hit (WCAG 2.5.8: 24 px)')
  await lab.close()
})

test('enlarged fourfold everything is still within reach', async () => {
  // 1280 by 1024 at 400% (WCAG 1.4.10).
  const lab = await room({ viewport: { width: 320, height: 256 } })
  await lab.picture('browse-enlarged')
  const wider = await lab.page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
  assert.equal(wider, false)
  const button = lab.page.getByRole('button', { name: 'Stand it on the line' })
  await button.scrollIntoViewIfNeeded()
  await button.click()
  assert.match(await said(lab), /stands on the line/)
  await lab.close()
})

for (const [size, viewport] of Object.entries({ wide: { width: 1440, height: 900 }, narrow: { width: 360, height: 740 } })) {
  test(`nothing stands in anyone’s way: ${size}, light and dark`, async () => {
    const lab = await room({ colorScheme: 'light', viewport }, 'dejavu.ttf')
    await axeInBoth(lab, 'every letter', (scheme) => `browse-${scheme}-${size}`)
    await search(lab).press('ArrowDown')
    await lab.press('Space')
    await axeInBoth(lab, 'a letter chosen')
    await lab.press('Enter')
    await axeInBoth(lab, 'a letter stood')
    await find(lab, 'nothing at all')
    await axeInBoth(lab, 'nothing found')
    assert.deepEqual(lab.errors, [])
    await lab.close()
  })
}

test('another theme draws the letters in its own ink', async () => {
  const lab = await room({}, null)
  const ink = () =>
    inLines(lab, (lines) => {
      const canvas = lines.querySelector('canvas')
      const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height)
      // The lightest and darkest pixels that are quite covered.
      const covered = [...Array(data.length / 4).keys()].filter((at) => data[4 * at + 3] === 255).map((at) => data[4 * at])
      return covered.reduce((sum, one) => sum + one, 0) / covered.length
    })
  assert.ok((await ink()) < 80)
  await lab.page.emulateMedia({ colorScheme: 'dark' })
  await lab.page.waitForTimeout(300)
  assert.ok((await ink()) > 180)
  await lab.close()
})

test('where its program cannot be fetched a sentence says so', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.page.route('**/counterpoise_browse_bg*', (route) => route.abort())
  await lab.canvas.focus()
  await lab.press('*')
  await lab.page.getByText(/could not be fetched\. Close this and open it again/).waitFor()
  await lab.picture('browse-lost')
  await lab.page.unroute('**/counterpoise_browse_bg*')
  await lab.press('Escape')
  await lab.canvas.focus()
  await lab.press('*')
  await lab.page.locator('letter-lines').waitFor()
  await lab.close()
})

test('the worker has no way to send anything', async () => {
  const lab = await room()
  const worker = lab.page.workers().find((one) => /browse/.test(one.url()))
  const ways = await worker.evaluate(() =>
    ['fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource', 'importScripts'].filter((way) => globalThis[way] !== undefined),
  )
  assert.deepEqual(ways, [])
  await lab.close()
})
