import { readFileSync } from 'node:fs'
import { chromium } from 'playwright-core'

/** The browser that the tests drive: the one named by CHROMIUM_PATH, else Debian's. */
const executablePath = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium'

const usual = [
  // The sandbox needs rights that root in a container does not have.
  '--no-sandbox',
  '--disable-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-domain-reliability',
  '--disable-sync',
  '--no-first-run',
  '--no-pings',
  '--font-render-hinting=none',
]

/** A server sends it the page as it is. */
export const served = undefined

/** Whether the driver made the page say this. */
export const ofDriver = () => false

/** Before a page is opened in it. */
export async function prepare() {}

/** Answers the question for a file that this makes the page put. */
export async function choose(page, ask, file) {
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), ask()])
  await chooser.setFiles(file)
}

/** The name and the bytes of what this makes the page save. */
export async function saved(page, ask) {
  const [download] = await Promise.all([page.waitForEvent('download', { timeout: 120_000 }), ask()])
  return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) }
}

export function launch(more = []) {
  return chromium.launch({ executablePath, args: [...usual, ...more] })
}

/** One that keeps what its pages store in a folder, as a person's own does. */
export function launchKept(folder) {
  return chromium.launchPersistentContext(folder, { executablePath, args: usual })
}
