/** What holds for every view: large targets, nothing lost at 400%, nothing lost in a person's own few colours. */
import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { axe } from './lib/axe.mjs'
import { house, narrow } from './lib/lab.mjs'
import { views } from './lib/views.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

async function at(what, options) {
  const lab = await home.open(options)
  await lab.ready()
  await lab.judged()
  await lab.canvas.focus()
  await views[what](lab)
  await lab.frame()
  return lab
}

/** What can be come at: while a dialog is open the page behind it cannot be pressed. */
const onTop = (lab) =>
  lab.page.evaluateHandle(() => {
    const open = (root) => {
      for (const one of root.querySelectorAll('*')) {
        if (one.matches('dialog:modal')) return one
        const inner = one.shadowRoot && open(one.shadowRoot)
        if (inner) return inner
      }
      return null
    }
    return open(document) ?? document
  })

/**
 * What can be pressed and is smaller than this in either direction. A field in a label is as large as the label:
 * a press on either is a press on both. What lies out of sight, for screen readers, is no target.
 */
async function small(lab, least) {
  const top = await onTop(lab)
  return lab.page.evaluate(({ top, least }) => {
    const found = []
    const targets =
      'a[href], button, summary, input:not([type="hidden"]), select, textarea, canvas[tabindex], [role="button"], [role="slider"]'
    const walk = (root) => {
      for (const one of root.querySelectorAll('*')) {
        if (one.shadowRoot) walk(one.shadowRoot)
        if (!one.matches(targets) || !one.checkVisibility({ visibilityProperty: true })) continue
        const boxes = [one, ...(one.labels ?? [])].map((each) => each.getBoundingClientRect())
        if (boxes[0].width <= 1 || boxes[0].height <= 1) continue
        const fits = boxes.some(({ width, height }) => width >= least && height >= least)
        // A word of a sentence is as high as its line (2.5.8 leaves those out).
        const beside = [...(one.parentElement?.childNodes ?? [])].filter((node) => node.nodeType === Node.TEXT_NODE)
        const inline = getComputedStyle(one).display.startsWith('inline') && beside.some((node) => /\w/.test(node.data))
        if (fits || inline) continue
        const [{ width, height }] = boxes
        const name = one.ariaLabel ?? (one.labels?.[0] ?? one).textContent.trim().slice(0, 40)
        found.push(`${one.localName} ${name}: ${width.toFixed(1)} x ${height.toFixed(1)}`)
      }
    }
    walk(top)
    return found
  }, { top, least })
}

const sideways = (lab) =>
  lab.page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth)

for (const what of Object.keys(views)) {
  test(`targets are large enough for a pointer and a finger: ${what}`, async () => {
    // WCAG 2.2, 2.5.8 asks for 24 CSS pixels; by touch the page's own measure is 44 for what is framed as a button.
    for (const options of [{}, { viewport: narrow, hasTouch: true, isMobile: true, colorScheme: 'dark' }]) {
      const lab = await at(what, options)
      assert.deepEqual(await small(lab, 24), [], options.viewport ? 'narrow, by touch' : 'wide')
      assert.equal(await sideways(lab), 0)
      await lab.picture(`view-${what.replaceAll(' ', '-')}-${options.viewport ? 'narrow' : 'wide'}`)
      await lab.close()
    }
  })

  test(`nothing is lost at 400% of a 1280 pixel window: ${what}`, async () => {
    const lab = await at(what, { viewport: { width: 320, height: 256 }, deviceScaleFactor: 4 })
    assert.equal(await sideways(lab), 0, 'the page scrolls one way alone')
    await lab.picture(`view-${what.replaceAll(' ', '-')}-400`)
    assert.deepEqual(await lost(lab), [])
    await lab.close()
  })

  test(`nothing is lost in a person’s own few colours: ${what}`, async () => {
    const lab = await at(what, { forcedColors: 'active', contrast: 'more' })
    await axe(lab.page, what)
    assert.deepEqual(await whitewashed(lab), [], 'words in the colour of the plate that the browser lays under them')
    await lab.picture(`view-${what.replaceAll(' ', '-')}-forced`)
    await lab.close()
  })
}

