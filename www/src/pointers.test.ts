import { describe, expect, it } from 'vitest'
import { pointerInput, wheelTurn } from './pointers'

const wheel = (change: Partial<WheelEvent>) =>
  wheelTurn({ deltaX: 0, deltaY: 0, deltaMode: 0, ctrlKey: false, shiftKey: false, ...change })

describe('the wheel', () => {
  it('brings the view nearer', () => {
    expect(wheel({ deltaY: -100 })).toEqual({ dx: 0, dy: -100, zooms: true })
  })

  it('counts lines as pixels', () => {
    expect(wheel({ deltaY: 3, deltaMode: 1 })).toEqual(wheel({ deltaY: 48 }))
  })

  it('moves the view sideways with Shift, and from a touchpad', () => {
    expect(wheel({ deltaY: 40, shiftKey: true })).toEqual({ dx: 40, dy: 0, zooms: false })
    expect(wheel({ deltaX: 30, deltaY: 2 })).toEqual({ dx: 30, dy: 0, zooms: false })
  })

  it('takes a pinch for more than the same turn of a wheel', () => {
    expect(wheel({ deltaY: -5, ctrlKey: true }).dy).toBeLessThan(wheel({ deltaY: -5 }).dy)
    expect(wheel({ deltaY: -100, ctrlKey: true }).dy).toBe(-100)
  })
})

it('counts a pointer from the canvas’s corner', () => {
  const event = {
    pointerId: 7,
    pointerType: 'touch',
    clientX: 120,
    clientY: 90,
    button: 0,
    shiftKey: true,
    ctrlKey: false,
    metaKey: true,
    altKey: false,
  } as PointerEvent
  expect(pointerInput(event, 'down', { left: 20, top: 40 } as DOMRect)).toEqual({
    phase: 'down',
    id: 7,
    x: 100,
    y: 50,
    kind: 'touch',
    button: 0,
    shift: true,
    ctrl: true,
    alt: false,
  })
})
