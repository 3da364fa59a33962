import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { font } from './lib/fonts.mjs'
import { axe, axeInBoth } from './lib/axe.mjs'
import { house, narrow, wide } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())


/** Every state that a person can bring the page into, and how. */
const states = {
  'with the sample': async () => {},
  'with a letter chosen': async (lab) => {
    await lab.canvas.focus()
    await lab.press('n')
  },
  'with three letters chosen': async (lab) => {
    await lab.canvas.focus()
    for (const key of ['n', 'a', 'a']) await lab.press(key)
  },
  'with the calliper': async (lab) => {
    await lab.canvas.focus()
    await lab.press('Shift+C')
  },
  'with a finding on the stage': async (lab) => {
    await lab.judged()
    await lab.press('j')
  },
  'with every doubt listed': async (lab) => {
    await lab.judged()
    await lab.page.getByRole('slider').focus()
    await lab.press('End')
  },
  'with findings meant so': async (lab) => {
    await lab.judged()
    for (let presses = 0; presses < 2; presses += 1) {
      await lab.page.getByRole('button', { name: /^Meant so: / }).first().click()
    }
    await lab.page.getByText('Meant so (2)').click()
  },
  'with the table open': async (lab) => {
    await lab.page.getByText('Figures of every letter on the line').click()
  },
  'with every layer': async (lab) => {
    await lab.canvas.focus()
    for (const key of ['n', '7', '8', 'k', 'f']) await lab.press(key)
  },
  'with the texture': async (lab) => {
    await lab.canvas.focus()
    await lab.press('Shift+B')
  },
  'while the font is measured': async (lab) => {
    await lab.open({ name: 'ebgaramond.otf', bytes: font('ebgaramond.otf') }, 'EB Garamond')
    await lab.page.getByRole('progressbar').waitFor()
  },
  'with the keys shown': async (lab) => {
    await lab.page.getByRole('button', { name: 'Keys' }).click()
  },
  'with the rights shown': async (lab) => {
    await lab.page.getByTitle('Licence and embedding rights').click()
  },
  'with a refused file': async (lab) => {
    await lab.drop([{ name: 'notes.txt', bytes: Buffer.from('hello') }])
    await lab.notice.locator('p').waitFor()
  },
  'with a letter missing': async (lab) => {
    await lab.setText('R漢')
  },
}

for (const [size, viewport] of Object.entries({ wide, narrow })) {
  test(`nothing stands in anyone's way: ${size}, light and dark`, async () => {
    for (const [what, bring] of Object.entries(states)) {
      const lab = await home.open({ colorScheme: 'light', viewport })
      await lab.ready()
      await bring(lab)
      await lab.frame()
      const name = what.replace(/^with /, '').replaceAll(' ', '-')
      await axeInBoth(lab, what, (scheme) => `state-${name}-${scheme}-${size}`)
      assert.deepEqual(lab.errors, [], what)
      await lab.close()
    }
  })
}

test('nothing stands in anyone’s way: first visit, no font, broken', async () => {
  const first = await home.open({ returning: false })
  await first.ready()
  await axe(first.page, 'first visit')
  await first.page.route('**/sample.ttf', (route) => route.fulfill({ status: 404, body: '' }))
  await first.page.reload()
  await first.notice.locator('p').waitFor()
  await axe(first.page, 'no font')
  await first.page.route('**/*.wasm', (route) => route.fulfill({ status: 404, body: '' }))
  await first.page.reload()
  await first.notice.locator('p').waitFor()
  await axe(first.page, 'broken')
  await first.close()
})

test('the canvas has a role, a name and a description, and takes the focus', async () => {
  const lab = await home.open()
  await lab.ready()
  const stage = lab.page.getByRole('application', { name: 'The stage: letters on one baseline' })
  assert.equal(await stage.evaluate((one) => one.tagName), 'CANVAS')
  assert.equal(await stage.getAttribute('tabindex'), '0')
  const description = await stage.evaluate((one) => one.getRootNode().getElementById(one.getAttribute('aria-describedby')).innerText)
  assert.match(description, /arrow keys/)
  await lab.close()
})

