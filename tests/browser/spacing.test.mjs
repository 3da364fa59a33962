import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { font } from './lib/fonts.mjs'
import { different, house } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const panel = (lab) => lab.page.locator('spacing-panel')
async function spaced(lab) {
  await lab.judged()
  await lab.page.waitForFunction(
    () => ['done', 'failed'].includes(document.querySelector('lab-sheet').state.spacing.kind),
    null,
    { timeout: 120_000 },
  )
  return (await lab.state()).spacing
}
const places = async (lab) => (await lab.stage()).items.map((item) => item.x)

test('the sample’s planted pair is the first that stands out, and choosing it stands it on the stage with its white', async () => {
  const lab = await home.open()
  await lab.ready()
  const { report } = await spaced(lab)
  const [worst] = report.findings
  assert.deepEqual(worst.pairs[0], ['T', 'o'])
  await panel(lab).locator('.finding').first().click()
  await lab.frame()
  const { text, layers, rhythm } = await lab.stage()
  assert.ok(text.includes('To'), text)
  assert.equal(layers.white, true)
  assert.match(rhythm.sentence, /white varies by/)
  const drawn = await lab.bitmap()
  await lab.picture('spacing-white')
  await lab.canvas.focus()
  await lab.press('Shift+D')
  assert.ok(different(drawn, await lab.bitmap()) > 200, 'the white is drawn')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('the kerned pairs of the line tell which rules kern them', async () => {
  const lab = await home.open()
  await lab.ready()
  const { report } = await spaced(lab)
  await lab.setText('ToH')
  const kerned = panel(lab).locator('details').first()
  await kerned.locator('summary').click()
  assert.match(await kerned.innerText(), /Kerned on the line: 1/)
  const { apart, rules } = report.kerning.pairs.find((one) => one.pair.join('') === 'To')
  const [{ lookup, subtable }] = rules.map((place) => report.kerning.rules[place])
  const told = await kerned.locator('li').innerText()
  assert.ok(told.includes(`${Math.abs(apart)}`), told)
  assert.ok(told.includes(`lookup ${lookup}, subtable ${subtable}`), told)
  await lab.setText('HH')
  assert.match(await kerned.innerText(), /No two neighbours on the line are kerned/)
  await lab.close()
})

test('words that hold the pairs most in need are set by one key', async () => {
  const lab = await home.open()
  await lab.ready()
  await spaced(lab)
  await lab.canvas.focus()
  await lab.press('Shift+P')
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.stage.text.includes('To'))
  const { text } = await lab.stage()
  const words = text.split(' ')
  assert.ok(words.length >= 2 && words.length <= 6, text)
  assert.ok(words.every((word) => /^(?:[a-z]+|[A-Z][a-z]+|[A-Z]+)[.,:;!?]?$/.test(word)), text)
  await lab.picture('spacing-words')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('one key sets the line with the font’s kerning, as HarfBuzz’s rules have it, and the same key without', async () => {
  const lab = await home.open()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  const { report } = await spaced(lab)
  await lab.setText('AVATo')
  const own = await places(lab)
  await lab.canvas.focus()
  await lab.press('Shift+K')
  await lab.page.waitForFunction((x) => document.querySelector('lab-sheet').state.stage.items[1].x !== x, own[1])
  const kerned = await places(lab)
  // Two readers of the font's tables that know nothing of each other: the shaper's, and the report's.
  const kern = (a, b) => report.kerning.pairs.find(({ pair }) => pair[0] === a && pair[1] === b)?.apart ?? 0
  let apart = 0
  for (const [at, [a, b]] of ['AV', 'VA', 'AT', 'To'].entries()) {
    apart += kern(a, b)
    assert.ok(Math.abs(kerned[at + 1] - own[at + 1] - apart) < 1e-6, `${a}${b}: ${kerned} ${own}`)
  }
  assert.ok(apart < 0)
  // Another text is kerned as it comes.
  await lab.setText('VAV')
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.stage.items.length === 3)
  await lab.frame()
  const [, second] = await places(lab)
  const advance = (await lab.stage()).items[0].advance
  assert.ok(Math.abs(second - advance - kern('V', 'A')) < 1e-6)
  await lab.canvas.focus()
  await lab.press('Shift+K')
  assert.equal((await lab.stage()).spacing, 'bearings')
  assert.equal((await places(lab))[1], advance)
  await lab.picture('spacing-heros')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('what is suggested shows at one key and is taken home as JSON and as a feature file', async () => {
  const lab = await home.open()
  await lab.ready()
  const { suggestion, report } = await spaced(lab)
  assert.ok(suggestion.kerns.length > 0)
  await lab.setText('To')
  const own = await places(lab)
  await lab.canvas.focus()
  await lab.press('Shift+T')
  const suggested = await places(lab)
  const glyph = (c) => report.letters.find((one) => one.character === c).glyph
  const side = (c, right) =>
    suggestion.bearings
      .filter((one) => one.glyph === glyph(c) && one.right === right)
      .reduce((sum, one) => sum + one.suggested - one.is, 0)
  const kern = suggestion.kerns
    .filter((one) => one.firsts.includes('T') && one.seconds.includes('o'))
    .reduce((sum, one) => sum + one.apart, 0)
  const moved = suggested[1] - suggested[0] - (own[1] - own[0])
  assert.ok(Math.abs(moved - side('T', true) - side('o', false) - kern) < 1e-6, `${moved}`)
  const saved = async (name) => {
    const file = await lab.saved(() => panel(lab).getByRole('button', { name }).click())
    return [file.name, file.bytes.toString()]
  }
  const [fea, text] = await saved('Save as feature file')
  assert.match(fea, /-spacing\.fea$/)
  assert.match(text, /feature kern \{[\s\S]*\} kern;/)
  const [json, data] = await saved('Save as JSON')
  assert.match(json, /-spacing\.json$/)
  assert.equal(JSON.parse(data).kerns.length, suggestion.kerns.length)
  await lab.picture('spacing-suggested')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a chosen letter’s sides are told beside what is expected of them', async () => {
  const lab = await home.open()
  await lab.ready()
  await spaced(lab)
  await lab.setText('n')
  await lab.canvas.focus()
  await lab.press('n')
  await lab.page.getByRole('heading', { name: 'Side bearings, in units' }).waitFor()
  await lab.page.getByRole('row', { name: /Its other sides imply/ }).waitFor()
  await lab.close()
})

test('the optical rules are told with their source, the font’s habit, and the letters to look at', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  const rules = lab.page.locator('rules-panel')
  const { rules: report } = await lab.state()
  assert.equal(await rules.locator('details').count(), report.rules.length)
  const [first] = report.rules
  await rules.locator('summary').first().click()
  await rules.getByText(first.sentence).waitFor()
  await rules.getByText(first.source).first().waitFor()
  await rules.getByRole('button', { name: /^Stand / }).first().click()
  await lab.frame()
  const { text } = await lab.stage()
  for (const { letter } of first.letters) assert.ok(text.includes(letter), `${letter} in ${text}`)
  await lab.picture('rules')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})
