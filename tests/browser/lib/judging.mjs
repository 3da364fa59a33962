import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { font } from './fonts.mjs'
import { core, root } from './place.mjs'

const runs = 31

/** The most that is ever read pair by pair. */
const letters = 200

/** Letters that most fonts have, until there are enough. */
const characters = () => {
  const all = []
  for (let code = 0x21; code < 0x250; code += 1) {
    if (code < 0x7f || code > 0xa0) all.push(String.fromCodePoint(code))
  }
  return all.slice(0, letters).join('')
}

/**
 * Milliseconds that the page's own module takes, in the engine that Chromium has
 * too: to judge a font's letters (the middle of many times), and to read the
 * white of every pair of two hundred.
 */
export async function judging(file) {
  const { initSync, Lab, learn, SpacingJob } = await import(pathToFileURL(join(core, 'counterpoise_web.js')))
  initSync({ module: readFileSync(join(core, 'counterpoise_web_bg.wasm')) })
  learn(readFileSync(join(root, 'crate/counterpoise/src/judge/table/learned.bin')))
  const lab = new Lab()
  lab.openFont(font(file), file)
  // A task of its own on the page too.
  lab.measureAlphabet()
  const took = []
  for (let run = 0; run < runs; run += 1) {
    // The lab keeps how it judged last: what is meant so in between makes it judge anew.
    if (run > 0) lab.judge([{ letter: '&', cause: null }], [])
    const start = performance.now()
    lab.judge([], [])
    took.push(performance.now() - start)
  }
  const job = new SpacingJob(font(file), characters())
  const start = performance.now()
  while (job.step(1));
  const pairs = performance.now() - start
  const read = job.report().letters.length
  return { judge: took.toSorted((a, b) => a - b)[Math.floor(runs / 2)], first: took[0], pairs, read }
}
