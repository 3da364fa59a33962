import assert from 'node:assert/strict'
import { execFileSync } from 'node:child_process'
import { join } from 'node:path'
import { after, before, test } from 'node:test'
import { font } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'
import { fonts, root } from './lib/place.mjs'
import { categories, tasks } from './lib/trace.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

/** 3,080 glyphs. */
const large = { name: 'ebgaramond.otf', family: 'EB Garamond' }

const kind = (lab) => lab.page.evaluate(() => document.querySelector('lab-sheet').state.survey.kind)
async function until(lab, wanted) {
  const ends = ['done', 'stopped', 'failed']
  const at = await lab.page.waitForFunction(
    ([wanted, ends]) => {
      const { kind } = document.querySelector('lab-sheet').state.survey
      return (kind === wanted || ends.includes(kind)) && kind
    },
    [wanted, ends.filter((end) => end !== wanted && wanted !== 'measuring')],
    { timeout: 120_000 },
  )
  assert.equal(await at.jsonValue(), wanted)
}
const bar = (lab) => lab.page.getByRole('progressbar', { name: 'Measuring the whole font' })

async function saved(lab, ask) {
  const { name, bytes } = await lab.saved(ask)
  return { name, text: bytes.toString() }
}

/** The command's document of a font, called as the page calls it: by its file's name alone. */
function commanded(file) {
  const program = ['run', '--quiet', '-p', 'counterpoise-cli', '--manifest-path', join(root, 'Cargo.toml'), '--']
  return execFileSync('cargo', [...program, 'measure', '--all', '--json', file], {
    cwd: fonts,
    encoding: 'utf8',
    maxBuffer: 1 << 28,
  })
}

/** Where two values differ by more than the last digits of a number, which the machines' sines may differ in. */
function differences(one, other, path = '', found = []) {
  if (found.length > 9) return found
  if (typeof one === 'number' && typeof other === 'number') {
    if (Math.abs(one - other) > 1e-9 * Math.max(1, Math.abs(one))) found.push(`${path}: ${one} and ${other}`)
  } else if (one !== null && other !== null && typeof one === 'object' && typeof other === 'object') {
    const keys = new Set([...Object.keys(one), ...Object.keys(other)])
    for (const key of keys) differences(one[key], other[key], `${path}/${key}`, found)
  } else if (one !== other) {
    found.push(`${path}: ${one} and ${other}`)
  }
  return found
}

