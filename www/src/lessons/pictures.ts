/** The pictures of the lessons: letters over shared lines, y up. */

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit'
import type { LessonLetter } from '../generated/LessonLetter'
import type { LessonReport } from '../generated/LessonReport'
import type { WordMark } from '../generated/WordMark'
import type { WordPicture } from '../generated/WordPicture'

const guideName = {
  baseline: 'baseline',
  xHeight: 'x-height',
  capHeight: 'cap height',
  ascender: 'ascender',
  descender: 'descender',
} as const

/** Air about the ink, as shares of the em. */
const AIR = 0.1

/** Lines that stand nearer than this share of the em cannot both be named. */
const NAMES_APART = 0.055

interface Frame {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly foot: number
}

export function frameOf(report: LessonReport): Frame {
  const em = report.unitsPerEm
  const [x0, y0, x1, y1] = report.bounds
  const ys = report.guides.map((one) => one.y)
  return {
    left: Math.min(0, x0) - 0.5 * AIR * em,
    right: Math.max(...report.length, x1) + 0.5 * AIR * em,
    top: Math.max(y1, ...ys) + AIR * em,
    foot: Math.min(y0, ...ys) - AIR * em,
  }
}

/** A line of letters: as drawn (0), or as shown (1) over the drawn ones' edge. */
export function linePicture(
  report: LessonReport,
  which: 0 | 1,
  turned: boolean,
  label: string,
): TemplateResult {
  const { left, right, top, foot } = frameOf(report)
  const width = right - left
  const middle = turned ? `rotate(180 ${(left + right) / 2} ${-(top + foot) / 2})` : nothing
  return html`<svg
    viewBox="${left} ${-top} ${width} ${top - foot}"
    role="img"
    aria-label=${label}
    preserveAspectRatio="xMidYMid meet"
  >
    <g transform=${middle}>
      ${report.letters.map((letter) => letterShape(letter, which, report))}
      ${report.guides.map((guide) => svg`<path class="guide" d="M${left} ${-guide.y}H${right}" />`)}
      ${report.lesson === 'bearings' ? bearings(report, which, foot, top) : nothing}
    </g>
  </svg>`
}

/** The lines' names, where they do not run into each other. */
export function guideNames(report: LessonReport): { name: string; at: number }[] {
  const { top, foot } = frameOf(report)
  const names: { name: string; at: number; y: number }[] = []
  for (const { kind, y } of report.guides) {
    if (names.some((other) => Math.abs(other.y - y) < NAMES_APART * report.unitsPerEm)) continue
    names.push({ name: guideName[kind], at: (top - y) / (top - foot), y })
  }
  return names
}

function letterShape(letter: LessonLetter, which: 0 | 1, report: LessonReport): SVGTemplateResult {
  const many = report.lesson === 'points'
  const place = `translate(${letter.x[which]} 0) scale(1 -1)`
  const dot = 0.007 * report.unitsPerEm
  return svg`<g transform=${place}>
    <path class=${many ? 'hollow' : 'ink'} d=${which === 0 ? letter.drawn : letter.shown} />
    ${which === 1 && letter.state === 'changed' && !many && letter.x[0] === letter.x[1] ? svg`<path class="ghost" d=${letter.drawn} />` : nothing}
    ${(which === 0 ? letter.was : letter.is).map((ends) => span(ends, report.unitsPerEm))}
    ${letter.points[which].map(
      ([x, y]) => svg`<rect class="point" x=${x - dot} y=${y - dot} width=${2 * dot} height=${2 * dot} />`,
    )}
  </g>`
}

/** A measured distance with a tick at each end, square to it. */
function span([[ax, ay], [bx, by]]: [[number, number], [number, number]], em: number): SVGTemplateResult {
  const length = Math.hypot(bx - ax, by - ay)
  const tick = 0.022 * em
  const [nx, ny] = length > 0 ? [(-(by - ay) / length) * tick, ((bx - ax) / length) * tick] : [tick, 0]
  return svg`<path class="span" d="M${ax} ${ay}L${bx} ${by}M${ax - nx} ${ay - ny}L${ax + nx} ${ay + ny}M${bx - nx} ${by - ny}L${bx + nx} ${by + ny}" />`
}

/** Where each letter's own body begins: between two of these lines lies its advance width. */
function bearings(report: LessonReport, which: 0 | 1, foot: number, top: number): SVGTemplateResult[] {
  const air = 0.4 * AIR * report.unitsPerEm
  const edge = (x: number) => svg`<path class="edge" d="M${x} ${-top + air}V${-foot - air}" />`
  const starts = report.letters.map((letter) => {
    const [left] = letter.figures
    // The outline keeps its own bearing: shown with another, its body begins elsewhere.
    const moved = left && which === 1 ? left.shown - left.drawn : 0
    return letter.x[which] - moved
  })
  return [...starts, report.length[which]].map(edge)
}

/** A word's picture. */
export function wordPicture(picture: WordPicture, label: string): TemplateResult {
  const [x0, y0, x1, y1] = picture.bounds
  const size = Math.max(x1 - x0, y1 - y0, 1)
  const air = 0.09 * size
  const [left, right] = [x0 - air, x1 + air]
  // Lines as broad in every picture, whatever its units.
  return html`<svg
    class="word"
    viewBox="${left} ${-y1 - air} ${right - left} ${y1 - y0 + 2 * air}"
    role="img"
    aria-label=${label}
  >
    ${picture.paths.map((path) => svg`<path class=${picture.hollow ? 'hollow' : 'ink'} transform="scale(1 -1)" d=${path} />`)}
    ${picture.marks.map((mark) => markShape(mark, left, right, size))}
  </svg>`
}

function markShape(mark: WordMark, left: number, right: number, size: number): SVGTemplateResult {
  switch (mark.kind) {
    case 'rule':
      return svg`<path class="guide strong" d="M${left} ${-mark.y}H${right}" />`
    case 'span':
      return svg`<g transform="scale(1 -1)">${span([mark.from, mark.to], size)}</g>`
    case 'line':
      return svg`<path class="line" d="M${mark.from[0]} ${-mark.from[1]}L${mark.to[0]} ${-mark.to[1]}" />`
    case 'dot':
      return svg`<circle class="dot" cx=${mark.at[0]} cy=${-mark.at[1]} r=${0.018 * size} />`
    case 'area':
      return svg`<path class="area" transform="scale(1 -1)" d=${mark.path} />`
  }
}
