import assert from 'node:assert/strict'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { font, six } from './lib/fonts.mjs'
import { different, house } from './lib/lab.mjs'
import { root } from './lib/place.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const panel = (lab) => lab.page.locator('findings-panel')
const choices = (lab) => panel(lab).locator('.choose')
const slider = (lab) => lab.page.getByRole('slider', { name: 'How much is listed' })
const count = (lab) => panel(lab).locator('.count')
const judgement = async (lab) => (await lab.state()).judgement.report
/** The findings that the page should list now, worked out apart from it. */
async function expected(lab) {
  const { judgement, allowance } = await lab.state()
  return judgement.report.findings.filter((one) => one.byChance <= allowance)
}
const same = (one, other) => one.letter === other.letter && one.cause === other.cause
const focused = (lab) =>
  lab.page.evaluate(() => {
    let at = document.activeElement
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
    return at.ariaLabel ?? at.textContent.trim().replaceAll(/\s+/g, ' ')
  })
async function loosest(lab) {
  await slider(lab).focus()
  await lab.press('End')
}

/** What each fault planted in the sample may be found as. */
const causes = {
  width: ['width'],
  weight: ['strokes', 'uprights'],
  overshoot: ['overshoot'],
  points: ['points'],
  stem: ['uprights', 'strokes', 'pair'],
  baseline: ['raised'],
  leftBearing: ['left'],
}

test('what stands out is listed, the worst first, in sentences, with how rare it is', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  const listed = await expected(lab)
  assert.equal(await choices(lab).count(), listed.length)
  const texts = await choices(lab).allInnerTexts()
  for (const [at, one] of listed.entries()) {
    assert.ok(texts[at].includes(one.sentence), `${at + 1}: ${texts[at]}`)
    assert.match(texts[at], new RegExp(`^${at + 1}\\s`))
  }
  assert.match(await panel(lab).locator('.under').first().innerText(), /sound alphabet/)
  assert.equal(await count(lab).innerText(), `${listed.length} findings`)
  assert.equal(await count(lab).getAttribute('aria-live'), 'polite')
  await lab.picture('findings-sample')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('with every doubt listed, the faults planted in the sample’s letters come first, and nothing else above them', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  await loosest(lab)
  const faults = JSON.parse(readFileSync(join(root, 'www/public/sample/faults.json'), 'utf8'))
  const listed = await expected(lab)
  assert.equal(await choices(lab).count(), listed.length)
  const planted = faults.filter((fault) => fault.measure !== 'kerning')
  for (const { letter, measure } of planted) {
    const at = listed.findIndex((one) => one.letter === letter && causes[measure].includes(one.cause))
    const where = `${letter}, ${measure}: ${listed.map((one) => `${one.letter} ${one.cause}`)}`
    assert.ok(at >= 0 && at < planted.length, where)
    assert.ok((await choices(lab).nth(at).innerText()).includes(listed[at].sentence))
  }
  await lab.close()
})

