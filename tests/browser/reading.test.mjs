import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { axe } from './lib/axe.mjs'
import { font } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const hebrew = { name: 'noto-sans-hebrew.ttf', family: 'Noto Sans Hebrew' }
const arabic = { name: 'amiri.ttf', family: 'Amiri' }

async function opened({ name, family }) {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name, bytes: font(name) }, family)
  return lab
}

/** Sets a line, and waits until it is read: until some letter stands left of the one before it. */
async function set(lab, text) {
  await lab.setText(text)
  await lab.page.waitForFunction(() => {
    const { items } = document.querySelector('lab-sheet').state.stage
    return items.some((item, at) => at > 0 && item.x < items[at - 1].x)
  })
  await lab.frame()
  return (await lab.stage()).items
}

/** The characters as they stand, from left to right. */
const standing = (items) =>
  items
    .toSorted((a, b) => a.x - b.x)
    .map((item) => item.character)
    .join('')

const backwards = (text) => [...text].reverse().join('')

test('Hebrew stands from right to left, in the order in which it is read', async () => {
  const lab = await opened(hebrew)
  const word = 'שלום'
  const items = await set(lab, word)
  assert.equal(items.map((item) => item.character).join(''), word, 'the line is kept as it is read')
  assert.equal(standing(items), backwards(word))
  // By their own advances, without a gap or an overlap.
  for (let at = 1; at < items.length; at += 1) {
    assert.ok(Math.abs(items[at].x + items[at].advance - items[at - 1].x) < 1e-6)
  }
  assert.equal(Math.min(...items.map((item) => item.x)), 0)
  await lab.picture('reading-hebrew')
  // The field shows it the same way round.
  assert.equal(await lab.text.evaluate((one) => getComputedStyle(one).direction), 'rtl')
  await axe(lab.page, 'with Hebrew on the line')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('points stand on their letters as the font’s rules place them', async () => {
  const lab = await opened(hebrew)
  const items = await set(lab, 'שָׁלוֹם')
  const marks = items.filter((item) => /\p{M}/u.test(item.character))
  assert.equal(marks.length, 3)
  assert.ok(marks.every((item) => item.advance === 0), 'marks take no room')
  await lab.picture('reading-points')
  await lab.close()
})

test('Arabic letters join', async () => {
  const lab = await opened(arabic)
  await lab.setText('ب')
  const alone = (await lab.stage()).items[0].glyph
  const items = await set(lab, 'ببب')
  const forms = items.map((item) => item.glyph)
  assert.equal(new Set([alone, ...forms]).size, 4, `initial, medial, final and alone: ${[alone, ...forms]}`)
  await set(lab, 'السلام عليكم')
  await lab.picture('reading-arabic')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a ligature that the script cannot be written without is one sign, and nothing is missing', async () => {
  const lab = await opened({ name: 'dejavu.ttf', family: 'DejaVu Sans' })
  const [lam, alef] = await set(lab, 'لاب')
  assert.ok(lam.glyph !== null && lam.advance > 0)
  assert.deepEqual([alef.glyph, alef.advance], [null, 0])
  assert.deepEqual((await lab.stage()).missing, [])
  await lab.picture('reading-lam-alef')
  await lab.close()
})

test('in a line of both, each goes its own way', async () => {
  const lab = await opened({ name: 'dejavu.ttf', family: 'DejaVu Sans' })
  const items = await set(lab, 'ab שלום 12 cd')
  // Unicode Standard Annex 9: the figures keep their order among the Hebrew.
  assert.equal(standing(items), 'ab 12 םולש cd')
  await lab.picture('reading-both')
  await lab.setText('ab')
  assert.equal(standing((await lab.stage()).items), 'ab')
  await lab.canvas.focus()
  await lab.press('Control+z')
  assert.equal(standing((await lab.stage()).items), 'ab 12 םולש cd', 'taken back it stands as it did')
  await lab.close()
})

test('letters are chosen, moved and dragged where they stand', async () => {
  const lab = await opened(hebrew)
  const items = await set(lab, 'שלום')
  await lab.canvas.click({ position: await placeIn(lab, 1) })
  const chosen = async () => (await lab.stage()).items.filter((item) => item.selected).map((item) => item.character)
  assert.deepEqual(await chosen(), ['ל'])
  await lab.press('n')
  assert.deepEqual(await chosen(), ['ו'], 'the next is the next to be read')
  await lab.press('ArrowRight')
  assert.equal((await lab.stage()).items[2].x, items[2].x + 1, 'to the right is to the right')
  const from = await lab.placeOf(0)
  await lab.drag(from, { x: from.x + 60, y: from.y })
  assert.ok((await lab.stage()).items[0].moved > 0)
  await lab.close()
})

/** Where a letter stands, from the canvas's corner. */
async function placeIn(lab, index) {
  const [box, place] = [await lab.canvas.boundingBox(), await lab.placeOf(index)]
  return { x: place.x - box.x, y: place.y - box.y }
}

test('kerned, the line keeps its direction', async () => {
  const lab = await opened(arabic)
  const items = await set(lab, 'مرحبا')
  await lab.canvas.focus()
  await lab.press('Shift+K')
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.stage.spacing === 'kerned')
  await lab.frame()
  assert.equal(standing((await lab.stage()).items), standing(items))
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('what reads lines is fetched only when there is one to read', async () => {
  const lab = await home.open()
  await lab.ready()
  const asked = []
  lab.page.on('request', (request) => asked.push(request.url()))
  await lab.setText('Hamburgefonstiv')
  assert.deepEqual(asked.filter((url) => /shaping/.test(url)), [])
  await lab.open({ name: hebrew.name, bytes: font(hebrew.name) }, hebrew.family)
  await set(lab, 'שלום')
  assert.ok(asked.some((url) => /shaping/.test(url)))
  // Another font with the same line reads it by its own rules.
  await lab.open({ name: 'dejavu.ttf', bytes: font('dejavu.ttf') }, 'DejaVu Sans')
  await lab.page.waitForFunction(() => {
    const { items } = document.querySelector('lab-sheet').state.stage
    return items[1].x < items[0].x && items.every((item) => item.glyph > 1000)
  })
  await lab.close()
})

test('where it cannot be fetched a sentence says so, and the letters stand all the same', async () => {
  const lab = await opened(hebrew)
  await lab.page.route('**/counterpoise_shaping_bg*', (route) => route.abort())
  await lab.setText('שלום')
  await lab.page.getByText(/sets text from right to left could not be loaded/).first().waitFor()
  assert.equal((await lab.stage()).items.length, 4)
  await lab.page.unroute('**/counterpoise_shaping_bg*')
  await set(lab, 'שלומ')
  await lab.close()
})
