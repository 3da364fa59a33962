/** The room of all letters, as a person uses it. */
import { font } from './fonts.mjs'

/** Opens a font, by its first face if it has several. */
export async function opened(lab, name, bytes = font(name)) {
  await lab.drop([{ name, bytes }])
  const asked = lab.page.getByRole('dialog', { name: 'Which face shall open?' })
  const settled = lab.page.waitForFunction(
    (name) => {
      const { opening, font } = document.querySelector('lab-sheet').state
      return opening === null && font?.fileName === name
    },
    name,
    { timeout: 60_000 },
  )
  const first = await Promise.race([
    asked.waitFor({ timeout: 60_000 }).then(() => 'asked', () => 'quiet'),
    settled.then(() => 'settled'),
  ])
  if (first === 'asked') await lab.page.keyboard.press('Enter')
  await settled
  await lab.judged()
}

/** Enters the room by its key. */
export async function enter(lab) {
  await lab.canvas.first().focus()
  await lab.press('*')
  await lab.page.locator('letter-lines').waitFor({ timeout: 30_000 })
  await rested(lab)
}

/** Runs in the page with the list's own tree. */
export const inLines = (lab, work, argument) =>
  lab.page.evaluate(
    ({ work, argument }) => {
      const inside = (host, name) => host.querySelector(name).shadowRoot
      const room = inside(inside(document.querySelector('lab-sheet').shadowRoot, 'desk-room'), 'browse-room')
      return new Function('lines', 'argument', `return (${work})(lines, argument)`)(inside(room, 'letter-lines'), argument)
    },
    { work: String(work), argument },
  )

/** Waits until every line in view is drawn and its letters are named. */
export async function rested(lab) {
  await lab.page.waitForTimeout(250)
  for (let tries = 0; tries < 100; tries += 1) {
    const still = await inLines(lab, (lines) =>
      [...lines.querySelectorAll('.line:not([hidden])')].some((line) => line.querySelector('canvas').hidden || !line.querySelector('.cell')),
    )
    if (!still) return
    await lab.page.waitForTimeout(50)
  }
  throw new Error('the list never comes to rest')
}

export const search = (lab) => lab.page.getByRole('searchbox', { name: 'Find' })

/** Types into the field, and gives what is said to have been found. */
export async function find(lab, typed) {
  const before = typed.trim() === '' ? /^[\d,]+ letters?\./ : new RegExp(` of [\\d,]+ letters|“${typed.replaceAll(/[+.*#\\]/g, '\\$&')}”`)
  await search(lab).fill(typed)
  await lab.page.waitForTimeout(150)
  const said = lab.page.locator('browse-room .found')
  await said.filter({ hasText: before }).waitFor()
  // The field is quick, the worker may not be: its answer is the one that stays.
  await lab.page.waitForTimeout(150)
  return said.innerText()
}

/** The letter that the keys are at, as a screen reader has it. */
export const current = (lab) =>
  inLines(lab, (lines) => {
    const list = lines.querySelector('[role=listbox]')
    const at = lines.getElementById(list.getAttribute('aria-activedescendant'))
    return at && { name: at.getAttribute('aria-label'), at: Number(at.getAttribute('aria-posinset')), of: Number(at.getAttribute('aria-setsize')) }
  })

/** What was said of the last that was done. */
export const said = (lab) => lab.page.locator('browse-room .said').innerText()

/** Scrolls from end to end, a step a frame, and counts what exists on the way. */
export const throughAll = (lab, steps) =>
  inLines(
    lab,
    async (lines, steps) => {
      const scroll = lines.querySelector('.scroll')
      const most = { canvases: 0, cells: 0, nodes: 0, height: scroll.scrollHeight }
      for (let step = 1; step <= steps; step += 1) {
        scroll.scrollTop = ((scroll.scrollHeight - scroll.clientHeight) * step) / steps
        await new Promise((resolve) => requestAnimationFrame(resolve))
        most.canvases = Math.max(most.canvases, lines.querySelectorAll('canvas').length)
        most.cells = Math.max(most.cells, lines.querySelectorAll('.cell').length)
        most.nodes = Math.max(most.nodes, lines.querySelectorAll('*').length)
      }
      return most
    },
    steps,
  )
