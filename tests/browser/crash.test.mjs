import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { font } from './lib/fonts.mjs'
import { different, house, wide } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

/**
 * Has the page's module trap in the function that `crash` names, as often as it says: what a browser throws where
 * a module cannot go on. Runs in the page, before it starts.
 */
function crashing() {
  globalThis.crash = { name: '', times: 0 }
  const start = WebAssembly.instantiate
  WebAssembly.instantiate = async (module, imports) => {
    const instance = await start(module, imports)
    const guarded = Object.entries(instance.exports).map(([name, own]) => {
      if (typeof own !== 'function') return [name, own]
      return [
        name,
        (...values) => {
          if (globalThis.crash.name !== name || globalThis.crash.times === 0) return own(...values)
          globalThis.crash.times -= 1
          throw new WebAssembly.RuntimeError('unreachable')
        },
      ]
    })
    return { instance: { exports: Object.fromEntries(guarded) }, module }
  }
}

/** The lab with a font and a line of its own on the stage. */
async function standing() {
  const lab = await home.open({ first: crashing })
  await lab.ready()
  await lab.open({ name: 'heros.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.judged()
  // Letters are judged once more when all of them have been measured: not after this.
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.survey.kind === 'done')
  await lab.setText('Rotation')
  await lab.canvas.focus()
  lab.crash = (name, times = 1) =>
    lab.page.evaluate(([name, times]) => {
      globalThis.crash = { name, times }
    }, [name, times])
  return lab
}

const cases = [
  { what: 'a frame', name: 'lab_draw', act: (lab) => lab.press('+') },
  { what: 'a key', name: 'lab_run', act: (lab) => lab.press('n') },
  { what: 'a pointer', name: 'lab_pointer', act: (lab) => lab.canvas.hover() },
  { what: 'a window of another size', name: 'lab_resize', act: (lab) => lab.page.setViewportSize({ width: 1200, height: 800 }) },
]

for (const { what, name, act } of cases) {
  test(`a module that crashes at ${what} leaves the font and its line on the stage`, async () => {
    const lab = await standing()
    const picture = await lab.bitmap()
    await lab.crash(name)
    await act(lab)
    const said = lab.notice.locator('p')
    await said.waitFor()
    assert.match(await said.innerText(), /^The lab stumbled over that and has set the stage up again\./)

    await lab.page.setViewportSize(wide)
    const { font: open, stage, phase } = await lab.state()
    assert.equal(phase, 'ready')
    assert.match(open.report.family, /Heros/)
    assert.equal(stage.text, 'Rotation')
    await lab.page.getByRole('button', { name: 'Put this message away' }).click()
    await lab.frame()
    assert.equal(different(picture, await lab.bitmap()), 0, 'the stage looks as it did')
    await lab.setText('Letters')
    await lab.canvas.focus()
    await lab.press('n')
    assert.equal((await lab.stage()).items.filter((item) => item.selected).length, 1, 'the stage works on')
    // The crash itself, which Firefox's driver hands over as an object with nothing in it.
    assert.deepEqual(
      lab.errors.filter((error) => !/unreachable|^\{\}$/.test(error)),
      [],
    )
    await lab.close()
  })
}

test('letters that could not be judged are said to be so, and the next font is judged', async () => {
  const lab = await standing()
  await lab.crash('lab_judge')
  await lab.drop([{ name: 'other.otf', bytes: font('ebgaramond.otf') }])
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.judgement.kind === 'failed')
  const { judgement, stage, phase } = await lab.state()
  assert.equal(phase, 'ready')
  assert.equal(stage.text, 'Rotation')
  await lab.page.locator('findings-panel').getByText(judgement.sentence).waitFor()
  await lab.open({ name: 'again.otf', bytes: font('heros.otf') }, 'Heros')
  await lab.judged()
  assert.ok((await lab.state()).judgement.report.letters.length > 40)
  await lab.close()
})

test('a module that crashes whatever it opens is given up, and the page says how to go on', async () => {
  const lab = await standing()
  await lab.crash('lab_openFont', 2)
  await lab.drop([{ name: 'garamond.otf', bytes: font('ebgaramond.otf') }])
  await lab.page.waitForFunction(() => document.querySelector('lab-sheet').state.phase === 'broken')
  assert.match(await lab.notice.locator('p').innerText(), /^The lab stumbled over that and could not be set up again\. Reload the page/)
  assert.equal(await lab.page.locator('stage-foot').getByRole('status').innerText(), '')
  await lab.close()
})
