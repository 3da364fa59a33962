/**
 * WebKit, as Debian packages it: driven by the W3C's WebDriver, on a screen of its own that nobody sees. The tests'
 * other driver brings a WebKit that it fetches itself, and knows no other.
 */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createServer } from 'node:net'
import { setTimeout as sleep } from 'node:timers/promises'
import { Builder, Key } from 'selenium-webdriver'
import { drawn, pixels } from './lab.mjs'

const driverProgram = process.env.WEBKIT_DRIVER_PATH ?? '/usr/bin/WebKitWebDriver'
const browserProgram = process.env.WEBKIT_PATH ?? '/usr/lib/x86_64-linux-gnu/webkit2gtk-4.1/MiniBrowser'

/**
 * WebKitGTK 2.50 goes over from its interpreter of WebAssembly to its compiler in the middle of a loop, and now and then
 * loses a value there: opening the sample, measuring and drawing its letters in a module that was started anew went
 * wrong 10 times in some 5,500 (an access out of bounds, which our Rust without `unsafe` cannot make, or a panic), and
 * not once in 2,883 with this one step put off to the function's next call. The page mends itself after it; here,
 * what the page does by itself is looked at.
 */
const steady = { JSC_useWasmIPIntLoopOSR: '0' }

/** Milliseconds within which anything that is waited for has come. */
const PATIENCE = 60_000

export async function launch({ width, height }) {
  const screen = await hidden(`${width + 200}x${height + 200}x24`)
  const port = await free()
  const driving = spawn(driverProgram, [`--port=${port}`], {
    env: { ...process.env, ...steady, DISPLAY: screen.name, GDK_BACKEND: 'x11', LIBGL_ALWAYS_SOFTWARE: '1' },
    stdio: 'ignore',
  })
  await listening(port)
  return {
    /** A browser with nothing kept. */
    async open() {
      const driver = await new Builder()
        .usingServer(`http://127.0.0.1:${port}`)
        .withCapabilities({
          browserName: 'MiniBrowser',
          'webkitgtk:browserOptions': { binary: browserProgram, args: ['--automation'] },
        })
        .build()
      await driver.manage().setTimeouts({ script: PATIENCE, pageLoad: PATIENCE })
      const window = driver.manage().window()
      await window.setRect({ x: 0, y: 0, width, height })
      // What the window's own bars take is added.
      const [across, down] = await driver.executeScript('return [innerWidth, innerHeight]')
      await window.setRect({ x: 0, y: 0, width: 2 * width - across, height: 2 * height - down })
      return new WebKitLab(driver)
    },
    async close() {
      driving.kill()
      screen.close()
    },
  }
}

/** A port that nobody listens at. */
async function free() {
  const server = createServer().listen(0, '127.0.0.1')
  await once(server, 'listening')
  const { port } = server.address()
  server.close()
  await once(server, 'close')
  return port
}

async function listening(port) {
  for (let tries = 0; tries < 100; tries += 1) {
    const answer = await fetch(`http://127.0.0.1:${port}/status`).catch(() => null)
    if (answer?.ok) return
    await sleep(100)
  }
  throw new Error(`${driverProgram} does not answer`)
}

/** A screen in memory. It says its number once it is there. */
async function hidden(size) {
  const server = spawn('Xvfb', ['-displayfd', '3', '-screen', '0', size, '-nolisten', 'tcp'], {
    stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
  })
  const [number] = await once(server.stdio[3], 'data')
  return { name: `:${String(number).trim()}`, close: () => server.kill() }
}

/** The stage's canvas, as the page finds it. */
const CANVAS =
  "document.querySelector('lab-sheet').shadowRoot.querySelector('stage-view').shadowRoot.querySelector('canvas')"

const chords = { Control: Key.CONTROL, Shift: Key.SHIFT, Alt: Key.ALT }
const keys = { Enter: Key.ENTER, Escape: Key.ESCAPE, Tab: Key.TAB, ArrowLeft: Key.LEFT, ArrowRight: Key.RIGHT }

