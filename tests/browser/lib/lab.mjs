import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { choose, launch, ofDriver, prepare, saved, served, shotOf } from './browser.mjs'
import { dist, screenshots } from './place.mjs'
import { serve } from './server.mjs'

export const wide = { width: 1440, height: 900 }
export const narrow = { width: 390, height: 844 }

/** One browser and one server for a file of tests. */
export async function house() {
  const [server, browser] = await Promise.all([serve(dist, served), launch()])
  return {
    browser,
    address: server.address,
    /**
     * Opens the lab in a fresh profile, by a link to a part of it `at`, with `first` run in the page before all else.
     * What the page says in error fails the test at its end.
     */
    async open(options = {}) {
      const { returning = true, at = '', first, ...context_ } = options
      // What keeps the page for visits without a network has a test of its own.
      const base = { viewport: wide, deviceScaleFactor: 1, serviceWorkers: 'block' }
      const context = await browser.newContext({ ...base, ...context_ })
      await prepare(context)
      if (first) await context.addInitScript(first)
      if (returning) {
        await context.addInitScript(() => {
          if (!localStorage.getItem('counterpoise.settings')) {
            localStorage.setItem('counterpoise.settings', JSON.stringify({ visited: true }))
          }
        })
      }
      const page = await context.newPage()
      const lab = new LabPage(page)
      await page.goto(`${server.address}${at}`)
      return lab
    },
    async close() {
      await browser.close()
      await server.close()
    },
  }
}

/**
 * Fulfilled once what was asked is drawn, and what is measured of the letters is drawn too. Runs in the page.
 */
export function drawn() {
  const canvas = () =>
    document.querySelector('lab-sheet')?.shadowRoot?.querySelector('stage-view')?.shadowRoot?.querySelector('canvas')
  return new Promise((resolve) => {
    const look = () => requestAnimationFrame(() => (canvas()?.ariaBusy === 'true' ? look() : resolve(null)))
    requestAnimationFrame(look)
  })
}

/** What a canvas shows: red, green, blue and alpha of every pixel, in base 64. Runs in the page. */
export async function pixels(canvas) {
  const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height)
  const reader = new FileReader()
  reader.readAsDataURL(new Blob([data]))
  await new Promise((resolve) => {
    reader.onload = resolve
  })
  return reader.result.split(',')[1]
}

/** The lab as a person uses it. */
export class LabPage {
  constructor(page) {
    this.page = page
    this.errors = []
    page.on('pageerror', (error) => {
      if (!ofDriver(String(error))) this.errors.push(String(error))
    })
    page.on('console', (message) => {
      if (message.type() === 'error' && !ofDriver(message.text())) this.errors.push(message.text())
    })
    // The browser is told to hand choosers over as long as anyone listens: from the start, so that none is missed.
    page.on('filechooser', () => {})
    this.canvas = page.locator('canvas')
    this.text = page.getByLabel('The line on the stage')
    this.status = page.getByRole('status')
    this.notice = page.getByRole('alert')
    this.title = page.locator('file-line h2')
  }

  /**
   * Waits for a font whose name contains this, the sample's if none is given; and for what comes behind its first
   * picture, the worker and a judgement.
   */
  async ready(family = '') {
    await this.page.waitForFunction((name) => {
      const state = document.querySelector('lab-sheet')?.state
      const open = state?.font && state.opening === null && state.font.report.family.includes(name)
      return open && state.judgement.kind !== 'judging'
    }, family)
    await this.frame()
  }

  /** Waits until the letters of the open font have been judged, and what was said of them is known. */
  async judged() {
    await this.page.waitForFunction(() => {
      const { judgement, review } = document.querySelector('lab-sheet').state
      return judgement.kind === 'done' && review.font !== ''
    })
    await this.frame()
  }

  /** Waits until every word is on the disk. */
  async kept() {
    await this.page.waitForFunction(() => document.querySelector('lab-sheet').state.review.writing === 0)
  }

  /** Records of the desk's database, read past the page. */
  records(store) {
    return this.page.evaluate(
      (store) =>
        new Promise((resolve, reject) => {
          const open = indexedDB.open('counterpoise-desk')
          open.onerror = () => reject(open.error)
          open.onsuccess = () => {
            const all = open.result.transaction(store).objectStore(store).getAll()
            all.onsuccess = () => {
              open.result.close()
              resolve(all.result)
            }
          }
        }),
      store,
    )
  }

  /** Waits until what was asked has been drawn. */
  async frame() {
    await this.page.evaluate(drawn)
  }