test('in a person’s own few colours, what is drawn over ink stands out from it and from the ground', async () => {
  // The page's own colours there are the system's; only the stage, a picture, has others.
  for (const colorScheme of ['light', 'dark']) {
    const lab = await home.open({ forcedColors: 'active', colorScheme })
    await lab.ready()
    const found = await lab.page.evaluate(() => {
      const brush = document.createElement('canvas').getContext('2d')
      const luminance = (name) => {
        const probe = document.body.appendChild(document.createElement('i'))
        probe.style.cssText = `forced-color-adjust: none; color: ${name}`
        brush.fillStyle = getComputedStyle(probe).color
        brush.fillRect(0, 0, 1, 1)
        probe.remove()
        // WCAG 2.2's relative luminance.
        const [r, g, b] = [...brush.getImageData(0, 0, 1, 1).data].map((part) =>
          part / 255 <= 0.04045 ? part / 255 / 12.92 : ((part / 255 + 0.055) / 1.055) ** 2.4,
        )
        return 0.2126 * r + 0.7152 * g + 0.0722 * b
      }
      const contrast = (a, b) => (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05)
      return ['--stage-mark', '--stage-span', '--stage-refit', '--stage-flaw'].map((name) => {
        const own = luminance(`var(${name})`)
        return { name, ink: contrast(own, luminance('CanvasText')), ground: contrast(own, luminance('Canvas')) }
      })
    })
    for (const { name, ink, ground } of found) {
      assert.ok(ink >= 3 && ground >= 4.5, `${colorScheme} ${name}: ${ink.toFixed(1)} on ink, ${ground.toFixed(1)} on the ground`)
    }
    await lab.close()
  }
})

/**
 * Words that are set in the ground's colour, on ink. The browser lays a plate of the ground's colour under words
 * there, on which these could not be seen, unless it is told to leave them: axe looks past the plate.
 */
function whitewashed(lab) {
  return lab.page.evaluate(() => {
    const found = []
    const probe = document.body.appendChild(document.createElement('i'))
    probe.style.color = 'Canvas'
    const ground = getComputedStyle(probe).color
    probe.remove()
    const walk = (root) => {
      for (const one of root.querySelectorAll('*')) {
        if (one.shadowRoot) walk(one.shadowRoot)
        const words = [...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && /\S/.test(node.data))
        if (!words || !one.checkVisibility()) continue
        const { color, forcedColorAdjust } = getComputedStyle(one)
        if (color === ground && forcedColorAdjust !== 'none') found.push(`${one.localName} ${one.textContent.trim().slice(0, 30)}`)
      }
    }
    walk(document)
    return found
  })
}

/** What can be pressed and cannot be scrolled into the window, by the browser's own scrolling. */
async function lost(lab) {
  const top = await onTop(lab)
  return lab.page.evaluate((top) => {
    const found = []
    const walk = (root) => {
      for (const one of root.querySelectorAll('*')) {
        if (one.shadowRoot) walk(one.shadowRoot)
        if (!one.matches('a[href], button, summary, input, select, textarea') || !one.checkVisibility()) continue
        const before = one.getBoundingClientRect()
        if (before.width <= 1 || before.height <= 1) continue
        one.scrollIntoView({ block: 'center', inline: 'center' })
        const box = one.getBoundingClientRect()
        const seen = box.right > 0 && box.left < innerWidth && box.bottom > 0 && box.top < innerHeight
        if (!seen || box.width > innerWidth + 1) found.push(`${one.localName} ${one.ariaLabel ?? one.textContent.trim().slice(0, 40)}`)
      }
    }
    walk(top)
    return found
  }, top)
}

for (const what of ['axes of a variable font', 'the choice of a face']) {
  for (const [mode, options] of Object.entries({
    'dark, wide': { colorScheme: 'dark' },
    'light, narrow': { viewport: narrow, hasTouch: true, isMobile: true },
    'dark, narrow': { viewport: narrow, colorScheme: 'dark', hasTouch: true, isMobile: true },
  })) {
    test(`${what} stands in nobody’s way: ${mode}`, async () => {
      const lab = await at(what, options)
      await axe(lab.page, what)
      await lab.picture(`${what.replaceAll(' ', '-')}-${mode.replace(', ', '-')}`)
      assert.deepEqual(lab.errors, [])
      await lab.close()
    })
  }
}