test('the whole font is measured beside the work, with words and a bar', async () => {
  const lab = await home.open()
  await lab.ready()
  font(large.name)
  await lab.drop([{ name: large.name, bytes: font(large.name) }])
  await bar(lab).waitFor()
  const most = Number(await bar(lab).getAttribute('aria-valuemax'))
  assert.equal(most, 3080)
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.survey.progress?.done > 200)
  assert.match(await bar(lab).getAttribute('aria-valuetext'), /^[\d,]+ of 3,080 glyphs measured$/)
  const now = Number(await bar(lab).getAttribute('aria-valuenow'))
  assert.ok(now > 100 && now < most, `${now}`)
  await lab.picture('survey-measuring')
  await until(lab, 'done')
  await lab.frame()
  await lab.page.getByText('All 3,080 glyphs measured').first().waitFor()
  assert.equal(await bar(lab).count(), 0)
  await lab.picture('survey-done')
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('the page is never held up for 50 ms by it, and a letter is dragged all the while', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: large.name, bytes: font(large.name) }, large.family)
  await lab.setText('Hamburgefonstiv Hamburgefonstiv Hamburgefonstiv Hamburgefonstiv')
  await lab.canvas.focus()
  // Begun anew, so that all that is heard is the survey's and the drag's.
  if ((await kind(lab)) === 'measuring') await lab.press('Shift+G')
  await lab.page.evaluate(() => {
    window.long = 0
    new PerformanceObserver((list) => {
      window.long += list.getEntries().length
    }).observe({ type: 'longtask' })
  })
  // The letter is in hand before, so that its panel's first layout is not counted.
  const place = await lab.placeOf(30)
  const { mouse } = lab.page
  await mouse.move(place.x, place.y)
  await mouse.down()
  await mouse.move(place.x + 20, place.y, { steps: 4 })
  await lab.frame()
  await home.browser.startTracing(lab.page, { categories: ['toplevel', ...categories] })
  // What the observer tells is held against the trace: it counts from here, and is read before the trace is closed.
  await lab.page.evaluate(() => {
    window.long = 0
  })
  await lab.press('g')
  await until(lab, 'measuring')
  const places = new Set()
  let moves = 0
  while ((await kind(lab)) === 'measuring') {
    for (let step = 0; step < 10; step += 1) {
      moves += 1
      await mouse.move(place.x + 150 * Math.sin(moves / 20), place.y)
    }
    places.add(await lab.page.evaluate(() => document.querySelector('lab-sheet').state.stage.items[30].moved))
  }
  const long = await lab.page.evaluate(() => window.long)
  await mouse.up()
  assert.equal(await kind(lab), 'done')
  const all = tasks(JSON.parse((await home.browser.stopTracing()).toString()).traceEvents)
  const [worked, clock] = ['worked', 'clock'].map((by) => Math.max(...all.map((one) => one[by])))
  console.log(
    `# ${moves} moves, ${places.size} places, ${all.length} tasks; the longest worked ${worked.toFixed(1)} ms, ` +
      `by the clock ${clock.toFixed(1)} ms; the observer of long tasks saw ${long}`,
  )
  assert.ok(moves > 20 && places.size > 2 && all.length > 100, `${moves} moves, ${places.size} places`)
  // By the clock a task is long whenever other programs have the processor in its midst, as in any run of many
  // tests: what counts is what the thread itself had to do. Where it never was, the observer saw nothing either.
  assert.ok(worked < 50, `${worked} ms`)
  if (clock < 50) assert.equal(long, 0)
  await lab.close()
})

test('letters in sight come first, then the alphabet that is judged', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.page.evaluate(() => {
    window.asked = []
    const post = Worker.prototype.postMessage
    Worker.prototype.postMessage = function (ask, ...rest) {
      window.asked.push({ kind: ask.kind, first: ask.first && [...ask.first] })
      return post.call(this, ask, ...rest)
    }
  })
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.page.waitForFunction(() => window.asked.some((one) => one.kind === 'survey'))
  const { items } = await lab.stage()
  const asked = await lab.page.evaluate(() => window.asked.filter((one) => one.kind === 'survey').at(-1))
  const inSight = new Set(items.map((item) => item.glyph))
  assert.deepEqual(asked.first.slice(0, inSight.size), [...inSight])
  const judged = (await lab.state()).judgement.report.letters.map((letter) => letter.glyph)
  assert.deepEqual(new Set(asked.first), new Set([...inSight, ...judged]))
  await lab.close()
})

test('it stops within a tenth of a second, by the button and by the key, and can be begun again', async () => {
  const lab = await home.open()
  await lab.ready()
  await until(lab, 'done')
  for (const how of ['button', 'key']) {
    await lab.open({ name: large.name, bytes: font(large.name) }, large.family)
    await until(lab, 'measuring')
    await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.survey.progress?.done > 0)
    const button = lab.page.getByRole('button', { name: 'Stop measuring' })
    await button.focus()
    const took = await lab.page.evaluate(
      (how) =>
        new Promise((resolve) => {
          const sheet = document.querySelector('lab-sheet')
          const start = performance.now()
          const look = () =>
            sheet.state.survey.kind === 'stopped' ? resolve(performance.now() - start) : setTimeout(look)
          let at = document.activeElement
          while (at.shadowRoot?.activeElement) at = at.shadowRoot.activeElement
          if (how === 'button') at.click()
          else at.dispatchEvent(new KeyboardEvent('keydown', { key: 'G', code: 'KeyG', shiftKey: true, bubbles: true, composed: true }))
          look()
        }),
      how,
    )
    console.log(`# stopped by the ${how} in ${took.toFixed(1)} ms`)
    assert.ok(took < 100, `${took} ms`)
    await lab.page.getByText(/^Stopped at [\d,]+ of 3,080 glyphs$/).first().waitFor()
  }
  // The worker itself has heard it: another font is measured at once, not after the old one.
  const { done } = await lab.page.evaluate(async () => {
    const sheet = document.querySelector('lab-sheet')
    await new Promise((resolve) => setTimeout(resolve, 300))
    return sheet.state.survey.progress
  })
  assert.ok(done < 3080)
  await lab.open({ name: 'dancingscript.otf', bytes: font('dancingscript.otf') }, 'Dancing')
  await until(lab, 'done')
  assert.equal((await lab.state()).survey.progress.total, 236)
  await lab.close()
})