/** The lab as a person uses it, by the names that `lab.mjs` gives. */
class WebKitLab {
  constructor(driver) {
    this.driver = driver
    this.page = { evaluate: (work, argument) => this.#evaluate(work, argument) }
    this.canvas = {
      focus: () => this.#evaluate(`() => ${CANVAS}.focus()`),
    }
  }

  async #evaluate(work, argument) {
    // As text: the driver's own way of handing values over loses the order of their parts.
    const [text, failed] = await this.driver.executeAsyncScript(
      `const done = arguments[1]
       new Promise((resolve) => resolve((${work})(arguments[0]))).then(
         (value) => done([JSON.stringify(value ?? null), null]),
         (error) => done([null, String(error?.stack ?? error)]),
       )`,
      argument,
    )
    if (failed !== null) throw new Error(failed)
    return JSON.parse(text)
  }

  /** Opens the page as one that was here before does; what it says in error from then on is kept. */
  async goto(address, settings = {}) {
    await this.driver.get(address)
    await this.#evaluate(
      (settings) => localStorage.setItem('counterpoise.settings', JSON.stringify({ visited: true, ...settings })),
      settings,
    )
    await this.reload()
  }

  async reload() {
    await this.driver.navigate().refresh()
    await this.#evaluate(() => {
      window.said = []
      addEventListener('error', (event) => window.said.push(event.message))
      addEventListener('unhandledrejection', (event) => window.said.push(String(event.reason)))
      const say = console.error
      console.error = (...words) => {
        window.said.push(words.join(' '))
        say(...words)
      }
    })
  }

  errors() {
    return this.#evaluate(() => window.said)
  }

  /** Waits until this holds in the page. */
  async until(work, argument) {
    await this.driver.wait(() => this.#evaluate(work, argument), PATIENCE, String(work))
    await this.frame()
  }

  ready(family = '') {
    return this.until((name) => {
      const state = document.querySelector('lab-sheet')?.state
      return Boolean(state?.font && state.opening === null && state.font.report.family.includes(name))
    }, family)
  }

  judged() {
    return this.until(() => {
      const { judgement, review } = document.querySelector('lab-sheet').state
      return judgement.kind === 'done' && review.font !== ''
    })
  }

  frame() {
    return this.#evaluate(drawn)
  }

  async state() {
    await this.frame()
    return this.#evaluate(() => document.querySelector('lab-sheet').state)
  }

  async drop({ name, bytes }) {
    await this.#evaluate(
      ({ name, text }) => {
        const transfer = new DataTransfer()
        transfer.items.add(new File([Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0))], name))
        for (const type of ['dragenter', 'dragover', 'drop']) {
          document.body.dispatchEvent(
            new DragEvent(type, { dataTransfer: transfer, bubbles: true, composed: true, cancelable: true }),
          )
        }
        return null
      },
      { name, text: bytes.toString('base64') },
    )
  }

  async open(file, family) {
    await this.drop(file)
    await this.ready(family)
  }

  async setText(text) {
    const field = await this.driver.executeScript(
      `return document.querySelector('lab-sheet').shadowRoot.querySelector('text-line').shadowRoot.querySelector('input')`,
    )
    await field.clear()
    await field.sendKeys(text)
    await this.frame()
  }

  async press(key) {
    const parts = key.split('+')
    const last = parts.pop()
    const held = parts.map((part) => chords[part])
    const actions = this.driver.actions()
    for (const one of held) actions.keyDown(one)
    const sign = keys[last] ?? last
    actions.keyDown(sign).keyUp(sign)
    for (const one of held) actions.keyUp(one)
    await actions.perform()
    await this.frame()
  }

  /** Drags with the mouse, in steps as a hand does. */
  async drag(from, to, steps = 8) {
    const at = (part) => ({
      x: Math.round(from.x + part * (to.x - from.x)),
      y: Math.round(from.y + part * (to.y - from.y)),
      duration: 10,
    })
    const actions = this.driver.actions().move(at(0)).press()
    for (let step = 1; step <= steps; step += 1) actions.move(at(step / steps))
    await actions.release().perform()
    await this.frame()
  }

  async bitmap() {
    const text = await this.#evaluate(`() => (${pixels})(${CANVAS})`)
    return Buffer.from(text, 'base64')
  }

  /** What the window shows, as a PNG file. */
  async picture() {
    return Buffer.from(await this.driver.takeScreenshot(), 'base64')
  }

  close() {
    return this.driver.quit()
  }
}
