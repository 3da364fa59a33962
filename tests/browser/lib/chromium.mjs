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

export function launch(more = []) {
  return chromium.launch({ executablePath, args: [...usual, ...more] })
}

/** One that keeps what its pages store in a folder, as a person's own does. */
export function launchKept(folder) {
  return chromium.launchPersistentContext(folder, { executablePath, args: usual })
}
