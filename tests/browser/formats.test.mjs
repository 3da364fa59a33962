import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { chromiumOnly } from './lib/browser.mjs'
import { font } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'
import { fontsOf, shows, written } from './lib/formats.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

async function fresh(options) {
  const lab = await home.open(options)
  await lab.ready()
  return lab
}

test('every open font of the list shows its letters, or a sentence', { timeout: 600_000, ...chromiumOnly('the table of them is written once') }, async (t) => {
  const lab = await fresh()
  const listed = fontsOf('formats')
  assert.ok(listed.length >= 50, `${listed.length} fonts`)
  const rows = []
  for (const face of listed) {
    const row = await shows(lab, face)
    rows.push(row)
    assert.ok(row.letters > 0 || /^[A-Z].{20,}\.$/s.test(row.said), `${face.id}: ${row.said || 'nothing was said'}`)
    assert.doesNotMatch(row.said, /undefined|null|panic|unreachable|stumbled/, face.id)
  }
  t.diagnostic(`${rows.length} fonts; ${rows.filter((row) => row.letters > 0).length} open, the rest with a sentence`)
  written(rows)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a web font stands on the stage as the font that it was packed from', async () => {
  const lab = await fresh()
  const pictures = []
  for (const file of ['sourcesans-ttf.ttf', 'sourcesans-woff-ttf.woff', 'sourcesans-woff2-ttf.woff2']) {
    await lab.open({ name: file, bytes: font(file) }, 'Source Sans')
    await lab.setText('Hamburg')
    const { font: open, stage } = await lab.state()
    assert.equal(open.fileName, file)
    assert.equal(await lab.page.locator('axes-panel').count(), 0, 'a plain font leaves nothing to choose')
    pictures.push(stage.items.map(({ glyph, advance }) => [glyph, advance]))
  }
  assert.deepEqual(pictures[1], pictures[0])
  assert.deepEqual(pictures[2], pictures[0])
  await lab.close()
})

test('a collection asks which face, and the keyboard answers', async () => {
  const lab = await fresh()
  await lab.drop([{ name: 'wqy-microhei.ttc', bytes: font('wqy-microhei.ttc') }])
  const dialog = lab.page.getByRole('dialog', { name: 'Which face shall open?' })
  await dialog.waitFor()
  await lab.picture('face-choice')
  await lab.page.keyboard.press('ArrowDown')
  await lab.page.keyboard.press('Enter')
  await lab.ready('WenQuanYi')
  assert.match((await lab.state()).font.report.family, /Mono/)
  assert.equal((await lab.state()).parcel.face, 1)
  await lab.page.getByLabel('Face', { exact: true }).selectOption('0')
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.parcel.face === 0)
  assert.doesNotMatch((await lab.state()).font.report.family, /Mono/)

  await lab.drop([{ name: 'wqy-microhei.ttc', bytes: font('wqy-microhei.ttc') }])
  await dialog.waitFor()
  await lab.page.keyboard.press('Escape')
  await dialog.waitFor({ state: 'detached' })
  assert.equal((await lab.state()).parcel.face, 0, 'the face before stays')
  await lab.close()
})

test('an axis moves the letters by slider, by number and by name, and goes back', async () => {
  const lab = await fresh()
  await lab.open({ name: 'inter.ttf', bytes: font('inter-vf.ttf') }, 'Inter')
  await lab.setText('Hno')
  const advances = async () => (await lab.stage()).items.map(({ advance }) => advance)
  const moved = (value) =>
    lab.page.waitForFunction((value) => {
      const { parcel, judgement } = document.querySelector('lab-sheet').state
      return parcel.position[0] === value && judgement.kind === 'done'
    }, value)
  const drawn = await advances()
  const slider = lab.page.getByRole('slider', { name: 'Weight' })
  await slider.focus()
  await lab.page.keyboard.press('End')
  await moved(900)
  const black = await advances()
  assert.notDeepEqual(black, drawn)
  assert.equal((await lab.stage()).text, 'Hno')
  assert.match((await lab.state()).font.report.style, /Black/)
  await lab.picture('axes')

  const number = lab.page.getByRole('textbox', { name: /^Weight/ })
  await number.fill('250')
  await number.press('Enter')
  await moved(250)
  assert.match((await lab.state()).font.report.style, /Weight 250/)
  await number.fill('a lot')
  await number.press('Enter')
  assert.equal(await number.inputValue(), '250')

  await lab.page.getByLabel('Named position').selectOption({ label: 'Bold' })
  await moved(700)
  await lab.page.getByRole('button', { name: 'Position before' }).click()
  await moved(250)
  await lab.canvas.focus()
  await lab.page.keyboard.press('Control+z')
  await moved(900)
  assert.deepEqual(await advances(), black)
  await lab.page.getByRole('button', { name: 'As it opens' }).click()
  await moved(400)
  assert.deepEqual(await advances(), drawn)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('judges along an axis, shows where letters stand out, and can be stopped', async () => {
  const lab = await fresh()
  await lab.open({ name: 'serif.otf', bytes: font('sourceserif-cff2.otf') }, 'Source Serif')
  await lab.judged()
  await lab.page.getByLabel('Axis to judge along').selectOption({ index: 0 })
  const judge = lab.page.getByRole('button', { name: 'Judge along this axis' })
  await judge.click()
  const chart = lab.page.locator('axis-walk')
  await chart.getByText(/at 13 positions|along Weight\./i).waitFor({ timeout: 60_000 })
  await lab.picture('axis-walk')
  await judge.click()
  await chart.getByRole('button', { name: 'Stop judging' }).click()
  await judge.waitFor({ timeout: 20_000 })
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a symbol font of the old kind stands on its keys, and a colour font says that it is one', async () => {
  const lab = await fresh()
  await lab.drop([{ name: 'wingding.ttf', bytes: font('wingding.ttf') }])
  await lab.notice.locator('p').waitFor()
  assert.match(await lab.notice.innerText(), /symbol font of the old kind/)
  assert.ok((await lab.state()).font.report.characterCount > 20)
  await lab.drop([{ name: 'honk.woff2', bytes: font('honk.woff2') }])
  await lab.ready('Honk')
  assert.match(await lab.notice.innerText(), /colour font.*plain outlines/s)
  await lab.close()
})

test('a damaged web font gets a sentence', async () => {
  const lab = await fresh()
  const bytes = Buffer.from(font('greatvibes.woff2'))
  await lab.drop([{ name: 'half.woff2', bytes: bytes.subarray(0, bytes.length >> 1) }])
  await lab.notice.locator('p').waitFor()
  assert.match(await lab.notice.innerText(), /half\.woff2.*cannot be unpacked/s)
  assert.equal((await lab.state()).font.sample, true)
  await lab.close()
})