test('choosing one stands its letter between the letters it is compared with, both figures drawn; undo brings the line back', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  await lab.setText('HOnR')
  const listed = await expected(lab)
  for (const [at, one] of listed.entries()) {
    await choices(lab).nth(at).click()
    await lab.frame()
    const { text, items, view } = await lab.stage()
    const chosen = items.findIndex((item) => item.selected)
    assert.equal(items[chosen].character, one.letter)
    assert.equal(items[chosen].glyph, one.glyph)
    assert.ok([...one.beside].every((letter) => text.includes(letter)), `${text}: ${one.beside}`)
    if (one.beside) assert.ok(chosen > 0 && chosen < items.length - 1, `${one.letter} in ${text}`)
    assert.ok(view.fitted)
    assert.equal(await panel(lab).locator('[aria-current="true"]').count(), 1)
    assert.ok((await panel(lab).locator('[aria-current="true"]').innerText()).includes(one.sentence))
    const drawn = await lab.bitmap()
    await lab.picture(`finding-${one.letter}-${one.cause}`)
    // Without the marks the letters stand as they did: what is different is the marks.
    await lab.press('q')
    assert.ok(different(drawn, await lab.bitmap()) > 100, `nothing is drawn of ${one.letter}, ${one.cause}`)
    await lab.press('q')
  }
  // Hiding and showing are steps of their own: three in all for each finding.
  for (let steps = 0; steps < 3 * listed.length; steps += 1) {
    if ((await lab.stage()).text !== 'HOnR') await lab.press('Control+z')
  }
  const { text, finding } = await lab.stage()
  assert.deepEqual([text, finding], ['HOnR', null])
  // One look after another, with nothing done between them, is one step back.
  for (const at of [0, 1, 2]) await choices(lab).nth(at).click()
  await lab.press('Control+z')
  assert.equal((await lab.stage()).text, 'HOnR')
  assert.equal(await panel(lab).locator('[aria-current="true"]').count(), 0)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('the list is one stop with arrow keys inside, and J goes from one finding to the next', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  const listed = await expected(lab)
  await slider(lab).focus()
  await lab.press('Tab')
  assert.ok((await focused(lab)).includes(listed[0].sentence))
  await lab.press('ArrowDown')
  assert.ok((await focused(lab)).includes(listed[1].sentence))
  await lab.press('Tab')
  assert.match(await focused(lab), new RegExp(`^Meant so: ${listed[1].letter}`))
  await lab.press('Shift+Tab')
  await lab.press('End')
  assert.ok((await focused(lab)).includes(listed.at(-1).sentence))
  await lab.press('ArrowDown')
  assert.ok((await focused(lab)).includes(listed.at(-1).sentence), 'the end is the end')
  await lab.press('Home')
  await lab.press('Enter')
  const number = async () => {
    const { glyph, cause } = (await lab.stage()).finding
    return (await judgement(lab)).findings.find((one) => one.glyph === glyph && one.cause === cause)
  }
  assert.equal((await number()).sentence, listed[0].sentence)
  assert.match(await lab.status.innerText(), new RegExp(`^${listed[0].letter} stands `))
  await lab.press('j')
  assert.equal((await number()).sentence, listed[1].sentence)
  await lab.press('Shift+J')
  await lab.press('Shift+J')
  assert.equal((await number()).sentence, listed.at(-1).sentence)
  await lab.close()
})

test('the slider says what it means, lists more or less, and is remembered', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  assert.match(await slider(lab).getAttribute('aria-valuetext'), /shows about 1 false alarm\.$/)
  const counts = []
  await slider(lab).focus()
  await lab.press('Home')
  for (const allowance of [0.1, 0.25, 0.5, 1, 2, 4, 8]) {
    assert.equal((await lab.state()).allowance, allowance)
    const words = await slider(lab).getAttribute('aria-valuetext')
    assert.ok(words.includes(`about ${allowance} false alarm`), words)
    await panel(lab).getByText(words).waitFor()
    assert.equal(await choices(lab).count(), (await expected(lab)).length)
    counts.push(await choices(lab).count())
    await lab.press('ArrowRight')
  }
  assert.ok(counts.every((one, at) => at === 0 || one >= counts[at - 1]), `${counts}`)
  await lab.press('ArrowLeft')
  await lab.page.reload()
  await lab.ready()
  await lab.judged()
  assert.equal((await lab.state()).allowance, 4)
  assert.equal(await choices(lab).count(), counts[5])
  await lab.close()
})

