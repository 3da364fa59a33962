/**
 * Damaged copies of fonts, made in the tab and dropped on it one after another.
 * `MUTANTS=10000 node --test hostile.alone.mjs` makes as many as are asked for.
 */

import { readFileSync } from 'node:fs'
import { font } from './fonts.mjs'

/** Ten open fonts of ten makes, none so large that the copying is what is timed. */
export const ten = [
  { name: 'isabella.ttf', kept: 'isabella.ttf' },
  { name: 'cabinsketch.ttf', kept: 'cabinsketch.ttf' },
  { name: 'dancingscript.otf', kept: 'dancingscript.otf' },
  { name: 'murmure.otf', kept: 'murmure.otf' },
  { name: 'inter-vf.ttf', kept: 'inter-vf.ttf' },
  { name: 'sourcesans-cff2.otf', kept: 'sourcesans-cff2.otf' },
  { name: 'rye.woff', kept: 'rye.woff' },
  { name: 'greatvibes.woff2', kept: 'greatvibes.woff2' },
  { name: 'nunito.woff2', kept: 'nunito-woff2.woff2' },
  { name: 'wingding.ttf', kept: 'wingding.ttf' },
]

/** Hands the ten to the page, and what damages and drops them. */
export async function prepare(page) {
  await page.evaluate(
    (fonts) => {
      window.originals = fonts.map(({ name, text }) => ({
        name,
        bytes: Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0)),
      }))
      // Marsaglia's xorshift: the same number, the same damage.
      const random = (seed) => {
        let state = (seed * 2654435761 + 1) >>> 0 || 1
        return (below) => {
          state ^= state << 13
          state ^= state >>> 17
          state ^= state << 5
          return (state >>> 0) % below
        }
      }
      window.mutant = (seed) => {
        const next = random(seed)
        const { name, bytes } = window.originals[seed % window.originals.length]
        const copy = bytes.slice()
        const view = new DataView(copy.buffer)
        const woff = copy[0] === 0x77
        const [first, size] = woff ? [44, 20] : [12, 16]
        const count = view.getUint16(woff ? 12 : 4)
        switch (Math.floor(seed / window.originals.length) % 5) {
          case 0:
            for (let flips = 1 + next(16); flips > 0; flips -= 1) copy[next(copy.length)] ^= 1 << next(8)
            return { name, kind: 'bits anywhere', bytes: copy }
          case 1:
            for (let flips = 1 + next(4); flips > 0; flips -= 1) copy[next(Math.min(copy.length, 2048))] ^= 1 << next(8)
            return { name, kind: 'bits at the beginning', bytes: copy }
          case 2:
            return { name, kind: 'cut', bytes: copy.slice(0, next(copy.length)) }
          case 3: {
            // Two tables lead to each other's bytes.
            const [one, other] = [first + size * next(count), first + size * next(count)]
            for (let at = 4; at < size; at += 1) {
              const byte = copy[one + at]
              copy[one + at] = copy[other + at]
              copy[other + at] = byte
            }
            return { name, kind: 'tables swapped', bytes: copy }
          }
          default: {
            const from = next(copy.length)
            copy.fill(next(2) * 255, from, from + 1 + next(64))
            return { name, kind: 'bytes wiped', bytes: copy }
          }
        }
      }
      window.tryMutant = async (seed) => {
        const lab = document.querySelector('lab-sheet')
        const { name, kind, bytes } = window.mutant(seed)
        const taken = await new FontFace('mutant', bytes.slice().buffer).load().then(
          () => true,
          () => false,
        )
        const before = lab.state.font?.report
        const transfer = new DataTransfer()
        transfer.items.add(new File([bytes], name))
        const start = performance.now()
        document.body.dispatchEvent(new DragEvent('drop', { dataTransfer: transfer, bubbles: true, cancelable: true }))
        const breath = () => new Promise((resolve) => setTimeout(resolve, 0))
        const settled = () => {
          const { opening, font, judgement, notice, phase } = lab.state
          if (phase === 'broken') return true
          if (opening !== null) return false
          return font?.report === before ? notice !== null : judgement.kind === 'done' || judgement.kind === 'failed'
        }
        while (!settled() && performance.now() - start < 30_000) await breath()
        const { font, notice, phase } = lab.state
        return {
          seed,
          kind,
          name,
          taken,
          opened: font?.report !== before,
          said: notice?.sentence ?? '',
          broken: phase === 'broken' || /stumbled/.test(notice?.sentence ?? ''),
          time: performance.now() - start,
        }
      }
    },
    ten.map(({ name, kept }) => ({ name, text: font(kept).toString('base64') })),
  )
}

/** Tries the damaged copies of these numbers, one after another. */
export const tried = (page, from, to) =>
  page.evaluate(
    async ([from, to]) => {
      const all = []
      for (let seed = from; seed < to; seed += 1) all.push(await window.tryMutant(seed))
      return all
    },
    [from, to],
  )

/** Bytes that the processes of the tabs hold, after rubbish has been collected. */
export async function held(browser, page) {
  const own = await page.context().newCDPSession(page)
  await own.send('HeapProfiler.collectGarbage')
  await own.detach()
  const session = await browser.newBrowserCDPSession()
  const { processInfo } = await session.send('SystemInfo.getProcessInfo')
  await session.detach()
  let bytes = 0
  for (const { type, id } of processInfo) {
    if (type !== 'renderer') continue
    const resident = /VmRSS:\s+(\d+) kB/.exec(readFileSync(`/proc/${id}/status`, 'utf8'))
    bytes += 1024 * Number(resident?.[1] ?? 0)
  }
  return bytes
}
