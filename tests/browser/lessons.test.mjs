import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { axe, axeInBoth } from './lib/axe.mjs'
import { chromiumOnly, engine } from './lib/browser.mjs'
import { focused, tabTo } from './lib/desk.mjs'
import { font } from './lib/fonts.mjs'
import { house, narrow, wide } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

/** A sans, a serif and a decorative face: tests/reference/fonts.toml says from which packages. */
const faces = [
  { kind: 'sans', file: 'dejavu.ttf', family: 'DejaVu Sans' },
  { kind: 'serif', file: 'ebgaramond.otf', family: 'EB Garamond' },
  { kind: 'decorative', file: 'murmure.otf', family: 'Murmure' },
]

const lessons = [
  'Why an O is drawn taller than an H',
  'Why a bar is thinner than a stem',
  'Why the thick of a round is thicker than a stem',
  'Why strokes thin where they join',
  'Why the upper half is smaller than the lower',
  'Why W and M have thinner strokes',
  'The middle that is not the middle',
  'Why side bearings differ from side to side',
  'Why kerning comes last',
  'Why few points are better than many',
]

const title = (lab) => lab.page.locator('lesson-page h3')
const slider = (lab) => lab.page.getByRole('slider', { name: 'From as drawn to changed' })
const inks = (lab, which) =>
  lab.page
    .locator('lesson-page .frame')
    .nth(which)
    .locator('path.ink, path.hollow')
    .evaluateAll((all) => all.map((one) => one.getAttribute('d')))

async function room(options, face) {
  const lab = await home.open({ acceptDownloads: true, ...options })
  await lab.ready()
  if (face) await lab.open({ name: face.file, bytes: font(face.file) }, face.family)
  await lab.press('Shift+M')
  await title(lab).waitFor()
  return lab
}

for (const face of faces) {
  test(`every lesson by the keyboard alone, on a ${face.kind}`, face === faces[0] ? {} : chromiumOnly('one is enough in a second browser'), async () => {
    const lab = await room({}, face)
    for (const [at, name] of lessons.entries()) {
      assert.equal(await title(lab).innerText(), name)
      await lab.frame()
      await lab.picture(`lesson-${at + 1}-${face.kind}`)
      await tabTo(lab, /^From as drawn to changed$/)
      await lab.press('End')
      const changed = await inks(lab, 1)
      for (let presses = 0; presses < 20; presses += 1) await lab.page.keyboard.press('ArrowLeft')
      await lab.frame()
      assert.equal(await slider(lab).inputValue(), '0')
      assert.deepEqual(await inks(lab, 1), await inks(lab, 0), `${name}: as drawn`)
      // In the lessons about the line the letters keep their shapes; a font may draw without a compensation.
      const told = await lab.page.locator('lesson-page .said').innerText()
      const moves = at === 7 || at === 8
      if (!moves && !/without this compensation/.test(told)) assert.notDeepEqual(changed, await inks(lab, 0), name)
      assert.match(told, /Source\. ./)
      if (at + 1 === lessons.length) break
      const next = ['', 'Bars are', 'A round', 'Strokes thin', 'The upper', 'Letters of', 'The middle', 'Side', 'Kerning', 'Few'][at + 1]
      await tabTo(lab, new RegExp(`^${next}`))
      await lab.press('Enter')
      assert.equal(await focused(lab), lessons[at + 1], 'the next lesson begins at its title')
    }
    await lab.press('Escape')
    await lab.page.locator('lesson-page').waitFor({ state: 'detached' })
    assert.deepEqual(lab.errors, [])
    await lab.close()
  })
}

test('taken out, O stands on the lines, and the figures say so', async () => {
  const lab = await room({}, faces[0])
  const rows = await lab.page.locator('lesson-page .figures tr').allInnerTexts()
  assert.match(rows.find((row) => /^O above the line\s+units/.test(row)) ?? rows.join('|'), /27\s+0\s+−27/)
  assert.match(rows.find((row) => /^O below the line\s+units/.test(row)) ?? rows.join('|'), /29\s+0\s+−29/)
  await lab.close()
})

