import assert from 'node:assert/strict'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { axeInBoth } from './lib/axe.mjs'
import { chromiumOnly } from './lib/browser.mjs'
import { font } from './lib/fonts.mjs'
import { house, narrow, wide } from './lib/lab.mjs'
import { root } from './lib/place.mjs'

const { zipSync, strToU8 } = createRequire(join(root, 'www/package.json'))('fflate')

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const sample = (name) => readFileSync(join(root, 'www/public/sample', name))
const room = (lab) => lab.page.getByRole('dialog', { name: 'The redraw' })
const drop = (lab, name, bytes) => lab.drop([{ name, bytes: Buffer.from(bytes) }])

async function started(options) {
  const lab = await home.open(options)
  await lab.ready()
  await lab.judged()
  await lab.canvas.focus()
  return lab
}

/** What a table of figures says: name, before, after. */
async function figures(lab) {
  const rows = await room(lab).locator('tbody tr').allInnerTexts()
  return Object.fromEntries(
    rows.map((row) => {
      const [name, ...values] = row.split('\t')
      return [name, values.map((value) => Number(value.replace('−', '-').replace(/[^\d.-]/g, '')))]
    }),
  )
}

async function saved(lab, button) {
  const { bytes } = await lab.saved(() => room(lab).getByRole('button', { name: button }).click())
  return bytes.toString()
}

/** Draws the room's own line, as the path data of its letters. */
const line = (lab) => room(lab).locator('flip-line svg path').evaluateAll((paths) => paths.map((path) => path.getAttribute('d')))

test('a change is tried by keyboard, saved as SVG, and the file dropped again measures what was told', async () => {
  const lab = await started()
  await lab.press('Shift+R')
  await room(lab).getByLabel('Letter', { exact: true }).fill('n')
  const slider = room(lab).getByRole('slider', { name: /^Ink width/ })
  await slider.focus()
  for (let press = 0; press < 10; press += 1) await lab.page.keyboard.press('ArrowRight')
  const told = await figures(lab)
  const [before, wide] = told['ink width']
  assert.ok(wide > before && wide - before < 40, `${before} ${wide}`)
  assert.ok(Math.abs(told.weight?.[2] ?? 0) < 0.01 * 110, 'the strokes keep their weight')
  await lab.picture('redraw-try')
  const text = await saved(lab, 'Save the sketch as SVG')
  assert.match(text, /sketch for the artist/)
  await lab.press('Escape')

  await drop(lab, 'n-wider.svg', text)
  await room(lab).getByRole('button', { name: 'Hold against the font' }).click()
  await room(lab).getByText('1 letter changed').waitFor()
  const [old, now] = (await figures(lab))['ink width']
  assert.equal(old, before)
  assert.ok(Math.abs(now - wide) <= 0.05 + 1e-9, `${now}, ${wide} told`)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a letter goes out as SVG and comes back the same, at three units per em', chromiumOnly('one is enough in a second browser'), async () => {
  for (const [name, family] of [
    ['heros.otf', 'TeX Gyre Heros'],
    ['dejavu.ttf', 'DejaVu Sans'],
    ['sample.ttf', 'Brigaroe'],
  ]) {
    const lab = await started()
    if (name !== 'sample.ttf') await lab.open({ name, bytes: font(name) }, family)
    await lab.judged()
    await lab.canvas.focus()
    await lab.press('Shift+R')
    await room(lab).getByLabel('Letter', { exact: true }).fill('R')
    await room(lab).getByLabel('Heavier or lighter').check()
    const slider = room(lab).getByRole('slider', { name: /^Thickness/ })
    await slider.focus()
    await lab.page.keyboard.press('ArrowRight')
    const text = await saved(lab, 'Save the sketch as SVG')
    const told = await figures(lab)
    await lab.press('Escape')
    await drop(lab, 'R.svg', text)
    await room(lab).getByRole('button', { name: 'Hold against the font' }).click()
    await room(lab).getByText('1 letter changed').waitFor()
    const back = await figures(lab)
    let held = 0
    for (const [figure, [, now]] of Object.entries(told)) {
      if (!back[figure] || figure === 'ink') continue
      held += 1
      assert.ok(Math.abs(back[figure][1] - now) <= 0.05 + 1e-9, `${name} ${figure}: ${back[figure][1]}, ${now} told`)
    }
    assert.ok(held >= 3, `${held} figures`)
    await lab.close()
  }
})

