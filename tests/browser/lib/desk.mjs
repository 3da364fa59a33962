/** Whoever keeps the desk, with the keyboard alone. */

/** Presses Tab until what has the focus is called this; Shift+Tab where `back`. */
export async function tabTo(lab, name, back = false) {
  const seen = []
  for (let presses = 0; presses < 150; presses += 1) {
    await lab.page.keyboard.press(back ? 'Shift+Tab' : 'Tab')
    const at = await focused(lab)
    if (name.test(at)) return at
    seen.push(at)
  }
  throw new Error(`the Tab key never comes to ${name}: ${[...new Set(seen)].join(' | ')}`)
}

/** What has the focus, as it is called. */
export function focused(lab) {
  return lab.page.evaluate(() => {
    let at = document.activeElement
    while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
    const label = at.labels?.[0]?.textContent
    return (at.getAttribute('aria-label') ?? label ?? at.textContent).trim().replaceAll(/\s+/g, ' ')
  })
}

/** What the page knows of the reviewer's words. */
export const review = (lab) => lab.page.evaluate(() => document.querySelector('lab-sheet').state.review)

/** Opens a file from the computer by its key. */
export async function openByKey(lab, file, family) {
  const arrived = lab.page.waitForFunction((name) => document.querySelector('lab-sheet').state.font?.fileName === name, file.name)
  await lab.choose(() => lab.page.keyboard.press('Control+o'), file)
  await arrived
  await lab.ready(family)
  await lab.judged()
}