test('by touch on a narrow screen: a lesson, its slider, its words and its trial', chromiumOnly('a finger is led by Chromium’s own protocol'), async () => {
  const lab = await home.open({ viewport: narrow, hasTouch: true, isMobile: true })
  await lab.ready()
  await lab.page.getByRole('button', { name: 'Lessons' }).tap()
  await title(lab).waitFor()
  await lab.page.getByLabel('Lesson', { exact: true }).selectOption('halves')
  assert.equal(await title(lab).innerText(), lessons[4])
  await lab.page.getByRole('button', { name: 'as drawn' }).tap()
  assert.deepEqual(await inks(lab, 1), await inks(lab, 0))
  await lab.page.getByRole('button', { name: 'halves alike' }).tap()
  assert.notDeepEqual(await inks(lab, 1), await inks(lab, 0))
  await lab.page.getByLabel('Turn the letters over').tap()
  await lab.frame()
  await lab.picture('lesson-narrow')
  const box = await slider(lab).boundingBox()
  const at = (share) => ({ x: box.x + share * box.width, y: box.y + box.height / 2 })
  await lab.touchDrag(at(0.97), at(0.5))
  assert.ok(Math.abs(Number(await slider(lab).inputValue())) < 0.35, await slider(lab).inputValue())
  const wider = await lab.page.evaluate(() => document.documentElement.scrollWidth > window.innerWidth)
  assert.equal(wider, false, 'nothing runs out of the window')
  await lab.page.locator('lesson-page button.word').first().tap()
  await lab.page.getByRole('heading', { name: 'Words of the trade' }).waitFor()
  await lab.page.getByLabel('Lesson', { exact: true }).selectOption('eye')
  await lab.page.getByRole('button', { name: /^Which looks taller/ }).tap()
  await lab.page.locator('eye-page .stage path').first().waitFor()
  for (let answers = 0; answers < 3; answers += 1) {
    const was = await lab.page.locator('eye-page .foot span').innerText()
    await lab.page.waitForTimeout(560)
    await lab.page.locator('eye-page .answers button').first().tap()
    await lab.page.waitForFunction((was) => {
      const inside = (host, name) => host.querySelector(name).shadowRoot
      const room = inside(inside(document.querySelector('lab-sheet').shadowRoot, 'desk-room'), 'desk-lessons')
      return inside(room, 'eye-page').querySelector('.foot span').innerText !== was
    }, was)
  }
  await lab.picture('eye-narrow')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a trial of sixty questions by the keyboard: nothing is told before its end, and the data can be had', async () => {
  const lab = await room({}, faces[0])
  // Backwards is the shorter way; Firefox would leave the dialog for its own buttons, of which a led one has none.
  await tabTo(lab, /^Try your eye$/, engine === 'chromium')
  await lab.press('Enter')
  await tabTo(lab, /^Which looks taller/)
  await lab.press('Enter')
  const stage = lab.page.locator('eye-page .stage path')
  const sides = []
  // Whoever looks at the ink: the round one looks larger from more than 2% of overshoot on,
  // and 2.5% is the next that is shown.
  for (let question = 1; question <= 60; question += 1) {
    assert.equal(await lab.page.locator('eye-page .foot span').innerText(), `Question ${question} of 60`)
    await stage.nth(1).waitFor()
    const boxes = await stage.evaluateAll((all) => all.map((one) => one.getBBox()).map(({ width, height }) => ({ width, height })))
    const heights = boxes.map((one) => one.height)
    // The O is the broader of the two.
    const round = boxes[0].width > boxes[1].width ? 0 : 1
    sides.push(round)
    const larger = heights[round] / heights[1 - round] > 1.0401
    assert.equal(await lab.page.locator('eye-page svg .curve, eye-page .trouble').count(), 0)
    await lab.page.waitForTimeout(170)
    await lab.page.keyboard.press(larger === (round === 0) ? 'ArrowLeft' : 'ArrowRight')
    await lab.page.waitForTimeout(20)
  }
  assert.ok(sides.includes(0) && sides.includes(1), 'the sides change')
  await lab.page.getByRole('heading', { name: 'What your eye says' }).waitFor()
  assert.equal(await focused(lab), 'What your eye says')
  await lab.picture('eye-found')
  const said = await lab.page.locator('eye-page .found').innerText()
  const [, equal, low, high] = /overshoot of (−?[\d.]+)% \(95% interval: (−?[\d.]+)% to (−?[\d.]+)%\)/.exec(said) ?? []
  assert.ok(Number(low) >= 2 && Number(high) <= 2.5 && Number(low) < Number(equal) && Number(equal) < Number(high), said)
  assert.match(said, /This font: 1\.9%, below your interval/)
  assert.match(said, /Karow/)
  assert.match(said, /no nearer/)
  await axe(lab.page, 'with a trial’s result')
  const save = async (name) => {
    const file = await lab.saved(() => lab.page.locator('eye-page').getByRole('button', { name }).click())
    return { name: file.name, text: file.bytes.toString() }
  }
  const json = await save('Save as JSON')
  assert.equal(json.name, 'taller-eye.json')
  const data = JSON.parse(json.text)
  assert.equal(data.answers.length, 60)
  assert.ok(data.answers.every((one) => one.milliseconds >= 150))
  assert.equal(data.answers.filter((one) => one.staircase === 0).length, 30)
  const csv = await save('Save as CSV')
  assert.equal(csv.text.trim().split('\r\n').length, 61)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a teacher’s link and file open the lesson; what is none is refused in a sentence', async () => {
  const at = '#lesson=bars&text=HF&out=0.5&note=Look%20at%20the%20F.'
  const lab = await home.open({ acceptDownloads: true, at })
  await lab.ready()
  await title(lab).waitFor()
  assert.equal(await title(lab).innerText(), lessons[1])
  assert.equal(await slider(lab).inputValue(), '0.5')
  assert.equal(await lab.page.getByLabel('Letters', { exact: true }).inputValue(), 'HF')
  await lab.page.getByText('Look at the F.', { exact: true }).waitFor()
  assert.equal(await lab.page.evaluate(() => location.hash), '', 'the address names the lesson no longer')
  await lab.page.getByText('Hand this lesson on').click()
  const { name: called, bytes } = await lab.saved(() => lab.page.getByRole('button', { name: 'Save as a file' }).click())
  assert.equal(called, 'bars-lesson.json')
  assert.deepEqual(JSON.parse(bytes), {
    format: 'counterpoise-lesson',
    version: 1,
    lesson: 'bars',
    text: 'HF',
    out: 0.5,
    turned: false,
    note: 'Look at the F.',
  })
  const give = (name, bytes) =>
    lab.choose(() => lab.page.getByRole('button', { name: 'Open a lesson’s file' }).click(), {
      name,
      mimeType: 'application/json',
      bytes,
    })
  await give('x.json', Buffer.from('{"format":"counterpoise-lesson","version":1,"lesson":"<img src=x onerror=1>"}'))
  assert.match(await lab.page.locator('lesson-page [role="alert"]').innerText(), /no lesson that Counterpoise has saved/)
  await give('y.json', Buffer.from(`{"format":"counterpoise-lesson","version":1,"lesson":"many","note":"${'a'.repeat(200_000)}"}`))
  assert.match(await lab.page.locator('lesson-page [role="alert"]').innerText(), /no lesson/)
  await give('bars-lesson.json', bytes)
  await lab.page.locator('lesson-page [role="alert"]').waitFor({ state: 'detached' })
  assert.equal(await slider(lab).inputValue(), '0.5')
  // While the page is open, too.
  await lab.page.evaluate(() => {
    location.hash = 'lesson=__proto__&out=1e400'
  })
  assert.match(await lab.page.locator('lesson-page [role="alert"]').innerText(), /leads to no lesson/)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a word is looked up from what has the focus, by a press on a label, and from a lesson', async () => {
  const lab = await home.open()
  await lab.ready()
  const asked = () => lab.page.getByRole('region', { name: 'Words that you asked about' }).getByRole('heading').allInnerTexts()
  const words = lab.page.getByRole('heading', { name: 'Words of the trade' })
  await lab.page.getByRole('button', { name: 'Overshoot', exact: true }).focus()
  await lab.press('Shift+Q')
  await words.waitFor()
  assert.equal((await asked())[0], 'overshoot')
  assert.equal(await focused(lab), 'Words of the trade')
  const picture = lab.page.getByRole('region', { name: 'Words that you asked about' }).getByRole('img').first()
  assert.equal(await picture.getAttribute('aria-label'), 'overshoot, on this font’s letters')
  await lab.picture('word-asked')
  await lab.press('Escape')
  // In a room that lies over the sheet, and back.
  await lab.press('Shift+S')
  await lab.page.locator('desk-shelf .foot, desk-shelf footer').first().waitFor()
  await lab.press('Shift+Q')
  await words.waitFor()
  await lab.page.getByRole('button', { name: 'Back to where you were' }).click()
  await lab.page.locator('desk-shelf footer').waitFor()
  await lab.press('Escape')
  // A label that is no control: the press is looked up and does nothing else.
  await lab.page.getByRole('button', { name: 'What is that?' }).click()
  await lab.page.getByRole('button', { name: 'Never mind' }).waitFor()
  await axe(lab.page, 'while a word is pointed at')
  await lab.page.getByRole('rowheader', { name: 'x-height' }).or(lab.page.getByText('x-height', { exact: true })).first().click()
  await words.waitFor()
  assert.deepEqual(await asked(), ['x-height'])
  await lab.press('Escape')
  await lab.page.getByRole('button', { name: 'What is that?' }).click()
  const before = (await lab.stage()).layers.overshoot
  await lab.page.getByRole('button', { name: 'Overshoot', exact: true }).click()
  await words.waitFor()
  assert.equal((await lab.stage()).layers.overshoot, before, 'the layer was not switched')
  await lab.press('Escape')
  await lab.page.getByRole('button', { name: 'What is that?' }).click()
  await lab.page.getByRole('button', { name: 'Never mind' }).waitFor()
  await lab.press('Escape')
  assert.equal(await lab.page.locator('word-picker').count(), 0)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('where the font lacks the letters a sentence says so', async () => {
  const lab = await room({})
  await lab.page.getByLabel('Letters', { exact: true }).fill('H漢O')
  assert.match(await lab.page.locator('lesson-page .said').innerText(), /This font has no 漢, so it is not shown\./)
  await lab.page.getByLabel('Letters', { exact: true }).fill('漢')
  assert.match(await lab.page.locator('lesson-page .said').innerText(), /needs letters such as HOAn/)
  await lab.page.getByLabel('Letters', { exact: true }).fill('H')
  assert.match(await lab.page.locator('lesson-page .said').innerText(), /not about these letters|without this compensation/)
  await lab.close()
})

test('stands in nobody’s way, light and dark', async () => {
  const lab = await room({ colorScheme: 'light' })
  const list = lab.page.getByRole('navigation', { name: 'Lessons', exact: true }).getByRole('button')
  for (let at = 0; at < 12; at += 1) {
    await list.nth(at).click()
    await lab.frame()
    const shown = at === 4 || at === 9 || at === 11
    await axeInBoth(lab, await list.nth(at).innerText(), shown ? (scheme) => `lessons-${at}-${scheme}` : null)
  }
  await list.nth(10).click()
  await lab.page.getByRole('button', { name: /^Which half/ }).or(lab.page.getByRole('button', { name: /lower half or the upper/ })).first().click()
  await lab.page.locator('eye-page .stage path').first().waitFor()
  await axeInBoth(lab, 'in a trial', (scheme) => `eye-trial-${scheme}`)
  await lab.page.setViewportSize(narrow)
  await axeInBoth(lab, 'in a trial, narrow')
  await lab.page.setViewportSize(wide)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('the lessons are fetched when their room is entered, and ask for nothing but parts of the build', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.page.waitForLoadState('networkidle')
  const heard = []
  lab.page.on('request', (request) => heard.push(request.url()))
  await lab.press('Shift+M')
  await title(lab).waitFor()
  await lab.page.waitForLoadState('networkidle')
  assert.ok(heard.some((address) => /counterpoise_lessons.*\.wasm$/.test(address)), heard.join('\n'))
  for (const address of heard) assert.ok(address.startsWith(`${home.address}assets/`), address)
  await lab.close()
})