  /** The page's state, as it shows it: what was done just before is shown with the frame that comes. */
  async state() {
    await this.frame()
    return this.page.evaluate(() => document.querySelector('lab-sheet').state)
  }

  async stage() {
    return (await this.state()).stage
  }

  /** Drops files on the page: enters, hovers, lets go, all on one element. */
  async drop(files, selector = 'body', release = true) {
    const data = files.map(({ name, bytes }) => ({ name, text: bytes.toString('base64') }))
    await this.page.evaluate(
      ({ data, selector, release }) => {
        const transfer = new DataTransfer()
        for (const { name, text } of data) {
          transfer.items.add(new File([Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0))], name))
        }
        const target = document.querySelector(selector)
        const send = (type) =>
          target.dispatchEvent(new DragEvent(type, { dataTransfer: transfer, bubbles: true, composed: true, cancelable: true }))
        send('dragenter')
        send('dragover')
        if (release) send('drop')
      },
      { data, selector, release },
    )
  }

  /** Pastes a file or a text on the page. */
  async paste({ file, text }) {
    const data = file && { name: file.name, text: file.bytes.toString('base64') }
    await this.page.evaluate(
      ({ data, text }) => {
        const transfer = new DataTransfer()
        if (data) transfer.items.add(new File([Uint8Array.from(atob(data.text), (sign) => sign.charCodeAt(0))], data.name))
        if (text) transfer.setData('text/plain', text)
        const event = new ClipboardEvent('paste', { bubbles: true, composed: true, cancelable: true })
        // Firefox lets no script say at the making what is pasted.
        Object.defineProperty(event, 'clipboardData', { value: transfer })
        document.body.dispatchEvent(event)
      },
      { data, text },
    )
  }

  /** Gives the page the file that it asks for, once this has made it ask. */
  choose(ask, { name, mimeType = 'font/ttf', bytes }) {
    return choose(this.page, ask, { name, mimeType, buffer: bytes })
  }

  /** The name and the bytes of what this makes the page save. */
  saved(ask) {
    return saved(this.page, ask)
  }

  async open(file, family) {
    await this.drop([file])
    await this.ready(family)
  }

  async setText(text) {
    await this.text.fill(text)
    await this.frame()
  }

  /** Where a letter's middle stands on the page, CSS pixels. */
  async placeOf(index) {
    const box = await this.canvas.boundingBox()
    const { stage, font } = await this.state()
    const item = stage.items[index]
    const { scale, origin } = stage.view
    const guide = font.report.guides.find((one) => one.kind === 'xHeight' && one.drawn != null)
    const height = guide?.drawn ?? 0.5 * font.report.unitsPerEm
    return {
      x: box.x + origin[0] + scale * (item.x + item.advance / 2),
      y: box.y + origin[1] - scale * (height / 2),
      scale,
    }
  }

  /** Drags with the mouse, in steps as a hand does. */
  async drag(from, to, steps = 8) {
    const { mouse } = this.page
    await mouse.move(from.x, from.y)
    await mouse.down()
    await mouse.move(to.x, to.y, { steps })
    await mouse.up()
    await this.frame()
  }

  /** Drags with one finger, through the browser's own protocol. */
  async touchDrag(from, to, steps = 8) {
    const session = await this.page.context().newCDPSession(this.page)
    const send = (type, touchPoints) => session.send('Input.dispatchTouchEvent', { type, touchPoints })
    await send('touchStart', [from])
    for (let step = 1; step <= steps; step += 1) {
      const part = step / steps
      await send('touchMove', [{ x: from.x + part * (to.x - from.x), y: from.y + part * (to.y - from.y) }])
    }
    await send('touchEnd', [])
    await session.detach()
    await this.frame()
  }

  async press(key) {
    await this.page.keyboard.press(key)
    await this.frame()
  }

  /** What the canvas shows: red, green, blue and alpha of every pixel. */
  async bitmap() {
    const text = await this.canvas.evaluate(pixels)
    return Buffer.from(text, 'base64')
  }

  async picture(name) {
    mkdirSync(screenshots, { recursive: true })
    await this.page.screenshot({ path: join(screenshots, `${shotOf}${name}.png`) })
  }

  async close() {
    await this.page.context().close()
  }
}

/** How many pixels of two pictures differ by more than rounding. */
export function different(one, other) {
  if (one.length !== other.length) return Number.POSITIVE_INFINITY
  let count = 0
  for (let at = 0; at < one.length; at += 4) {
    const apart = (channel) => Math.abs(one[at + channel] - other[at + channel]) > 2
    if (apart(0) || apart(1) || apart(2) || apart(3)) count += 1
  }
  return count
}
