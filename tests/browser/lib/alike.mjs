/** The same page in two browsers: what must be the same, and how far pictures may differ. */
import assert from 'node:assert/strict'
import { font } from './fonts.mjs'

/**
 * How two pictures may differ. All browsers fill the same paths, each with its own antialiasing: what differs is
 * how much of a pixel on an edge is taken to be covered. So no pixel may differ by more than half of all there is
 * between ink and ground, which an edge moved by half a pixel would, and few by more than a quarter. Measured
 * (Chromium 148, Firefox 140): none of the letters' pixels by a half, 0.07% of the inked ones by a quarter.
 *
 * Words on the canvas are set by each browser's own text, which may place a letter a third of a pixel aside: where
 * there are words, 0.2% were measured by a quarter and 0.2% by a half.
 */
const QUARTER = 64
const HALF = 128
export const letters = { quarter: 0.005, half: 0 }
export const withWords = { quarter: 0.01, half: 0.005 }

/** Keys that put out all but the ink of the letters. */
const inkAlone = ['4', '5', '6']

/** What is brought on the stage, and by how much its pictures may differ. */
export const scenes = {
  'the sample’s letters': { keys: inkAlone, most: letters },
  'a CFF face’s letters': {
    file: 'heros.otf',
    family: 'Heros',
    text: 'Hamburgefonstiv',
    keys: inkAlone,
    most: letters,
  },
  'a serif’s outlines and points': {
    file: 'ebgaramond.otf',
    family: 'EB Garamond',
    text: 'RQag&',
    keys: ['1', '2', '3', ...inkAlone],
    most: letters,
  },
  'the sample with every word': { keys: [], most: withWords },
  'the sample with every word, dark': { colorScheme: 'dark', keys: [], most: withWords },
  'a finding among its neighbours': { keys: ['j', 'j'], most: withWords },
}

/** Brings a scene on a lab's stage. */
export async function stage(lab, { file, family, text, keys }) {
  if (file) {
    await lab.open({ name: file, bytes: font(file) }, family)
    await lab.judged()
  }
  if (text) await lab.setText(text)
  await lab.canvas.focus()
  for (const key of keys) await lab.press(key)
  await sized(lab)
}

/** Gives the stage the same room in each, whatever the heights of the lines of words about it. */
export async function sized(lab) {
  await lab.page.evaluate(() => {
    const stage = document.querySelector('lab-sheet').shadowRoot.querySelector('stage-view')
    stage.style.cssText = 'position: fixed; left: 0; top: 0; width: 1000px; height: 600px; z-index: 9'
  })
  await lab.frame()
  await lab.press('0')
}

/** Every measure of every letter on the line, and what stands out. */
export const figures = (lab) =>
  lab.page.evaluate(() => {
    const sheet = document.querySelector('lab-sheet')
    const { stage, judgement } = sheet.state
    return { letters: stage.items.map((item) => sheet.letter(item.glyph)), view: stage.view, findings: judgement.report.findings }
  })

/** Holds two values against each other; numbers may differ as sines of two machines do. */
export function same(one, other, path = 'figures') {
  if (typeof one === 'number' && typeof other === 'number') {
    assert.ok(Math.abs(one - other) <= 1e-9 * Math.max(1, Math.abs(one)), `${path}: ${one} and ${other}`)
    return
  }
  if (one === null || typeof one !== 'object') {
    assert.equal(one, other, path)
    return
  }
  assert.deepEqual(Object.keys(one), Object.keys(other), path)
  for (const key of Object.keys(one)) same(one[key], other[key], `${path}.${key}`)
}

/** Shares of the inked pixels that differ by more than a quarter and a half of what there is. */
export function apart(one, other) {
  assert.equal(one.length, other.length, 'two sizes')
  const count = { ink: 0, quarter: 0, half: 0 }
  for (let at = 0; at < one.length; at += 4) {
    const by = (from, to) =>
      Math.max(Math.abs(from[at] - to[at]), Math.abs(from[at + 1] - to[at + 1]), Math.abs(from[at + 2] - to[at + 2]))
    const ground = Math.max(Math.abs(one[at] - one[0]), Math.abs(one[at + 1] - one[1]), Math.abs(one[at + 2] - one[2]))
    if (ground > QUARTER) count.ink += 1
    const differs = by(one, other)
    if (differs > QUARTER) count.quarter += 1
    if (differs > HALF) count.half += 1
  }
  return count
}

/** Holds two browsers' pictures of a scene against each other, and tells by how much they differ. */
export function hold(one, other, most, tell) {
  const { ink, quarter, half } = apart(one, other)
  tell(`${ink} inked pixels; ${quarter} differ by a quarter, ${half} by a half`)
  assert.ok(ink > 3000, `${ink} inked pixels`)
  assert.ok(quarter <= most.quarter * ink, `${quarter} of ${ink} differ by a quarter`)
  assert.ok(half <= most.half * ink, `${half} of ${ink} differ by a half`)
}