test('the redrawn R is held against the font, flipped in place, and stood on the stage', async () => {
  const lab = await started()
  await drop(lab, 'R-redraw.svg', sample('R-redraw.svg'))
  await lab.picture('redraw-drawing')
  await room(lab).getByRole('button', { name: 'Hold against the font' }).click()
  await room(lab).getByText('1 letter changed, 0 came, 0 went').waitFor()
  const told = await figures(lab)
  assert.deepEqual(told['ink width'].slice(0, 2), [478, 556])
  await lab.picture('redraw-compared')

  // The key is held: the earlier R, in place; let go: the later one.
  const after = await line(lab)
  await room(lab).getByRole('button', { name: 'Hold to see it before' }).focus()
  await lab.page.keyboard.down(' ')
  await room(lab).getByText(/^Before: /).waitFor()
  const before = await line(lab)
  assert.equal(before.length, after.length)
  assert.equal(before.filter((path, at) => path !== after[at]).length, 1)
  await lab.page.keyboard.up(' ')
  assert.deepEqual(await line(lab), after)

  await room(lab).getByRole('button', { name: 'Stand the later one on the stage' }).click()
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.font.fileName === 'R-redraw.svg')
  await lab.judged()
  await lab.setText('R')
  const [{ advance }] = (await lab.stage()).items
  assert.equal(advance, 647)
  // The worker measures it too, and its own kerning is that of the file beneath.
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.survey.kind === 'done')
  await lab.setText('To')
  await lab.canvas.focus()
  await lab.press('Shift+K')
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.stage.spacing === 'kerned')
  assert.equal((await lab.state()).remark, null)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

