import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { font } from './lib/fonts.mjs'
import { different, house, narrow } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const layers = [
  { name: 'Overshoot', layer: 'overshoot', key: '7' },
  { name: 'Widths', layer: 'widths', key: '8' },
  { name: 'Flaws', layer: 'flaws', key: 'k' },
  { name: 'Refit', layer: 'refit', key: 'f' },
  { name: 'Texture', layer: 'texture', key: 'Shift+B' },
]

/** Records every text that is written on the stage, and where: the picture's own words. */
const listen = (lab) =>
  lab.page.evaluate(() => {
    window.written = []
    const write = CanvasRenderingContext2D.prototype.fillText
    CanvasRenderingContext2D.prototype.fillText = function (text, x, y) {
      const height = Number.parseFloat(this.font)
      window.written.push({ text, x, y: y - height / 2, width: this.measureText(text).width, height })
      return write.call(this, text, x, y)
    }
    const rect = CanvasRenderingContext2D.prototype.fillRect
    CanvasRenderingContext2D.prototype.fillRect = function (x, y, w, h) {
      // A frame begins with the ground of the whole canvas.
      const { a } = this.getTransform()
      const whole = x === 0 && y === 0 && Math.abs(w * a - this.canvas.width) < 2 && Math.abs(h * a - this.canvas.height) < 2
      if (whole && this.canvas.isConnected) window.written = []
      return rect.call(this, x, y, w, h)
    }
  })

const written = (lab) => lab.page.evaluate(() => window.written)

/** Pairs of texts that cover each other by more than the line's own leading. */
function covered(texts) {
  const found = []
  for (const [index, one] of texts.entries()) {
    for (const other of texts.slice(index + 1)) {
      const across = Math.min(one.x + one.width, other.x + other.width) - Math.max(one.x, other.x)
      const down = Math.min(one.y + one.height, other.y + other.height) - Math.max(one.y, other.y)
      if (across > 0.5 && down > 1.5) found.push(`${one.text} and ${other.text}`)
    }
  }
  return found
}

test('each measure shows on the letters when asked, by button and by key, and goes by undo', async () => {
  for (const { name, layer, key } of layers) {
    const lab = await home.open()
    await lab.ready()
    await lab.setText('nonoM')
    await lab.canvas.focus()
    const without = await lab.bitmap()
    await lab.press(key)
    assert.equal((await lab.stage()).layers[layer], true, name)
    const shown = await lab.bitmap()
    assert.ok(different(without, shown) > 100, `${name} shows`)
    await lab.press('Control+z')
    assert.equal((await lab.stage()).layers[layer], false)
    assert.equal(different(without, await lab.bitmap()), 0, `${name} goes`)
    await lab.page.getByRole('button', { name, exact: true }).click()
    assert.equal((await lab.stage()).layers[layer], true)
    assert.equal(await lab.page.getByRole('button', { name, exact: true }).getAttribute('aria-pressed'), 'true')
    assert.match(await lab.status.innerText(), /shown/)
    // It stays for the next font.
    await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
    assert.equal((await lab.stage()).layers[layer], true)
    assert.deepEqual(lab.errors, [])
    await lab.close()
  }
})

test('what is written says what was measured', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.setText('OR')
  await lab.canvas.focus()
  await lab.press('4')
  await listen(lab)
  for (const key of ['7', '8', 'f']) await lab.press(key)
  await lab.page.waitForTimeout(200)
  await lab.press('n')
  const texts = (await written(lab)).map(({ text }) => text)
  const { items } = await lab.stage()
  const letter = (index) => lab.page.evaluate((id) => document.querySelector('lab-sheet').letter(id), items[index].glyph)
  const [o, r] = [await letter(0), await letter(1)]
  const has = (text) => assert.ok(texts.includes(text), `${text} in ${texts.join(' | ')}`)
  assert.equal(o.top.form, 'round')
  has(`+${o.top.overshoot} round`)
  has(`${o.bounds.xMax - o.bounds.xMin}`)
  has(`${o.advance}`)
  has(`${Math.round(10 * (r.sides.outer[1] - r.sides.outer[0])) / 10}`)
  has(`drawn ${r.drawing.drawn}, needed ${r.drawing.withinHalf.points}`)
  await lab.press('Shift+F')
  await lab.page.waitForTimeout(200)
  const two = (await written(lab)).map(({ text }) => text)
  assert.ok(two.includes(`drawn ${r.drawing.drawn}, needed ${r.drawing.withinTwo.points}`), two.join(' | '))
  assert.equal((await lab.stage()).refitWithin, 'two')
  await lab.close()
})

