import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { broken, font } from './lib/fonts.mjs'
import { different, house } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

for (const { what, name, bytes } of broken()) {
  test(`${what} gets a sentence, and the font before it stays`, async () => {
    const lab = await home.open()
    await lab.ready()
    await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
    await lab.setText('Rotation')
    const before_ = await lab.bitmap()

    await lab.drop([{ name, bytes }])
    const said = lab.notice.locator('p')
    await said.waitFor()
    const sentence = await said.innerText()
    assert.ok(sentence.startsWith(`${name}: `), sentence)
    assert.match(sentence.slice(name.length + 2), /^[A-Z].{20,}\.$/s, 'a whole sentence')
    assert.doesNotMatch(sentence, /undefined|null|Error|panic|unreachable/)

    const { font: open, stage } = await lab.state()
    assert.match(open.report.family, /Heros/)
    assert.equal(stage.text, 'Rotation')
    if (name === 'half.ttf') await lab.picture('refused')

    await lab.page.getByRole('button', { name: 'Put this message away' }).click()
    assert.equal(await said.count(), 0)
    assert.equal(await lab.canvas.evaluate((canvas) => canvas.getRootNode().activeElement === canvas), true, 'the stage has the focus again')
    await lab.frame()
    assert.equal(different(before_, await lab.bitmap()), 0, 'the stage looks as it did')
    await lab.press('n')
    assert.equal((await lab.stage()).items.filter((item) => item.selected).length, 1, 'the stage still works')
    assert.deepEqual(lab.errors, [])
    await lab.close()
  })
}

test('a refused file is forgotten when the next opens', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.drop([{ name: 'notes.txt', bytes: Buffer.from('hello') }])
  await lab.notice.locator('p').waitFor()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  assert.equal(await lab.notice.locator('p').count(), 0)
  await lab.close()
})

test('a page without its sample says so and still opens a font', async () => {
  const lab = await home.open()
  await lab.page.route('**/sample.ttf', (route) => route.fulfill({ status: 404, body: '' }))
  await lab.page.reload()
  await lab.notice.locator('p').waitFor()
  await lab.page.getByRole('heading', { name: 'Drop a font anywhere on this page' }).waitFor()
  await lab.picture('no-font')
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.close()
})

test('a page without its module says so', async () => {
  const lab = await home.open()
  await lab.page.route('**/*.wasm', (route) => route.fulfill({ status: 404, body: '' }))
  await lab.page.reload()
  assert.match(await lab.notice.locator('p').innerText(), /could not start/)
  await lab.picture('broken')
  await lab.close()
})

test('a page without what stands beside the stage says so, and its letters stand all the same', async () => {
  const lab = await home.open()
  await lab.page.route('**/margin-*.js', (route) => route.fulfill({ status: 404, body: '' }))
  await lab.page.reload()
  await lab.notice.locator('p').waitFor()
  assert.match(await lab.notice.locator('p').innerText(), /could not be fetched\. Load the page again\./)
  assert.ok((await lab.stage()).items.length > 0)
  await lab.picture('no-margin')
  await lab.close()
})