test('what is meant so leaves the list, in this font alone, and can be taken back', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  const listed = await expected(lab)
  const [first] = listed
  const kept = async () => {
    await lab.kept()
    return lab.records('reviews')
  }
  await lab.page.getByRole('button', { name: /^Meant so: / }).first().click()
  await lab.frame()
  // What is meant so weighs on no other letter: the others are judged anew.
  const rest = await expected(lab)
  assert.ok(!rest.some((one) => same(one, first)))
  assert.equal(await choices(lab).count(), rest.length)
  assert.ok((await focused(lab)).includes(rest[0].sentence), 'the focus goes on to the next')
  const folded = panel(lab).getByText('Meant so (1)')
  await folded.click()
  const [{ sentence }] = (await judgement(lab)).meant
  await panel(lab).getByRole('list', { name: 'Meant so in this font' }).getByText(sentence).waitFor()
  await lab.picture('findings-meant-so')
  // Of the font nothing is kept but the letter and the cause, under a fingerprint.
  const [{ font: fingerprint, letter, cause, verdict }] = await kept()
  assert.match(fingerprint, /^[0-9a-f]{16}$/)
  assert.deepEqual({ letter, cause, verdict }, { letter: first.letter, cause: first.cause, verdict: 'meant' })
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.judged()
  assert.equal(await panel(lab).getByText(/^Meant so \(/).count(), 0)
  await lab.page.reload()
  await lab.ready()
  await lab.judged()
  assert.deepEqual(await expected(lab), rest)
  assert.equal(await choices(lab).count(), rest.length)
  await panel(lab).getByText('Meant so (1)').click()
  await lab.page.getByRole('button', { name: /^Take back: / }).click()
  await lab.frame()
  assert.equal(await choices(lab).count(), listed.length)
  assert.ok((await focused(lab)).includes(first.sentence), 'the focus goes to where it is again')
  assert.deepEqual((await kept()).map(({ verdict }) => verdict), [null])
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('with everything meant so the list says that nothing stands out', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  let all = 0
  while ((await expected(lab)).length > 0 && all < 30) {
    await lab.page.getByRole('button', { name: /^Meant so: / }).first().click()
    await lab.frame()
    all += 1
  }
  assert.match(await panel(lab).locator('.told').innerText(), /Nothing stands out at this strictness\. What stands out .* is meant so/)
  assert.equal(await count(lab).innerText(), 'No findings')
  assert.equal(await focused(lab), `Meant so (${all})`)
  await lab.picture('findings-none')
  await lab.close()
})

test('open fonts are judged as they come, with a note where they are like none that is known', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  for (const { file, family } of six) {
    await lab.open({ name: file, bytes: font(file) }, family)
    await lab.judged()
    const report = await judgement(lab)
    const chances = report.findings.map((one) => one.byChance)
    assert.ok(chances.every((one) => one <= 8), `${file}: ${chances}`)
    assert.equal(await choices(lab).count(), (await expected(lab)).length)
    assert.equal(await panel(lab).locator('.note').count(), report.note === null ? 0 : 1, `${file}: ${report.note}`)
    if (report.findings.length > 0) {
      await loosest(lab)
      await lab.press('Tab')
      await lab.press('Enter')
      const { items } = await lab.stage()
      assert.equal(items.find((item) => item.selected).glyph, report.findings[0].glyph, file)
    }
    await lab.picture(`findings-${file.replace(/\..*/, '')}`)
  }
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('letters with a finding are numbered under the line', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.judged()
  const [worst] = await expected(lab)
  await lab.setText(`${worst.letter}H`)
  const numbered = await lab.bitmap()
  await lab.page.getByRole('button', { name: /^Meant so: / }).first().click()
  await lab.frame()
  assert.ok(different(numbered, await lab.bitmap()) > 50, 'the mark goes with the finding')
  await lab.close()
})

test('letters that cannot be judged are told of, and the stage works on', async () => {
  const lab = await home.open()
  await lab.page.addInitScript(() => {
    const instantiate = WebAssembly.instantiate.bind(WebAssembly)
    WebAssembly.instantiate = async (module, imports) => {
      const got = await instantiate(module, imports)
      const exports = { ...got.exports }
      exports.lab_judge = () => {
        throw new WebAssembly.RuntimeError('unreachable')
      }
      return { instance: { exports }, module }
    }
  })
  await lab.page.reload()
  await lab.ready()
  await panel(lab).getByText(/could not be judged/).waitFor()
  await lab.setText('HOn')
  assert.equal((await lab.stage()).items.length, 3)
  await lab.picture('findings-failed')
  await lab.close()
})
