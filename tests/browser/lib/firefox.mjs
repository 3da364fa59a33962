import { createHash } from 'node:crypto'
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { firefox } from 'playwright-core'

const bridge = fileURLToPath(new URL('firefox-bridge.mjs', import.meta.url))

/**
 * The driver asks the page by `eval`, which Chromium lets it do past the page's security policy and Firefox does
 * not. So that word is added to the policy that Firefox is served, and no other: all else stays forbidden. One
 * test opens the page as it is.
 */
export async function served(path) {
  if (!path.endsWith('index.html')) return null
  const text = await readFile(path, 'utf8')
  const changed = text.replace("'wasm-unsafe-eval'", "'wasm-unsafe-eval' 'unsafe-eval'")
  if (changed === text) throw new Error('the page has no policy for scripts')
  return { bytes: Buffer.from(changed) }
}

/** Before each picture the driver adds a style of its own, `body {}`, and the page's policy forbids it aloud. */
const ITS_STYLE = createHash('sha256').update('body {}').digest('base64')

/** Whether the driver made the page say this. */
export const ofDriver = (text) => text.includes(ITS_STYLE)

/**
 * Before a page is opened: this Firefox does not tell the driver when a page asks for a file, so that the page's
 * own asking is noted instead.
 */
export async function prepare(context) {
  await context.addInitScript(() => {
    const press = HTMLInputElement.prototype.click
    HTMLInputElement.prototype.click = function click() {
      if (this.type === 'file') window.askedForFile = this
      else press.call(this)
    }
  })
}

export async function choose(page, ask, file) {
  await page.evaluate(() => {
    window.askedForFile = null
  })
  await ask()
  await page.waitForFunction(() => window.askedForFile)
  const field = await page.evaluateHandle(() => window.askedForFile)
  await field.asElement().setInputFiles(file)
}

/** Nor does it tell of a file that it has saved: the folder is looked at. */
export async function saved(page, ask) {
  const folder = folders.get(page.context())
  const before = new Set(readdirSync(folder))
  await ask()
  const end = Date.now() + 120_000
  while (Date.now() < end) {
    const name = readdirSync(folder).find((one) => !before.has(one) && !one.endsWith('.part'))
    // While it is written, an empty file keeps its place and another holds what came.
    if (name && !existsSync(join(folder, `${name}.part`)) && statSync(join(folder, name)).size > 0) {
      const bytes = readFileSync(join(folder, name))
      rmSync(join(folder, name))
      return { name, bytes }
    }
    await page.waitForTimeout(50)
  }
  throw new Error('nothing was saved')
}

/** Where what a context saves is put. */
const folders = new WeakMap()

/** What a visitor's own settings are called here: this Firefox is told them before it starts, and not by the driver. */
const settings = {
  colorScheme: (value) => ({ 'layout.css.prefers-color-scheme.content-override': value === 'dark' ? 0 : 1 }),
  reducedMotion: (value) => ({ 'ui.prefersReducedMotion': value === 'reduce' ? 1 : 0 }),
  forcedColors: (value) => ({ 'browser.display.document_color_use': value === 'active' ? 2 : 0 }),
  contrast: (value) => ({ 'ui.useAccessibilityTheme': value === 'more' ? 1 : 0 }),
  // A proxy that nobody is at.
  offline: (value) =>
    value
      ? {
          'network.proxy.type': 1,
          'network.proxy.http': '127.0.0.1',
          'network.proxy.http_port': 9,
          'network.proxy.ssl': '127.0.0.1',
          'network.proxy.ssl_port': 9,
          'network.proxy.allow_hijacking_localhost': true,
        }
      : {},
  hasTouch: (value) => ({
    'dom.w3c_touch_events.enabled': value ? 1 : 0,
    // Bits of what the system says of a pointer: coarse, or fine and able to hover.
    'ui.primaryPointerCapabilities': value ? 1 : 6,
    'ui.allPointerCapabilities': value ? 1 : 6,
  }),
}

/** Not to be asked of it by the driver: said by the settings above, or nothing that our page asks after. */
const left = ['colorScheme', 'reducedMotion', 'forcedColors', 'contrast', 'offline', 'isMobile']

/** Firefox, started once for every set of a visitor's settings that is asked for, and kept till the end. */
export async function launch() {
  const started = new Map()
  const folder = mkdtempSync(join(tmpdir(), 'counterpoise-firefox-'))
  const withSettings = async (prefs) => {
    const key = JSON.stringify(prefs)
    // One that died cost the test that it died in, and is not to cost the next.
    if (!(await started.get(key))?.isConnected()) started.set(key, start(prefs, folder))
    return started.get(key)
  }
  return {
    async newContext(options = {}) {
      const prefs = settings.colorScheme(options.colorScheme)
      const rest = {}
      for (const [name, value] of Object.entries(options)) {
        if (settings[name]) Object.assign(prefs, settings[name](value))
        if (!left.includes(name)) rest[name] = value
      }
      const context = await (await withSettings(prefs)).newContext(rest)
      folders.set(context, folder)
      return context
    },
    async close() {
      for (const browser of started.values()) await (await browser).close()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

function start(prefs, folder) {
  return firefox.launch({
    channel: 'moz-firefox',
    executablePath: bridge,
    downloadsPath: folder,
    env: { ...process.env, FIREFOX_PATH: process.env.FIREFOX_PATH ?? '/usr/bin/firefox-esr' },
    firefoxUserPrefs: {
      ...prefs,
      // Over the page and not beside it, as in the other browser: both have the same room.
      'ui.useOverlayScrollbars': 1,
      // Read from the driver's world and then from the page's, what labels an element kills this Firefox's process
      // (a null pointer in libxul). No page has two worlds; drivers and axe go by the attributes instead.
      'accessibility.ARIAElementReflection.enabled': false,
      // Two: a folder that is named. What was fetched is kept there under its own name.
      'browser.download.folderList': 2,
      'browser.download.dir': folder,
      'browser.download.useDownloadDir': true,
      'browser.download.alwaysOpenPanel': false,
      'browser.helperApps.neverAsk.saveToDisk': 'application/json,text/csv,text/html,application/zip,image/svg+xml,text/plain,application/octet-stream',
    },
  })
}