const row = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 300 100">
  <g transform="translate(10 90) scale(1 -1)">
    <path d="M0 0h10v70h-10zM40 0h10v70h-10zM10 32h30v7h-30z"/>
    <path d="M80 35a28 36 0 1 0 56 0a28 36 0 1 0-56 0zM90 35a18 28 0 1 1 36 0a18 28 0 1 1-36 0z" fill-rule="evenodd"/>
    <rect x="160" width="10" height="70"/>
  </g></svg>`

test('a row of loose letters, named by typing, is a font of its own before any font exists', async () => {
  const lab = await started()
  await lab.paste({ text: row })
  await room(lab).getByLabel('Letter 3').waitFor()
  await room(lab).getByRole('button', { name: 'Open as a font of its own' }).click()
  await room(lab).getByRole('alert').getByText('Type which letter this is first.').waitFor()
  await room(lab).getByLabel('Letter 1').focus()
  await lab.page.keyboard.type('H')
  await room(lab).getByLabel('Letter 2').focus()
  await lab.page.keyboard.type('Ol')
  // The guides answer to the arrow keys.
  const guide = room(lab).getByRole('slider', { name: 'Upper guide' })
  const was = await guide.getAttribute('aria-valuetext')
  await guide.focus()
  await lab.press('ArrowUp')
  assert.notEqual(await guide.getAttribute('aria-valuetext'), was)
  await lab.press('ArrowDown')
  assert.equal(await guide.getAttribute('aria-valuetext'), was)
  await lab.picture('redraw-row')
  await room(lab).getByRole('button', { name: 'Open as a font of its own' }).click()
  await lab.ready('pasted')
  await lab.judged()
  await lab.setText('HOl')
  const { items } = await lab.stage()
  assert.deepEqual(items.map(({ character }) => character), ['H', 'O', 'l'])
  const { report } = (await lab.state()).font
  assert.equal(report.outlines, 'drawn')
  // 70 of the drawing are the sample's 700 units of cap height, so its stems of 10 are 100.
  const letter = await lab.page.evaluate(() => document.querySelector('lab-sheet').state.font.report.guides.find((one) => one.kind === 'capHeight').drawn)
  assert.ok(Math.abs(letter - 700) < 0.5, `${letter}`)
  await lab.picture('redraw-loose')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

const glif = (name, code, width) => `<?xml version="1.0" encoding="UTF-8"?>
<glyph name="${name}" format="2"><advance width="${width}"/><unicode hex="${code}"/>
<outline><contour>
<point x="60" y="0" type="line"/><point x="160" y="0" type="line"/><point x="160" y="700" type="line"/><point x="60" y="700" type="line"/>
</contour></outline></glyph>`
const plist = (body) =>
  `<?xml version="1.0" encoding="UTF-8"?><!DOCTYPE plist PUBLIC "-//Apple//DTD PLIST 1.0//EN" "http://www.apple.com/DTDs/PropertyList-1.0.dtd"><plist version="1.0">${body}</plist>`

test('a glyph file and a zipped folder of them, as the UFO specification has them', async () => {
  const lab = await started()
  await drop(lab, 'I_.glif', glif('I', '0049', 220))
  await room(lab).getByRole('button', { name: 'Hold against the font' }).click()
  await room(lab).getByText('1 letter changed').waitFor()
  assert.equal((await figures(lab))['advance width'][1], 220)
  await lab.press('Escape')

  const files = {
    'Loose.ufo/metainfo.plist': plist('<dict><key>formatVersion</key><integer>3</integer></dict>'),
    'Loose.ufo/fontinfo.plist': plist('<dict><key>unitsPerEm</key><integer>2000</integer><key>familyName</key><string>Loose</string></dict>'),
    'Loose.ufo/layercontents.plist': plist('<array><array><string>public.default</string><string>glyphs</string></array></array>'),
    'Loose.ufo/glyphs/contents.plist': plist('<dict><key>I</key><string>I_.glif</string><key>l</key><string>l.glif</string></dict>'),
    'Loose.ufo/glyphs/I_.glif': glif('I', '0049', 220),
    'Loose.ufo/glyphs/l.glif': glif('l', '006C', 220),
  }
  const zip = zipSync(Object.fromEntries(Object.entries(files).map(([name, text]) => [name, strToU8(text)])))
  await drop(lab, 'Loose.ufo.zip', zip)
  await room(lab).getByText('Loose: 2 letters in Loose.ufo.zip.').waitFor()
  await room(lab).getByRole('button', { name: 'Open as a font of its own' }).click()
  await lab.ready('Loose')
  const { report } = (await lab.state()).font
  assert.deepEqual([report.unitsPerEm, report.glyphCount], [2000, 2])
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a scan is read, straightened, laid under the font’s own letter, and held against the font', async () => {
  const lab = await started()
  await drop(lab, 'R-sketch.png', sample('R-sketch.png'))
  await room(lab).getByText(/^Turned back by/).waitFor()
  const uprights = (await figures(lab))['upright stroke']
  assert.ok(Math.abs(uprights[0] - 106) < 0.03 * 106, `an upright of ${uprights[0]} units`)
  await room(lab).getByLabel('Lay the font’s own letters over the ink').check()
  await room(lab).getByText(/^The ink lies [\d.]+ units from the outline at the median/).waitFor()
  await lab.picture('redraw-scan')
  // Straightened by two points that lie askew, it leans; by its own, it is as before.
  await room(lab).getByRole('button', { name: 'Straighten by two points' }).click()
  const end = room(lab).getByRole('button', { name: /^Point 2 of the level/ })
  await end.focus()
  for (let press = 0; press < 3; press += 1) await lab.page.keyboard.press('Shift+ArrowDown')
  await room(lab).getByRole('button', { name: 'Turn so that they lie level' }).click()
  await room(lab).getByText(/^Turned back by [3-9]/).waitFor()
  await room(lab).getByRole('button', { name: 'Hold against the font' }).click()
  await room(lab).getByText('1 letter changed').waitFor()
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a photo as JPEG is read as the scan that it was made of', chromiumOnly('one is enough in a second browser'), async () => {
  const lab = await started()
  // The browser's own encoder makes it, so that the decoder is tried on a file of other hands.
  const jpeg = await lab.page.evaluate(async (bytes) => {
    const image = await createImageBitmap(new Blob([new Uint8Array(bytes)], { type: 'image/png' }))
    const canvas = new OffscreenCanvas(image.width, image.height)
    canvas.getContext('2d').drawImage(image, 0, 0)
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 })
    return [...new Uint8Array(await blob.arrayBuffer())]
  }, [...sample('R-sketch.png')])
  await drop(lab, 'R-photo.jpg', jpeg)
  await room(lab).getByText(/^Turned back by/).waitFor()
  const [upright] = (await figures(lab))['upright stroke']
  assert.ok(Math.abs(upright - 106) < 0.03 * 106, `an upright of ${upright} units`)
  await lab.close()
})

test('another revision of the font, picked in the room, is held against it', async () => {
  const lab = await started()
  await lab.press('Shift+R')
  await room(lab).getByRole('button', { name: 'A new drawing' }).click()
  await room(lab).getByLabel('A file').setInputFiles({ name: 'brigaroe-2.ttf', mimeType: 'font/ttf', buffer: sample('sample-clean.ttf') })
  await room(lab).getByText('What stood out before, and now').waitFor()
  assert.ok((await room(lab).locator('.fate', { hasText: 'Settled' }).count()) >= 3)
  await lab.picture('redraw-revision')
  await lab.close()
})

test('a revision packed for the web is unpacked and held against the font', async () => {
  const lab = await started()
  await lab.open({ name: 'sourcesans.otf', bytes: font('sourcesans.otf') }, 'Source Sans')
  await lab.judged()
  await lab.canvas.focus()
  await lab.press('Shift+R')
  const bring = async (file) => {
    await room(lab).getByRole('button', { name: 'A new drawing' }).click()
    await room(lab).getByLabel('A file').setInputFiles({ name: file, mimeType: 'font/woff2', buffer: font(file) })
    await room(lab).getByText(file).waitFor({ timeout: 60_000 })
  }
  // The same outlines, packed: nothing changed.
  await bring('sourcesans-woff2-otf.woff2')
  await room(lab).getByText('Both are the same, letter for letter.').waitFor()
  // What is no web font after all is refused, and what was compared stays.
  await room(lab).getByRole('button', { name: 'A new drawing' }).click()
  const cut = font('sourcesans-woff2-otf.woff2').subarray(0, 2000)
  await room(lab).getByLabel('A file').setInputFiles({ name: 'cut.woff2', mimeType: 'font/woff2', buffer: cut })
  await room(lab).getByRole('alert').getByText(/cannot be unpacked/).waitFor()
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

const many = (count) => `<svg xmlns="http://www.w3.org/2000/svg"><path d="M0 0${' l1 1'.repeat(count)}"/></svg>`
const bomb = `<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;&a;&a;"><!ENTITY c "&b;&b;&b;&b;&b;&b;&b;&b;">]><svg xmlns="http://www.w3.org/2000/svg"><text>&c;</text></svg>`

