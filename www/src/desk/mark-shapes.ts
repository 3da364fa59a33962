/** How a mark is drawn, wherever it is: over the stage, on a sheet, on paper. */

import { type SVGTemplateResult, svg } from 'lit'
import type { Mark } from './schema'

export type At = readonly [x: number, y: number]

/** An arrow's head, as a share of its shaft, and no longer than this many units of the picture. */
const HEAD = 0.35
const SPREAD = 0.5

/** A mark's lines, from where its two points stand in the picture. */
export function markShape(kind: Mark['kind'], from: At, to: At, head: number): SVGTemplateResult {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
  const length = Math.hypot(dx, dy)
  if (kind === 'circle') return svg`<circle cx=${from[0]} cy=${from[1]} r=${Math.max(length, 1)} />`
  const shaft = svg`<path d="M${from[0]} ${from[1]}L${to[0]} ${to[1]}" />`
  if (kind === 'line' || length === 0) return shaft
  const reach = Math.min(head, HEAD * length)
  const wing = (side: 1 | -1): string => {
    const angle = Math.atan2(dy, dx) + Math.PI + side * SPREAD
    return `${to[0] + reach * Math.cos(angle)} ${to[1] + reach * Math.sin(angle)}`
  }
  return svg`${shaft}<path d="M${wing(1)}L${to[0]} ${to[1]}L${wing(-1)}" />`
}
