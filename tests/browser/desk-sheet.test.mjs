import assert from 'node:assert/strict'
import { mkdirSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { pathToFileURL } from 'node:url'
import { AxeBuilder } from '@axe-core/playwright'
import { chromiumOnly } from './lib/browser.mjs'
import { house } from './lib/lab.mjs'
import { screenshots } from './lib/place.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

/** A sheet with findings, a note and a mark on it. */
async function sheet(options) {
  const lab = await home.open({ acceptDownloads: true, ...options })
  await lab.ready()
  await lab.judged()
  await lab.press('j')
  await lab.press('Shift+V')
  await lab.canvas.focus()
  await lab.press('w')
  await lab.press('Shift+W')
  await lab.page.keyboard.type('The ear leans; let it stand.')
  await lab.press('Escape')
  await lab.press('Shift+H')
  await lab.page.locator('desk-handback .sheet').waitFor()
  return lab
}

async function download(lab, name) {
  const file = await lab.saved(() => lab.page.getByRole('button', { name, exact: true }).click())
  return { name: file.name, text: file.bytes.toString() }
}

const shut = chromiumOnly('the file’s own policy lets this Firefox’s driver evaluate nothing in it')
test('the saved page opens from the disk, with no network, and stands in nobody’s way', shut, async () => {
  const lab = await sheet()
  const { name, text } = await download(lab, 'Save as a page')
  assert.equal(name, 'Brigaroe-sheet.html')
  mkdirSync(screenshots, { recursive: true })
  const path = join(screenshots, name)
  writeFileSync(path, text)
  const context = await home.browser.newContext({ offline: true })
  const page = await context.newPage()
  const heard = []
  const errors = []
  page.on('request', (request) => heard.push(request.url()))
  page.on('console', (message) => errors.push(message.text()))
  page.on('pageerror', (error) => errors.push(String(error)))
  await page.goto(pathToFileURL(path).href)
  // Of the file itself not every driver tells.
  assert.deepEqual(heard.filter((one) => one !== pathToFileURL(path).href), [])
  assert.equal(await page.locator('script').count(), 0)
  const findings = (await lab.state()).judgement.report.findings.filter((one) => one.byChance <= 1)
  assert.equal(await page.locator('.entry').count(), findings.length)
  const words = await page.locator('.sheet').innerText()
  for (const { sentence } of findings) assert.ok(words.includes(sentence), sentence)
  assert.ok(words.includes('The ear leans; let it stand.'))
  assert.equal(await page.locator('.entry .mark path').count(), 2, 'an arrow’s shaft and its head')
  await page.getByRole('link', { name: '1', exact: true }).first().click()
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'])
    .analyze()
  assert.deepEqual(violations.map(({ id, nodes }) => `${id}: ${nodes[0].target} ${nodes[0].failureSummary}`), [])
  await page.screenshot({ path: join(screenshots, 'sheet-page.png'), fullPage: true })
  await page.setViewportSize({ width: 390, height: 844 })
  const over = await page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)
  assert.equal(over, 0)
  await page.screenshot({ path: join(screenshots, 'sheet-page-narrow.png'), fullPage: true })
  assert.deepEqual(errors, [])
  await context.close()
  await lab.close()
})

test('goes into JSON and CSV', async () => {
  const lab = await sheet()
  const json = JSON.parse((await download(lab, 'JSON')).text)
  assert.equal(json.format, 'counterpoise-sheet')
  assert.deepEqual(json.entries.map(({ note }) => note).filter(Boolean), ['The ear leans; let it stand.'])
  const csv = (await download(lab, 'CSV')).text
  assert.equal(csv.trim().split('\r\n').length, json.entries.length + 1)
  await lab.close()
})

test('prints as paper: the sheet and nothing else, on light ground, no letter cut', chromiumOnly('this Firefox shows no driver a page as it prints'), async () => {
  const lab = await sheet({ colorScheme: 'dark' })
  const pdf = await lab.page.pdf({ format: 'A4', preferCSSPageSize: true, printBackground: true })
  mkdirSync(screenshots, { recursive: true })
  writeFileSync(join(screenshots, 'sheet.pdf'), pdf)
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length
  await lab.page.emulateMedia({ media: 'print' })
  await lab.page.setViewportSize({ width: 680, height: 1000 })
  const shown = await lab.page.evaluate(() => {
    const visible = (element) => element.getClientRects().length > 0
    const paper = document.querySelector('.printed .sheet')
    const cut = [...paper.querySelectorAll('svg')].filter((one) => {
      const box = one.getBoundingClientRect()
      return box.left < -0.5 || box.right > innerWidth + 0.5 || box.width < 8
    })
    // Ink reaches beyond no picture's own edge.
    const spills = [...paper.querySelectorAll('.ink')].filter((ink) => {
      const [own, box] = [ink.getBoundingClientRect(), ink.closest('svg').getBoundingClientRect()]
      return own.top < box.top - 1 || own.bottom > box.bottom + 1
    })
    return {
      lab: visible(document.querySelector('lab-sheet')),
      paper: visible(paper),
      cut: cut.length,
      spills: spills.length,
      wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      avoid: getComputedStyle(paper.querySelector('.entry')).breakInside,
    }
  })
  assert.deepEqual(shown, { lab: false, paper: true, cut: 0, spills: 0, wide: 0, avoid: 'avoid' })
  const entries = await lab.page.locator('.printed .entry').count()
  assert.ok(pages >= 2 && pages <= 2 + entries, `${pages} pages`)
  await lab.page.emulateMedia({ media: 'screen' })
  await lab.press('Escape')
  assert.equal(await lab.page.locator('.printed').count(), 0, 'the lab prints as itself again')
  await lab.close()
})
