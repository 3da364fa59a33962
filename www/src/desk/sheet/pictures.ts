/** The sheet's pictures: letters as they are drawn, and a finding with both its figures. */

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit'
import { causeName } from '../../findings'
import { type At, markShape } from '../mark-shapes'
import type { Drawing, Mark } from '../schema'
import type { Entry, SheetData } from './sheet-data'

/** Air above and below, as a share of the em. */
const AIR = 0.06

interface Frame {
  readonly top: number
  readonly foot: number
}

/** From below the deepest guide to above the tallest. */
function frame({ heights, unitsPerEm }: SheetData): Frame {
  const ys = [0, 0.7 * unitsPerEm, -0.22 * unitsPerEm, ...heights.map((one) => one.y)]
  return { top: Math.max(...ys) + AIR * unitsPerEm, foot: Math.min(...ys) - AIR * unitsPerEm }
}

const glyph = (drawing: Drawing, x: number, className: string): SVGTemplateResult =>
  svg`<path class=${className} transform="translate(${x} 0) scale(1 -1)" d=${drawing.path} />`

/** One letter on its baseline. */
export function letterPicture(data: SheetData, drawing: Drawing, label: string): TemplateResult {
  const { top, foot } = frame(data)
  const width = Math.max(drawing.advance, 0.25 * data.unitsPerEm)
  const x = (width - drawing.advance) / 2
  return html`<svg class="letter" viewBox="0 ${-top} ${width} ${top - foot}" role="img" aria-label=${label}>
    <path class="base" d="M0 0H${width}" />
    ${glyph(drawing, x, 'ink')}
  </svg>`
}

/** The letter between those that it is held against, with what was measured and what was expected. */
export function entryPicture(data: SheetData, entry: Entry): TemplateResult | typeof nothing {
  const own = data.drawings.get(entry.letter)
  if (!own) return nothing
  const beside = [...(entry.finding?.beside ?? '')].filter((letter) => data.drawings.has(letter)).slice(0, 4)
  const before = beside.filter((_, at) => at % 2 === 0)
  const after = beside.length === 1 ? beside : beside.filter((_, at) => at % 2 === 1)
  const { top, foot } = frame(data)
  let x = 0
  const place = (letter: string, className: string) => {
    const drawing = data.drawings.get(letter) as Drawing
    const set = { x, shape: glyph(drawing, x, className) }
    x += drawing.advance
    return set
  }
  const left = before.map((letter) => place(letter, 'other'))
  const middle = place(entry.letter, 'ink')
  const right = after.map((letter) => place(letter, 'other'))
  const bars = figureBars(data, entry, middle.x, own, foot)
  const floor = foot - bars.height
  const width = Math.max(x, 0.9 * data.unitsPerEm)
  const words = `${entry.letter}${beside.length > 0 ? ` between ${beside.join(', ')}` : ''}${
    entry.finding ? `: ${causeName[entry.finding.cause]}` : ''
  }`
  return html`<svg class="between" viewBox="${(x - width) / 2} ${-top} ${width} ${top - floor}" role="img" aria-label=${words}>
    <path class="base" d="M${(x - width) / 2} 0h${width}" />
    ${left.map((one) => one.shape)}${middle.shape}${right.map((one) => one.shape)}
    <g class="mark">${entry.marks.map((mark) => markOn(mark, middle.x, data.unitsPerEm))}</g>
    ${bars.shape}
  </svg>`
}

function markOn({ kind, from, to }: Mark, x: number, em: number): SVGTemplateResult {
  const at = (point: readonly [number, number]): At => [x + point[0], -point[1]]
  return markShape(kind, at(from), at(to), 0.08 * em)
}

/**
 * Two bars under the letter, as long as what was measured and what was expected;
 * of a letter that stands high or low, two lines at those heights.
 */
function figureBars(data: SheetData, { finding }: Entry, x: number, drawing: Drawing, foot: number) {
  const none = { shape: svg``, height: 0 }
  if (!finding || finding.cause === 'points') return none
  const { value, expected } = finding
  const em = data.unitsPerEm
  const round = (one: number): string => `${Math.round(one)}`.replace('-', '−')
  if (finding.cause === 'raised') {
    const lines = svg`<path class="is" d="M${x} ${-value}h${drawing.advance}" /><path class="would" d="M${x} ${-expected}h${drawing.advance}" />`
    return { shape: lines, height: 0 }
  }
  const step = 0.13 * em
  const bar = (length: number, at: number, className: string, words: string): SVGTemplateResult => {
    const long = Math.max(Math.abs(length), 0.004 * em)
    const begin = x + drawing.advance / 2 - long / 2
    const y = -foot + at * step
    return svg`<path class=${className} d="M${begin} ${y}h${long}m0 ${-0.02 * em}v${0.04 * em}M${begin} ${y - 0.02 * em}v${0.04 * em}" />
      <text x=${begin + long + 0.03 * em} y=${y + 0.034 * em} font-size=${0.1 * em}>${words} ${round(length)}</text>`
  }
  return {
    shape: svg`${bar(value, 0.2, 'is', 'is')}${bar(expected, 1.2, 'would', 'would sit at')}`,
    height: 1.7 * step,
  }
}
