/** Letters in ink on a canvas, standing on a baseline. */

import type { Outline } from './outlines'

export type Ink = Outline<Path2D>

/** Where a letter stands on its canvas, CSS pixels. */
export interface Spot {
  readonly x: number
  readonly width: number
  readonly baseline: number
  /** The em. */
  readonly size: number
}

/** The ink that an element wears: it follows the theme. Asking makes the browser work out styles. */
export const inkOf = (element: Element): string => getComputedStyle(element).color

/** Makes a canvas of a size and gives its context, clear, in CSS pixels; null where there can be none. */
export function clear(
  canvas: HTMLCanvasElement,
  width: number,
  height: number,
  ink: string,
): CanvasRenderingContext2D | null {
  const ratio = devicePixelRatio
  const [across, down] = [Math.ceil(width * ratio), Math.ceil(height * ratio)]
  const context = canvas.getContext('2d')
  if (canvas.width === across && canvas.height === down) {
    context?.resetTransform()
    context?.clearRect(0, 0, across, down)
  } else {
    // Setting its size clears it too.
    canvas.width = across
    canvas.height = down
  }
  if (!context) return null
  context.fillStyle = context.strokeStyle = ink
  context.setTransform(ratio, 0, 0, ratio, 0, 0)
  return context
}

/** Stands a letter in its room by its advance; a mark without one, by the middle of its ink. */
export function stand(
  context: CanvasRenderingContext2D,
  outline: Ink,
  advance: number,
  unitsPerEm: number,
  { x, width, baseline, size }: Spot,
): void {
  const [left, right] = outline.ink
  const marked = advance * size < 1
  const breadth = marked ? (right - left) / unitsPerEm : advance
  // What is broader than the whole line is drawn smaller.
  const em = size * Math.min(1, width / Math.max(1, breadth * size))
  const scale = em / unitsPerEm
  const from = x + (width - breadth * em) / 2
  if (outline.path) {
    context.save()
    context.translate(from - (marked ? left * scale : 0), baseline)
    context.scale(scale, -scale)
    context.fill(outline.path)
    context.restore()
    return
  }
  const to = from + breadth * em
  context.save()
  context.lineWidth = 1
  context.globalAlpha = 0.6
  context.beginPath()
  if (outline.path === null) {
    // What cannot be drawn leaves a hollow of its own size.
    context.setLineDash([3, 3])
    context.rect(from + 0.5, baseline - 0.7 * em, Math.max(8, to - from - 1), 0.7 * em)
  } else {
    // No ink: its advance, marked off upon the baseline.
    const foot = 0.14 * em
    context.moveTo(from + 0.5, baseline - foot)
    context.lineTo(from + 0.5, baseline)
    context.lineTo(to - 0.5, baseline)
    context.lineTo(to - 0.5, baseline - foot)
  }
  context.stroke()
  context.restore()
}
