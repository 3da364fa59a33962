import assert from 'node:assert/strict'
import { readdirSync } from 'node:fs'
import { join, relative, sep } from 'node:path'
import { after, before, test } from 'node:test'
import { engine } from './lib/browser.mjs'
import { font, six } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'
import { dist } from './lib/place.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

/**
 * Records every request of a page, in Chromium by two ways that do not know of each other.
 * A file of the page's own build is its address alone: anything that is asked
 * for with a body, a query or another method than GET is told apart.
 */
async function listen(page) {
  const heard = []
  const name = (method, url, body) => (method === 'GET' && !body ? url : `${method} ${url} with ${body ? 'a body' : 'no body'}`)
  page.on('request', (request) => heard.push(name(request.method(), request.url(), request.postData() !== null)))
  page.on('websocket', (socket) => heard.push(socket.url()))
  if (engine !== 'chromium') return heard
  const session = await page.context().newCDPSession(page)
  await session.send('Network.enable')
  session.on('Network.requestWillBeSent', ({ request }) =>
    heard.push(name(request.method, request.url, request.hasPostData === true)),
  )
  session.on('Network.webSocketCreated', ({ url }) => heard.push(url))
  return heard
}

test('starts from its own files and nothing else', async () => {
  const lab = await home.open()
  const heard = await listen(lab.page)
  await lab.page.reload()
  await lab.ready()
  assert.ok(heard.some((address) => address.endsWith('.wasm')) && heard.some((address) => address.endsWith('sample.ttf')))
  // The browser is shown the sample from the tab's own memory.
  const own = [home.address, `blob:${home.address}`]
  for (const address of heard) assert.ok(own.some((one) => address.startsWith(one)), address)
  await lab.close()
})

/** The files of the build, by their addresses, without the page itself. */
function own(address) {
  const files = readdirSync(dist, { recursive: true, withFileTypes: true }).filter((one) => one.isFile())
  const names = files.map((one) => relative(dist, join(one.parentPath ?? one.path, one.name)).split(sep).join('/'))
  return new Set(names.filter((name) => name.startsWith('assets/')).map((name) => `${address}${name}`))
}

test('asks for nothing after it has loaded but parts of its own build, whatever is done', async () => {
  const lab = await home.open()
  await lab.ready()
  await lab.page.waitForLoadState('networkidle')
  const heard = await listen(lab.page)

  for (const { file, family } of six) await lab.open({ name: file, bytes: font(file) }, family)
  await lab.drop([{ name: 'notes.txt', bytes: Buffer.from('hello') }])
  await lab.notice.locator('p').waitFor()
  await lab.setText('Hamburgefons')
  const place = await lab.placeOf(2)
  await lab.drag(place, { x: place.x + 90, y: place.y })
  await lab.canvas.focus()
  for (const key of ['n', 'p', 'n', 'm', 'u', 'l', 'b', 'r', 'c', 'Shift+C', '2', '3', '7', '8', 'k', 'f', 'Shift+F', 'Shift+B', 'Shift+B', '+', '0', 'Control+z', 'Control+Shift+z']) {
    await lab.press(key)
  }
  await lab.page.getByText('Figures of every letter on the line').click()
  await lab.press('Shift+Slash')
  await lab.press('Escape')
  for (const theme of ['Dark', 'Light', 'As the system']) await lab.page.getByLabel(theme).check({ force: true })
  await lab.page.getByTitle('Licence and embedding rights').click()
  await lab.press('Escape')
  const { name } = await lab.saved(() => lab.page.getByRole('button', { name: 'Save measures' }).click())
  assert.match(name, /-measures\.json$/)
  await lab.page.waitForTimeout(500)

  // The desk's rooms, each fetched when it is first entered.
  await lab.canvas.focus()
  for (const key of ['n', 'y', 'w', 'Shift+O', 'Shift+Y']) await lab.press(key)
  await lab.press('Shift+H')
  await lab.page.locator('desk-handback .sheet').waitFor()
  await lab.page.getByRole('button', { name: 'CSV' }).click()
  await lab.press('Escape')
  await lab.press('Shift+S')
  await lab.page.getByRole('button', { name: 'Show an example shelf' }).click()
  await lab.page.getByRole('button', { name: /^Marrowbone/ }).click()
  await lab.page.getByRole('button', { name: 'Save the desk to a file' }).click()
  await lab.page.waitForTimeout(500)

  // A font that came from the person's computer is shown from memory: blob and data addresses are no requests.
  const files = own(home.address)
  const asked = heard.filter((address) => !/^(?:blob|data):/.test(address))
  assert.ok(asked.length > 0, 'the rooms are not fetched with the page')
  assert.deepEqual(asked.filter((address) => !files.has(address)), [])
  assert.deepEqual(lab.errors, [])
  await lab.close()
})

test('the browser itself would stop a request', async () => {
  const lab = await home.open()
  await lab.ready()
  const outcome = await lab.page.evaluate(async () => {
    const stopped = new Set()
    document.addEventListener('securitypolicyviolation', (event) => stopped.add(event.effectiveDirective))
    const tries = [
      fetch('https://example.org/').catch(() => 'stopped'),
      new Promise((resolve) => {
        const image = new Image()
        image.onerror = () => resolve('stopped')
        image.onload = () => resolve('sent')
        image.src = 'https://example.org/a.png'
      }),
      Promise.resolve(navigator.sendBeacon('https://example.org/', 'x') ? 'taken' : 'stopped'),
    ]
    const results = await Promise.all(tries)
    await new Promise((resolve) => setTimeout(resolve, 100))
    return { results, stopped: [...stopped] }
  })
  assert.equal(outcome.results[0], 'stopped')
  assert.equal(outcome.results[1], 'stopped')
  assert.deepEqual(outcome.stopped.sort(), ['connect-src', 'img-src'])
  await lab.close()
})
