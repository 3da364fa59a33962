/** Makes the screenshots of the README, from the built page with its own sample. */
import { mkdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import { house } from './lib/lab.mjs'
import { pictures, root } from './lib/place.mjs'

mkdirSync(pictures, { recursive: true })
const home = await house()

async function take(name, colorScheme, prepare) {
  const lab = await home.open({ colorScheme, viewport: { width: 1360, height: 850 } })
  await lab.ready()
  await lab.judged()
  await prepare(lab)
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.survey.kind === 'done')
  await lab.frame()
  const path = join(pictures, `${name}-${colorScheme}.png`)
  await lab.page.screenshot({ path })
  console.log(`${path} ${Math.round(statSync(path).size / 1024)} KiB`)
  await lab.close()
}

const line = async (lab) => {
  await lab.setText('HOCERmong')
  await lab.canvas.focus()
  for (let presses = 0; presses < 5; presses += 1) await lab.press('n')
}

const over = async (lab) => {
  await lab.setText('BRPn')
  await lab.canvas.focus()
  await lab.press('n')
  await lab.press('p')
  await lab.press('n')
  await lab.press('s')
}

/** The E with a thick stem between the letters that it is held against. */
const finding = async (lab) => {
  await lab.page.locator('findings-panel').getByRole('button', { name: /strokes of E .* thicker/ }).click()
  await lab.page.mouse.move(0, 0)
}

/** The mended R held against the sample's own. */
const redraw = async (lab) => {
  await lab.drop([{ name: 'R-redraw.svg', bytes: readFileSync(join(root, 'www/public/sample/R-redraw.svg')) }])
  await lab.page.getByRole('button', { name: 'Hold against the font' }).click()
  await lab.page.locator('before-after .split').scrollIntoViewIfNeeded()
  await lab.page.locator('desk-room .inside').evaluate((inside) => inside.scrollTo(0, inside.scrollHeight))
}

/** The first lesson, with rounds and points brought onto the lines. */
const lesson = async (lab) => {
  await lab.canvas.focus()
  await lab.press('Shift+M')
  await lab.page.getByRole('button', { name: 'on the line' }).click()
  await lab.page.mouse.move(0, 0)
}

for (const scheme of ['light', 'dark']) {
  await take('lab', scheme, line)
  await take('finding', scheme, finding)
  await take('redraw', scheme, redraw)
  await take('lesson', scheme, lesson)
  await take('laid-over', scheme, over)
}
await home.close()
