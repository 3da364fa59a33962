/** A line across a picture that is dragged up and down, or moved with the arrow keys (WCAG 2.5.7). */

import { css, nothing, type SVGTemplateResult, svg } from 'lit'

export interface GuideDrag {
  readonly name: string
  /** Where it lies, in the picture's own units, y down. */
  readonly y: number
  /** From where to where it is drawn. */
  readonly left: number
  readonly right: number
  /** Its value as it is told. */
  readonly value: string
  /** A key's step. */
  readonly step: number
  move(y: number): void
}

/** A place of the window in the units of an SVG picture. */
export function placeIn(event: PointerEvent, picture: SVGGraphicsElement): DOMPoint {
  const matrix = picture.getScreenCTM()
  const place = new DOMPoint(event.clientX, event.clientY)
  return matrix ? place.matrixTransform(matrix.inverse()) : place
}

export function guideDrag(guide: GuideDrag): SVGTemplateResult {
  const { name, y, left, right, value, step } = guide
  const hold = (event: PointerEvent) => {
    event.preventDefault()
    const target = event.currentTarget as SVGGElement
    target.focus()
    target.setPointerCapture(event.pointerId)
  }
  const drag = (event: PointerEvent) => {
    const target = event.currentTarget as SVGGElement
    if (target.hasPointerCapture(event.pointerId)) guide.move(placeIn(event, target).y)
  }
  const key = (event: KeyboardEvent) => {
    const way = { ArrowUp: -1, ArrowDown: 1, PageUp: -10, PageDown: 10 }[event.key]
    if (way === undefined) return
    event.preventDefault()
    event.stopPropagation()
    guide.move(y + way * step * (event.altKey ? 0.1 : 1))
  }
  return svg`<g
      class="drag"
      role="slider"
      tabindex="0"
      aria-label=${name}
      aria-orientation="vertical"
      aria-valuenow=${Number((-y).toFixed(1))}
      aria-valuetext=${value || nothing}
      @pointerdown=${hold}
      @pointermove=${drag}
      @keydown=${key}
    >
      <line class="reach" x1=${left} x2=${right} y1=${y} y2=${y} />
      <line class="line" x1=${left} x2=${right} y1=${y} y2=${y} />
    </g>`
}

export const dragStyle = css`
  .drag {
    cursor: ns-resize;
    touch-action: none;
    outline: none;
  }

  .drag .line {
    stroke: var(--mark);
    stroke-width: 1.5;
    vector-effect: non-scaling-stroke;
  }

  .drag .reach {
    stroke: transparent;
    stroke-width: 28;
    vector-effect: non-scaling-stroke;
  }

  .drag:focus-visible .line {
    stroke: var(--pick);
    stroke-width: 4;
  }
`