test('a new font ends the survey of the old', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.open({ name: large.name, bytes: font(large.name) }, large.family)
  await until(lab, 'measuring')
  await lab.open({ name: 'dancingscript.otf', bytes: font('dancingscript.otf') }, 'Dancing')
  await until(lab, 'done')
  assert.equal((await lab.state()).survey.progress.total, 236)
  await lab.page.waitForTimeout(400)
  assert.equal((await lab.state()).survey.progress.total, 236, 'and nothing comes after')
  await lab.close()
})

test('what the page saves is what the command writes', async () => {
  for (const file of ['dancingscript.otf', 'cabinsketch.ttf', 'heros.otf']) {
    const lab = await home.open()
    await lab.ready()
    await lab.drop([{ name: file, bytes: font(file) }])
    await lab.page.waitForFunction((name) => document.querySelector('lab-sheet').state.font.fileName === name, file)
    // Asked for at once: it is saved when all is measured.
    const { name, text } = await saved(lab, () => lab.press('Control+s'))
    assert.equal(name, file.replace(/\.\w+$/, '-measures.json'))
    const command = commanded(file)
    const [page, other] = [JSON.parse(text), JSON.parse(command)]
    assert.deepEqual(differences(page, other), [], file)
    assert.deepEqual(page.program, other.program)
    console.log(`# ${file}: ${page.fonts[0].letters.length} letters, ${text.length} bytes, the same bytes: ${text.trim() === command.trim()}`)
    assert.deepEqual(lab.errors, [])
    await lab.close()
  }
})

test('a saved survey is saved again without measuring again', async () => {
  const lab = await home.open()
  await lab.ready()
  await until(lab, 'done')
  const button = lab.page.getByRole('button', { name: 'Save measures' })
  const first = await saved(lab, () => button.click())
  const again = await saved(lab, () => button.click())
  assert.equal(first.text, again.text)
  assert.equal(JSON.parse(first.text).fonts[0].letters.length, 79)
  await lab.close()
})

test('where no worker starts, a sentence says so and the stage works', async () => {
  const lab = await home.open()
  await lab.page.route('**/measure.worker*', (route) => route.abort())
  await lab.page.reload()
  await lab.ready()
  await until(lab, 'failed')
  await lab.page.getByText(/would not start the lab’s helper/).first().waitFor()
  await lab.setText('HOn')
  const place = await lab.placeOf(1)
  await lab.drag(place, { x: place.x + 60, y: place.y })
  assert.ok((await lab.stage()).items[1].moved > 0)
  await lab.picture('survey-failed')
  await lab.close()
})

test('the worker has no way to send anything', async () => {
  const lab = await home.open()
  await lab.ready()
  const [worker] = lab.page.workers()
  const ways = await worker.evaluate(() =>
    ['fetch', 'XMLHttpRequest', 'WebSocket', 'EventSource', 'importScripts'].filter((way) => globalThis[way] !== undefined),
  )
  assert.deepEqual(ways, [])
  await lab.close()
})
