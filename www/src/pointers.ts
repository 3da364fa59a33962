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

/** A notch of a common wheel (100 px) is a step of about 16%. */
const ZOOM_A_PIXEL = 0.0015
/** Pinches on a touchpad come as small turns of the wheel with Control. */
const PINCH_A_PIXEL = 0.01

export interface Turn {
  readonly zoom: number
  readonly pan: number
}

/** What a turn of the wheel asks for: a factor to zoom by, CSS pixels to pan by. */
export function wheelTurn(
  event: Pick<WheelEvent, 'deltaX' | 'deltaY' | 'deltaMode' | 'ctrlKey' | 'shiftKey'>,
): Turn {
  const unit = event.deltaMode === 1 ? LINE : event.deltaMode === 2 ? PAGE : 1
  const dx = event.deltaX * unit
  const dy = event.deltaY * unit
  if (event.shiftKey && dx === 0) return { zoom: 1, pan: -dy }
  if (!event.ctrlKey && Math.abs(dx) > Math.abs(dy)) return { zoom: 1, pan: -dx }
  const notch = event.ctrlKey && Math.abs(dy) < 50 ? PINCH_A_PIXEL : ZOOM_A_PIXEL
  return { zoom: Math.exp(-dy * notch), pan: 0 }
}
