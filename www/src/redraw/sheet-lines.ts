/** Letters on their guides, as SVG: what the parts of the redraw draw alike. */

import { css, type SVGTemplateResult, svg } from 'lit'
import { figure } from '../figures'
import type { Guide } from '../generated/Guide'
import { guideName } from '../words'

/** A part of the plane in font units, y up. */
export interface Plane {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly foot: number
}

/** SVG's y runs down. */
export const viewBox = ({ left, right, top, foot }: Plane): string =>
  `${left} ${-top} ${Math.max(1, right - left)} ${Math.max(1, top - foot)}`

export interface Line {
  readonly name: string
  readonly y: number
}

/** The guides that letters show, from the lowest up; those that would be written over one another once. */
export function linesOf(guides: readonly Guide[], unitsPerEm: number): Line[] {
  const drawn = guides.flatMap(({ kind, drawn }) =>
    drawn == null ? [] : [{ name: guideName[kind], y: drawn }],
  )
  return drawn.filter(
    (line, at) => drawn.findIndex((other) => Math.abs(other.y - line.y) < unitsPerEm / 25) === at,
  )
}

/** The plane that holds lines and a width. */
export function planeOf(lines: readonly Line[], unitsPerEm: number, left: number, right: number): Plane {
  const ys = lines.map((line) => line.y)
  const margin = 0.08 * unitsPerEm
  return {
    left: left - margin,
    right: right + margin,
    top: Math.max(0.7 * unitsPerEm, ...ys) + margin,
    foot: Math.min(-0.2 * unitsPerEm, ...ys) - margin,
  }
}

export const guideLines = (lines: readonly Line[], { left, right }: Plane): SVGTemplateResult =>
  svg`${lines.map(({ y }) => svg`<line class="guide" x1=${left} x2=${right} y1=${-y} y2=${-y} />`)}`

/** The guides' names, on the lines, at the left; where two lie close the upper one is written above itself. */
export const guideWords = (lines: readonly Line[], { left, top, foot }: Plane): SVGTemplateResult => {
  const size = (top - foot) / 34
  return svg`${lines.map(
    ({ name, y }) =>
      svg`<text class="word" x=${left} y=${-y - size / 3} font-size=${size}>${name} ${figure(y)}</text>`,
  )}`
}

export const letter = (path: string, className: string, x = 0): SVGTemplateResult =>
  svg`<path class=${className} transform="matrix(1 0 0 -1 ${x} 0)" d=${path} />`

export const sheetStyle = css`
  .sheet {
    display: block;
    width: 100%;
    max-height: 26rem;
    background: var(--sheet);
    border: var(--hair) solid var(--rule);
    border-radius: var(--corner);
  }

  .guide {
    stroke: var(--guide);
    stroke-width: 1;
    vector-effect: non-scaling-stroke;
  }

  .word {
    fill: var(--guide);
  }

  .ink {
    fill: var(--ink);
  }

  .was {
    fill: color-mix(in oklch, var(--ink) 16%, transparent);
  }

  .edge {
    fill: none;
    stroke: var(--ink);
    stroke-width: 1.5;
    vector-effect: non-scaling-stroke;
  }

  .came {
    fill: none;
    stroke: var(--more);
    stroke-width: 4;
    stroke-linecap: round;
    vector-effect: non-scaling-stroke;
  }

  .left {
    fill: none;
    stroke: var(--less);
    stroke-width: 3;
    stroke-dasharray: 6 4;
    vector-effect: non-scaling-stroke;
  }

  @media (forced-colors: active) {
    .was {
      fill: GrayText;
    }
  }
`