test('what happened is told in a live region, once a drag is over', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.setText('HOno')
  assert.equal(await lab.status.getAttribute('role'), 'status')
  await lab.canvas.focus()
  await lab.press('n')
  const chosen = await lab.status.innerText()
  assert.match(chosen, /H/)
  const place = await lab.placeOf(2)
  await lab.page.mouse.move(place.x, place.y)
  await lab.page.mouse.down()
  await lab.page.mouse.move(place.x + 50, place.y, { steps: 5 })
  await lab.frame()
  assert.equal(await lab.status.innerText(), chosen, 'silent while the letter moves')
  await lab.page.mouse.up()
  await lab.frame()
  assert.match(await lab.status.innerText(), /n/)
  assert.notEqual(await lab.status.innerText(), chosen)
  await lab.close()
})

test('the Tab key goes from the file to the line, the tools, the stage and the figures, and out', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.canvas.focus()
  await lab.press('n')
  // A press where nothing can be pressed: the Tab key starts from there.
  await lab.page.mouse.click(4, 4)
  const stops = []
  for (let presses = 0; presses < 60; presses += 1) {
    await lab.page.keyboard.press('Tab')
    const stop = await lab.page.evaluate(() => {
      let at = document.activeElement
      let host = ''
      while (at?.shadowRoot?.activeElement) {
        host = at.localName
        at = at.shadowRoot.activeElement
      }
      return at === document.body ? null : `${host} ${at.ariaLabel ?? at.textContent.trim().slice(0, 30)}`
    })
    if (stop === null || stops.includes(stop)) break
    stops.push(stop)
  }
  const find = (what) => stops.findIndex((stop) => stop.includes(what))
  assert.ok(find('Open a font') >= 0 && find('Open a font') < find('text-line'), stops.join('\n'))
  assert.ok(find('text-line') < find('stage-view'), stops.join('\n'))
  assert.ok(find('stage-view') < find('Pin'), stops.join('\n'))
  assert.ok(find('Pin') < find('figures-table'), stops.join('\n'))
  assert.ok(stops.length < 40, `${stops.length} stops are too many`)
  await lab.close()
})

test('a press gives the stage the focus without a ring, the Tab key with one', async () => {
  const lab = await home.open()
  await lab.ready()
  const place = await lab.placeOf(0)
  await lab.page.mouse.click(place.x, place.y)
  const focused = (how) => lab.canvas.evaluate((canvas, how) => canvas.matches(`:${how}`), how)
  assert.deepEqual([await focused('focus'), await focused('focus-visible')], [true, false])
  await lab.page.keyboard.press('Tab')
  await lab.page.keyboard.press('Shift+Tab')
  assert.deepEqual([await focused('focus'), await focused('focus-visible')], [true, true])
  await lab.close()
})

test('a row of tools is one stop, with arrow keys inside', async () => {
  const lab = await home.open()
  await lab.ready()
  const focused = () =>
    lab.page.evaluate(() => {
      let at = document.activeElement
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
      return at.ariaLabel ?? at.textContent.trim()
    })
  await lab.page.getByRole('button', { name: 'Ink', exact: true }).focus()
  await lab.page.keyboard.press('ArrowRight')
  assert.equal(await focused(), 'Outline')
  await lab.page.keyboard.press('End')
  assert.equal(await focused(), 'Reading')
  await lab.page.keyboard.press('ArrowRight')
  assert.equal(await focused(), 'Ink')
  await lab.close()
})

test('the keys are listed at the question mark, and single ones can be put out', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.canvas.focus()
  await lab.press('Shift+Slash')
  const dialog = lab.page.getByRole('dialog', { name: 'Keys' })
  await dialog.waitFor()
  assert.match(await dialog.innerText(), /Mirror\s+M/)
  await lab.page.getByLabel(/Single keys give commands/).uncheck()
  await lab.press('Escape')
  await dialog.waitFor({ state: 'hidden' })
  await lab.canvas.focus()
  await lab.press('n')
  assert.equal((await lab.stage()).items.some((item) => item.selected), false)
  await lab.page.reload()
  await lab.ready()
  await lab.canvas.focus()
  await lab.press('n')
  assert.equal((await lab.stage()).items.some((item) => item.selected), false, 'and it is remembered')
  await lab.close()
})

