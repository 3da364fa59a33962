import { chromium } from 'playwright-core'

/** The browser that the tests drive: the one named by CHROMIUM_PATH, else Debian's. */
export function launch(more = []) {
  return chromium.launch({
    executablePath: process.env.CHROMIUM_PATH ?? '/usr/bin/chromium',
    args: [
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
      ...more,
    ],
  })
}
