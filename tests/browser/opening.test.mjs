import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { font, six } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'

let lab
let home

before(async () => {
  home = await house()
})
after(() => home.close())

async function fresh(options) {
  lab = await home.open(options)
  await lab.ready()
  return lab
}

async function clean() {
  assert.deepEqual(lab.errors, [], 'the page says nothing in error')
  await lab.close()
}

test('opens with the sample, its letters on the stage and its name in the line', async () => {
  await fresh()
  const { font: open, stage } = await lab.state()
  assert.equal(open.sample, true)
  assert.match(await lab.title.innerText(), /Sample/)
  assert.ok(stage.items.length >= 6, `${stage.items.length} letters`)
  assert.deepEqual(stage.missing, [])
  assert.equal(stage.view.fitted, true)
  await lab.picture('sample-light')
  await clean()
})

test('explains itself on a first visit, and not again', async () => {
  await fresh({ returning: false })
  const hint = lab.page.getByRole('complementary', { name: 'How the lab works' })
  await hint.waitFor()
  await lab.picture('first-visit')
  await lab.page.getByRole('button', { name: 'Understood' }).click()
  assert.equal(await hint.count(), 0)
  await lab.page.reload()
  await lab.ready()
  assert.equal(await hint.count(), 0)
  await clean()
})

for (const { kind, file, family } of six) {
  test(`opens a ${kind} face of other people's (${family})`, async () => {
    await fresh()
    const bytes = font(file)
    await lab.open({ name: file, bytes }, family)
    const { font: open, stage, notice } = await lab.state()
    assert.equal(notice, null)
    assert.equal(open.sample, false)
    assert.equal(open.fileName, file)
    assert.ok(open.report.glyphCount > 50)
    assert.ok((await lab.title.innerText()).includes(family))
    assert.ok(stage.items.every((item) => item.glyph !== null))
    await lab.setText('Hamburgefons')
    const after_ = await lab.stage()
    assert.equal(after_.text, 'Hamburgefons')
    assert.deepEqual(after_.missing, [])
    await lab.picture(`font-${kind}`)
    await clean()
  })
}

test('takes a file by the picker, and by pasting', async () => {
  await fresh()
  await lab.choose(() => lab.page.getByRole('button', { name: 'Open a font' }).click(), {
    name: 'heros.otf',
    bytes: font('heros.otf'),
  })
  await lab.ready('Heros')
  await lab.paste({ file: { name: 'slab.otf', bytes: font('roboto-slab.otf') } })
  await lab.ready('Roboto Slab')
  await clean()
})

test('shows where to let go while a file hangs over the page', async () => {
  await fresh()
  const file = { name: 'heros.otf', bytes: font('heros.otf') }
  await lab.drop([file], 'lab-sheet', false)
  const veil = lab.page.getByText('Let go to open it')
  await veil.waitFor()
  await lab.picture('drop-veil')
  await lab.drop([file], 'lab-sheet')
  await lab.ready('Heros')
  assert.equal(await veil.count(), 0)
  await clean()
})

test('of several files opens the font, and says what it left', async () => {
  await fresh()
  await lab.drop([
    { name: 'read-me.txt', bytes: Buffer.from('hello') },
    { name: 'heros.otf', bytes: font('heros.otf') },
  ])
  await lab.ready('Heros')
  assert.match(await lab.notice.innerText(), /one font at a time.*heros\.otf is open/)
  await clean()
})

test('keeps the line through a change of fonts', async () => {
  await fresh()
  await lab.setText('Rotation')
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  assert.equal((await lab.stage()).text, 'Rotation')
  await clean()
})

test('sets any text, and says what the font lacks', async () => {
  await fresh()
  await lab.setText('Rß漢g')
  const stage = await lab.stage()
  assert.ok(stage.missing.includes('漢'))
  assert.match(await lab.page.locator('#missing').innerText(), /漢/)
  await lab.picture('missing-letter')
  await clean()
})

test('sets each quick line at one press', async () => {
  await fresh()
  for (const [name, text] of [
    ['All capitals', 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'],
    ['All lower case', 'abcdefghijklmnopqrstuvwxyz'],
    ['Figures', '0123456789'],
    ['Control string of capitals', 'HHOHOO'],
    ['Control string of lower case', 'nnonoo'],
  ]) {
    await lab.page.getByRole('button', { name, exact: false }).click()
    await lab.frame()
    assert.equal((await lab.stage()).text, text)
  }
  await clean()
})