test('the table says what the stage shows', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.setText('HOn')
  await lab.page.getByText('Figures of every letter on the line').click()
  const rows = lab.page.locator('figures-table tbody tr')
  // What is folded away is drawn once it is opened.
  await rows.nth(2).waitFor()
  assert.equal(await rows.count(), 3)
  const { items } = await lab.stage()
  const report = await lab.page.evaluate((id) => document.querySelector('lab-sheet').letter(id), items[1].glyph)
  const cells = await rows.nth(1).locator('th, td').allInnerTexts()
  assert.equal(cells[0].trim(), 'O')
  assert.equal(Number(cells[2]), report.advance)
  assert.equal(Number(cells[3]), report.leftBearing)
  await rows.nth(1).getByRole('button').click()
  await lab.frame()
  assert.equal((await lab.stage()).items[1].selected, true)
  await lab.close()
})

test('nothing is cut off or scrolls sideways at 400% of a 1280 pixel window', async () => {
  const lab = await home.open({ viewport: { width: 320, height: 256 }, deviceScaleFactor: 4 })
  await lab.ready()
  await lab.canvas.focus()
  await lab.press('n')
  const { wide: over, high } = await lab.page.evaluate(() => ({
    wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    high: document.documentElement.scrollHeight,
  }))
  assert.equal(over, 0)
  assert.ok(high > 256, 'the rest is below')
  await lab.page.screenshot({ path: '../../target/screenshots/zoomed-400.png', fullPage: true })
  // Where the stage fills the window, the wheel goes past it.
  await lab.canvas.scrollIntoViewIfNeeded()
  const before_ = await lab.page.evaluate(() => scrollY)
  const box = await lab.canvas.boundingBox()
  await lab.page.mouse.move(box.x + 20, Math.max(box.y + 20, 20))
  await lab.page.mouse.wheel(0, 120)
  await lab.page.waitForFunction((y) => scrollY > y, before_)
  await lab.close()
})

test('targets are large enough for a pointer, and for a finger', async () => {
  for (const [least, options] of [
    [24, {}],
    [44, { viewport: narrow, hasTouch: true, isMobile: true }],
  ]) {
    const lab = await home.open(options)
    await lab.ready()
    await lab.canvas.focus()
    await lab.press('n')
    const small = await lab.page.evaluate((least) => {
      const found = []
      const walk = (root) => {
        for (const one of root.querySelectorAll('*')) {
          if (one.shadowRoot) walk(one.shadowRoot)
          if (!one.matches('button, label, summary, input[type="text"]')) continue
          const box = one.getBoundingClientRect()
          const unseen = box.width <= 1 || box.height <= 1
          if (!unseen && (box.width < least || box.height < least)) {
            found.push(`${one.ariaLabel ?? one.textContent.trim()}: ${box.width} x ${box.height}`)
          }
        }
      }
      walk(document)
      return found
    }, least)
    assert.deepEqual(small, [], `${least} px`)
    await lab.close()
  }
})

test('light, dark and as the system: the stage too, and remembered', async () => {
  const lab = await home.open({ colorScheme: 'dark' })
  await lab.ready()
  const ground = () =>
    lab.canvas.evaluate((canvas) => {
      const [r, g, b] = canvas.getContext('2d').getImageData(3, 3, 1, 1).data
      return r + g + b > 384 ? 'light' : 'dark'
    })
  assert.equal(await ground(), 'dark')
  await lab.page.getByText('Light', { exact: true }).click({ force: true })
  await lab.frame()
  assert.equal(await ground(), 'light')
  await lab.page.reload()
  await lab.ready()
  assert.equal(await ground(), 'light')
  await lab.page.getByText('As the system', { exact: true }).click({ force: true })
  await lab.frame()
  assert.equal(await ground(), 'dark')
  await lab.page.emulateMedia({ colorScheme: 'light' })
  await lab.frame()
  assert.equal(await ground(), 'light')
  await lab.close()
})

test('forced colours and more contrast leave everything readable', async () => {
  const lab = await home.open({ forcedColors: 'active', contrast: 'more' })
  await lab.ready()
  await lab.canvas.focus()
  await lab.press('n')
  await lab.picture('forced-colours')
  // Letters and ground must still be two: the stage is a picture, which the browser does not recolour.
  const pixels = await lab.bitmap()
  let apart = 0
  for (let at = 4; at < pixels.length; at += 4) if (Math.abs(pixels[at] - pixels[0]) > 100) apart += 1
  assert.ok(apart > 0.02 * (pixels.length / 4), `${apart} pixels stand out`)
  await lab.close()
})
