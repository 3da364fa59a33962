/** The pictures of the lessons: letters over shared lines, y up. */

import { html, nothing, type SVGTemplateResult, svg, type TemplateResult } from 'lit'
import type { LessonLetter } from '../generated/LessonLetter'
import type { LessonReport } from '../generated/LessonReport'
import type { WordMark } from '../generated/WordMark'
import type { WordPicture } from '../generated/WordPicture'
import { guideName } from '../words'

/** Air about the ink, as shares of the em. */
const AIR = 0.1

interface Frame {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly foot: number
}

function frameOf(report: LessonReport): Frame {
  const em = report.unitsPerEm
  const [x0, y0, x1, y1] = report.bounds
  const ys = report.guides.map((one) => one.y)
  return {
    left: Math.min(0, x0) - AIR * em,
    right: Math.max(...report.length, x1) + AIR * em,
    top: Math.max(y1, ...ys) + AIR * em,
    foot: Math.min(y0, ...ys) - AIR * em,
  }
}

/** How large a picture is in CSS pixels, and how much of its left is kept for the lines' names. */
export interface Room {
  readonly width: number
  readonly height: number
  readonly gutter: number
}

export interface Look {
  readonly turned: boolean
  /** Whether the measures stand on the letters, and what was changed is told from the rest. */
  readonly marked: boolean
}

/** A line of letters: as drawn (0), or as shown (1). */
export function linePicture(
  report: LessonReport,
  which: 0 | 1,
  look: Look,
  room: Room,
  label: string,
): TemplateResult {
  const { left, right, top, foot } = frameOf(report)
  const inner = room.width - room.gutter
  // Font units a pixel, alike in both pictures.
  const px = Math.max((right - left) / Math.max(inner, 1), (top - foot) / Math.max(room.height, 1))
  const gutter = room.gutter * px
  const wide = room.width * px
  const high = room.height * px
  const x = (left + right) / 2 - inner * px * 0.5 - gutter
  const y = (top + foot) / 2 + high / 2
  const over = look.turned ? `rotate(180 ${(left + right) / 2} ${-(top + foot) / 2})` : nothing
  // Turned over, the lines stand elsewhere, and their names with them.
  const at = (height: number): number => (look.turned ? top + foot - height : height)
  return html`<svg viewBox="${x} ${-y} ${wide} ${high}" role="img" aria-label=${label}>
    <g transform=${over}>
      ${report.letters.map((letter, index) => letterShape(letter, which, report, look, px, index))}
      ${report.lesson === 'bearings' ? bearings(report, which, foot, top) : nothing}
    </g>
    ${report.guides.map(({ y: height }) => svg`<path class="guide" d="M${x + gutter} ${-at(height)}H${x + wide}" />`)}
    ${
      room.gutter > 0
        ? guideNames(report, px).map(
            ({ name, y: height }) =>
              svg`<text class="name" x=${x + gutter - 6 * px} y=${-at(height) + 4 * px} font-size=${12 * px}>${name}</text>`,
          )
        : nothing
    }
  </svg>`
}

/** The lines' names, where they do not run into each other; `px` are font units a pixel. */
export function guideNames(report: LessonReport, px = 0): { name: string; y: number }[] {
  const names: { name: string; y: number }[] = []
  for (const { kind, y } of report.guides) {
    if (names.some((other) => Math.abs(other.y - y) < 13 * px)) continue
    // Within the picture, as on the stage, they are written small.
    names.push({ name: guideName[kind].toLowerCase(), y })
  }
  return names
}

function letterShape(
  letter: LessonLetter,
  which: 0 | 1,
  report: LessonReport,
  look: Look,
  px: number,
  index: number,
): SVGTemplateResult {
  const many = report.lesson === 'points'
  const place = `translate(${letter.x[which]} 0) scale(1 -1)`
  const shape = which === 0 ? letter.drawn : letter.shown
  const told =
    look.marked && which === 1 && letter.state === 'changed' && !many && letter.drawn !== letter.shown
  const clip = `drawn-${index}`
  const dot = 2 * px
  return svg`<g transform=${place}>
    ${
      told
        ? svg`<clipPath id=${clip}><path d=${letter.drawn} /></clipPath>
            <path class="taken" d=${letter.drawn} /><path class="added" d=${shape} />
            <path class="ink" d=${shape} clip-path="url(#${clip})" />`
        : svg`<path class=${many ? 'hollow' : 'ink'} d=${shape} />`
    }
    ${look.marked ? (which === 0 ? letter.was : letter.is).map((ends) => span(ends, 5 * px)) : nothing}
    ${
      look.marked
        ? letter.points[which].map(
            ([x, y]) =>
              svg`<rect class="point" x=${x - dot} y=${y - dot} width=${2 * dot} height=${2 * dot} />`,
          )
        : nothing
    }
  </g>`
}

/** A measured distance with a tick at each end, square to it; `tick` is half of that. */
function span([[ax, ay], [bx, by]]: [[number, number], [number, number]], tick: number): SVGTemplateResult {
  const length = Math.hypot(bx - ax, by - ay)
  const [nx, ny] = length > 0 ? [(-(by - ay) / length) * tick, ((bx - ax) / length) * tick] : [tick, 0]
  const lines = `M${ax} ${ay}L${bx} ${by}M${ax - nx} ${ay - ny}L${ax + nx} ${ay + ny}M${bx - nx} ${by - ny}L${bx + nx} ${by + ny}`
  return svg`<path class="span under" d=${lines} /><path class="span" d=${lines} />`
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
      return svg`<g transform="scale(1 -1)">${span([mark.from, mark.to], 0.022 * size)}</g>`
    case 'line':
      return svg`<path class="line" d="M${mark.from[0]} ${-mark.from[1]}L${mark.to[0]} ${-mark.to[1]}" />`
    case 'dot':
      return svg`<circle class="dot" cx=${mark.at[0]} cy=${-mark.at[1]} r=${0.026 * size} />`
    case 'area':
      return svg`<path class="area" transform="scale(1 -1)" d=${mark.path} />`
  }
}