test('hostile drawings and scans are refused or stripped with a sentence; nothing is fetched, nothing runs', async () => {
  const lab = await started()
  await lab.press('Shift+R')
  await lab.page.waitForLoadState('networkidle')
  await room(lab).getByRole('button', { name: 'A new drawing' }).click()
  const heard = []
  lab.page.on('request', (request) => {
    if (!request.url().startsWith(home.address) && !request.url().startsWith('blob:')) heard.push(request.url())
  })
  const said = room(lab).getByRole('alert')
  const big = Buffer.concat([sample('R-sketch.png'), Buffer.alloc(40 << 20)])
  for (const [name, text] of [
    ['bomb.svg', bomb],
    ['many.svg', many(1_000_000)],
    ['empty.svg', ''],
    ['none.svg', '<svg xmlns="http://www.w3.org/2000/svg"></svg>'],
    ['cut.png', sample('R-sketch.png').subarray(0, 900)],
    ['text.png', 'hello'],
    ['text.glif', 'hello'],
    ['text.zip', 'hello'],
    ['cut.ufo.zip', zipSync({ 'a.txt': strToU8('a') })],
    ['broken.otf', 'OTTO'],
  ]) {
    await room(lab).getByLabel('A file').setInputFiles({ name, mimeType: 'application/octet-stream', buffer: Buffer.from(text) })
    await said.waitFor()
    const sentence = await said.innerText()
    console.log(`# ${name}: ${sentence}`)
    assert.match(sentence, /^[A-Z].*\.$/, name)
    assert.doesNotMatch(sentence, /stumbled/, name)
    // A good drawing clears it.
    await room(lab).getByLabel('A file').setInputFiles({ name: 'R.svg', mimeType: 'image/svg+xml', buffer: sample('R-redraw.svg') })
    await said.waitFor({ state: 'detached' })
  }
  const folder = mkdtempSync(join(tmpdir(), 'counterpoise-'))
  const huge = join(folder, 'huge.png')
  writeFileSync(huge, Buffer.alloc(65 << 20))
  await room(lab).getByLabel('A file').setInputFiles(huge)
  await said.getByText(/^This file is too large/).waitFor()
  rmSync(folder, { recursive: true })
  await room(lab).getByLabel('A file').setInputFiles({ name: 'padded.png', mimeType: 'image/png', buffer: big })
  await Promise.race([said.waitFor(), room(lab).locator('place-scan').waitFor()])
  const script = `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" onload="window.ran = 1">
    <script>window.ran = 1</script><image xlink:href="https://example.org/x.png"/><use href="https://example.org/y.svg#a"/>
    <style>@import url(https://example.org/z.css);</style><rect width="10" height="70" onclick="window.ran = 1"/></svg>`
  await room(lab).getByLabel('A file').setInputFiles({ name: 'I.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(script) })
  await room(lab).locator('place-drawing').waitFor()
  await lab.frame()
  assert.equal(await lab.page.evaluate(() => window.ran), undefined)
  assert.deepEqual(heard, [])
  await room(lab).getByText(/left out/).first().waitFor()
  await lab.close()
})

test('each part of the redraw is accessible, in light and dark, wide and narrow', async () => {
  for (const viewport of [wide, narrow]) {
    const lab = await started({ colorScheme: 'light', viewport })
    const shown = (what) => (scheme) => `redraw-${what}-${scheme}-${viewport.width}`
    await lab.press('Shift+R')
    await room(lab).getByRole('slider', { name: /^Ink width/ }).waitFor()
    await axeInBoth(lab, `trying, ${viewport.width}`, shown('try'))
    await lab.press('Escape')
    await drop(lab, 'R-sketch.png', sample('R-sketch.png'))
    await room(lab).locator('place-scan').waitFor()
    await axeInBoth(lab, `a scan, ${viewport.width}`, shown('scan'))
    await lab.press('Escape')
    await drop(lab, 'R-redraw.svg', sample('R-redraw.svg'))
    await room(lab).locator('place-drawing').waitFor()
    await axeInBoth(lab, `a drawing, ${viewport.width}`)
    await room(lab).getByRole('button', { name: 'Hold against the font' }).click()
    await room(lab).locator('before-after').waitFor()
    await axeInBoth(lab, `compared, ${viewport.width}`, shown('compared'))
    await lab.close()
  }
})
