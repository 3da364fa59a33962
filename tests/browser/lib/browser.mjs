import * as chromium from './chromium.mjs'
import * as firefox from './firefox.mjs'

/** The browser that this run of the suite is for. */
export const engine = process.env.BROWSER ?? 'chromium'

const engines = { chromium, firefox }
if (!engines[engine]) throw new Error(`BROWSER is ${engine}; it can be ${Object.keys(engines).join(' or ')}`)

/** What each of them does in its own way; `chromium.mjs` says what that is. */
export const { launch, served, ofDriver, prepare, choose, saved } = engines[engine]

/** What the names of its pictures begin with. */
export const shotOf = engine === 'chromium' ? '' : `${engine}-`

/** For a test's options: left out in Firefox, and why. */
export const chromiumOnly = (why) => (engine === 'chromium' ? {} : { skip: why })
