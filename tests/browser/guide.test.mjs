/** The guide through a first review: done on the real page, by the keyboard alone, and never in the way. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { axe } from './lib/axe.mjs'
import { focused, review, tabTo } from './lib/desk.mjs'
import { house, narrow } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

const guide = (lab) => lab.page.getByRole('region', { name: /./ }).and(lab.page.locator('review-guide section'))
const step = async (lab) => (await lab.page.locator('review-guide .top').innerText()).trim()
const title = (lab) => lab.page.locator('review-guide h2').innerText()

async function at(lab, number) {
  await lab.page.waitForFunction((number) => {
    const host = document.querySelector('lab-sheet').shadowRoot.querySelector('review-guide')
    return host?.shadowRoot.querySelector('.top')?.textContent.includes(`step ${number} of 7`)
  }, number)
  await lab.frame()
}

async function begun(options) {
  const lab = await home.open({ returning: false, ...options })
  await lab.ready()
  await lab.judged()
  await tabTo(lab, /^Try a first review$/)
  await lab.page.keyboard.press('Enter')
  await at(lab, 1)
  return lab
}

test('a first visit is offered it, and goes through it by the keyboard alone', async () => {
  const lab = await begun()
  const start = Date.now()
  assert.equal(await lab.page.getByRole('complementary', { name: 'How the lab works' }).count(), 0)
  await lab.page.waitForFunction(() => {
    let at = document.activeElement
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
    return at.localName === 'h2'
  })
  assert.equal(await focused(lab), 'Look at the surest finding', 'its heading is read first')
  const live = lab.page.locator('review-guide [aria-live="polite"]')
  assert.match(await live.innerText(), /Look at the surest finding[\s\S]*Its key: J/)
  const looked = async (number) => {
    await axe(lab.page, `step ${number}`)
    await lab.picture(`guide-${number}`)
  }

  await looked(1)
  await lab.press('j')
  await at(lab, 2)
  assert.match(await live.innerText(), /See one among its neighbours/)
  await looked(2)
  await lab.press('j')
  await at(lab, 3)
  assert.ok((await lab.stage()).items.length > 1, 'it stands among others')
  await looked(3)
  await tabTo(lab, /^Show me where$/)
  await lab.press('Enter')
  assert.match(await focused(lab), /^The stage/)
  await lab.press('n')
  await lab.press('ArrowLeft')
  await at(lab, 4)
  await looked(4)
  await tabTo(lab, /^Show me where$/)
  await lab.press('Enter')
  assert.match(await focused(lab), /How much is listed/)
  await lab.press('ArrowRight')
  await at(lab, 5)
  await looked(5)
  await lab.press('j')
  await lab.press('w')
  await at(lab, 6)
  await looked(6)
  await lab.press('Shift+W')
  await lab.page.keyboard.type('A little lighter, please')
  await at(lab, 7)
  await lab.press('Escape')
  assert.equal(await guide(lab).count(), 1, 'Escape led out of the note and not out of the guide')
  await looked(7)
  await lab.press('Shift+H')
  await lab.page.getByRole('dialog', { name: 'The sheet for the artist' }).waitFor()
  assert.match(await step(lab), /step 7 of 7/)
  await lab.press('Escape')
  await lab.page.getByRole('heading', { name: 'That is a review' }).waitFor()
  await looked('end')
  console.log(`# ${((Date.now() - start) / 1000).toFixed(1)} s at a machine's pace, axe and pictures among them`)
  const said = await review(lab)
  assert.ok(said.reviews.some((one) => one.verdict === 'redraw'))
  assert.ok(said.reviews.some((one) => one.note === 'A little lighter, please'))
  await tabTo(lab, /^Finish$/)
  await lab.press('Enter')
  assert.equal(await guide(lab).count(), 0)
  assert.match(await focused(lab), /^The stage/)
  await lab.page.reload()
  await lab.ready()
  assert.equal(await lab.page.getByRole('complementary', { name: 'How the lab works' }).count(), 0, 'it was seen')
  assert.equal(await guide(lab).count(), 0)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('it is left with Escape, and gone on with from the keys, over a reload too', async () => {
  const lab = await begun()
  await lab.press('j')
  await at(lab, 2)
  await lab.press('Escape')
  assert.equal(await guide(lab).count(), 0)
  assert.match(await focused(lab), /^The stage/)
  await lab.page.reload()
  await lab.ready()
  await lab.judged()
  await lab.canvas.focus()
  await lab.press('Shift+Slash')
  await lab.page.getByRole('dialog', { name: 'Keys' }).getByRole('button', { name: 'Try a first review' }).click()
  await at(lab, 2)
  assert.equal(await lab.page.getByRole('dialog', { name: 'Keys' }).count(), 0)
  await lab.page.getByRole('button', { name: 'Next without it' }).click()
  await at(lab, 3)
  // Nothing holds the focus: the Tab key comes out of the guide to the page's end, and back past it to its head.
  await tabTo(lab, /^Figures of every letter/)
  await tabTo(lab, /^Open a font$/, true)
  await lab.close()
})

test('it works where the browser keeps nothing', async () => {
  const lab = await home.open({ returning: false })
  await lab.page.addInitScript(() => {
    Object.defineProperty(window, 'localStorage', {
      get() {
        throw new DOMException('forbidden', 'SecurityError')
      },
    })
  })
  await lab.page.reload()
  await lab.ready()
  await lab.judged()
  await lab.page.getByRole('button', { name: 'Try a first review' }).click()
  await at(lab, 1)
  await lab.press('j')
  await at(lab, 2)
  await lab.press('Escape')
  await lab.press('Shift+Slash')
  await lab.page.getByRole('dialog', { name: 'Keys' }).getByRole('button', { name: 'Try a first review' }).click()
  await at(lab, 2)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('a font of one’s own is not taken off the stage unasked', async () => {
  const { font } = await import('./lib/fonts.mjs')
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.judged()
  await lab.canvas.focus()
  await lab.press('Shift+Slash')
  await lab.page.getByRole('button', { name: 'Try a first review' }).click()
  await lab.page.getByRole('heading', { name: 'The guide goes through the sample' }).waitFor()
  assert.match((await lab.state()).font.report.family, /Heros/)
  await axe(lab.page, 'with another font')
  await lab.press('j')
  await lab.page.locator('review-guide').getByRole('button', { name: 'Open the sample' }).click()
  await at(lab, 1)
  await lab.judged()
  await lab.press('j')
  await at(lab, 2)
  await lab.close()
})

for (const [what, options] of Object.entries({
  'a narrow page': { viewport: narrow, colorScheme: 'dark', reducedMotion: 'reduce' },
  'a page at 400%': { viewport: { width: 320, height: 256 }, deviceScaleFactor: 4 },
  'a window of middling height': { viewport: { width: 1280, height: 720 } },
})) {
  test(`nothing that has the focus is covered by it: ${what}`, async () => {
    const lab = await begun(options)
    await axe(lab.page, what)
    for (const place of [1, 2, 4]) {
      while (!(await step(lab)).includes(`step ${place} of`)) {
        await lab.page.getByRole('button', { name: 'Next without it' }).click()
        await lab.frame()
      }
      await lab.page.getByRole('button', { name: 'Show me where' }).click()
      await lab.frame()
      await lab.picture(`guide-${what.replaceAll(' ', '-')}-${place}`)
      assert.ok(await clear(lab), `${await title(lab)}: ${await focused(lab)}`)
    }
    const seen = []
    await lab.page.keyboard.press('Tab')
    for (let presses = 0; presses < 70 && !seen.includes(await focused(lab)); presses += 1) {
      seen.push(await focused(lab))
      assert.ok(await clear(lab), `${seen.at(-1)} is covered`)
      await lab.page.keyboard.press('Tab')
    }
    assert.ok(seen.length > 5, seen.join(' | '))
    const over = await lab.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
    assert.equal(over, 0, 'nothing scrolls sideways')
    await lab.close()
  })
}

/** Whether some of what has the focus can be seen beside the guide, in the window. */
function clear(lab) {
  return lab.page.evaluate(() => {
    let at = document.activeElement
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
    const own = at.getBoundingClientRect()
    const host = document.querySelector('lab-sheet').shadowRoot.querySelector('review-guide')
    if (!host || host.shadowRoot.contains(at)) return true
    const over = host.getBoundingClientRect()
    const within = own.left < over.right && own.right > over.left && own.top < over.bottom && own.bottom > over.top
    if (own.bottom <= 0 || own.top >= innerHeight) return false
    // All of it covered is a failure; a part is not (WCAG 2.2, 2.4.11).
    return !within || own.top < over.top || own.bottom > over.bottom
  })
}
