import type { PointerInput } from './generated/PointerInput'
import type { PointerKind } from './generated/PointerKind'
import type { PointerPhase } from './generated/PointerPhase'

const kinds: Record<string, PointerKind> = { mouse: 'mouse', pen: 'pen', touch: 'touch' }

/** A pointer's event, as the stage takes it. */
export function pointerInput(event: PointerEvent, phase: PointerPhase, box: DOMRect): PointerInput {
  return {
    phase,
    id: event.pointerId,
    x: event.clientX - box.left,
    y: event.clientY - box.top,
    kind: kinds[event.pointerType] ?? 'mouse',
    button: event.button,
    shift: event.shiftKey,
    ctrl: event.ctrlKey || event.metaKey,
    alt: event.altKey,
  }
}

/** CSS pixels of a line and of a page of a wheel that counts in those. */
const LINE = 16
const PAGE = 400

/** A pinch on a touchpad comes as small turns of the wheel with Control, a tenth of a wheel's. */
const PINCH = 6
const MOST_PINCH = 40

export interface Turn {
  readonly dx: number
  readonly dy: number
  /** True if it brings the view nearer or farther, false if it moves it. */
  readonly zooms: boolean
}

/** A turn of the wheel, in CSS pixels, and what it is for. */
export function wheelTurn(
  event: Pick<WheelEvent, 'deltaX' | 'deltaY' | 'deltaMode' | 'ctrlKey' | 'shiftKey'>,
): Turn {
  const unit = event.deltaMode === 1 ? LINE : event.deltaMode === 2 ? PAGE : 1
  const dx = event.deltaX * unit
  const dy = event.deltaY * unit
  if (event.shiftKey && dx === 0) return { dx: dy, dy: 0, zooms: false }
  if (!event.ctrlKey && Math.abs(dx) > Math.abs(dy)) return { dx, dy: 0, zooms: false }
  const pinched = event.ctrlKey && Math.abs(dy) < MOST_PINCH
  return { dx: 0, dy: pinched ? dy * PINCH : dy, zooms: true }
}
