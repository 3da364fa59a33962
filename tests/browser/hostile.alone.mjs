import assert from 'node:assert/strict'
import { after, before, test } from 'node:test'
import { house } from './lib/lab.mjs'
import { held, prepare, tried } from './lib/mutants.mjs'

/** As many as the suite has time for; `MUTANTS=10000` tries all. */
const MANY = Number(process.env.MUTANTS ?? 200)
const BATCH = 50

/**
 * Milliseconds that one file may take, from the drop to the judgement: 2 s where
 * all are tried on a machine of their own. In the suite, beside whatever else the
 * machine does, no time is held to; there only what never ends is a hang.
 */
const PATIENCE = process.env.MUTANTS ? 2000 : 15_000

/** Share by which memory may be larger at the end than after the first files have come and gone. */
const GROWTH = 0.25

let home
before(async () => {
  home = await house()
})
after(() => home.close())

test(`${MANY} damaged copies of ten fonts: no crash, no hang, no growth`, { timeout: 7_200_000 }, async (t) => {
  const lab = await home.open()
  await lab.ready()
  await prepare(lab.page)
  const all = []
  let early = 0
  // The first fifth brings in every kind of font: what is held then is held for good.
  const settled = Math.max(BATCH, Math.floor(MANY / 5 / BATCH) * BATCH)
  for (let from = 0; from < MANY; from += BATCH) {
    all.push(...(await tried(lab.page, from, Math.min(MANY, from + BATCH))))
    if (from + BATCH === settled) early = await held(home.browser, lab.page)
  }
  const late = await held(home.browser, lab.page)
  const times = all.map(({ time }) => time).toSorted((a, b) => a - b)
  const at = (share) => Math.round(times[Math.min(times.length - 1, Math.floor(share * times.length))])
  const opened = all.filter((one) => one.opened)
  const stricter = all.filter((one) => one.taken && !one.opened)
  t.diagnostic(
    `${all.length} files: ${opened.length} opened, ${all.length - opened.length} refused with a sentence; ` +
      `half within ${at(0.5)} ms, 99% within ${at(0.99)} ms, the longest ${at(1)} ms; ` +
      `${Math.round(early / 1e6)} MB held after ${settled} files, ${Math.round(late / 1e6)} MB at the end`,
  )
  t.diagnostic(`${stricter.length} that the browser's own reader takes were refused; their sentences:`)
  const sentences = {}
  for (const one of stricter) (sentences[one.said] ??= []).push(one)
  for (const [said, ones] of Object.entries(sentences)) t.diagnostic(`  ${ones.length} x ${said} (${ones[0].name}, ${ones[0].kind}, number ${ones[0].seed})`)

  assert.deepEqual(all.filter((one) => one.broken), [], 'nothing crashed')
  assert.deepEqual(all.filter((one) => one.time > PATIENCE), [], 'nothing hung')
  const mute = all.filter((one) => !one.opened && !/^[A-Z].{20,}\.$/s.test(one.said))
  assert.deepEqual(mute, [], 'every refusal is a sentence')
  assert.ok(late < early * (1 + GROWTH), `${early} bytes became ${late}`)
  assert.deepEqual(lab.errors, [])
  await lab.close()
})
