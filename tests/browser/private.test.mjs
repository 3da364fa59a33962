import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { font, six } from './lib/fonts.mjs'
import { house } from './lib/lab.mjs'

let home
before(async () => {
  home = await house()
})
after(() => home.close())

/** Records every request of a page, by two ways that do not know of each other. */
async function listen(page) {
  const heard = []
  page.on('request', (request) => heard.push(request.url()))
  page.on('websocket', (socket) => heard.push(socket.url()))
  const session = await page.context().newCDPSession(page)
  await session.send('Network.enable')
  session.on('Network.requestWillBeSent', ({ request }) => heard.push(request.url))
  session.on('Network.webSocketCreated', ({ url }) => heard.push(url))
  return heard
}

test('starts from its own files and nothing else', async () => {
  const lab = await home.open()
  const heard = await listen(lab.page)
  await lab.page.reload()
  await lab.ready()
  assert.ok(heard.some((address) => address.endsWith('.wasm')) && heard.some((address) => address.endsWith('sample.ttf')))
  for (const address of heard) assert.ok(address.startsWith(home.address), address)
  await lab.close()
})

test('asks for nothing after it has loaded, whatever is done', async () => {
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
  const [download] = await Promise.all([
    lab.page.waitForEvent('download', { timeout: 120_000 }),
    lab.page.getByRole('button', { name: 'Save measures' }).click(),
  ])
  assert.match(download.suggestedFilename(), /-measures\.json$/)
  await lab.page.waitForTimeout(500)

  // A font that came from the person's computer is shown from memory: blob and data addresses are no requests.
  assert.deepEqual(heard.filter((address) => !/^(?:blob|data):/.test(address)), [])
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
