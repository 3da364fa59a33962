import assert from 'node:assert/strict'
import { after, before, afterEach, test } from 'node:test'
import { font } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'

let home
let lab
before(async () => {
  home = await house()
})
after(() => home.close())
afterEach(async () => {
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

async function start() {
  lab = await home.open()
  await lab.ready()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.setText('HIH')
  await lab.canvas.focus()
}

// The stems of this face's H and I at half of the x-height, and the white between
// them, from its outlines as fontTools reads them (tests/reference).
const letter = (glyph) => lab.page.evaluate((id) => document.querySelector('lab-sheet').letter(id), glyph)

async function expected() {
  const { items } = await lab.stage()
  const [h, i] = [await letter(items[0].glyph), await letter(items[1].glyph)]
  return { between: h.rightBearing + i.leftBearing, stem: i.bounds.xMax - i.bounds.xMin }
}

test('reads ink and white where the mouse drew it', async () => {
  await start()
  await lab.press('c')
  const { stage } = await lab.state()
  const box = await lab.canvas.boundingBox()
  const { scale, origin } = stage.view
  const at = (x, y) => ({ x: box.x + origin[0] + scale * x, y: box.y + origin[1] - scale * y })
  const last = stage.items[2]
  await lab.drag(at(-40, 150), at(last.x + last.advance + 40, 150))
  const { calliper } = await lab.stage()
  const { between, stem } = await expected()
  const inks = calliper.intervals.filter((one) => one.ink)
  const whites = calliper.intervals.filter((one) => !one.ink && !one.open)
  assert.equal(inks.length, 5, 'H, I and H have five stems')
  assert.ok(Math.abs(inks[2].length - stem) < 0.01 * stem + 0.5, `${inks[2].length} beside ${stem}`)
  assert.ok(Math.abs(whites[1].length - between) < 0.01 * between + 0.5, `${whites[1].length} beside ${between}`)
  const rows = lab.page.locator('calliper-panel tbody tr')
  assert.equal(await rows.count(), calliper.intervals.length)
  assert.match(await rows.nth(1).innerText(), /ink\s+H/)
  await lab.picture('calliper')
})

test('is laid, moved, turned and lifted by keys', async () => {
  await start()
  await lab.press('Shift+C')
  const laid = (await lab.stage()).calliper
  assert.ok(laid, 'it lies on the stage')
  assert.equal(laid.intervals.filter((one) => one.ink).length, 5)
  await lab.press('Shift+ArrowUp')
  const up = (await lab.stage()).calliper
  assert.equal(up.from[1], laid.from[1] + 10)
  await lab.press('x')
  await lab.press('ArrowRight')
  const start_ = (await lab.stage()).calliper
  assert.equal(start_.from[0], up.from[0] + 1)
  assert.equal(start_.to[0], up.to[0])
  await lab.press('Shift+U')
  assert.equal(Math.abs((await lab.stage()).calliper.angle), 90)
  await lab.press('Shift+X')
  assert.equal((await lab.stage()).calliper, null)
})

test('is laid and moved by buttons, without dragging', async () => {
  await start()
  const button = (name) => lab.page.getByRole('button', { name, exact: true })
  await button('Calliper').click()
  await button('Lay it across').click()
  await lab.frame()
  const laid = (await lab.stage()).calliper
  assert.ok(laid)
  await lab.page.getByText('End', { exact: true }).click()
  await lab.page.locator('calliper-panel').getByRole('button', { name: 'Right by 10 units' }).click()
  await lab.frame()
  const moved = (await lab.stage()).calliper
  assert.equal(moved.to[0], laid.to[0] + 10)
  assert.equal(moved.from[0], laid.from[0])
})
