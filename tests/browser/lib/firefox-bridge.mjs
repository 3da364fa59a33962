#!/usr/bin/env node
/**
 * Firefox for a driver that is newer than it. Debian's Firefox is the one with long support: it speaks WebDriver
 * BiDi, and lacks some commands that the driver asks for at every start. This starts Firefox as the driver would,
 * stands between the two, and answers those commands, named below, in its stead; everything else goes through as
 * it is. The driver runs it as if it were the browser's own program.
 */
import { spawn } from 'node:child_process'
import { createInterface } from 'node:readline'
import WebSocket, { WebSocketServer } from 'ws'

/** Not known to Firefox 140, and what is answered: each is one that no test of ours relies on. */
const answered = {
  // Bodies of answers, kept for whoever asks for them.
  'network.addDataCollector': { collector: 'none' },
  // The preferences name the folder.
  'browser.setDownloadBehavior': {},
  // A window on a desk has neither; dark pages and the rest are preferences too.
  'emulation.setScreenOrientationOverride': {},
  'emulation.setScreenSettingsOverride': {},
  'emulation.setMediaFeaturesOverride': {},
}

const LISTENING = /WebDriver BiDi listening on (ws:\/\/\S+)/

const firefox = spawn(process.env.FIREFOX_PATH, process.argv.slice(2), { stdio: ['ignore', 'inherit', 'pipe'] })
firefox.on('exit', (code) => process.exit(code ?? 1))
for (const signal of ['SIGTERM', 'SIGINT', 'SIGHUP']) process.on(signal, () => firefox.kill(signal))

createInterface(firefox.stderr).on('line', (line) => {
  const address = LISTENING.exec(line)?.[1]
  if (!address) {
    console.error(line)
    return
  }
  const server = new WebSocketServer({ host: '127.0.0.1', port: 0 })
  server.on('listening', () => console.error(`WebDriver BiDi listening on ws://127.0.0.1:${server.address().port}`))
  server.on('connection', (driver, request) => join(driver, new WebSocket(address + request.url, { perMessageDeflate: false })))
})

/** Hands on what either says. */
function join(driver, browser) {
  const asked = new Map()
  const open = new Promise((resolve) => browser.once('open', resolve))
  const tell = (message) => driver.send(JSON.stringify(message))
  driver.on('message', async (data) => {
    const text = data.toString()
    const { id, method } = JSON.parse(text)
    asked.set(id, method)
    await open
    browser.send(text)
  })
  browser.on('message', (data) => {
    const text = data.toString()
    const said = JSON.parse(text)
    const method = asked.get(said.id)
    asked.delete(said.id)
    if (process.env.LOG && said.error) console.error('BRIDGE', method, text.slice(0, 300))
    if (said.error === 'unknown command' && answered[method]) tell({ type: 'success', id: said.id, result: answered[method] })
    else driver.send(text)
  })
  driver.on('close', () => browser.close())
  browser.on('close', () => driver.close())
}