test('no two words cover each other: text faces, a script, a decorative face, one letter and sixty', async () => {
  const sixty = 'Hamburgefonstiv Hamburgefonstiv Hamburgefonstiv Hamburgefonstiv'
  const cases = [
    ['heros.otf', 'Heros', 'Rag', {}],
    ['ebgaramond.otf', 'EB Garamond', 'Hamburgefonstiv', {}],
    ['ebgaramond.otf', 'EB Garamond', sixty, {}],
    ['dancingscript.otf', 'Dancing', 'Hamburg', { colorScheme: 'dark' }],
    ['cabinsketch.ttf', 'Cabin', 'Ra', {}],
    ['cabinsketch.ttf', 'Cabin', 'Rag', { viewport: narrow }],
    ['dancingscript.otf', 'Dancing', 'Rag', { viewport: narrow, colorScheme: 'dark' }],
  ]
  for (const [index, [name, family, text, options]] of cases.entries()) {
    const lab = await home.open(options)
    await lab.ready()
    await lab.open({ name, bytes: font(name) }, family)
    await lab.setText(text)
    await lab.canvas.focus()
    for (const key of ['7', '8', 'k', 'f']) await lab.press(key)
    await lab.page.waitForTimeout(1500)
    await listen(lab)
    await lab.press('n')
    await lab.page.waitForTimeout(200)
    const texts = await written(lab)
    assert.ok(texts.length > 10, `${texts.length} texts`)
    assert.deepEqual(covered(texts), [], `${family}, ${text}, ${JSON.stringify(options)}`)
    await lab.picture(`layers-${index}`)
    assert.deepEqual(lab.errors, [])
    await lab.close()
  }
})

test('the letter that stands out is marked and told in words', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.setText('nonoMnono')
  await lab.canvas.focus()
  await listen(lab)
  await lab.press('Shift+B')
  const { standout, items, status } = await lab.stage()
  assert.equal(standout.item, items[4].id)
  assert.match(standout.sentence, /^M stands out most: it looks \d+% (darker|lighter) than the middle of the line/)
  assert.ok(status.includes(standout.sentence))
  const texts = (await written(lab)).map(({ text }) => text)
  assert.ok(texts.some((text) => /^M looks \d+% (darker|lighter)$/.test(text)), texts.join(' | '))
  await lab.setText('HHHHHH')
  await lab.frame()
  assert.equal((await lab.stage()).standout, null)
  await lab.close()
})

test('the chosen letter’s flaws stand in the panel in words', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: 'cabinsketch.ttf', bytes: font('cabinsketch.ttf') }, 'Cabin')
  await lab.setText('R')
  await lab.canvas.focus()
  await lab.press('n')
  const report = await lab.page.evaluate(
    (id) => document.querySelector('lab-sheet').letter(id),
    (await lab.stage()).items[0].glyph,
  )
  assert.ok(report.drawing.flaws.length > 3)
  const panel = lab.page.locator('letter-panel')
  for (const { sentence } of report.drawing.flaws.slice(0, 3)) await panel.getByText(sentence).first().waitFor()
  const row = panel.getByRole('row', { name: 'Drawn, on and off the curve' })
  assert.match(await row.innerText(), new RegExp(`\\b${report.drawing.drawn}$`))
  await lab.close()
})
